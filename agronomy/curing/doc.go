// Package curing follows a mown swath hour by hour: how fast it dries in sun and air, what tedding and
// raking change, what dew and rain give back, when it is fit for haylage, baleage or a bale, and in how
// many years of a record that comes before harmful rain.
//
// The rate is that of Rotz & Chen, fitted to conditioned alfalfa from 80 to 20 % moisture in Michigan.
// It explained 64 % of what was seen, and a finer hourly model came within 20 % of the mean moisture:
// nothing here tells hay moisture better than that. The number is for deciding when to go and look.
//
// Chances of hay come near published ones in early summer. In fall long nights bring dew: with [DampFall]
// as it was measured, chances of September fall well below those of the air alone ([DampAir]) and stay too
// hopeful beside the one count in print. [DampDew] is the other bound, of use for baleage; after calm nights
// it has next to no dry hay made in any month, so that it tells nothing of dry hay.
//
// Hours are by the sun, noon being 12. Moisture is water over dry matter (kg/kg) in loops and % of
// fresh weight for people. What people and other rooms ask for by itself takes quantities of package
// unit; what runs over years of hours ([Curing], [Maker], [Haymaking]) takes plain float64, allocates
// nothing and hands NaN on.
package curing
