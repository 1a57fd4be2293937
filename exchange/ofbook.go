package exchange

import "haywarden/book"

// StandsOf lists the stands of a view as a table holds them, the turned under among them. A field
// without a stand has no row. The contacts of a farm stand one in each of its rows, as far as they go.
func StandsOf(v *book.View) []StandRow {
	var rows []StandRow
	for _, f := range v.Farms {
		n := 0
		for _, fd := range f.Fields {
			for _, s := range fd.Stands {
				row := StandRow{Farm: book.Farm{Name: f.Name, County: f.County}, Field: fd.Field, Stand: s.Stand, Says: Says{Grass: true, Sentinel: true, Hairy: true}}
				row.Stand.Field = ""
				if n < len(f.Contacts) {
					row.Contact = book.Contact{Name: f.Contacts[n].Body.Name, Phone: f.Contacts[n].Body.Phone}
				}
				n++
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// VisitsOf lists the visits of a view as a table holds them.
func VisitsOf(v *book.View) []VisitRow {
	var rows []VisitRow
	for _, f := range v.Farms {
		for _, fd := range f.Fields {
			for _, s := range fd.Stands {
				for _, seen := range s.Visits {
					rows = append(rows, VisitRow{Farm: f.Name, Field: fd.Name, Day: seen.Day, Observer: seen.Author, Visit: seen.Body})
				}
			}
		}
	}
	return rows
}
