package planner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"sync/atomic"
	"testing"

	"musette/planner"
	"musette/planner/response"
)

// Lost is what the tapers take from the fitness of the last goal's morning: the sum of what each
// day lacks, decayed, against endless usual days (Calvert et al. 1976).
func TestLostIsTheSumOfDays(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(128, planner.PriorityC), raceOn(150, planner.PriorityA), raceOn(215, planner.PriorityA))
	goal, unit := f.Races[3].Date, weekLoad(&f.Weeks[0].Week)
	p := planner.Derive(firstDay, f)
	var lost []float64
	for _, draw := range response.Prior() {
		usual, removed := 0.0, 0.0
		for u := 1; u < 2000; u++ {
			usual += math.Exp(-float64(u) / draw.Tau1)
		}
		for _, sum := range p.Tapers {
			for d := sum.From; d < sum.Race.Date; d++ {
				day, _ := p.Day(d)
				removed += (usually(day, f) - ridden(day, f)) / unit * math.Exp(-float64(d.DaysUntil(goal))/draw.Tau1)
			}
		}
		lost = append(lost, 100*removed/usual)
	}
	for _, back := range []planner.Date{0, 60, 99, 125, 190} { // as today moves, also inside tapers
		check := f.CheckSeason(firstDay + back)
		if check.Tapers != 3 || check.Last.Date != goal || check.SeasonDays != 116+84 {
			t.Errorf("day %d: %d tapers by %v in %d days", back, check.Tapers, check.Last, check.SeasonDays)
		}
		nearRange(t, "lost", check.Lost, quantiles(lost), 1e-6)
		for _, g := range check.Goals {
			k := slices.IndexFunc(p.Tapers, func(sum planner.TaperSummary) bool { return sum.Race.Date == g.Race.Date })
			if g.Days != p.Tapers[k].Days {
				t.Errorf("%s: %d days, planned %d", g.Race.Name, g.Days, p.Tapers[k].Days)
			}
			nearRange(t, g.Race.Name, g.Gain, p.Tapers[k].Expected.Gain, 1e-9)
		}
	}
	if check := f.CheckSeason(firstDay); check.TaperDays != p.Tapers[0].Days+p.Tapers[1].Days+p.Tapers[2].Days {
		t.Errorf("%d taper days", check.TaperDays)
	}
}

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
	if nearRange(t, fmt.Sprintf("seed %d: total", seed), best.Total, quantiles(sum), 1e-9); best.Sure != surely(sum) || !(quantiles(sum).Mid >= 0.1) {
		t.Errorf("seed %d: suggested %+v, sure: %v", seed, best, surely(sum))
	}
	checkEffects(t, seed, today, f, best, p, before)
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

// checkEffects compares what a change does to each goal to come.
func checkEffects(t *testing.T, seed int, today planner.Date, f *planner.Facts, best *planner.SeasonChange, after, before *planner.Plan) {
	t.Helper()
	toCome := slices.DeleteFunc(newNaiveSeason(f).races, func(r planner.Race) bool { return r.Priority != planner.PriorityA || r.Date <= today })
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

// No single race of a clash made a B race, nor automatic lengths alone, are better than what is suggested: sure
// before not sure, then the greater middle.
func TestSuggestionIsTheBestFound(t *testing.T) {
	forEach(t, 150, func(t *testing.T, i int) {
		today, f := eventfulSeason(t, rand.New(rand.NewPCG(uint64(i), 83)), 5)
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
			if mid, sure := quantiles(sum).Mid, surely(sum); mid >= 0.1 && (check.Best == nil || sure && !check.Best.Sure ||
				sure == check.Best.Sure && mid > check.Best.Total.Mid+1e-9) {
				t.Errorf("seed %d: %+v brings %v, sure: %v; suggested %+v", i, c, mid, sure, check.Best)
			}
		}
	})
}

func sameRaces(a, b []*planner.Race) bool {
	return slices.EqualFunc(a, b, func(x, y *planner.Race) bool { return x.Name == y.Name })
}

// A races less than 28 days apart clash, counted from the last day of a stage race (common practice).
func TestClashes(t *testing.T) {
	for gap, want := range map[int]int{5: 1, 14: 1, 15: 1, 27: 1, 28: 0, 29: 0} {
		first := raceOn(100, planner.PriorityA)
		first.Days = 4
		f := rider(t, mixedWeek, first, raceOn(103+gap, planner.PriorityA))
		check := f.CheckSeason(firstDay)
		if len(check.Clashes) != want || hasCloseWarning(f) != (want > 0) {
			t.Errorf("%d days apart: clashes %+v, warned %v", gap, check.Clashes, hasCloseWarning(f))
			continue
		}
		for _, c := range check.Clashes {
			if c.Days != gap || c.Carried != (gap <= 14) || c.First.Date != f.Races[0].Date || c.Second.Date != f.Races[1].Date ||
				c.Choices[0].Race != c.First || c.Choices[1].Race != c.Second {
				t.Errorf("%d days apart: %+v", gap, c)
			}
			for _, choice := range c.Choices {
				for _, v := range []response.Range{choice.Own, choice.Other, choice.Total} {
					if !(v.Low <= v.Mid && v.Mid <= v.High) {
						t.Errorf("%d days apart: %+v", gap, choice)
					}
				}
			}
			// Without its own taper the second race gains less, and the first one does not see it.
			if c.Choices[1].Own.Mid >= 0 && gap > 14 {
				t.Errorf("%d days apart: the second race as a B race gains %+v itself", gap, c.Choices[1].Own)
			}
		}
	}
}

