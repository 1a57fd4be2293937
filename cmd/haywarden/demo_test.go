package main

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"
)

func demoOutput(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	if code := m.Run(t.Context(), append([]string{"demo", "--once"}, args...)); code != exitOK {
		t.Fatalf("demo %v: exit %d: %s", args, code, stderr.String())
	}
	return stdout.String()
}

func TestTheSameDemoGivesTheSameBytes(t *testing.T) {
	a, b := demoOutput(t, "--json"), demoOutput(t, "--json")
	if a != b {
		t.Error("two runs differ")
	}
	for _, junk := range []string{"NaN", "%!", "Inf"} {
		if strings.Contains(a, junk) {
			t.Errorf("the round holds %q", junk)
		}
	}
}

// served is a command that serves pages, in a process of its own.
type served struct {
	address string
	process *exec.Cmd
	ended   chan error
	stderr  bytes.Buffer
}

// serving starts the program as its user would and waits until it says where its pages are.
func serving(t *testing.T, args ...string) *served {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	s := &served{process: exec.CommandContext(t.Context(), self, args...), ended: make(chan error, 1)}
	s.process.Env = append(os.Environ(), childEnv+"=program")
	s.process.Stderr = &s.stderr
	out, err := s.process.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.process.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for s.address == "" && lines.Scan() {
		if _, rest, ok := strings.Cut(lines.Text(), "The pages are at http://"); ok {
			s.address, _, _ = strings.Cut(rest, "/")
		}
	}
	if s.address == "" {
		t.Fatalf("%v ended without pages: %v: %s", args, s.process.Wait(), s.stderr.String())
	}
	go func() {
		_, _ = io.Copy(io.Discard, out) // until it ends
		s.ended <- s.process.Wait()
	}()
	return s
}

// ends demands that a signal ends the process cleanly and soon.
func (s *served) ends(t *testing.T, signal os.Signal) {
	t.Helper()
	if err := s.process.Process.Signal(signal); err != nil {
		t.Fatal(err)
	}
	select {
	case err := <-s.ended:
		if err != nil || s.stderr.Len() > 0 {
			t.Errorf("after %v it ended with %v: %s", signal, err, s.stderr.String())
		}
	case <-time.After(10 * time.Second):
		t.Fatalf("it did not end after %v", signal)
	}
}

// page asks for a page and demands that there is one.
func page(t *testing.T, address string) string {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK {
		t.Fatalf("%s: status %d, %v", address, r.StatusCode, err)
	}
	return string(body)
}

func withoutSignals(t *testing.T) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("Windows sends no signal to one process")
	}
}

// mostWait is how long the demo may take from its start to a page on two cores.
const mostWait = 3 * time.Second

func TestDemoServesInTimeEndsOnCtrlCAndLeavesNothing(t *testing.T) {
	withoutSignals(t)
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		temp := t.TempDir()
		t.Setenv("TMPDIR", temp)
		began := time.Now()
		s := serving(t, "demo", "--listen", "127.0.0.1:0")
		text := page(t, "http://"+s.address+"/round")
		took := time.Since(began)
		t.Logf("from the start of the process to its first page: %v", took.Round(time.Millisecond))
		if took > mostWait && !raceDetector {
			t.Errorf("it took %v to a page, at most %v is wanted", took, mostWait)
		}
		if !strings.Contains(text, "Larkmoor") {
			t.Errorf("the page does not show the district:\n%.300s", text)
		}
		s.ends(t, signal)
		if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
			t.Errorf("after %v left behind %v, error %v", signal, left, err)
		}
	}
}

func TestServeShowsABookOfOnesOwnAndLeavesItSound(t *testing.T) {
	withoutSignals(t)
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\n"))
	s := serving(t, "serve", "--listen", "127.0.0.1:0", "--book", d.book)
	if text := page(t, "http://"+s.address+"/round"); !strings.Contains(text, "Home Forty") {
		t.Errorf("the page does not show the stand:\n%.300s", text)
	}
	// What another command records while the pages are served is on the next page.
	d.must("import", "stands", d.file("t.csv", standsHead+"Fox Hill,Bottom,9,red clover,2023-04-20,\n"))
	if text := page(t, "http://"+s.address+"/round"); !strings.Contains(text, "Fox Hill") {
		t.Errorf("the next page does not show the new stand:\n%.300s", text)
	}
	s.ends(t, os.Interrupt)
	d.sound()
}

