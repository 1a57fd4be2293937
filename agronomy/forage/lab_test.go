package forage_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

// sound is a report in which everything fits.
func sound() forage.Report {
	return forage.Report{
		"dm": 88, "cp": 20, "acp": 19.5, "adicp": 1.2, "ndicp": 2.8, "adf": 30, "ndf": 40, "andfom": 39, "lignin": 6.5,
		"ndfd30": 42, "ndfd48": 46, "ndfd240": 58, "undf240": 16.4, "ivtd": 78.4, "ash": 9, "ee": 2.5, "fa": 1.5, "starch": 2, "wsc": 8, "esc": 6,
		"nfc": 31.3, "ca": 1.4, "p": 0.3, "k": 2.4, "mg": 0.3, "s": 0.25, "rfv": 152, "sp": 38,
	}
}

func TestASoundReportHasNoFlag(t *testing.T) {
	if flags := forage.CheckReport(sound(), forage.AlfalfaKind); len(flags) > 0 {
		t.Errorf("flags %v", flags)
	}
}

func TestEachCheckFindsItsFault(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change forage.Report
		level  forage.Level
		field  string
		says   string
	}{
		{"ADF over NDF", forage.Report{"adf": 41}, forage.Wrong, "adf", "part of NDF"},
		{"lignin over ADF", forage.Report{"lignin": 15, "adf": 14}, forage.Wrong, "lignin", "part of ADF"},
		{"bound protein", forage.Report{"adicp": 3}, forage.Wrong, "adicp", "bound in NDF too"},
		{"more bound than there is", forage.Report{"ndicp": 21}, forage.Wrong, "ndicp", "part of protein"},
		{"available over crude", forage.Report{"acp": 20.5}, forage.Wrong, "acp", "part of protein"},
		{"over a whole", forage.Report{"ndf": 75}, forage.Wrong, "ndf", "add up to 106.5 %"},
		{"digested sooner", forage.Report{"ndfd30": 47}, forage.Wrong, "ndfd30", "more time"},
		{"digested at 48 h over 240 h", forage.Report{"ndfd48": 60}, forage.Wrong, "ndfd48", "more time"},
		{"ash-free over whole", forage.Report{"andfom": 40.5}, forage.Wrong, "andfom", "over NDF with ash"},
		{"outside", forage.Report{"cp": 40}, forage.Wrong, "cp", "accepted 4 to 35"},
		{"another species", forage.Report{"adf": 24}, forage.Warning, "adf", "0.60 of NDF"},
		{"lignin of another species", forage.Report{"lignin": 4}, forage.Warning, "lignin", "0.10 of NDF"},
		{"NFC by the whole NDF", forage.Report{"nfc": 28.5}, forage.Warning, "nfc", "was reckoned with the whole NDF"},
		{"NFC by neither", forage.Report{"nfc": 25}, forage.Warning, "nfc", "leave 31.3, or 28.5"},
		{"undigested", forage.Report{"undf240": 19}, forage.Warning, "undf240", "leave 16.4"},
		{"undigested by lignin", forage.Report{"lignin": 10.5}, forage.Warning, "undf240", "1.6 times lignin"},
		{"soil in the fibre", forage.Report{"andfom": 36.5}, forage.Warning, "andfom", "soil"},
		{"soil", forage.Report{"ash": 13}, forage.Warning, "ash", "over 12"},
		{"much soil", forage.Report{"ash": 16}, forage.Warning, "ash", "over 15"},
		{"sugar", forage.Report{"wsc": 29, "starch": 10}, forage.Warning, "nfc", "starch and sugar"},
		{"fatty acids", forage.Report{"fa": 2.6}, forage.Warning, "fa", "crude fat"},
		{"RFV", forage.Report{"rfv": 155}, forage.Warning, "rfv", "give 152"},
		{"heat", forage.Report{"adicp": 2.6}, forage.Warning, "adicp", "over 12: heated"},
		{"much heat", forage.Report{"adicp": 2.8, "cp": 18}, forage.Warning, "adicp", "badly heated"},
		{"grass", forage.Report{"ca": 0.7}, forage.Warning, "ca", "grass"},
		{"true digestibility", forage.Report{"ivtd": 81}, forage.Warning, "ivtd", "give 78.4"},
		{"an equation not known", forage.Report{"nel": 1.5}, forage.Warning, "nel", "laboratory's equation"},
		{"sugars over sugars", forage.Report{"esc": 9}, forage.Wrong, "esc", "soluble in water"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := sound()
			maps.Copy(r, tt.change)
			flags := forage.CheckReport(r, forage.AlfalfaKind)
			if !slices.ContainsFunc(flags, func(f forage.Flag) bool {
				return f.Level == tt.level && f.Field == tt.field && strings.Contains(f.Text, tt.says)
			}) {
				t.Errorf("flags %v, want a %s of %s that says %q", flags, tt.level, tt.field, tt.says)
			}
		})
	}
}

// TestAPartOfAReportIsJudgedByWhatItHolds: nothing is found amiss in values that are not there.
func TestAPartOfAReportIsJudgedByWhatItHolds(t *testing.T) {
	whole := sound()
	rapid.Check(t, func(t *rapid.T) {
		r := forage.Report{}
		for _, f := range forage.LabFields() {
			if v, ok := whole[f.Code]; ok && rapid.Bool().Draw(t, f.Code) {
				r[f.Code] = v
			}
		}
		if flags := forage.CheckReport(r, forage.AlfalfaKind); len(flags) > 0 {
			t.Fatalf("%v: %v", r, flags)
		}
	})
}

func TestFeedAsFedIsTurnedIntoDryMatter(t *testing.T) {
	dry := sound()
	fed := forage.Report{}
	for code, v := range dry {
		if f, _ := forage.FieldOf(code); f.Of.OnBasis() {
			v *= 0.88
		}
		fed[code] = v
	}
	got, err := fed.FromFeed()
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(dry, got, near(1e-9)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if v := fed["sp"]; v != got["sp"] {
		t.Errorf("a share of protein moved to %g", got["sp"])
	}
	if _, err := (forage.Report{"cp": 10}).FromFeed(); err == nil {
		t.Error("feed of an unknown dry matter was turned into dry matter")
	}
	if dm, ok := (forage.Report{"moisture": 12}).DM(); !ok || dm != 88 {
		t.Errorf("dry matter %g at 12 %% moisture", dm)
	}
}

func TestFieldsAreKnownByOneNameEach(t *testing.T) {
	seen := map[string]string{}
	plain := func(s string) string { return strings.ReplaceAll(s, " ", "") }
	for _, f := range forage.LabFields() {
		if f.Low >= f.High || f.About == "" || f.Code != strings.ToLower(f.Code) {
			t.Errorf("%+v", f)
		}
		for _, n := range append([]string{f.Code}, f.Also...) {
			if other, twice := seen[plain(n)]; twice && other != f.Code {
				t.Errorf("%q is %s and %s", n, other, f.Code)
			}
			seen[plain(n)] = f.Code
		}
	}
}
