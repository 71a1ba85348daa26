package season

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// changed is the facts once a change was told on a day.
func changed(f *planner.Facts, today planner.Date, toB []*planner.Race, automatic bool) *planner.Facts {
	out := *f
	out.Races = nil
	for _, r := range f.Races {
		if !slices.ContainsFunc(toB, func(b *planner.Race) bool { return b.Name == r.Name }) {
			out.Races = append(out.Races, r)
			continue
		}
		was := r
		was.Withdrawn = today
		r.Priority, r.On = planner.PriorityB, today
		out.Races = append(out.Races, was, r)
	}
	if automatic {
		was := f.Taper
		was.Withdrawn = today
		out.OldTaper = []planner.Taper{was}
		out.Taper.Days, out.Taper.On = 0, today
	}
	return &out
}

// busySeason is a random season asked about on a random day, with told lengths and what happens to riders.
func busySeason(t *testing.T, r *rand.Rand, most int) (today planner.Date, f *planner.Facts) {
	t.Helper()
	f = scattered(t, r, most)
	f.Taper.Days = oneOf(r, 0, 0, 7, 10, 14, 14) // longer ones: see TestEngineShortensAnOpenTaper
	today = firstDay.AddDays(r.IntN(120))
	for k := range f.Races {
		f.Races[k].Registered = min(f.Races[k].Registered, today)
	}
	switch r.IntN(6) {
	case 0:
		f.Absences = []planner.Absence{{From: today + 10, To: today + 16}, {From: today + 30, To: today + 31, Travel: true}}
	case 1:
		f.Done = []planner.Ride{rode(today-3, 100, 8), rode(today-1, 0, 0), rode(today, 50, 3)}
	case 2:
		f.Weeks = append(f.Weeks, dated(t, today+20, oneOf(r, lightWeek, evenWeek, mixedWeek)))
	case 3:
		f.Blocks = []planner.Block{{From: today + 5, To: today + 25, Percent: 20}}
	}
	return today, f
}

// unitOfAll is the greatest usual day before any race of the season that a check is of.
func unitOfAll(f *planner.Facts, races []*planner.Race) float64 {
	unit := 0.0
	for _, r := range races {
		unit = max(unit, unitOf(f, r.Date))
	}
	return unit
}

// Net is what all tapers up to a race bring to it: the sum over the days of its own and over those from today on of
// earlier ones, also where these are under way or long over. What a taper costs the B and C races after it is told too.
func TestNetIsTheSumOfDays(t *testing.T) {
	f := facts(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(128, planner.PriorityC), raceOn(150, planner.PriorityA), raceOn(215, planner.PriorityA), raceOn(240, planner.PriorityB))
	p := engine.Derive(firstDay, f)
	days := 0
	for _, taper := range p.Tapers {
		days += taper.Days
	}
	net := func(goal *planner.Race, today planner.Date, own bool) response.Range {
		sum := make([]float64, len(response.Prior()))
		for _, taper := range p.Tapers {
			gap := taper.Race.Date.DaysUntil(goal.Date)
			for u := 1; u <= taper.Days && (gap == 0 && own || gap > 0 && taper.Race.Date.AddDays(-u) >= today); u++ {
				for j, draw := range response.Prior() {
					sum[j] += leftOut(f, p, taper.Race.Date, u) * influence(draw, u+gap)
				}
			}
		}
		return quantiles(sum)
	}
	forEach(t, 44, func(i int) { // as today moves, also inside tapers and long after some
		back := 5 * i
		today := firstDay.AddDays(back)
		check := NewCheck(today, f)
		if check.SeasonDays != 141+84 || check.TaperDays != days || check.Crowded || check.Over != (today > f.Races[0].Date) {
			t.Errorf("day %d: %+v", back, check)
		}
		for _, g := range check.Goals {
			taper := taperOf(p, g.Race.Name)
			if g.Days != taper.Days {
				t.Errorf("%s: %d days, planned %d", g.Race.Name, g.Days, taper.Days)
			}
			nearRange(t, g.Race.Name, g.Gain, Expect(p, f, taper).Gain, 1e-9)
			nearRange(t, fmt.Sprintf("day %d: %s: net", back, g.Race.Name), g.Net, net(g.Race, today, true), 1e-9)
			nearRange(t, fmt.Sprintf("day %d: %s: before", back, g.Race.Name), g.Before, net(g.Race, today, false), 1e-9)
		}
		touched := 0
		for k := range f.Races {
			if r := &f.Races[k]; r.Priority != planner.PriorityA && r.Date > today {
				nearRange(t, fmt.Sprintf("day %d: %s", back, r.Name), check.Touched[touched].Change, net(r, today, false), 1e-9)
				touched++
			}
		}
		if touched != len(check.Touched) {
			t.Errorf("day %d: %+v touched", back, check.Touched)
		}
		if o, ok := NewOptions(today, f, check.Goals[len(check.Goals)-1].Race); ok && len(check.Goals) == 1 { // one definition
			nearRange(t, fmt.Sprintf("day %d: net and options", back), check.Goals[0].Net, o.planned().Gain, 1e-9)
		}
	})
}

