package plannertest

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"musette/planner"
)

// known are breaches by the planner that stand until it is mended. Each is as
// narrow as it can be: the rule, what the breach says, what the day usually is.
// The checker reports them; only the random test passes over them.
var known = []struct {
	name, rule  string
	text, usual *regexp.Regexp
	file        string // a least plan file that shows it
}{
	{"a hard day without a set that stays as it is has a reason", "contract.why", regexp.MustCompile(`^nothing is changed`), regexp.MustCompile(`(intervals|group|race) \S+$`),
		`{"today":"2027-07-15","week":{"sat":"intervals 40min"},"races":[{"date":"2027-08-20","name":"Birch Climb","priority":"A","taper":17}]}`},
}

// passOver tells which known breach a violation is, -1 for none.
func passOver(v *view, found Violation) int {
	for i, k := range known {
		if k.rule != found.Rule || !k.text.MatchString(found.Text) {
			continue
		}
		d, err := planner.ParseISODate(found.Date)
		switch knock := slices.ContainsFunc(v.f.Ill, func(ill planner.Illness) bool { return anyOf(ill, stops) }); {
		case k.rule == "hard.eve" && (d != v.today || len(v.f.Weeks) < 2),
			strings.HasPrefix(found.Text, "no reason") && !knock,
			strings.Contains(found.Text, "hard on the way back") && !v.pinned(d):
			continue // nowhere else
		}
		if err == nil && k.usual.MatchString(v.usual(d).String()) {
			return i
		}
	}
	return -1
}

// The planner still breaks each; an entry that holds no more must go.
func TestKnownBreaches(t *testing.T) {
	t.Parallel()
	for i, k := range known {
		output, err := planOf([]byte(k.file))
		if err != nil {
			t.Fatal(err)
		}
		v, err := newView([]byte(k.file), output)
		if err != nil {
			t.Fatal(err)
		}
		still := false
		for _, found := range Check([]byte(k.file), output) {
			still = still || passOver(v, found) == i
		}
		if !still {
			t.Errorf("the planner does not break this any more, take it out of the list: %s", k.name)
		}
	}
}
