// Package blend finds the least costly fertilizer products for what fields need of phosphate, potash,
// sulfur, magnesium and boron, under limits of nitrogen and boron, and says what the last pound of each
// costs. Orders are rounded up to what a dealer delivers, at the least extra cost.
//
// Amounts are pounds an acre of P2O5, K2O, S, Mg and B; prices are dollars a short ton of product.
package blend
