package budget

// Bargain is the room between two who trade. Source: [source.Bargain].
type Bargain struct {
	Most  float64 // the buyer walks away above
	Least float64 // the seller walks away below
}

// Room reports whether there is a price that suits both.
func (b Bargain) Room() bool { return b.Most >= b.Least }

// Middle is the price that splits the room evenly.
func (b Bargain) Middle() float64 { return (b.Most + b.Least) / 2 }

// HayTrade is hay for sale, $ a ton as fed at the seller's farm.
type HayTrade struct {
	Worth   float64 // to the buyer, $ a ton of dry matter eaten
	DM      float64 // 0-1
	Loss    float64 // from delivery to mouth, share
	Freight float64 // to the buyer, $ a ton as fed
	Other   float64 // another buyer's offer there, or what the next feed would cost the seller; $ a ton as fed
	Hauling float64 // to that other buyer, $ a ton as fed
	Cost    float64 // still to be spent before it is sold, $ a ton as fed
}

// Prices are the two walk-away prices at the seller's farm: the buyer's is the worth of what is eaten
// of a ton, less freight; the seller's is the other outlet less its hauling, with what the sale still
// costs. Money already spent on growing it is in neither.
func (h HayTrade) Prices() Bargain {
	return Bargain{Most: h.Worth*h.DM*(1-h.Loss) - h.Freight, Least: h.Other - h.Hauling + h.Cost}
}

// Rent is land for hay, $ an acre a year.
type Rent struct {
	Yield, Price float64 // tons DM/ac, $/ton DM
	Costs        float64 // the tenant's, all but land: his time and machines in it
	Owner        float64 // the owner's own costs: tax, upkeep
	Other        float64 // the best other rent
}

// Prices are the two walk-away rents.
func (r Rent) Prices() Bargain {
	return Bargain{Most: r.Yield*r.Price - r.Costs, Least: max(r.Owner, r.Other)}
}

// Shared is how a crop is parted by what each puts in: the owner's share is his part of all costs.
// Source: [source.CropShare].
func Shared(owner, tenant float64) float64 { return owner / (owner + tenant) }