// A races at most 28 days apart clash, counted from the last day of a stage race (common practice).
func TestClashes(t *testing.T) {
	for gap, want := range map[int]int{5: 1, 14: 1, 15: 1, 27: 1, 28: 1, 29: 0} {
		first := raceOn(100, planner.PriorityA)
		first.Days = 4
		f := facts(t, mixedWeek, first, raceOn(103+gap, planner.PriorityA))
		check := NewCheck(firstDay, f)
		if len(check.Clashes) != want {
			t.Errorf("%d days apart: clashes %+v", gap, check.Clashes)
			continue
		}
		for _, c := range check.Clashes {
			if c.Days != gap || c.Carried != (gap <= 14) || c.First.Date != f.Races[0].Date || c.Second.Date != f.Races[1].Date ||
				c.Choices[0].Race != c.First || c.Choices[1].Race != c.Second {
				t.Errorf("%d days apart: %+v", gap, c)
			}
			if c.Choices[1].Own.Mid >= 0 && gap > 14 { // without its own taper the second race gains less
				t.Errorf("%d days apart: the second race as a B race gains %+v itself", gap, c.Choices[1].Own)
			}
		}
	}
}

// Each choice of a clash is worked out from the plans: what a race as a B race gains, what the other one gains by it, and
// the weighted sum over all races to come; also inside a taper, where what is past stays, and on race day.
func TestClashIsWeighed(t *testing.T) {
	long := raceOn(100, planner.PriorityA)
	long.Hours = 9
	told := facts(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA))
	told.Taper.Days = 8
	for name, f := range map[string]*planner.Facts{
		"automatic":   facts(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA)),
		"told":        told,
		"near":        facts(t, mixedWeek, long, raceOn(105, planner.PriorityA)),
		"with others": facts(t, mixedWeek, raceOn(80, planner.PriorityB), raceOn(100, planner.PriorityA), raceOn(117, planner.PriorityC), raceOn(120, planner.PriorityA), raceOn(160, planner.PriorityB)),
	} {
		goals := slices.DeleteFunc(slices.Clone(f.Races), func(r planner.Race) bool { return r.Priority != planner.PriorityA })
		for _, day := range []int{0, 94, 99, 100, 102} {
			today := firstDay.AddDays(day)
			check := NewCheck(today, f)
			if today > goals[0].Last() {
				if len(check.Clashes) > 0 {
					t.Errorf("%s, day %d: %+v", name, day, check.Clashes)
				}
				continue
			}
			c, toCome := check.Clashes[0], goals
			if day == 100 {
				toCome = goals[1:]
			}
			if c.First.Name != goals[0].Name || c.Second.Name != goals[1].Name || len(c.Choices) != len(toCome) {
				t.Fatalf("%s, day %d: %+v", name, day, c)
			}
			unit := unitOf(f, goals[0].Date)
			before := engine.Derive(today, f)
			for k, choice := range c.Choices {
				what := fmt.Sprintf("%s, day %d, choice %d: ", name, day, k)
				other := c.Second
				if choice.Race == c.Second {
					other = c.First
				}
				after := engine.Derive(today, changed(f, today, []*planner.Race{choice.Race}, false))
				nearRange(t, what+"own", choice.Own, quantiles(onRace(f, after, before, today, unit, choice.Race.Date)), 1e-9)
				nearRange(t, what+"other", choice.Other, quantiles(onRace(f, after, before, today, unit, other.Date)), 1e-9)
				nearRange(t, what+"total", choice.Total, quantiles(sumOver(f, after, before, today, unit)), 1e-9)
			}
		}
	}
}

