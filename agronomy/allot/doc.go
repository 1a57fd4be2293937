// Package allot shares the lots of forage in store among the groups of a herd: which lot to which
// group, what to buy, what is left, at the least cost, and what one more ton of each is worth. Lots go to
// a group by a floor of RFQ, lot by lot, or by a ceiling of NDF that the blend of all that the group eats
// keeps to; they are split at will, or each goes whole to one group.
//
// NDF blends in proportion to dry matter. RFQ does not, so that no blend is ever judged by it.
//
// Tons are short tons of dry matter, those of a lot after what it still loses in store; prices are
// dollars a ton. Without prices the least tons are bought. Source: [source.Allocation].
package allot
