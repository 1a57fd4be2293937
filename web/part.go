package web

import (
	"fmt"

	"github.com/a-h/templ"

	"haywarden/husbandry"
)

// partView is one answer of a farm's sheet as shown.
type partView struct {
	Key, Title, Says     string
	Rows                 []partRow
	Lacks, Notes, Prices []string
	Sources              []string
}

type partRow struct{ What, Value, From string }

func partOf(q husbandry.Part) partView {
	v := partView{Key: q.Key, Title: q.Title, Says: q.Says, Lacks: q.Lacks, Notes: q.Notes, Prices: q.Prices, Sources: cites(q.Sources)}
	for _, r := range q.Rows {
		v.Rows = append(v.Rows, partRow{r.What, r.Said(), r.From})
	}
	return v
}

func groupID(i int) string { return fmt.Sprintf("prices-%d", i) }

func formMethod(f formView) string {
	if f.Get {
		return "get"
	}
	return "post"
}

// errorAttributes tell those who hear the page that a field is wrong, and where it says why.
func errorAttributes(form string, q fieldView) templ.Attributes {
	if q.Error == "" {
		return templ.Attributes{}
	}
	return templ.Attributes{"aria-invalid": "true", "aria-describedby": form + "-" + q.Name + "-error"}
}
