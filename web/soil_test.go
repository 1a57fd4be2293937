package web_test

import (
	"html"
	"net/http"
	"strings"
	"testing"

	"haywarden/office"
)

// TestASoilTableIsProposedConfirmedAndSeenOnItsStand proves that a laboratory's soil tests come in by a page: what
// its columns say is asked once, an extractant that no heading tells may be said of all rows, and the
// stand's page shows the values with unit and extractant.
func TestASoilTableIsProposedConfirmedAndSeenOnItsStand(t *testing.T) {
	at, o := alder(t)
	const table = "Client;Field ID;Date sampled;Water pH;Sikora buffer;P ppm;K (Mehlich-3) ppm;Remarks\nAlder Run;Home Forty;2026-04-02;6,1;6,6;18;105;ok\n"
	r, page := sendTable(t, at, "soil.csv", table, map[string]string{"kind": "soil"})
	if r.status != http.StatusUnprocessableEntity || strings.Contains(page, "Shares are of") {
		t.Fatalf("status %d; want a proposal without a question of basis", r.status)
	}
	f := fieldsOf(page)
	f["confirm"], f["lab"] = "yes", "Valley"
	if r, body := sendTable(t, at, "", "", f); r.status != http.StatusUnprocessableEntity || !strings.Contains(html.UnescapeString(body), "P without its extractant") {
		t.Errorf("status %d; want P refused without its extractant", r.status)
	}
	f["say-extractant-p"] = "mehlich-3"
	if r, body := sendTable(t, at, "", "", f); r.status != http.StatusOK || !strings.Contains(html.UnescapeString(body), "P 18 ppm by mehlich-3") {
		t.Fatalf("status %d: %s", r.status, body)
	}
	if r, _ := sendTable(t, at, "a.csv", "farm,field,date,material,rate\nAlder Run,Home Forty,2026-04-10,potash,200 lb/ac\n", map[string]string{"kind": "applications"}); r.status != http.StatusOK {
		t.Errorf("what was spread: status %d", r.status)
	}
	s, err := o.Stand(t.Context(), reader, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	_, body := fetch(t, at+"/stands/"+s.Stand.ID)
	flat := strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(body, " "))), " ")
	for _, want := range []string{"Water pH 6.1", "Potassium 105 ppm by mehlich-3", "What left and what came", "mop, 200 lb/ac: 0 P2O5, 120 K2O", "Its life"} {
		if !strings.Contains(flat, want) {
			t.Errorf("the stand's page does not say %q", want)
		}
	}
}
