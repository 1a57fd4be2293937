package source

// Risk.
const (
	WaitOneStep         ID = "wait-one-step"
	CostLoss            ID = "cost-loss"
	OptimalStopping     ID = "optimal-stopping"
	Newsvendor          ID = "newsvendor"
	NormalCurve         ID = "normal-curve"
	TailMean            ID = "tail-mean"
	StochasticDominance ID = "stochastic-dominance"
	CautionWords        ID = "caution-words"
	NoDifference        ID = "no-difference"
)

func risk() []Source {
	return []Source{
		{WaitOneStep, "Expected worth of cutting now and later, and the chance of rain at which they are equal: general decision theory, our arithmetic", Derived},
		{CostLoss, "Protect where the chance of harm is over cost/loss: the cost-loss rule of forecast use, our arithmetic", Derived},
		{OptimalStopping, "Backward induction over mornings with forecasts, general dynamic programming, our arithmetic", Derived},
		{Newsvendor, "Smallest quantity whose chance reaches short/(short + over), general inventory theory, our arithmetic", Derived},
		{NormalCurve, "Normal quantile, density and tail, Python 3.11 statistics.NormalDist", Library},
		{TailMean, "Mean of the worst share of outcomes with the edge case split, after Rockafellar & Uryasev 2000 (recalled), our arithmetic", Derived},
		{StochasticDominance, "First and second order stochastic dominance, general decision theory, our arithmetic", Derived},
		{CautionWords, "How cautious in words: weight of the worst case 0, 0.15, 0.3, 0.6, 1", Choice},
		{NoDifference, "A difference no larger than its own error, by first-order propagation, is called none", Choice},
	}
}

// Budgets.
const (
	HayPoint         ID = "hay-point-price"
	PriceByMoisture  ID = "price-by-moisture"
	HaylageOfHay     ID = "haylage-of-hay"
	NutrientFeeds    ID = "nutrient-feeds"
	TwoNutrients     ID = "two-nutrients"
	TradedHay        ID = "traded-hay"
	ThreeNutrients   ID = "three-nutrients"
	FeedFactors      ID = "feed-factors"
	CutSharesUW      ID = "cut-shares-wisconsin"
	CutSharesHoard   ID = "cut-shares-hoards"
	StandingHalf     ID = "standing-half"
	StandingCost     ID = "standing-cost"
	MachineData      ID = "machine-data"
	MachineCapacity  ID = "machine-capacity"
	MachineInsurance ID = "machine-insurance"
	MachineRunning   ID = "machine-running"
	MachineCost      ID = "machine-cost"
	Timeliness       ID = "timeliness"
	OwnOrHire        ID = "own-or-hire"
	Annuity          ID = "annuity"
	AnnuityLibrary   ID = "annuity-library"
	EnterpriseBudget ID = "enterprise-budget"
	BreakEvenYield   ID = "break-even-yield"
	RemovalGuide     ID = "removal-guide"
	RemovalCosts     ID = "removal-costs"
	RemovalUsual     ID = "removal-usual"
	PartialBudget    ID = "partial-budget"
	MilkLate         ID = "milk-late"
	EqualAnnual      ID = "equal-annual"
	SecondCredit     ID = "second-credit"
	KillRisk         ID = "kill-risk"
	KeepMargin       ID = "keep-margin"
	Bargain          ID = "bargain"
	CropShare        ID = "crop-share"
)

