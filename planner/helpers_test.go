package planner

import "testing"

// inesWeek is the demo rider's week of 10 h 10 min.
const inesWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
	"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

func mustWeek(tb testing.TB, s string) Week {
	tb.Helper()
	w, err := ParseWeek(s)
	if err != nil {
		tb.Fatalf("week %q: %v", s, err)
	}
	return w
}

func mustDate(tb testing.TB, s string) Date {
	tb.Helper()
	d, err := ParseISODate(s)
	if err != nil {
		tb.Fatal(err)
	}
	return d
}
