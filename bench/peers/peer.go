package main

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

//go:embed others
var programs embed.FS

// peer is a program in another language.
type peer struct {
	name    string
	program string
	tools   []string   // the first that is installed runs it
	args    []string   // before the program
	probe   [][]string // arguments with which the tool tells whether it has what the program wants
	compile bool
}

func peers() []peer {
	python := []string{"/usr/bin/python3", "python3"} // Debian's own has Debian's NumPy and pandas
	return []peer{
		{name: cName, program: "kernels.c", tools: []string{"cc", "gcc", "clang"}, compile: true},
		{name: cName, program: "season.c", tools: []string{"cc", "gcc", "clang"}, compile: true},
		{name: "Python", program: "kernels.py", tools: python},
		{name: "Python", program: "season.py", tools: python},
		{name: "NumPy", program: "kernels_numpy.py", tools: python, probe: [][]string{{"-c", "import numpy"}}},
		{name: "NumPy", program: "season_numpy.py", tools: python, probe: [][]string{{"-c", "import numpy"}}},
		{name: "R", program: "season.R", tools: []string{"Rscript"}},
		{name: "R", program: "kernels.R", tools: []string{"Rscript"}},
		{name: "Octave", program: "kernels.m", tools: []string{"octave-cli"}, args: []string{"-q"}},
		{name: "pandas", program: "readers_pandas.py", tools: python, probe: [][]string{{"-c", "import pandas"}}},
		{name: "data.table", program: "readers.R", tools: []string{"Rscript"}, probe: [][]string{{"-e", "library(data.table)"}}},
	}
}

// run times the peer in a folder that holds the weather; why says what is not installed.
func (p peer) run(ctx context.Context, dir string) (times []timing, why string, err error) {
	tool, why := p.tool(ctx)
	if why != "" {
		return nil, why, nil
	}
	text, err := programs.ReadFile("others/" + p.program)
	if err != nil {
		return nil, "", err
	}
	program := filepath.Join(dir, p.program)
	if err := os.WriteFile(program, text, 0o600); err != nil {
		return nil, "", err
	}
	command := append(append([]string{tool}, p.args...), program)
	if p.compile {
		binary := filepath.Join(dir, "kernels")
		if said, err := exec.CommandContext(ctx, tool, "-O3", "-o", binary, program, "-lm").CombinedOutput(); err != nil {
			return nil, "", fmt.Errorf("compile %s: %w\n%s", p.program, err, said)
		}
		command = []string{binary}
	}
	cmd := exec.CommandContext(ctx, command[0], command[1:]...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OPENBLAS_NUM_THREADS=1")
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		return nil, "", fmt.Errorf("run %s: %w\n%s", p.program, err, said.String())
	}
	times, err = parse(string(out))
	if err != nil {
		return nil, "", fmt.Errorf("run %s: %w", p.program, err)
	}
	return times, "", nil
}

// tool finds what runs the program.
func (p peer) tool(ctx context.Context) (path, why string) {
	why = strings.Join(p.tools, " or ") + " is not installed"
	for _, name := range p.tools {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		if len(p.probe) == 0 || exec.CommandContext(ctx, path, p.probe[0]...).Run() == nil {
			return path, ""
		}
		why = name + " has no " + p.name
	}
	return "", why
}

// parse reads what a peer prints: a line for each thing timed, with what it was, who ran it, seconds
// and sums, apart by tabs.
func parse(out string) (times []timing, err error) {
	for line := range strings.Lines(out) {
		part := strings.Split(strings.TrimSpace(line), "\t")
		if len(part) < 4 {
			return nil, fmt.Errorf("it printed %q: what, who, seconds and sums wanted", line)
		}
		t := timing{what: part[0], who: part[1]}
		for i, word := range part[2:] {
			v, err := strconv.ParseFloat(word, 64)
			if err != nil {
				return nil, fmt.Errorf("it printed %q: %q is no number", line, word)
			}
			if i == 0 {
				t.seconds = v
			} else {
				t.sums = append(t.sums, v)
			}
		}
		times = append(times, t)
	}
	if len(times) == 0 {
		return nil, fmt.Errorf("it printed nothing")
	}
	return times, nil
}
