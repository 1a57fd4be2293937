package book

// The price lines that decisions look for in a deck. Hay is priced as fed at 12 % moisture.
const (
	HayBase     = "hay-base"      // $/ton at HayBaseRFV
	HayBaseRFV  = "hay-base-rfv"  // RFV that HayBase is for
	HayPerPoint = "hay-per-point" // $/ton for each RFV point above or below
	HayFloor    = "hay-floor"     // $/ton below which hay does not fall, the price of grass hay
)
