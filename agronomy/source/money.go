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
