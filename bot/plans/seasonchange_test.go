package plans_test

import (
	"strings"
	"testing"

	"musette/bot/plans"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/season"
)

// How sure a change is, and whether it brings anything, decides its words.
func TestChangesInWords(t *testing.T) {
	race := &planner.Race{Name: "Hill Loop", Date: planner.NewDate(2026, 6, 28), Days: 1, Priority: planner.PriorityA}
	other := &planner.Race{Name: "Second", Date: planner.NewDate(2026, 7, 12), Days: 1, Priority: planner.PriorityA}
	f := &planner.Facts{Races: []planner.Race{*race, *other}}
	c := &season.Check{Weight: 4, Goals: make([]season.Goal, 2)}
	if got, want := plans.SeasonVerdict(c, f)[0]+" "+plans.SeasonMeant(c), "Nothing better was found: your choice of A races and tapers is a good one. A season is counted from 12 weeks before its first race. Over several races A counts 1, B 0.4 and C 0.1."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, tc := range []struct {
		sure     bool
		low, mid float64
		verdict  string
	}{
		{false, -0.8, -0.4, "Nothing better was found: your choice"},
		{true, 0.8, 2, "Better: make Hill Loop a B race. Expected: about 0.5 % faster on average over your races (0.2 to 1.0 %). In this average "},
		{true, -0.8, 2, "Probably better: make Hill Loop a B race. Expected: about 0.5 % faster on average over your races (from 0.2 % slower to 1.0 % faster). In this average "},
		{false, -0.8, 2, "Perhaps better, but not clear: make Hill Loop a B race. Expected: about 0.5 % faster "},
	} {
		c.Best = &season.Change{ToB: []*planner.Race{race}, Sure: tc.sure, Total: rangeOf(tc.low, tc.mid, 4),
			Tapers:  []season.Taper{{Race: race, AsB: true}, {Race: other, Days: 7}},
			Effects: []season.Effect{{Race: other, Change: rangeOf(0.2, 0.5, 0.9)}, {Race: race, Change: rangeOf(-1.8, -1.2, -0.5)}, {Race: &planner.Race{Name: "Gone"}}}}
		if got := strings.Join(plans.SeasonVerdict(c, f), " "); !strings.HasPrefix(got, tc.verdict) {
			t.Errorf("got %q, want %q...", got, tc.verdict)
		}
		var p say.Page
		var reply say.Reply
		plans.AddChange(&p, &reply, c, f)
		if want := `Tapers then: Hill Loop half a week at most (B race), Second 7 days.
The change expected in each race (80 % range):
  Hill Loop itself -1.2 % (-1.8 to -0.5)
  Second +0.5 % (+0.2 to +0.9)
Apply it: /season apply make-b:"Hill Loop 2026-06-28"`; say.TextOf(p.Done()) != want || len(reply.Buttons) != 1 {
			t.Errorf("%d buttons with\n%s\nwant\n%s", len(reply.Buttons), say.TextOf(p.Done()), want)
		}
	}
	c.Clashes = []season.Clash{{First: race, Second: other, Days: 14, Carried: true}}
	if got, want := say.TextOf(plans.ClashRows(c, f)), "Close together:\nHill Loop and Second, 14 days apart: there is no time for a second taper"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	c.Tapers, c.TaperDays, c.SeasonDays, c.Last = 1, 1, 85, race
	c.Goals[0].Days = 1
	if got, want := strings.Join(plans.SeasonCost(c), " "), "Your 1-day taper costs next to no fitness by Hill Loop. 1 of the season's 85 days is a taper day."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
