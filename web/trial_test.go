package web_test

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"os"
	"strings"
	"testing"
)

// sendTrial sends the form of the page of trials, with a file where one is named.
func sendTrial(t *testing.T, address string, fields map[string]string, file, content string) (status int, body string) {
	t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for k, v := range fields {
		if err := w.WriteField(k, v); err != nil {
			t.Fatal(err)
		}
	}
	if file != "" {
		part, err := w.CreateFormFile("file", file)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := part.Write([]byte(content)); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, address, &b)
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", w.FormDataContentType())
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = res.Body.Close() }()
	var out bytes.Buffer
	if _, err := out.ReadFrom(res.Body); err != nil {
		t.Fatal(err)
	}
	return res.StatusCode, out.String()
}

func TestThePageOfTrialsWorksOutWhatIsPastedOrBrought(t *testing.T) {
	srv, _ := district(t)
	table, err := os.ReadFile("exampletrial.csv")
	if err != nil {
		t.Fatal(err)
	}
	ask := map[string]string{"table": string(table), "trait": "yield", "check": "Aster", "level": "0.1", "weights": "yield=1, rfq=0.5, winter=0.3:lower", "limits": "winter<=3, dri>=25", "price": "seed price", "hay": "120", "rate": "15", "years": "4"}
	status, body := sendTrial(t, srv.URL+"/trials", ask, "", "")
	if why := illFormed(body); status != http.StatusOK || why != "" {
		t.Fatalf("status %d, %s", status, why)
	}
	for _, want := range []string{"Shortlist from the table", "Left out by the limits", "Seed against yield", "Analysis of variance", "Stability over environments", "Lin &amp; Binns", "Beats Aster", "no difference"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page says nothing of %q", want)
		}
	}
	delete(ask, "table")
	delete(ask, "weights")
	if _, body := sendTrial(t, srv.URL+"/trials", ask, "own.csv", string(table)); !strings.Contains(body, "yield in own.csv") || strings.Contains(body, "Shortlist from") {
		t.Error("a file without weights is not worked out alone")
	}
}

func TestATrialThatCannotBeWorkedOutSaysWhyAndKeepsWhatWasTyped(t *testing.T) {
	srv, _ := district(t)
	for want, ask := range map[string]map[string]string{
		"No table was given":                  {"level": "0.1"},
		"one value of each entry":             {"table": "entry,yield\nA,5\nB,6\n", "level": "0.1"},
		"no column says which entry":          {"table": "plot,yield\n1,5\n", "level": "0.1"},
		"is not a number":                     {"table": "entry,rep,yield\nA,1,5\nB,1,6\nA,2,5.4\nB,2,6.1\n", "level": "soon"},
		"Weight &#34;yield&#34;: write it as": {"table": "entry,rep,yield\nA,1,5\nB,1,6\nA,2,5.4\nB,2,6.1\n", "level": "0.1", "weights": "yield"},
	} {
		status, body := sendTrial(t, srv.URL+"/trials", ask, "", "")
		if why := illFormed(body); status != http.StatusOK || why != "" || !strings.Contains(body, want) || !strings.Contains(body, `role="alert"`) {
			t.Errorf("%v: status %d, %s; want %q", ask, status, why, want)
		}
		if line, _, _ := strings.Cut(ask["table"], "\n"); !strings.Contains(body, line) {
			t.Errorf("what was pasted is gone: %v", ask)
		}
	}
}
