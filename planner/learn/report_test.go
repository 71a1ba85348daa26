package learn

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

var (
	update = flag.Bool("update", false, "write the figures of docs/learning.md")
	riders = flag.Int("riders", 6, "how many riders of each kind are simulated")
)

// interval is a mean with the half width of its 95 % interval.
func interval(n int, value func(i int) float64) (mean, half float64) {
	square := 0.0
	for i := range n {
		mean += value(i) / float64(n)
		square += value(i) * value(i) / float64(n)
	}
	return mean, 1.96 * math.Sqrt(max(0, square-mean*mean)/float64(n))
}

// share is how many of some are so, per cent, with the half width of its 95 % interval.
func share(n int, is func(i int) bool) (percent, half float64) {
	mean, half := interval(n, func(i int) float64 {
		if is(i) {
			return 100
		}
		return 0
	})
	return mean, half
}

const (
	docs  = "../../docs/learning.md"
	begin = "<!-- figures: go test ./planner/learn -run Simulated -riders 1000 -update -timeout 60m -->\n"
	end   = "<!-- end of figures -->"
)

// TestSimulatedRiders holds, with few riders, what docs/learning.md says of many: -riders 1000 -update writes it.
func TestSimulatedRiders(t *testing.T) {
	n := *riders
	prior, elsewhere := follow(n, 11, ofPrior, (*person).follows), follow(n, 12, ofElsewhere, (*person).follows)
	chance := follow(n, 13, ofPrior, byChance)
	table := follow(n, 11, ofPrior, (*person).keeps)
	var b strings.Builder
	fmt.Fprintf(&b, "%d riders drawn from the prior, %d not, %d who answer at random, with fixed seeds. Intervals hold 95 %%.\n\n", n, n, n)
	fmt.Fprintf(&b, "| races | range covers the day, riders of the prior | others | error of the length, days: prior's riders | others | answers at random: within the prior's middle half | length decided: prior's, others, at random |\n|---|---|---|---|---|---|---|\n")
	row := func(k int) {
		e := func(of []followed) string {
			mean, half := interval(len(of), func(i int) float64 { return of[i].error[k] })
			return fmt.Sprintf("%.2f ± %.2f", mean, half)
		}
		if k == 0 {
			fmt.Fprintf(&b, "| none | | | %s | %s | | |\n", e(prior), e(elsewhere))
			return
		}
		s := func(of []followed, is func(f *followed) bool) string {
			percent, half := share(len(of), func(i int) bool { return is(&of[i]) })
			return fmt.Sprintf("%.1f ± %.1f %%", percent, half)
		}
		covered, decides := func(f *followed) bool { return f.covered[k-1] }, func(f *followed) bool { return f.decides[k-1] }
		fmt.Fprintf(&b, "| %d | %s | %s | %s | %s | %s | %s, %s, %s |\n", looks[k-1], s(prior, covered), s(elsewhere, covered), e(prior), e(elsewhere),
			s(chance, func(f *followed) bool { return f.inside[k-1] }), s(prior, decides), s(elsewhere, decides), s(chance, decides))
	}
	for k := range len(looks) + 1 {
		row(k)
	}
	fmt.Fprintf(&b, "\nHow much the error falls from one line to the next, days (riders of the prior; others):\n\n")
	less := func(of []followed, k, than int) (float64, float64) {
		return interval(len(of), func(i int) float64 { return of[i].error[than] - of[i].error[k] })
	}
	for k := 1; k <= len(looks); k++ {
		a, ha := less(prior, k, k-1)
		c, hc := less(elsewhere, k, k-1)
		fmt.Fprintf(&b, "- to %d: %.3f ± %.3f; %.3f ± %.3f\n", looks[k-1], a, ha, c, hc)
	}
	last := len(looks)
	a, ha := less(prior, last, 0)
	c, hc := less(elsewhere, last, 0)
	d, hd := less(table, last, 0)
	fmt.Fprintf(&b, "- from none to %d: %.3f ± %.3f; %.3f ± %.3f. Of %d riders of the prior who always take the table's length: %.3f ± %.3f\n", seasonRaces, a, ha, c, hc, len(table), d, hd)
	if *update {
		write(t, b.String())
	}
	t.Log("\n" + b.String())
	for k := range looks {
		covered, half := share(n, func(i int) bool { return prior[i].covered[k] })
		if covered < 75-half || covered > 85+half {
			t.Errorf("after %d races the range covers %.1f %% of the riders of the prior", looks[k], covered)
		}
		if inside, half := share(n, func(i int) bool { return chance[i].inside[k] }); inside < 90-half {
			t.Errorf("after %d races at random %.1f %% are within the prior's middle half", looks[k], inside)
		}
	}
	for what, fall := range map[string][2]float64{"of the prior": {a, ha}, "elsewhere": {c, hc}} {
		if fall[0]+fall[1] <= 0 {
			t.Errorf("riders %s: the error falls by %.3f ± %.3f days", what, fall[0], fall[1])
		}
	}
}

// write puts the figures into the page.
func write(t *testing.T, figures string) {
	t.Helper()
	page, err := os.ReadFile(docs)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(page), begin)
	_, tail, ends := strings.Cut(rest, end)
	if !ok || !ends {
		t.Fatalf("%s has no place for figures", docs)
	}
	if err := os.WriteFile(docs, []byte(head+begin+figures+end+tail), 0o600); err != nil {
		t.Fatal(err)
	}
}
