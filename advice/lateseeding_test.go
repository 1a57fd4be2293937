package advice_test

import (
	"testing"
)

func TestALateSeedingIsSetBesideTheFirstFreezes(t *testing.T) {
	for seeded, want := range map[string]string{"08-02": "in time", "09-25": "too late in most years"} {
		s := alfalfa("Alder")
		s.Seeded = day(seeded)
		p := find(round(t, day(seeded)+10, plain(), s), "Alder", "late-seeding")
		says(t, p, "Late seeding: "+want, "45 days", "median killing freeze")
	}
	spring := alfalfa("Spring")
	spring.Seeded = day("04-20")
	if p := find(round(t, day("08-20"), plain(), spring), "Spring", "late-seeding"); p != nil {
		t.Errorf("a spring seeding: %q", p.Title)
	}
}