func budgets() []Source {
	return []Source{
		{HayPoint, "Hay priced on a line by relative feed value with a floor: about 0.85-1.00 $ a point in tested auctions of 2009-2016, 1.29-1.42 in an Upper Midwest report of 2022. Our arithmetic", Derived},
		{PriceByMoisture, "Price carried over in proportion to dry matter and feed value, our arithmetic", Derived},
		{HaylageOfHay, "Krentz 2025, Hay & Forage Grower: hay of 180 $ at 84 % dry matter as silage of 35 and 40 %, 75.07 and 85.68 $ a ton", Published},
		{NutrientFeeds, "Energy and protein of shelled corn and of soybean meal of 48 % protein, and a bushel of 56 lb", FromMemory},
		{TradedHay, "Hay as it is traded taken at 12 % moisture", Choice},
		{TwoNutrients, "Forage priced by the energy and protein of corn and meal, two equations in two prices (after Petersen). Our arithmetic", Derived},
		{ThreeNutrients, "Weiss (Ohio State), Hay & Forage Grower: of 200 $ alfalfa protein is 39, energy 36 and fibre 25 %", Published},
		{FeedFactors, "Univ. of Minnesota DI-0469, table A-16 (2008): factors of forages as fed on meal, corn and grade 2 alfalfa", Published},
		{CutSharesUW, "Blonde 2016 and 2018, UW Extension: shares of the year's yield by cut, and standing hay at half its price", Published},
		{CutSharesHoard, "Hoard's Dairyman 2019: shares of the year's yield by cut", Published},
		{StandingHalf, "Blonde 2016, UW Extension: half the price of hay for land and inputs, half for harvest, loss and risk; prints dollars rounded to 5-15", Published},
		{StandingCost, "Standing hay at what it sells for less loss and harvest, our arithmetic", Derived},
		{MachineData, "ASAE D497, agricultural machinery management data (current edition D497.7): repair factors, field efficiency, speed, life", FromMemory},
		{MachineCapacity, "ASAE EP496, agricultural machinery management: field capacity = speed x width x efficiency / 8.25", FromMemory},
		{MachineInsurance, "Taxes, housing and insurance of machines, 1 % of their mean value a year", FromMemory},
		{MachineRunning, "Iowa State Univ. AgDM A3-29, estimating farm machinery costs: 0.044 gal an hour a PTO horsepower, oil 15 % of fuel, 1.1-1.2 hours of labour an hour", Published},
		{MachineCost, "Machine cost by capital recovery, housing, repairs, fuel and labour, our arithmetic on the published parts", Derived},
		{Timeliness, "ASAE EP496 and D497, timeliness cost; 0.018 of hay's value a day in June in Michigan", FromMemory},
		{OwnOrHire, "Acres at which owning and hiring cost the same, our arithmetic", Derived},
		{Annuity, "Annuity, net present value and internal rate of return, general finance", Derived},
		{AnnuityLibrary, "Payment, net present value and internal rate of return as in R 4.2.2 and in spreadsheets", Library},
		{EnterpriseBudget, "Cost of a production year with the establishment spread by capital recovery, our arithmetic", Derived},
		{BreakEvenYield, "Univ. of Massachusetts example: establishment 185 $/ac, 235 $/ac a year; break-even yield and profit by years kept", Published},
		{RemovalGuide, "Wisconsin-type alfalfa guide: 14 lb of P2O5 and 58 lb of K2O a ton of dry matter", Secondhand},
		{RemovalCosts, "Article on the cost of planting alfalfa: 11 lb of P2O5 and 53 lb of K2O a ton of dry matter", Secondhand},
		{RemovalUsual, "Usual removal, 12 lb of P2O5 and 50 lb of K2O a ton of dry matter", FromMemory},
		{PartialBudget, "Partial budget: added returns and reduced costs less added costs and reduced returns, general farm economics", Derived},
		{MilkLate, "Fort Frances Times column: cutting 6 days late costs 0.45 kg of milk a cow a day; our arithmetic on it", Secondhand},
		{EqualAnnual, "Equal annual equivalent of a chain of like stands, general replacement theory, our arithmetic", Derived},
		{SecondCredit, "Second-year nitrogen credit about half the first (Kansas, Idaho; Minnesota's guideline rates give the same)", Secondhand},
		{KillRisk, "Replacement with a yearly chance of loss, general dynamic programming, checked by value and policy iteration", Derived},
		{KeepMargin, "Next year's margin of a thin stand by the stem line, our arithmetic", Derived},
		{Bargain, "Walk-away prices of buyer and seller, or tenant and owner, from what each has to gain; the middle is a choice", Choice},
		{CropShare, "Crop parted by what each puts in, general farm economics, our arithmetic", Derived},
	}
}