func hasCloseWarning(f *planner.Facts) bool {
	return slices.ContainsFunc(planner.Derive(firstDay, f).Warnings, func(w planner.Warning) bool { return w.Code == "season.close" })
}

// Each choice of a clash is worked out from the plans: what a race as a B race gains, what the other one gains by it, and
// the weighted sum over all races to come; with the longest recovery cut off by the second race too, and inside a taper.
func TestClashIsWeighed(t *testing.T) {
	long := raceOn(100, planner.PriorityA)
	long.Hours = 9
	told := rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA))
	told.Taper.Days = 8
	for name, f := range map[string]*planner.Facts{
		"automatic":   rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA)),
		"told":        told,
		"near":        rider(t, mixedWeek, long, raceOn(105, planner.PriorityA)),
		"with others": rider(t, mixedWeek, raceOn(80, planner.PriorityB), raceOn(100, planner.PriorityA), raceOn(117, planner.PriorityC), raceOn(120, planner.PriorityA), raceOn(160, planner.PriorityB)),
	} {
		goals := slices.DeleteFunc(slices.Clone(f.Races), func(r planner.Race) bool { return r.Priority != planner.PriorityA })
		for _, day := range []int{0, 94, 99, 100, 102} {
			today := firstDay.AddDays(day)
			check := f.CheckSeason(today)
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
			if c.First.Name != goals[0].Name || c.Second.Name != goals[1].Name || c.Carried != (c.Days <= 14) || len(c.Choices) != len(toCome) {
				t.Fatalf("%s, day %d: %+v", name, day, c)
			}
			before := planner.Derive(today, f)
			for k, choice := range c.Choices {
				what := fmt.Sprintf("%s, day %d, choice %d: ", name, day, k)
				other := c.Second
				if choice.Race == c.Second {
					other = c.First
				}
				if choice.Race.Name != toCome[k].Name {
					t.Errorf("%s is %s", what, choice.Race.Name)
				}
				after := planner.Derive(today, changed(f, &planner.SeasonChange{ToB: []*planner.Race{choice.Race}}))
				nearRange(t, what+"own", choice.Own, quantiles(difference(t, f, today, after, before, choice.Race.Date)), 1e-9)
				nearRange(t, what+"other", choice.Other, quantiles(difference(t, f, today, after, before, other.Date)), 1e-9)
				nearRange(t, what+"total", choice.Total, quantiles(summed(t, f, today, after, before)), 1e-9)
			}
		}
	}
}

// Seasons without a goal, with one, on race day and when all is over.
func TestSeasonCheckAtTheEdges(t *testing.T) {
	f := rider(t, mixedWeek)
	if f.CheckSeason(firstDay) != nil {
		t.Error("no race: a check")
	}
	f.Races = []planner.Race{raceOn(50, planner.PriorityB), raceOn(80, planner.PriorityC)}
	if check := f.CheckSeason(firstDay); check == nil || check.Last != nil || len(check.Goals)+check.Tapers+check.TaperDays != 0 || check.Crowded ||
		math.Abs(check.Weight-0.5) > 1e-12 || check.Best != nil || check.Lost != (response.Range{}) {
		t.Errorf("no goal: %+v", check)
	}
	f.Races = []planner.Race{raceOn(100, planner.PriorityA)}
	check := f.CheckSeason(firstDay)
	if len(check.Goals) != 1 || check.Tapers != 1 || check.TaperDays != 14 || len(check.Clashes) != 0 || check.Best != nil || check.SeasonDays != 85 || check.Weight != 1 {
		t.Errorf("one goal: %+v", check)
	}
	if check = f.CheckSeason(f.Races[0].Date); check == nil || len(check.Goals) != 1 || check.Goals[0].Days != 14 || check.Best != nil || check.Weight != 0 {
		t.Errorf("race day: %+v", check)
	}
	if check = f.CheckSeason(f.Races[0].Date + 1); check != nil {
		t.Errorf("all is over: %+v", check)
	}
	f.Races = append(f.Races, raceOn(400, planner.PriorityA))
	if check = f.CheckSeason(f.Races[0].Date + 1); check == nil || len(check.Goals) != 1 || check.SeasonDays != 85 || check.Tapers != 1 {
		t.Errorf("the next season: %+v", check)
	}
	if check = f.CheckSeason(firstDay); check.Last.Date != f.Races[0].Date || check.TaperDays != 14 {
		t.Errorf("the season of the next race: %+v", check)
	}
}