// Seasons without a goal, with one, on race day and when all is over.
func TestCheckAtTheEdges(t *testing.T) {
	f := facts(t, mixedWeek)
	if NewCheck(firstDay, f) != nil {
		t.Error("no race: a check")
	}
	f.Races = []planner.Race{raceOn(50, planner.PriorityB), raceOn(80, planner.PriorityC)}
	if check := NewCheck(firstDay, f); check == nil || len(check.Goals)+check.TaperDays != 0 || check.Crowded ||
		math.Abs(check.Weight-0.5) > 1e-12 || check.Best != nil {
		t.Errorf("no goal: %+v", check)
	}
	f.Races = []planner.Race{raceOn(100, planner.PriorityA)}
	days := engine.Derive(firstDay, f).Tapers[0].Days
	check := NewCheck(firstDay, f)
	if len(check.Goals) != 1 || check.TaperDays != days || len(check.Clashes) != 0 || check.Best != nil || check.SeasonDays != 85 || check.Weight != 1 {
		t.Errorf("one goal: %+v", check)
	}
	if check = NewCheck(f.Races[0].Date, f); check == nil || len(check.Goals) != 1 || check.Goals[0].Days != days || check.Best != nil || check.Weight != 0 {
		t.Errorf("race day: %+v", check)
	}
	if check = NewCheck(f.Races[0].Date+1, f); check != nil {
		t.Errorf("all is over: %+v", check)
	}
	f.Races = append(f.Races, raceOn(400, planner.PriorityA))
	if check = NewCheck(f.Races[0].Date+1, f); check == nil || len(check.Goals) != 1 || check.SeasonDays != 85 {
		t.Errorf("the next season: %+v", check)
	}
	if check = NewCheck(firstDay, f); check.Goals[0].Race.Date != f.Races[0].Date || check.TaperDays != days {
		t.Errorf("the season of the next race: %+v", check)
	}
}

// A season goes on while its races are at most 120 days apart, counted from the last day of the longest stage race.
func TestSeasonGapCountsFromTheLastDay(t *testing.T) {
	stages := raceOn(0, planner.PriorityB)
	stages.Days = 28
	for gap, days := range map[int]int{120: 28 + 120 + 84, 121: 1 + 84} {
		for _, inside := range []bool{false, true} {
			f := facts(t, mixedWeek, stages, raceOn(27+gap, planner.PriorityA))
			if inside { // a race of one day among the stages ends before they do
				f.Races = append(f.Races, raceOn(3, planner.PriorityC))
			}
			if got := NewCheck(f.Races[0].Last()+1, f); got.SeasonDays != days {
				t.Errorf("%d days apart, another race inside: %v: a season of %d days, want %d", gap, inside, got.SeasonDays, days)
			}
		}
	}
}

// More taper days than 30 % of the season's are too many.
func TestCrowdedSeasons(t *testing.T) {
	f := facts(t, mixedWeek)
	for _, day := range []int{60, 90, 120, 150} {
		f.Races = append(f.Races, raceOn(day, planner.PriorityA))
	}
	for days, want := range map[int]bool{0: false, 13: false, 14: true, 21: true} { // 52 of 175 days are allowed
		f.Taper.Days = days
		if check := NewCheck(firstDay, f); check.Crowded != want || days > 0 && check.TaperDays != 4*days {
			t.Errorf("told %d days: %+v", days, check)
		}
	}
}

// What is suggested is what the plan holds once it is told, and brings just what was promised: summed up over the
// days of both plans. It is not suggested again, and each race in it adds clearly to the others.
func TestSuggestionIsKept(t *testing.T) {
	suggested, automatic := 0, 0
	forEach(t, 120, func(i int) {
		today, f := busySeason(t, rand.New(rand.NewPCG(uint64(i), 67)), 6)
		check := NewCheck(today, f)
		if check == nil || check.Best == nil {
			return
		}
		best := check.Best
		suggested++
		if best.Automatic {
			automatic++
		}
		if !(best.Total.Mid >= 0.2*check.Weight) {
			t.Errorf("seed %d: suggested %+v", i, best)
		}
		checkKept(t, i, today, f, check)
	})
	if suggested < 12 || automatic < 2 || automatic == suggested {
		t.Errorf("%d suggestions, %d with automatic lengths", suggested, automatic)
	}
}

