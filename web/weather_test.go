package web_test

import (
	"html"
	"regexp"
	"strings"
	"testing"
)

// wordsOf is a page as it is read: without marks, spaces joined.
func wordsOf(page string) string {
	_, body, _ := strings.Cut(page, "<main")
	text := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(body, " ")
	return strings.Join(strings.Fields(strings.ReplaceAll(html.UnescapeString(text), "\u00a0", " ")), " ")
}

func TestTheForecastIsShownWithItsAgeAndItsAbsenceIsNormal(t *testing.T) {
	srv, _ := district(t)
	for path, want := range map[string][]string{
		"/round":                               {"Forecast of Tuesday 19 May, 4 am, 3 hours old", "Tue 19", "Mon 25"},
		"/round?date=2026-05-22":               {"Forecast of Tuesday 19 May, 4 am, 3 days old", "Fri 22", "Mon 25"},
		"/round?date=2026-05-18":               {"No forecast kept.", "haywarden weather fetch asks for one"},
		"/round?date=2026-06-30":               {"42 days old; it says nothing of the days from here on."},
		"/weather":                             {"Larkmoor Crossing", "through yesterday", "99.6 % of days since 1992 known", "22 fields", "forecast of Tuesday 19 May, 4 am, 3 hours old"},
		"/weather?date=2026-05-10":             {"no forecast kept"},
		"/weather/ZZLM0000017?date=2026-05-20": {"Forecast of Tuesday 19 May, 4 am, 27 hours old", "Wednesday 20 May"},
	} {
		r, body := fetch(t, srv.URL+path)
		sound(t, path, r, body)
		said := wordsOf(body)
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("%s does not say %q", path, w)
			}
		}
	}
	if _, body := fetch(t, srv.URL+"/weather/ZZLM0000017?date=2026-05-20"); strings.Contains(wordsOf(body), "Tuesday 19 May 7") {
		t.Error("a day gone by stands among the days ahead")
	}
}

func TestAStationIsReachedFromRoundAndStand(t *testing.T) {
	srv, _ := district(t)
	const link = `href="/weather/ZZLM0000017?date=2026-05-19"`
	_, round := fetch(t, srv.URL+"/round?date=2026-05-19")
	stand := regexp.MustCompile(`/stands/[0-9a-f-]{36}\?date=2026-05-19`).FindString(round)
	_, body := fetch(t, srv.URL+stand)
	_, list := fetch(t, srv.URL+"/weather?date=2026-05-19")
	for name, page := range map[string]string{"the round": round, "the list": list} {
		if !strings.Contains(page, link) {
			t.Errorf("%s does not lead to the station", name)
		}
	}
	if !regexp.MustCompile(`href="/weather/ZZLM00000[0-9]{2}\?date=2026-05-19">[A-Z]`).MatchString(body) {
		t.Errorf("%s does not lead to its station", stand)
	}
}

func TestAStationsPageSaysWhatItRestsOn(t *testing.T) {
	srv, _ := district(t)
	_, body := fetch(t, srv.URL+"/weather/ZZLM0000017")
	said := wordsOf(body)
	for _, w := range []string{
		"First growth 639 F-days", "of 34", "Fall rest from 1 August", "quantile type 6", "type 7, of the years that have one", "Spring 24 °F 34",
		"drawn anew 2000 times", "Theil–Sen", "Go by the count", "from one neighbour, by regression", "flagged by the archive", "Ottermoss · Long Meadow",
		"Simple average above 41 °F, from 1 March.",
	} {
		if !strings.Contains(said, w) {
			t.Errorf("the page does not say %q", w)
		}
	}
	// Each drawing has its table, and no drawing is without a name.
	if drawings, named := strings.Count(body, `<svg class="drawing"`), strings.Count(body, `role="img"`); drawings != named || strings.Count(body, "<table") < 8 {
		t.Errorf("%d drawings, %d of them named, %d tables", drawings, named, strings.Count(body, "<table"))
	}
	if n := len(body); n > 200<<10 {
		t.Errorf("the page weighs %d bytes", n)
	}
}
