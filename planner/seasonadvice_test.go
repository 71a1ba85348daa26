package planner_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sync/atomic"
	"testing"

	"musette/planner"
	"musette/planner/response"
)

// changed is the facts with a change applied, as one press does it.
func changed(f *planner.Facts, c *planner.SeasonChange) *planner.Facts {
	out := *f
	out.Races = slices.Clone(f.Races)
	for i := range out.Races {
		for _, r := range c.ToB {
			if out.Races[i].Name == r.Name {
				out.Races[i].Priority = planner.PriorityB
			}
		}
	}
	if c.Automatic {
		out.Taper.Days = 0
	}
	return &out
}

// eventfulSeason is a random season asked about on a random day, with told lengths and what happens to riders.
func eventfulSeason(t *testing.T, r *rand.Rand, most int) (today planner.Date, f *planner.Facts) {
	t.Helper()
	f = randomSeason(t, r, most)
	f.Taper.Days = []int{0, 0, 7, 14, 21, 28}[r.IntN(6)]
	today = firstDay.AddDays(r.IntN(120))
	for k := range f.Races {
		f.Races[k].Registered = min(f.Races[k].Registered, today)
	}
	switch r.IntN(6) {
	case 0:
		f.Absences = []planner.Absence{{From: today + 10, To: today + 16}, {From: today + 30, To: today + 31, Travel: true}}
	case 1:
		f.Done = []planner.Ride{{Date: today - 3, Minutes: 100, RPE: 8}, {Date: today - 1, Minutes: 0}, {Date: today, Minutes: 50, RPE: 3}}
	case 2:
		f.Weeks = append(f.Weeks, dated(t, today+20, []string{lightWeek, evenWeek, mixedWeek}[r.IntN(3)]))
	case 3:
		f.Blocks = []planner.Block{{From: today + 5, To: today + 25, Percent: 20}}
	}
	return today, f
}

// difference is by how many per cent each race's morning differs where days are ridden as one plan has them and not as
// another: all days from today on act on it by their age (Fitz-Clarke et al. 1991). One value a draw; nothing where the race
// is not to come.
func difference(t *testing.T, f *planner.Facts, today planner.Date, after, before *planner.Plan, race planner.Date) []float64 {
	t.Helper()
	unit := 0.0
	for _, r := range f.Races {
		unit = max(unit, unitOf(f, r.Date))
	}
	out := make([]float64, len(response.Prior()))
	for d := today; d < race; d++ {
		with, ok := after.Day(d)
		without, ok2 := before.Day(d)
		if !ok || !ok2 {
			t.Fatalf("%s is not in both plans", d)
		}
		if load := (ridden(with, f) - ridden(without, f)) / unit; load != 0 {
			for j, draw := range response.Prior() {
				out[j] += load * influence(draw, d.DaysUntil(race))
			}
		}
	}
	return out
}

// summed adds up the differences over all races to come, by the priorities of the facts.
func summed(t *testing.T, f *planner.Facts, today planner.Date, after, before *planner.Plan) []float64 {
	t.Helper()
	sum := make([]float64, len(response.Prior()))
	for _, r := range f.Races {
		for j, v := range difference(t, f, today, after, before, r.Date) {
			sum[j] += worth[r.Priority] * v
		}
	}
	return sum
}

// surely reports whether more than three of four values are above zero.
func surely(values []float64) bool {
	n := 0
	for _, v := range values {
		if v > 0 {
			n++
		}
	}
	return 4*n > 3*len(values)
}

// What is suggested is what the plan holds once it is done, and brings just what was promised: summed up over the
// planned days of both plans. It is not suggested again.
func TestSuggestionIsKept(t *testing.T) {
	var suggested, sure atomic.Int32
	t.Run("all", func(t *testing.T) {
		forEach(t, 80, func(t *testing.T, i int) {
			today, f := eventfulSeason(t, rand.New(rand.NewPCG(uint64(i), 67)), 6)
			if check := f.CheckSeason(today); check != nil && check.Best != nil {
				suggested.Add(1)
				if check.Best.Sure {
					sure.Add(1)
				}
				if best := check.Best; !(best.Total.Mid >= planner.WorthTelling*check.Weight) && (len(check.Clashes) == 0 || len(best.ToB) == 0) {
					t.Errorf("seed %d: clashes %+v, suggested %+v", i, check.Clashes, best)
				}
				checkKept(t, i, today, f, check.Best)
			}
		})
	})
	if n := suggested.Load(); n < 10 || sure.Load() < 3 || sure.Load() == n {
		t.Errorf("%d suggestions, %d of them sure", n, sure.Load())
	}
}