func checkKept(t *testing.T, seed int, today planner.Date, f *planner.Facts, check *Check) {
	t.Helper()
	best := check.Best
	after := changed(f, today, best.ToB, best.Automatic)
	before, p := engine.Derive(today, f), engine.Derive(today, after)
	unit := unitOfAll(f, seasonOf(raced(before), today))
	sum := sumOver(f, p, before, today, unit)
	if nearRange(t, fmt.Sprintf("seed %d: total", seed), best.Total, quantiles(sum), 1e-9); !surely(sum) {
		t.Errorf("seed %d: suggested %+v, which is not clear", seed, best)
	}
	for i, was := range before.Races {
		if is := p.Races[i]; was.Race.Last() >= today && (rides(before, was) != rides(p, is) || was.Race.Date != is.Race.Date || was.Race.Last() != is.Race.Last()) {
			t.Errorf("seed %d: %+v drops days of %s", seed, best, was.Race.Name)
		}
	}
	for _, e := range best.Effects {
		nearRange(t, fmt.Sprintf("seed %d: effect on %s", seed, e.Race.Name), e.Change, quantiles(onRace(f, p, before, today, unit, e.Race.Date)), 1e-9)
	}
	for k := range best.ToB {
		if fewer := slices.Delete(slices.Clone(best.ToB), k, k+1); best.Automatic || len(fewer) > 0 {
			without := engine.Derive(today, changed(f, today, fewer, best.Automatic))
			if !surely(sumOver(f, p, without, today, unit)) {
				t.Errorf("seed %d: %s adds nothing clear to the others of %+v", seed, best.ToB[k].Name, best)
			}
		}
	}
	for _, want := range best.Tapers {
		k := slices.IndexFunc(p.Races, func(role planner.RaceRole) bool { return role.Race.Name == want.Race.Name })
		role, days := p.Races[k], 0
		if taper := taperOf(p, want.Race.Name); taper != nil {
			days = taper.Days
		}
		if role.Race.Priority == planner.PriorityB && role.Role == planner.HalfTapered {
			days = 4
		}
		if want.AsB != (role.Race.Priority == planner.PriorityB) || days != want.Days {
			t.Errorf("seed %d: %s: %+v, in the plan %d days", seed, want.Race.Name, want, days)
		}
	}
	if again := NewCheck(today, after); again.Best != nil && (again.Best.Automatic && best.Automatic || sameRaces(again.Best.ToB, best.ToB)) {
		t.Errorf("seed %d: %+v, then again %+v", seed, best, again.Best)
	}
}

func sameRaces(a, b []*planner.Race) bool {
	return slices.EqualFunc(a, b, func(x, y *planner.Race) bool { return x.Name == y.Name })
}

// No single race of a clash made a B race, nor automatic lengths alone, are better than what is suggested, as far as they
// clearly bring 0.2 % a race and more.
func TestSuggestionIsTheBestFound(t *testing.T) {
	forEach(t, 100, func(i int) {
		today, f := busySeason(t, rand.New(rand.NewPCG(uint64(i), 83)), 5)
		check := NewCheck(today, f)
		if check == nil {
			return
		}
		type single struct {
			toB       []*planner.Race
			automatic bool
		}
		var singles []single
		if f.Taper.Days != 0 {
			singles = append(singles, single{automatic: true})
		}
		for _, c := range check.Clashes {
			for _, choice := range c.Choices {
				singles = append(singles, single{toB: []*planner.Race{choice.Race}})
			}
		}
		before := engine.Derive(today, f)
		unit := unitOfAll(f, seasonOf(raced(before), today))
		for _, c := range singles {
			sum := sumOver(f, engine.Derive(today, changed(f, today, c.toB, c.automatic)), before, today, unit)
			mid := quantiles(sum).Mid
			if best := check.Best; surely(sum) && mid >= WorthTelling*check.Weight && (best == nil || mid > best.Total.Mid+1e-9) {
				t.Errorf("seed %d: %+v brings %v, suggested %+v", i, c, mid, best)
			}
		}
	})
}

