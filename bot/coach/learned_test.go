package coach

import (
	"math"
	"strings"
	"testing"

	"musette/planner/learn"
)

// agreeing are the races of a rider whose legs were better after one length of tapers than after another.
func agreeing(short, long int) []learn.Race {
	var out []learn.Race
	for i := range 8 {
		days, legs := 5, short
		if i%2 == 1 {
			days, legs = 14, long
		}
		change := make([]float64, days)
		for k := range change {
			change[k] = -0.4
		}
		out = append(out, learn.Race{Change: change, Legs: legs})
	}
	return out
}

// A group is spoken of where its riders' races agree clearly, and never of fewer than three riders.
func TestGroupsThatTapersTaught(t *testing.T) {
	for _, c := range []struct {
		riders, short, long int
		want                string
	}{{4, 8, 6, "Shorter tapers than the usual ones seem to suit your riders with under 8 h a week, by about "}, {6, 5, 8, "Longer tapers than the usual ones"}, {2, 8, 6, ""}, {6, 6, 7, ""}} {
		var g group
		for range c.riders {
			g.add(learn.Rough(agreeing(c.short, c.long)))
		}
		line := g.line(hourGroups[0].name)
		if c.want == "" && line != "" || !strings.HasPrefix(line, c.want) {
			l := learn.Rough(agreeing(c.short, c.long))
			t.Errorf("%d riders, legs %d and %d: %q (share %.2f +- %.2f)", c.riders, c.short, c.long, line, l.Share.Mean, l.Share.SD/math.Sqrt(float64(c.riders)))
		}
	}
}
