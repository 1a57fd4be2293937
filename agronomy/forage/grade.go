package forage

// Scheme names whose hay grades are meant; the same word carries other limits elsewhere, so a grade
// is always stored and shown with its scheme.
type Scheme string

// The schemes known.
const (
	USDA      Scheme = "usda"       // USDA-AMS alfalfa hay guidelines, [source.HayGrades]
	TaskForce Scheme = "task-force" // hay marketing task force, [source.TaskForce]
)

// gradeStep is the least RFV of a grade; a value equal to an edge takes the better grade (choice).
type gradeStep struct {
	name  string
	least float64
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

func steps(s Scheme) []gradeStep {
	if s == TaskForce {
		return []gradeStep{{"Prime", 152}, {"1", 125}, {"2", 103}, {"3", 87}, {"4", 75}, {"5", 0}}
	}
	return []gradeStep{{"Supreme", 185}, {"Premium", 170}, {"Good", 150}, {"Fair", 130}, {"Utility", 0}}
}