func checkKept(t *testing.T, seed int, today planner.Date, f *planner.Facts, best *planner.SeasonChange) {
	t.Helper()
	after := changed(f, best)
	before, p := planner.Derive(today, f), planner.Derive(today, after)
	sum := summed(t, f, today, p, before)
	if nearRange(t, fmt.Sprintf("seed %d: total", seed), best.Total, quantiles(sum), 1e-9); best.Sure != surely(sum) {
		t.Errorf("seed %d: suggested %+v, sure: %v", seed, best, surely(sum))
	}
	checkEffects(t, seed, today, f, best, p, before)
	for k := range best.ToB { // each adds clearly to the others
		if fewer := slices.Delete(slices.Clone(best.ToB), k, k+1); best.Automatic || len(fewer) > 0 {
			without := planner.Derive(today, changed(f, &planner.SeasonChange{ToB: fewer, Automatic: best.Automatic}))
			if !surely(summed(t, f, today, p, without)) {
				t.Errorf("seed %d: %s adds nothing clear to the others of %+v", seed, best.ToB[k].Name, best)
			}
		}
	}
	for _, want := range best.Tapers {
		k := slices.IndexFunc(p.Races, func(role planner.RaceRole) bool { return role.Race.Name == want.Race.Name })
		role := p.Races[k]
		got := tapersOf(p)[role.Race.Date]
		if want.AsB != (role.Race.Priority == planner.PriorityB) || !want.AsB && got != want.Days {
			t.Errorf("seed %d: %s: %+v, in the plan %d days\n%+v\n%+v", seed, want.Race.Name, want, got, f.Races, best)
		}
	}
	if again := after.CheckSeason(today); again.Best != nil && (again.Best.Automatic && best.Automatic || sameRaces(again.Best.ToB, best.ToB)) {
		t.Errorf("seed %d: %+v, then again %+v", seed, best, again.Best)
	}
}

// checkEffects compares what a change does to each race to come.
func checkEffects(t *testing.T, seed int, today planner.Date, f *planner.Facts, best *planner.SeasonChange, after, before *planner.Plan) {
	t.Helper()
	toCome := slices.DeleteFunc(newNaiveSeason(f).races, func(r planner.Race) bool { return r.Date <= today })
	if len(best.Effects) != len(toCome) {
		t.Fatalf("seed %d: effects %+v on %+v", seed, best.Effects, toCome)
	}
	for k, e := range best.Effects {
		if e.Race.Date != toCome[k].Date {
			t.Errorf("seed %d: effect %d is on %s, not on %s", seed, k, e.Race.Name, toCome[k].Name)
		}
		nearRange(t, fmt.Sprintf("seed %d: effect on %s", seed, e.Race.Name), e.Change, quantiles(difference(t, f, today, after, before, e.Race.Date)), 1e-9)
	}
}

// No single race of a clash made a B race, nor automatic lengths alone, are better than what is suggested: what brings
// 0.1 % a race and more first, then what is sure, then the greater middle. Where races clash and nothing brings as much, the best
// of making one of them a B race is named.
func TestSuggestionIsTheBestFound(t *testing.T) {
	forEach(t, 150, func(t *testing.T, i int) {
		today, f := eventfulSeason(t, rand.New(rand.NewPCG(uint64(i), 83)), 5)
		if i == 0 { // a season where more is not as sure
			today, f = eventfulSeason(t, rand.New(rand.NewPCG(1323, 67)), 6)
		}
		check := f.CheckSeason(today)
		if check == nil {
			return
		}
		var changes []*planner.SeasonChange
		if f.Taper.Days != 0 {
			changes = append(changes, &planner.SeasonChange{Automatic: true})
		}
		for _, c := range check.Clashes {
			for _, choice := range c.Choices {
				changes = append(changes, &planner.SeasonChange{ToB: []*planner.Race{choice.Race}})
			}
		}
		before := planner.Derive(today, f)
		for _, c := range changes {
			sum := summed(t, f, today, planner.Derive(today, changed(f, c)), before)
			mid, sure, worth := quantiles(sum).Mid, surely(sum), planner.WorthTelling*check.Weight
			switch best := check.Best; {
			case mid < worth && (len(check.Clashes) == 0 || c.Automatic):
			case best == nil, mid >= worth && best.Total.Mid < worth,
				(mid >= worth) == (best.Total.Mid >= worth) && (sure && !best.Sure || sure == best.Sure && mid > best.Total.Mid+1e-9):
				t.Errorf("seed %d: %+v brings %v, sure: %v; suggested %+v", i, c, mid, sure, best)
			}
		}
	})
}

func sameRaces(a, b []*planner.Race) bool {
	return slices.EqualFunc(a, b, func(x, y *planner.Race) bool { return x.Name == y.Name })
}

// As a B race a goal has its half week in the answer where it has one in the plan: none in another
// race's recovery days.
func TestHalfWeeksAreThoseOfThePlan(t *testing.T) {
	stages := raceOn(100, planner.PriorityA)
	stages.Days = 5
	suggested := 0
	for gap := 6; gap < 16; gap++ {
		f := rider(t, mixedWeek, stages, raceOn(104+gap, planner.PriorityA))
		check := f.CheckSeason(firstDay)
		if check.Best == nil {
			continue
		}
		suggested++
		p := planner.Derive(firstDay, changed(f, check.Best))
		for i, want := range check.Best.Tapers {
			if want.AsB && (want.Days > 0) != (p.Races[i].Role == planner.HalfTapered) {
				t.Errorf("%d days apart: %s as a B race has %d days, in the plan its role is %d", gap, want.Race.Name, want.Days, p.Races[i].Role)
			}
		}
	}
	if suggested == 0 {
		t.Error("nothing was ever suggested")
	}
}

// A change that is sure but too small to tell hides none that is not sure.
func TestSmallSureChangeHidesNothing(t *testing.T) {
	today, f := eventfulSeason(t, rand.New(rand.NewPCG(1151, 83)), 5)
	check := f.CheckSeason(today)
	for _, c := range check.Clashes {
		for _, choice := range c.Choices {
			if choice.Total.Mid >= 0.1 && (check.Best == nil || check.Best.Total.Mid < choice.Total.Mid) {
				t.Errorf("%s as a B race brings %+v, suggested %+v", choice.Race.Name, choice.Total, check.Best)
			}
		}
	}
}