func TestATakenPortIsSaidBeforeAnyWork(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	l, err := (&net.ListenConfig{}).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	d := newDesk(t)
	taken := l.Addr().String()
	d.fails(exitFailure, []string{taken, "another program may hold the port", "--listen"}, "serve", "--listen", taken)
	out, complaint, code := say(t, "demo", "--listen", taken)
	if code != exitFailure || out != "" || !strings.Contains(complaint, "another program may hold the port") {
		t.Errorf("demo: exit %d, %q, %q", code, out, complaint)
	}
	if left, err := filepath.Glob(filepath.Join(os.Getenv("TMPDIR"), "haywarden-demo-*")); err != nil || len(left) != 0 {
		t.Errorf("left behind %v, error %v", left, err)
	}
}

func TestOnlyThisMachineIsServed(t *testing.T) {
	d := newDesk(t)
	for listen, says := range map[string]string{
		"0.0.0.0:8426": "only this machine", ":8426": "only this machine", "192.0.2.1:80": "only this machine", "[::]:8426": "only this machine",
		"example.org:80": "only this machine", "nonsense": "host:port",
	} {
		for _, command := range []string{"demo", "serve"} {
			args := []string{command, "--listen", listen}
			if command == "demo" {
				args = append(args, "--once")
				if out, complaint, code := say(t, args...); code != exitUsage || out != "" || !strings.Contains(complaint, says) {
					t.Errorf("%v: exit %d, %q, %q", args, code, out, complaint)
				}
				continue
			}
			d.fails(exitUsage, []string{says}, args...)
		}
	}
}

// A reader that has seen enough, such as head, closes the pipe: the demo still tidies up.
func TestADemoWhoseReaderLeavesLeavesNothing(t *testing.T) {
	for _, form := range [][]string{{"demo", "--once"}, {"demo", "--once", "--json"}} {
		temp := t.TempDir()
		self, err := os.Executable()
		if err != nil {
			t.Fatal(err)
		}
		process := exec.CommandContext(t.Context(), self, form...)
		process.Env = append(os.Environ(), childEnv+"=program", "TMPDIR="+temp)
		var complaint bytes.Buffer
		process.Stderr = &complaint
		out, in, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		process.Stdout = in
		if err := process.Start(); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(in.Close(), out.Close()); err != nil {
			t.Fatal(err)
		}
		if err := process.Wait(); !process.ProcessState.Exited() || complaint.Len() > 0 {
			t.Errorf("%v ended with %v: %q", form, err, complaint.String())
		}
		if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
			t.Errorf("%v left behind %v, error %v", form, left, err)
		}
	}
}

// A page elsewhere that gives its own name this machine's address gets nothing of the book.
func TestPagesAreGivenUnderThisMachinesNamesOnly(t *testing.T) {
	h := local(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "the book") }))
	for host, want := range map[string]int{
		"127.0.0.1:8426": http.StatusOK, "localhost:8426": http.StatusOK, "localhost": http.StatusOK, "[::1]:8426": http.StatusOK,
		"example.org:8426": http.StatusMisdirectedRequest, "192.0.2.1": http.StatusMisdirectedRequest, "localhost.example.org": http.StatusMisdirectedRequest,
	} {
		r := httptest.NewRequest(http.MethodGet, "/round", nil)
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != want || (want == http.StatusOK) != (w.Body.String() == "the book") {
			t.Errorf("%s: status %d, %q; want %d", host, w.Code, w.Body.String(), want)
		}
	}
}

func TestTheDemoKnowsItsDays(t *testing.T) {
	for _, date := range []string{"2024-12-31", "2028-01-01", "19 May"} {
		if out, complaint, code := say(t, "demo", "--once", "--date", date); code != exitUsage || out != "" || !strings.Contains(complaint, "--date") {
			t.Errorf("%s: exit %d, %q, %q", date, code, out, complaint)
		}
	}
	for _, date := range []string{"2025-01-01", "2027-12-31"} { // the first and the last
		demoOutput(t, "--date", date)
	}
}

func TestTheDemoTellsItsGroundsWhenAsked(t *testing.T) {
	plain, err := os.ReadFile(filepath.Join("testdata", "demo-may.golden")) // what it says unasked
	if err != nil {
		t.Fatal(err)
	}
	grounds := demoOutput(t, "--grounds")
	for _, w := range []string{"source: ", "haywarden reckon "} {
		if strings.Contains(string(plain), w) || !strings.Contains(grounds, w) {
			t.Errorf("%q is said whether asked or not", w)
		}
	}
}

func BenchmarkDemoToARound(b *testing.B) {
	for b.Loop() {
		m := &Main{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard}
		if code := m.Run(b.Context(), []string{"demo", "--once"}); code != exitOK {
			b.Fatal(code)
		}
	}
}
