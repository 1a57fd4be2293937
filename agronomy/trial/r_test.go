package trial

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// askR runs a script of base R on a table in d and returns the numbers it prints as `key value`.
func askR(t *testing.T, values []float64, factors []Factor, script string) map[string]float64 {
	t.Helper()
	r, err := exec.LookPath("Rscript")
	if err != nil {
		if os.Getenv("HAYWARDEN_DEMAND") != "" {
			t.Fatal("Rscript is not installed, and HAYWARDEN_DEMAND asks for it")
		}
		t.Skip("Rscript is not installed: nothing is compared with R here; values that R gave stand in the other tests")
	}
	var text strings.Builder
	text.WriteString("y")
	for _, f := range factors {
		text.WriteString("," + f.Name)
	}
	for i, v := range values {
		text.WriteString("\n" + strconv.FormatFloat(v, 'g', -1, 64))
		for _, f := range factors {
			text.WriteString(",L" + f.Levels[f.At[i]])
		}
	}
	file := filepath.Join(t.TempDir(), "d.csv")
	if err := os.WriteFile(file, []byte(text.String()+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	const head = `options(warn=1); d <- read.csv(commandArgs(TRUE)[1], stringsAsFactors=TRUE); say <- function(k, v) cat(k, format(v, digits=16), "\n")` + "\n"
	cmd := exec.Command(r, "--vanilla", "-e", head+script, file)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("R: %v\n%s", err, out)
	}
	answers := map[string]float64{}
	for line := range strings.SplitSeq(string(out), "\n") {
		if parts := strings.Fields(line); len(parts) == 2 {
			if answers[parts[0]], err = strconv.ParseFloat(parts[1], 64); err != nil {
				t.Fatal(err)
			}
		}
	}
	return answers
}

// agree compares by key; every key that R answers must be ours too, and the other way round.
func agree(t *testing.T, r, ours map[string]float64, relative float64) {
	t.Helper()
	if len(r) != len(ours) {
		t.Errorf("R answers %d numbers and we %d", len(r), len(ours))
	}
	for k, want := range r {
		got, ok := ours[k]
		if !ok || !near(got, want, relative) {
			t.Errorf("%s: %.14g, R %.14g", k, got, want)
		}
	}
}

// A split plot of made-up yields.
func TestSplitPlotAgreesWithR(t *testing.T) {
	y, whole, block, sub := invented(3, 5, 4, 0)
	whole.Name, block.Name, sub.Name = "whole", "block", "sub"
	a, err := SplitPlot(y, whole, sub, block, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	ours := map[string]float64{}
	for _, l := range a.Lines {
		k := strings.NewReplacer(":", ".", " ", ".").Replace(l.Source)
		ours[k+".ss"] = l.Squares
		if l.Source != "error a" && l.Source != "error b" && l.Source != "block" {
			ours[k+".p"] = l.P
		}
	}
	r := askR(t, y, []Factor{whole, block, sub}, `
s <- summary(aov(y ~ whole*sub + Error(block/whole), d))
b <- s[["Error: block"]][[1]]; w <- s[["Error: block:whole"]][[1]]; p <- s[["Error: Within"]][[1]]
say("block.ss", b[1,2]); say("whole.ss", w[1,2]); say("whole.p", w[1,5]); say("error.a.ss", w[2,2])
say("sub.ss", p[1,2]); say("sub.p", p[1,5]); say("whole.sub.ss", p[2,2]); say("whole.sub.p", p[2,5]); say("error.b.ss", p[3,2])`)
	agree(t, r, ours, 1e-9)
}

func TestBlocksWithLostPlotsAgreeWithR(t *testing.T) {
	y, entry, block, _ := invented(8, 4, 1, 0.2)
	entry.Name, block.Name = "entry", "block"
	a, err := Blocks(y, entry, block, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	ours := map[string]float64{"block": a.Lines[0].Squares, "entry": a.Lines[1].Squares, "f": a.Lines[1].F, "p": a.Lines[1].P, "error": a.Lines[2].Squares, "t": a.Differences[0].T}
	for i, m := range a.Means {
		ours[fmt.Sprintf("mean.%d", i)], ours[fmt.Sprintf("se.%d", i)] = m.Value, m.SE
	}
	r := askR(t, y, []Factor{entry, block}, `
m <- lm(y ~ block + entry, d); a <- anova(m)
say("block", a[1,2]); say("entry", a[2,2]); say("f", a[2,4]); say("p", a[2,5]); say("error", a[3,2]); say("t", qt(0.95, a[3,1]))
for (i in seq_along(levels(d$entry))) {
  one <- data.frame(block=factor(levels(d$block)), entry=factor(levels(d$entry)[i], levels(d$entry)))
  z <- colMeans(model.matrix(~ block + entry, one))
  say(paste0("mean.", i-1), sum(z*coef(m))); say(paste0("se.", i-1), sqrt(drop(t(z) %*% vcov(m) %*% z)))
}`)
	agree(t, r, ours, 1e-8)
}

// The restricted likelihood written out densely in R, and its greatest point by R's own search.
func TestREMLAgreesWithADenseSearchInR(t *testing.T) {
	const script = `
X <- model.matrix(FIXED, d); Z <- lapply(list(RANDOM), function(f) model.matrix(~ f - 1)); n <- nrow(d); p <- ncol(X)
crit <- function(v, all=FALSE) {
  V <- diag(v[1], n); for (k in seq_along(Z)) V <- V + v[k+1]*tcrossprod(Z[[k]])
  W <- solve(V); A <- t(X) %*% W %*% X; b <- solve(A, t(X) %*% W %*% d$y); e <- d$y - X %*% b
  d2 <- determinant(V)$modulus + determinant(A)$modulus + drop(t(e) %*% W %*% e) + (n-p)*log(2*pi)
  if (all) list(b=b, u=v[2]*t(Z[[1]]) %*% W %*% e, se=sqrt(diag(solve(A)))) else as.numeric(d2)
}
o <- list(par=c(0.1, rep(0.1, length(Z)))); for (i in 1:6) o <- nlminb(o$par, crit, lower=c(1e-9, rep(0, length(Z))), control=list(rel.tol=1e-14, x.tol=1e-12, iter.max=1000, eval.max=2000))
say("criterion", o$objective); for (k in seq_along(o$par)) say(paste0("v", k-1), o$par[k])
a <- crit(o$par, TRUE); for (i in seq_along(a$u)) say(paste0("u", i-1), a$u[i]); say("mean", a$b[1]); say("mean.se", a$se[1])`
	y, g, e, b := invented(7, 5, 2, 0.25)
	g.Name, e.Name, b.Name = "g", "e", "b"
	for name, c := range map[string]struct {
		m             Model
		fixed, random string
	}{
		"entries, environments, both": {Model{Response: y, Random: []Factor{g, e, Cross(g, e)}}, "~ 1", "d$g, d$e, d$g:d$e"},
		"environments fixed":          {Model{Response: y, Fixed: []Factor{e}, Random: []Factor{g, Cross(e, b)}}, "~ e", "d$g, d$e:d$b"},
		"nested terms":                {Model{Response: y, Random: []Factor{e, Cross(e, b), Cross(g, e)}}, "~ 1", "d$e, d$e:d$b, d$g:d$e"},
	} {
		t.Run(name, func(t *testing.T) {
			f := mustFit(t, c.m)
			ours := map[string]float64{"criterion": f.Criterion, "v0": f.Residual, "mean": f.Fixed[0].Value, "mean.se": f.Fixed[0].SE}
			for k, v := range f.Components {
				ours[fmt.Sprintf("v%d", k+1)] = v.Variance
			}
			for i, u := range f.Effects(f.Components[0].Term) {
				ours[fmt.Sprintf("u%d", i)] = u.Value
			}
			r := askR(t, y, []Factor{g, e, b}, strings.NewReplacer("FIXED", c.fixed, "RANDOM", strings.ReplaceAll(strings.ReplaceAll(c.random, "d$g:d$e", "droplevels(interaction(d$g, d$e))"), "d$e:d$b", "droplevels(interaction(d$e, d$b))")).Replace(script))
			if r["criterion"] < f.Criterion-1e-9 {
				t.Errorf("R finds a better point: %.12g, ours %.12g", r["criterion"], f.Criterion)
			}
			for k, v := range ours { // a zero is met, not divided by
				if v == 0 && r[k] < 1e-7 {
					r[k] = 0
				}
			}
			agree(t, r, ours, 1e-4)
		})
	}
}

func TestPowerIsThatOfR(t *testing.T) {
	r := askR(t, []float64{1}, nil, `
for (df in c(1, 3, 10, 45, 200)) for (ncp in c(0.1, 1, 2.5, 4)) { q <- qt(0.975, df); say(paste0(df, "/", ncp), pt(q, df, ncp, lower.tail=FALSE) + pt(-q, df, ncp)) }`)
	ours := map[string]float64{}
	for _, df := range []float64{1, 3, 10, 45, 200} {
		for _, ncp := range []float64{0.1, 1, 2.5, 4} {
			ours[fmt.Sprintf("%g/%g", df, ncp)] = power(ncp, df, 0.05)
		}
	}
	agree(t, r, ours, 1e-6)
}
