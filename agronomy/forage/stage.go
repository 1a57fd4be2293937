package forage

import "fmt"

// StageName is a stage of a single alfalfa stem on the 0-9 scale and what makes it so. Source:
// [source.StemStages]; which name goes with which number is from memory.
type StageName struct{ Name, Is string }

// StageNames returns the ten stages, 0 to 9.
func StageNames() []StageName {
	return []StageName{
		{"early vegetative", "stem up to 15 cm, no bud, flower or pod"},
		{"mid vegetative", "stem of 16-30 cm, no bud, flower or pod"},
		{"late vegetative", "stem over 30 cm, no bud, flower or pod"},
		{"early bud", "buds at 1-2 nodes, no flower or pod"},
		{"late bud", "buds at 3 nodes or more, no flower or pod"},
		{"early flower", "an open flower at 1 node, no pod"},
		{"late flower", "open flowers at 2 nodes or more, no pod"},
		{"early seed pod", "green pods at 1-3 nodes"},
		{"late seed pod", "green pods at 4 nodes or more"},
		{"ripe seed pod", "mostly brown ripe pods"},
	}
}

// lastStage is the highest number of the scale.
const lastStage = 9

// MeanStage is the mean of the stage numbers weighed by what was found at each, stage 0 first: stems
// for the mean stage by count, their dry weights for that by weight. Source: [source.StemStages].
func MeanStage(found []float64) (float64, error) {
	if len(found) > lastStage+1 {
		return 0, fmt.Errorf("%d stages; accepted at most 10, stage 0 to 9", len(found))
	}
	var sum, total float64
	for i, n := range found {
		if !(n >= 0) {
			return 0, fmt.Errorf("stage %d: %g; accepted 0 and more", i, n)
		}
		sum += float64(i) * n
		total += n
	}
	if total == 0 {
		return 0, fmt.Errorf("nothing was found at any stage: want at least one stem")
	}
	return sum / total, nil
}

// StageQuality is the quality of alfalfa by its mean stage by weight, MSW:
//
//	IVTD = IVTD0 - IVTDSlope*MSW                % of DM, true digestibility in the laboratory
//	CP   = CP0 - CPSlope*MSW + CPCurve*MSW^2    % of DM
//	MSW  = ByCount0 + ByCount*MSC               where stems were only counted
//
// One season in New York, 11 samples; the authors do not call it a general model. The last line is
// from memory. Sources: [source.StageQuality], [source.StageByCount].
type StageQuality struct {
	IVTD0, IVTDSlope      float64
	CP0, CPSlope, CPCurve float64
	ByCount0, ByCount     float64
}

// PublishedStageQuality returns the coefficients.
func PublishedStageQuality() StageQuality {
	return StageQuality{IVTD0: 92.93, IVTDSlope: 3.98, CP0: 40.89, CPSlope: 7.38, CPCurve: 0.57, ByCount0: 0.456, ByCount: 1.153}
}

// Stages beyond which the parabola of protein turns up again, and below which nothing was measured.
const leastMSW, mostMSW = 0.5, 6

// At is digestibility and protein at a mean stage by weight, held to 0.5-6.
func (k StageQuality) At(msw float64) (ivtd, cp float64) {
	msw = min(max(msw, leastMSW), mostMSW)
	return k.IVTD0 - k.IVTDSlope*msw, k.CP0 - k.CPSlope*msw + k.CPCurve*msw*msw
}

// ByStems is the mean stage by weight where stems were counted and not weighed.
func (k StageQuality) ByStems(msc float64) float64 { return k.ByCount0 + k.ByCount*msc }

// IVTD is the true digestibility of a forage, % of DM, whose NDF is digested so far: all but the fibre
// that is left. [DigestedFibre] is the way back.
func IVTD(ndf, ndfd float64) float64 { return 100 - ndf*(100-ndfd)/100 }

// DigestedFibre is how much of NDF is digested, % of NDF, in a forage of a true digestibility.
func DigestedFibre(ndf, ivtd float64) float64 { return 100 * (ivtd - (100 - ndf)) / ndf }
