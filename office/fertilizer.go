package office

import (
	"context"

	"haywarden/book"
	"haywarden/husbandry"
)

// FarmFertilizer is what a farm's fields are given in a year, with whose it is.
type FarmFertilizer struct {
	husbandry.FertilizerOrder
	FarmView *book.FarmView `json:"-"`
	Region   string         `json:"-"`
}

// Fertilizer makes the order of a farm's fertilizer for a year. nitrogen is what may come along, lb an acre.
func (o *Office) Fertilizer(ctx context.Context, actor Actor, farm string, nitrogen float64, ask Ask) (*FarmFertilizer, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, err
	}
	f, err := farmIn(out.View, farm)
	if err != nil {
		return nil, err
	}
	var needs []husbandry.FieldNeed
	for _, s := range standsOf(out, f) {
		needs = append(needs, husbandry.NeedOfField(out, s))
	}
	order, err := husbandry.OrderFertilizer(ctx, out.View, f, needs, nitrogen)
	if err != nil {
		return nil, &BadEntry{Field: "nitrogen", Text: err.Error()}
	}
	return &FarmFertilizer{order, f, out.View.Place.Region}, nil
}
