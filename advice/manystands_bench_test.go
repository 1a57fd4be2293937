package advice_test

import (
	"fmt"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// territory is a large book: farms of twenty fields, a stand in each, on a number of stations.
func territory(stands, stations int, date unit.Day) *book.View {
	v := &book.View{Date: date, Place: book.Place{Region: "Test", Guide: "Wisconsin"}}
	crops := []book.Crop{book.Alfalfa, book.Alfalfa, book.Alfalfa, book.ReducedLignin, book.AlfalfaGrass, book.RedClover}
	products := book.Products()
	var farm *book.FarmView
	for i := range stands {
		if i%20 == 0 {
			farm = &book.FarmView{ID: fmt.Sprintf("farm-%d", i), Farm: book.Farm{Name: fmt.Sprintf("Farm %05d", i)}}
			farm.Prices = []book.Deck{{Day: date - 60, Body: *hayPrices(0.5)}}
			v.Farms = append(v.Farms, farm)
		}
		field := &book.FieldView{ID: fmt.Sprintf("field-%d", i), Field: book.Field{
			Name: fmt.Sprintf("Field %05d", i), Acres: 12 + float64(i%30), Station: fmt.Sprintf("S%d", i%stations), Latitude: 43 + float64(i%100)/200, Longitude: -89 + float64(i/100%100)/200,
		}, Farm: farm}
		s := &book.StandView{ID: fmt.Sprintf("stand-%d", i), Stand: book.Stand{
			Field: field.ID, Crop: crops[i%len(crops)], Seeded: unit.DateOf(2020+i%6, 4, 20), Product: products[i%len(products)], FeedRFV: 140 + float64(i%4)*10,
		}, Farm: farm, InField: field}
		if i%100 == 0 { // a sentinel
			s.Visits = append(s.Visits, book.Dated[book.Visit]{Day: date - 2, Author: "jo", Body: stick(22+float64(i/100%8), book.Bud)})
		}
		if i%3 == 0 {
			s.Visits = append(s.Visits, book.Dated[book.Visit]{Day: date - 40, Author: "jo", Body: book.Visit{Frames: []book.Frame{frame(80 + i%60), frame(90 + i%50), frame(70 + i%40)}}})
		}
		field.Stands = []*book.StandView{s}
		farm.Fields = append(farm.Fields, field)
	}
	return v
}

func frame(stems int) book.Frame { return book.Frame{Stems: &stems, Ft2: 2} }

func benchmarkTerritory(b *testing.B, stands int) {
	const stations = 20
	date := day("05-18")
	series := placed(nil)
	v := territory(stands, stations, date)
	b.ReportAllocs()
	for b.Loop() {
		skies := map[string]*outlook.Sky{}
		for i := range stations {
			skies[fmt.Sprintf("S%d", i)] = outlook.NewSky(series, date, outlook.SkyOptions{})
		}
		o, err := outlook.Build(v, skies)
		if err != nil {
			b.Fatal(err)
		}
		if r := advice.Make(o); len(r.Pieces) == 0 {
			b.Fatal("no advice")
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(stands), "us/stand")
}

func BenchmarkRoundOf1000Stands(b *testing.B)  { benchmarkTerritory(b, 1000) }
func BenchmarkRoundOf10000Stands(b *testing.B) { benchmarkTerritory(b, 10000) }
