package source

// Rules of thumb of the trade, shown beside a method's answer and never instead of it.
const (
	RuleFirstCut170 ID = "rule-first-cut-170"
	RuleDelay       ID = "rule-delay-3-5"
	RuleLossToCow   ID = "rule-loss-15-20"
	RuleStems       ID = "rule-stems-55-40"
	RuleFallRest35  ID = "rule-fall-rest-35"
	RuleInterval    ID = "rule-interval-25-30"
	RuleLateSeeding ID = "rule-late-seeding-45"
	RuleBuyEarly    ID = "rule-buy-early"
)

func rules() []Source {
	return []Source{
		{RuleFirstCut170, "start the first cut in bud at a standing RFV of 170 so that 150 reaches the cow", CommonPractice},
		{RuleDelay, "each day of delay costs 3-5 RFV points", CommonPractice},
		{RuleLossToCow, "15-20 RFV points are lost in harvest", CommonPractice},
		{RuleStems, "over 55 stems a square foot gives full yield, 40-54 some loss but often another year, under 40 is time to replace", CommonPractice},
		{RuleFallRest35, "the last cut at least 35 days before dormancy", CommonPractice},
		{RuleLateSeeding, "a late-summer seeding at least 45 days before the first killing frost", CommonPractice},
		{RuleBuyEarly, "buy the hay a farm will be short of at harvest, while it can be chosen and tested, not at the end of winter", CommonPractice},
		{RuleInterval, "later cuts 25-30 days apart", CommonPractice},
	}
}
