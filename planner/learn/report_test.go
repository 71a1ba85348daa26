package learn

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
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
	begin = "<!-- figures: go test ./planner/learn -run Simulated -riders 10000 -update -timeout 180m -->\n"
	end   = "<!-- end of figures -->"
)

// looks are after how many races the page looks.
var looks = [...]int{1, 3, 6, 12}

// TestSimulatedRiders holds, with few riders, what docs/learning.md says of many: -riders 10000 -update writes it.
func TestSimulatedRiders(t *testing.T) {
	rounds.Skip(t, "what simulated riders learn")
	n := *riders
	few := min(n, 2000)
	prior := follow(n, kind{11, ofPrior, (*person).follows, asRaced, always, seasonRaces})
	elsewhere := follow(n, kind{12, ofElsewhere, (*person).follows, asRaced, always, seasonRaces})
	chance := follow(few, kind{13, ofPrior, (*person).follows, atRandom, always, seasonRaces})
	table := follow(n, kind{11, ofPrior, (*person).keeps, asRaced, atEnds, seasonRaces})
	var b strings.Builder
	fmt.Fprintf(&b, "%d riders drawn from the prior, %d not, %d who answer at random, with fixed seeds. Intervals hold 95 %%.\n\n", n, n, few)
	known(&b, prior, elsewhere, chance)
	falls(&b, prior, elsewhere)
	first(&b, firstMore*n)
	all, half := fall(prior, 0, seasonRaces)
	kept, keptHalf := fall(table, 0, seasonRaces)
	more, moreHalf := interval(n, func(i int) float64 { return table[i][seasonRaces].error - prior[i][seasonRaces].error })
	fmt.Fprintf(&b, "\nThe same riders of the prior on the same days, if they always take the table's length: %.3f ± %.3f from none to %d races. Those who say yes to each proposal end %.3f ± %.3f days nearer.\n",
		kept, keptHalf, seasonRaces, more, moreHalf)
	if *update {
		write(t, b.String())
	}
	t.Log("\n" + b.String())
	for _, k := range looks {
		covered, half := share(n, func(i int) bool { return prior[i][k].covered })
		if covered < 75-half || covered > 85+half {
			t.Errorf("after %d races the range covers %.1f %% of the riders of the prior", k, covered)
		}
		if inside, half := share(few, func(i int) bool { return chance[i][k].inside }); inside < 90-half {
			t.Errorf("after %d races at random %.1f %% are within the prior's middle half", k, inside)
		}
	}
	others, othersHalf := fall(elsewhere, 0, seasonRaces)
	for what, fall := range map[string][2]float64{"of the prior": {all, half}, "elsewhere": {others, othersHalf}} {
		if fall[0]+fall[1] <= 0 {
			t.Errorf("riders %s: the error falls by %.3f ± %.3f days", what, fall[0], fall[1])
		}
	}
}

// known is the table of what is known after some races.
func known(b *strings.Builder, prior, elsewhere, chance []followed) {
	fmt.Fprintf(b, "| races | range covers the day, riders of the prior | others | error of the length, days: prior's riders | others | answers at random: within the prior's middle half | length decided: prior's, others, at random |\n|---|---|---|---|---|---|---|\n")
	error := func(of []followed, k int) string {
		mean, half := interval(len(of), func(i int) float64 { return of[i][k].error })
		return fmt.Sprintf("%.2f ± %.2f", mean, half)
	}
	fmt.Fprintf(b, "| none | | | %s | %s | | |\n", error(prior, 0), error(elsewhere, 0))
	for _, k := range looks {
		s := func(of []followed, is func(f *followed) bool) string {
			percent, half := share(len(of), func(i int) bool { return is(&of[i]) })
			return fmt.Sprintf("%.1f ± %.1f %%", percent, half)
		}
		covered, decides := func(f *followed) bool { return f[k].covered }, func(f *followed) bool { return f[k].decides }
		fmt.Fprintf(b, "| %d | %s | %s | %s | %s | %s | %s, %s, %s |\n", k, s(prior, covered), s(elsewhere, covered), error(prior, k), error(elsewhere, k),
			s(chance, func(f *followed) bool { return f[k].inside }), s(prior, decides), s(elsewhere, decides), s(chance, decides))
	}
}

// fall is by how many days the error is smaller after some races than after fewer.
func fall(of []followed, from, to int) (mean, half float64) {
	return interval(len(of), func(i int) float64 { return of[i][from].error - of[i][to].error })
}

// falls tells how the error falls, from race to race and over several.
func falls(b *strings.Builder, prior, elsewhere []followed) {
	fmt.Fprintf(b, "\nBy how many days the error falls, the same riders before and after:\n\n| races | riders of the prior | others | all |\n|---|---|---|---|\n")
	all := append(prior[:len(prior):len(prior)], elsewhere...)
	row := func(what string, from, to int) {
		fmt.Fprintf(b, "| %s |", what)
		for _, of := range [][]followed{prior, elsewhere, all} {
			mean, half := fall(of, from, to)
			fmt.Fprintf(b, " %.3f ± %.3f |", mean, half)
		}
		fmt.Fprintln(b)
	}
	for k := 1; k <= seasonRaces; k++ {
		row(fmt.Sprintf("the %d%s", k, ordinals[min(k, len(ordinals))-1]), k-1, k)
	}
	for _, step := range [][2]int{{0, 3}, {3, 6}, {6, 12}, {0, 12}} {
		row(fmt.Sprintf("%d to %d", step[0], step[1]), step[0], step[1])
	}
}

// firstMore is how many times as many riders ride one race alone, of which little is learned.
const firstMore = 6

// first tells what the first race alone does to the error.
func first(b *strings.Builder, n int) {
	prior := follow(n, kind{11, ofPrior, (*person).follows, asRaced, atFirst, 1})
	elsewhere := follow(n, kind{12, ofElsewhere, (*person).follows, asRaced, atFirst, 1})
	row := func(of []followed) string {
		mean, half := fall(of, 0, 1)
		return fmt.Sprintf("%.3f ± %.3f", mean, half)
	}
	fmt.Fprintf(b, "\nThe 1st race of %d riders of each kind: %s for those of the prior, %s for the others, %s for all.\n", n, row(prior), row(elsewhere), row(append(prior[:n:n], elsewhere...)))
}

var ordinals = [...]string{"st", "nd", "rd", "th"}

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
