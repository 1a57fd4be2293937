package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
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
	for _, date := range []string{"2026-05-19", "2026-09-08"} {
		a, b := demoOutput(t, "--json", "--date", date), demoOutput(t, "--json", "--date", date)
		if a != b {
			t.Errorf("%s: two runs differ", date)
		}
		for _, junk := range []string{"NaN", "%!", "+Inf"} {
			if strings.Contains(a, junk) {
				t.Errorf("%s: the round holds %q", date, junk)
			}
		}
	}
}

func TestDemoServesEndsAndLeavesNothing(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	port := freePort(t)
	ctx, cancel := context.WithCancel(t.Context())
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	code := make(chan int, 1)
	began := time.Now()
	go func() { code <- m.Run(ctx, []string{"demo", "--listen", port}) }()
	page := get(t, "http://"+port+"/round")
	t.Logf("served its first page %v after the start", time.Since(began).Round(time.Millisecond))
	if !strings.Contains(page, "Larkmoor") {
		t.Errorf("the page does not show the district:\n%.300s", page)
	}
	var out, complaint bytes.Buffer
	second := &Main{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaint}
	if c := second.Run(t.Context(), []string{"demo", "--listen", port}); c != exitFailure || !strings.Contains(complaint.String(), "another program may hold the port") {
		t.Errorf("a taken port: exit %d, %q", c, complaint.String())
	}
	cancel()
	select {
	case c := <-code:
		if c != exitOK {
			t.Errorf("ended with exit %d: %s", c, stderr.String())
		}
	case <-time.After(10 * time.Second):
		t.Fatal("the demo did not end")
	}
	left, err := os.ReadDir(os.Getenv("TMPDIR"))
	if err != nil || len(left) != 0 {
		t.Errorf("left behind %v, error %v", left, err)
	}
}

func TestOnlyThisMachineIsServed(t *testing.T) {
	for _, listen := range []string{"0.0.0.0:8426", ":8426", "192.0.2.1:80", "nonsense"} {
		var out, complaint bytes.Buffer
		m := &Main{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaint}
		if c := m.Run(t.Context(), []string{"demo", "--listen", listen}); c != exitUsage {
			t.Errorf("%s: exit %d, %q", listen, c, complaint.String())
		}
	}
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := (&net.ListenConfig{}).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// get asks for a page until the server is up.
func get(t *testing.T, address string) string {
	t.Helper()
	for range 200 {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := http.DefaultClient.Do(req)
		if err != nil {
			time.Sleep(25 * time.Millisecond)
			continue
		}
		body, err := io.ReadAll(r.Body)
		if shut := r.Body.Close(); err != nil || shut != nil {
			t.Fatal(err, shut)
		}
		return string(body)
	}
	t.Fatal("no page came")
	return ""
}

func BenchmarkDemoToARound(b *testing.B) {
	for b.Loop() {
		m := &Main{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard}
		if code := m.Run(b.Context(), []string{"demo", "--once"}); code != exitOK {
			b.Fatal(code)
		}
	}
}
