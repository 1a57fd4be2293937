// Package water reckons with sun, air and soil water: how much energy a day brings, how much water a
// reference grass and a cut crop would use, how dry a root zone is, how temperature and vapour deficit
// run through the hours of a day, and how likely a run of dry days is.
//
// Reference evapotranspiration follows FAO Paper 56 (Allen et al. 1998) with full or reduced data.
// Where conventions differ they are options: the low limit of Rs/Rso ([Clip]) moves a year by about
// 1 mm, a dull winter day by 6 %. Units are SI throughout; a name ends in its unit where the type does
// not say it.
//
// What people and other rooms ask for by itself takes and gives quantities of package unit, and where a
// value can be wrong it is checked. What runs over many fields and years ([Site], [Hargreaves], [Bucket],
// [Course], [Shape]) takes plain float64: it allocates nothing, checks nothing, and hands NaN on.
package water