// The same answer each time, and figures that stay within bounds, whatever happens to riders.
func TestSeasonCheckOnRandomSeasons(t *testing.T) {
	forEach(t, 60, func(t *testing.T, i int) {
		today, f := eventfulSeason(t, rand.New(rand.NewPCG(uint64(i), 71)), 8)
		check := f.CheckSeason(today)
		if !reflect.DeepEqual(check, f.CheckSeason(today)) {
			t.Errorf("seed %d: another answer the second time", i)
		}
		if check == nil {
			return
		}
		left, weight := 0, 0.0
		for _, a := range f.Races {
			if a.Priority == planner.PriorityA && a.Last() >= today {
				left++
			}
			if a.Date > today {
				weight += worth[a.Priority]
			}
		}
		if len(check.Goals) != left || len(check.Clashes) >= max(left, 1) || math.Abs(check.Weight-weight) > 1e-9 {
			t.Errorf("seed %d: %d goals to come of weight %v, check %+v", i, left, weight, check)
		}
		if l := check.Lost; !(l.Low <= l.Mid && l.Mid <= l.High && (l.High < 60 || len(f.Weeks) > 1)) || check.Crowded != (check.TaperDays > check.SeasonDays*30/100) {
			t.Errorf("seed %d: %+v", i, check)
		}
	})
}

// The whole season's taper days stay the same as today moves, also when its first goals are half a year old.
func TestTaperDaysOfTheWholeSeason(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(200, planner.PriorityA), raceOn(300, planner.PriorityA))
	want := f.CheckSeason(firstDay)
	for day := 0; day <= 300; day += 5 {
		got := f.CheckSeason(firstDay.AddDays(day))
		if got.TaperDays != want.TaperDays || got.Tapers != want.Tapers {
			t.Errorf("day %d: %d taper days, %d tapers; on day 0 %d and %d", day, got.TaperDays, got.Tapers, want.TaperDays, want.Tapers)
		}
	}
}

// Where the usual week changes before the races, their own week is the measure, also after a winter without training.
func TestSeasonCheckBeforeWeekChange(t *testing.T) {
	for _, winter := range []string{"mon rest; tue rest; wed rest; thu rest; fri rest; sat rest; sun rest", mixedWeek} {
		f := rider(t, winter, raceOn(200, planner.PriorityA))
		f.Weeks = append(f.Weeks, planner.DatedWeek{From: firstDay + 7, Week: rider(t, evenWeek).Weeks[0].Week})
		before, after := f.CheckSeason(firstDay), f.CheckSeason(firstDay+60)
		if before == nil {
			t.Fatal("no check before the change")
		}
		nearRange(t, "gain", before.Goals[0].Gain, planner.Derive(firstDay, f).Tapers[0].Expected.Gain, 1e-9)
		nearRange(t, "lost", before.Lost, after.Lost, 1e-9)
	}
}

// What is ridden cannot be undone: on race day the race itself is no choice any more, on its eve only that day
// changes it (Fitz-Clarke et al. 1991: the influence of one day).
func TestPastDaysStayInClashes(t *testing.T) {
	f := rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(125, planner.PriorityA))
	f.Taper.Days = 20
	goal, unit := f.Races[0].Date, weekLoad(&f.Weeks[0].Week)
	check := f.CheckSeason(goal - 1)
	asA, _ := planner.Derive(goal-1, f).Day(goal - 1)
	asB, _ := planner.Derive(goal-1, changed(f, &planner.SeasonChange{ToB: []*planner.Race{check.Clashes[0].First}})).Day(goal - 1)
	var own []float64
	for _, draw := range response.Prior() {
		own = append(own, (ridden(asB, f)-ridden(asA, f))/unit*influence(draw, 1))
	}
	nearRange(t, "as a B race on its eve", check.Clashes[0].Choices[0].Own, quantiles(own), 1e-9)
	check = f.CheckSeason(goal)
	if c := check.Clashes[0]; len(c.Choices) != 1 || c.Choices[0].Race.Date != goal+25 || c.Choices[0].Other != (response.Range{}) {
		t.Errorf("on race day: %+v", c)
	}
	if check.Best != nil && slices.ContainsFunc(check.Best.ToB, func(r *planner.Race) bool { return r.Date == goal }) {
		t.Errorf("on race day: %+v for what is past", check.Best)
	}
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

// What tapers take from fitness stays the same as those long past are planned no
// more, to less than what is shown.
func TestLostKeepsOldTapers(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(200, planner.PriorityA), raceOn(300, planner.PriorityA))
	want := f.CheckSeason(firstDay)
	for day := 0; day <= 300; day += 5 {
		nearRange(t, fmt.Sprintf("day %d: lost", day), f.CheckSeason(firstDay.AddDays(day)).Lost, want.Lost, 0.1)
	}
}