// The same answer each time, and figures that stay within bounds, whatever happens to riders.
func TestCheckOnRandomSeasons(t *testing.T) {
	forEach(t, rounds.Of(80), func(i int) {
		today, f := busySeason(t, rand.New(rand.NewPCG(uint64(i), 71)), 8)
		check := NewCheck(today, f)
		if !reflect.DeepEqual(check, NewCheck(today, f)) {
			t.Errorf("seed %d: another answer the second time", i)
		}
		if check == nil {
			return
		}
		for _, g := range check.Goals {
			if n := g.Net; !(n.Low <= n.Mid && n.Mid <= n.High) || n.Mid > g.Gain.Mid+15 || check.Crowded != (check.TaperDays > check.SeasonDays*30/100) {
				t.Errorf("seed %d: %+v", i, check)
			}
		}
		if len(check.Clashes) >= max(len(check.Goals), 1) {
			t.Errorf("seed %d: %d clashes of %d goals", i, len(check.Clashes), len(check.Goals))
		}
	})
}

// A lighter week shared a few days before the race is no other training: gain and net gain stay near what
// they were, also where next to nothing is left of it; with that week as the measure all would be many times as much.
func TestLighterWeekBeforeTheRace(t *testing.T) {
	for left, week := range map[int]string{4: lightWeek, 3: hardlyWeek, 1: hardlyWeek} {
		f := facts(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(200, planner.PriorityA))
		f.Taper.Days = 10
		goal := f.Races[1].Date
		for _, today := range []planner.Date{firstDay, goal.AddDays(-left)} {
			lighter := *f
			lighter.Weeks = append(slices.Clone(f.Weeks), dated(t, goal.AddDays(-left), week))
			before, after := NewCheck(today, f), NewCheck(today, &lighter)
			was, is := before.Goals[len(before.Goals)-1], after.Goals[len(after.Goals)-1]
			for _, pair := range [][2]response.Range{{is.Gain, was.Gain}, {is.Net, was.Net}} {
				if got, want := pair[0], pair[1]; got.Mid < 0.49*want.Mid || got.Mid > 1.6*want.Mid || got.High < 0.5*want.High || got.High > 1.6*want.High {
					t.Errorf("week shared on D-%d, asked on %s: got %+v, with the whole week %+v", left, today, got, want)
				}
			}
		}
	}
}

// Where days of races overlap, or a race is cancelled or was not started, a suggestion still leaves every race its
// days, and what it brings is the sum over the races that are ridden.
func TestOverlapsAreNoGain(t *testing.T) {
	suggested, dropping := 0, 0
	forEach(t, 120, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 139))
		today, f := busySeason(t, r, 6)
		stages, other := &f.Races[0], &f.Races[len(f.Races)-1]
		stages.Days, stages.Priority = 2+r.IntN(3), planner.PriorityA
		if other != stages {
			other.Date, other.Days = stages.Date.AddDays(r.IntN(stages.Days+1)-r.IntN(2)), 1+r.IntN(2)
			other.Priority = oneOf(r, planner.PriorityA, planner.PriorityA, planner.PriorityB)
		}
		if len(f.Races) > 3 {
			f.Races[1].Status = oneOf(r, planner.Cancelled, planner.NotStarted)
		}
		s := newSeason(today, f)
		if s == nil {
			return
		}
		for _, race := range s.toCome {
			if race.Priority == planner.PriorityA && s.choice([]*planner.Race{race}, false).drops {
				dropping++
			}
		}
		check := NewCheck(today, f)
		if check.Best == nil {
			return
		}
		suggested++
		ridden := *f
		ridden.Races = nil
		for _, race := range s.toCome {
			ridden.Races = append(ridden.Races, *race)
		}
		before, after := s.base, engine.Derive(today, changed(f, today, check.Best.ToB, check.Best.Automatic))
		sum := sumOver(&ridden, after, before, today, unitOfAll(f, s.races))
		if nearRange(t, fmt.Sprintf("seed %d: total", i), check.Best.Total, quantiles(sum), 1e-9); !surely(sum) {
			t.Errorf("seed %d: %+v is not clear", i, check.Best)
		}
		for d := today; d <= s.races[len(s.races)-1].Last(); d++ {
			was, is := before.Known(d), after.Known(d)
			if was.Phase == planner.RaceDay && (is.Phase != planner.RaceDay || was.Race.Name != is.Race.Name) {
				t.Errorf("seed %d: %+v takes %s from %s", i, check.Best, d, was.Race.Name)
			}
		}
	})
	if suggested < 8 || dropping < 8 {
		t.Errorf("%d suggestions, %d choices would drop days", suggested, dropping)
	}
}
