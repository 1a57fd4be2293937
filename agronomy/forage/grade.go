package forage

// Scheme names whose hay grades are meant; the same word carries other limits elsewhere, so a grade
// is always stored and shown with its scheme.
type Scheme string

// The schemes known.
const (
	USDA      Scheme = "usda"       // USDA-AMS alfalfa hay guidelines, [source.HayGrades]
	TaskForce Scheme = "task-force" // hay marketing task force, [source.TaskForce]
	Illinois  Scheme = "illinois"   // Illinois Dept of Agriculture, [source.HayGradesIllinois]
)

// Schemes lists them.
func Schemes() []Scheme { return []Scheme{USDA, TaskForce, Illinois} }

// gradeStep is what a grade asks of a hay, edges included: a value equal to an edge takes the better
// grade (choice). The last grade of a scheme asks nothing.
type gradeStep struct {
	name     string
	least    float64 // RFV
	adf, ndf float64 // at most, % of DM
	cp       float64 // at least, % of DM
}

// Grade names the grade of a hay by its RFV in whole points, with a note where part of the scheme is
// recalled and not read.
func Grade(s Scheme, rfv float64) (grade, note string) {
	points := float64(Whole(rfv))
	for _, step := range steps(s) {
		if points >= step.least {
			grade = step.name
			break
		}
	}
	if s == TaskForce && (grade == "4" || grade == "5") {
		note = "the limits of grades 4 and 5 are from memory"
	}
	return grade, note
}

// GradeByColumns names the worst of the grades of ADF, NDF and RFV, and of protein where it is over 0.
// Of a scheme that goes by RFV alone it is that grade.
func GradeByColumns(s Scheme, adf, ndf, cp float64) string {
	all := steps(s)
	rfv := float64(Whole(PublishedFeedValue().Of(adf, ndf)))
	for _, step := range all[:len(all)-1] {
		fits := rfv >= step.least
		if step.adf > 0 {
			fits = fits && adf <= step.adf && ndf <= step.ndf && (cp == 0 || cp >= step.cp)
		}
		if fits {
			return step.name
		}
	}
	return all[len(all)-1].name
}

func steps(s Scheme) []gradeStep {
	switch s {
	case TaskForce:
		return []gradeStep{{"Prime", 152, 31, 40, 19}, {"1", 125, 35, 46, 17}, {"2", 103, 40, 53, 14}, {"3", 87, 42, 60, 11}, {"4", 75, 45, 65, 8}, {name: "5"}}
	case Illinois:
		return []gradeStep{{name: "Supreme", least: 181}, {name: "Premium", least: 150}, {name: "Good", least: 125}, {name: "Fair", least: 100}, {name: "Low"}}
	case USDA:
	}
	return []gradeStep{{"Supreme", 185, 27, 34, 22}, {"Premium", 170, 29, 36, 20}, {"Good", 150, 32, 40, 18}, {"Fair", 130, 35, 44, 16}, {name: "Utility"}}
}

// GrassGrade names the grade of grass hay by its protein, % of DM. Source: [source.GrassHayGrades].
func GrassGrade(cp float64) string {
	for _, step := range []gradeStep{{name: "Premium", cp: 13}, {name: "Good", cp: 9}, {name: "Fair", cp: 5}} {
		if cp >= step.cp {
			return step.name
		}
	}
	return "Low"
}

// HayTDN is the TDN by which western hay is graded, % of DM: TDN0 - Slope*ADF. It knows ADF alone and is
// not that of [Summative]. Source: [source.WesternTDN].
type HayTDN struct{ TDN0, Slope float64 }

// PublishedHayTDN returns the coefficients.
func PublishedHayTDN() HayTDN { return HayTDN{TDN0: 82.38, Slope: 0.7515} }

// Of is TDN, % of DM.
func (k HayTDN) Of(adf float64) float64 { return k.TDN0 - k.Slope*adf }
