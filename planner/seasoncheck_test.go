package planner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
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

// The optimum of the expected values brings as much as the best of all choices, tried one
// by one with windows, races, recovery days and 30 % of the days as bounds; what is past stays.
func TestSeasonOptimumIsTheBestOfAll(t *testing.T) {
	forEach(t, 60, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 61))
		f := randomSeason(t, r, 4)
		s := newNaiveSeason(f)
		planned := tapersOf(planner.Derive(firstDay, f))
		today := s.quietDay(r, planned)
		check := f.CheckSeason(today)
		ways := s.whole(today, planned)
		_, want, ok := s.best(ways, nil)
		if !ok {
			t.Fatalf("seed %d: nothing fits", i)
		}
		keep := func(k int, w way) bool {
			at := slices.IndexFunc(check.Average, func(a planner.SeasonTaper) bool { return a.Race.Date == s.races[k].Date })
			return at < 0 || check.Average[at].Days == w.days && check.Average[at].AsB == w.asB
		}
		if _, sum, found := s.best(ways, keep); !found || math.Abs(sum-want) > 1e-9 {
			t.Errorf("seed %d on %s: %+v brings %.12f (allowed: %v), the best brings %.12f\n%+v", i, today, check.Average, sum, found, want, f.Races)
		}
		for _, a := range check.Average {
			if n := planned[a.Race.Date]; check.Held && (a.AsB || a.Days != n) {
				t.Errorf("seed %d: held, but %s has %d days, not %d", i, a.Race.Name, n, a.Days)
			}
		}
	})
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

// What is suggested is what the plan holds once it is done, and is not suggested again.
func TestSuggestionIsWhatThePlanHolds(t *testing.T) {
	forEach(t, 100, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 67))
		f := randomSeason(t, r, 7)
		f.Taper.Days = []int{0, 0, 7, 14, 21, 28}[r.IntN(6)]
		today := firstDay.AddDays(r.IntN(100))
		for k := range f.Races {
			f.Races[k].Registered = min(f.Races[k].Registered, today)
		}
		check := f.CheckSeason(today)
		if check == nil || check.Best == nil {
			return
		}
		after := changed(f, check.Best)
		p := planner.Derive(today, after)
		for _, want := range check.Best.Tapers {
			k := slices.IndexFunc(p.Races, func(role planner.RaceRole) bool { return role.Race.Name == want.Race.Name })
			role := p.Races[k]
			got := tapersOf(p)[role.Race.Date]
			if want.AsB != (role.Race.Priority == planner.PriorityB) || !want.AsB && got != want.Days {
				t.Errorf("seed %d: %s: %+v, in the plan %d days\n%+v\n%+v", i, want.Race.Name, want, got, f.Races, check.Best)
			}
		}
		if again := after.CheckSeason(today); again.Best != nil && (again.Best.Automatic == check.Best.Automatic && again.Best.Automatic || sameRaces(again.Best.ToB, check.Best.ToB)) {
			t.Errorf("seed %d: %+v, then again %+v", i, check.Best, again.Best)
		}
		if total := check.Best.Total; !(total.Mid > 0) || !check.Best.Sure && len(check.Clashes) == 0 {
			t.Errorf("seed %d: suggested %+v", i, check.Best)
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
			if c.Days != gap || c.First.Date != f.Races[0].Date || c.Second.Date != f.Races[1].Date ||
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

// Each choice of a clash is worked out by hand: what a race as a B race gains, what the other one
// gains by it, and the weighted sum (A 1); with the longest recovery cut off by the second race too.
func TestClashIsWeighed(t *testing.T) {
	long := raceOn(100, planner.PriorityA)
	long.Hours = 9
	for name, f := range map[string]*planner.Facts{
		"automatic": rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA)),
		"told":      rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(120, planner.PriorityA)),
		"near":      rider(t, mixedWeek, long, raceOn(105, planner.PriorityA)),
	} {
		if name == "told" {
			f.Taper.Days = 8
		}
		c, s := f.CheckSeason(firstDay).Clashes[0], newNaiveSeason(f)
		planned := tapersOf(planner.Derive(firstDay, f))
		before := [2]way{s.easyAfter(0, s.taper(s.races[0], planned[s.races[0].Date])), s.easyAfter(1, s.taper(s.races[1], planned[s.races[1].Date]))}
		for k := range c.Choices {
			alone := *f
			alone.Races = slices.Clone(f.Races)
			alone.Races[k].Priority = planner.PriorityB
			after := [2]way{s.half(s.races[k]), s.half(s.races[k])}
			if name == "near" {
				after[k] = way{} // inside the other one's taper or recovery days
			}
			after[1-k] = s.easyAfter(1-k, s.taper(s.races[1-k], tapersOf(planner.Derive(firstDay, &alone))[s.races[1-k].Date]))
			own, other, total := make([]float64, 0, 128), make([]float64, 0, 128), make([]float64, 0, 128)
			for _, draw := range response.Prior() {
				var at [2]float64
				for race := range at {
					for i := range after {
						at[race] += actsOn(after[i], s.races[race].Date, draw) - actsOn(before[i], s.races[race].Date, draw)
					}
				}
				own, other, total = append(own, at[k]), append(other, at[1-k]), append(total, at[0]+at[1])
			}
			nearRange(t, fmt.Sprintf("%s, choice %d: own", name, k), c.Choices[k].Own, quantiles(own), 1e-9)
			nearRange(t, fmt.Sprintf("%s, choice %d: other", name, k), c.Choices[k].Other, quantiles(other), 1e-9)
			nearRange(t, fmt.Sprintf("%s, choice %d: total", name, k), c.Choices[k].Total, quantiles(total), 1e-9)
		}
	}
}

// actsOn is what a way brings to one race, per cent.
func actsOn(w way, race planner.Date, draw response.Draw) float64 {
	sum := 0.0
	for d, load := range w.changed {
		if age := d.DaysUntil(race); age > 0 {
			sum += load * influence(draw, age)
		}
	}
	return sum
}

// Seasons without a goal, with one, on race day and when all is over.
func TestSeasonCheckAtTheEdges(t *testing.T) {
	f := rider(t, mixedWeek)
	if f.CheckSeason(firstDay) != nil {
		t.Error("no race: a check")
	}
	f.Races = []planner.Race{raceOn(50, planner.PriorityB), raceOn(80, planner.PriorityC)}
	if check := f.CheckSeason(firstDay); check == nil || check.Last != nil || len(check.Goals)+check.Tapers+check.TaperDays+len(check.Average) != 0 ||
		check.Best != nil || check.Lost != (response.Range{}) {
		t.Errorf("no goal: %+v", check)
	}
	f.Races = []planner.Race{raceOn(100, planner.PriorityA)}
	check := f.CheckSeason(firstDay)
	if len(check.Goals) != 1 || check.Tapers != 1 || check.TaperDays != 14 || len(check.Clashes) != 0 || check.Best != nil || check.SeasonDays != 85 {
		t.Errorf("one goal: %+v", check)
	}
	if check = f.CheckSeason(f.Races[0].Date); check == nil || len(check.Goals) != 1 || check.Goals[0].Days != 14 || check.Best != nil {
		t.Errorf("race day: %+v", check)
	}
	f.Taper.Days = 7 // and longer ones no longer fit
	if check = f.CheckSeason(f.Races[0].Date - 9); len(check.Average) != 1 || check.Average[0].Days > 9 {
		t.Errorf("nine days left: %+v", check.Average)
	}
	f.Taper.Days = 0
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
		r := rand.New(rand.NewPCG(uint64(i), 71))
		f := randomSeason(t, r, 8)
		today := firstDay.AddDays(r.IntN(200))
		f.Absences = []planner.Absence{{From: today + 10, To: today + 16}}
		f.Done = []planner.Ride{{Date: today - 3, Minutes: 100, RPE: 8}, {Date: today - 1, Minutes: 0}}
		check := f.CheckSeason(today)
		if !reflect.DeepEqual(check, f.CheckSeason(today)) {
			t.Errorf("seed %d: another answer the second time", i)
		}
		if check == nil {
			return
		}
		left := 0
		for _, a := range f.Races {
			if a.Priority == planner.PriorityA && a.Last() >= today {
				left++
			}
		}
		if len(check.Goals) != left || len(check.Average) != left || len(check.Clashes) >= max(left, 1) {
			t.Errorf("seed %d: %d goals to come, check %+v", i, left, check)
		}
		if l := check.Lost; !(l.Low <= l.Mid && l.Mid <= l.High && l.High < 50) || check.Held && check.TaperDays > check.SeasonDays*30/100 {
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

// What is ridden cannot be undone: on race day nothing changes the race any more, on its eve only that day does
// (Fitz-Clarke et al. 1991: the influence of one day).
func TestPastDaysStayInClashes(t *testing.T) {
	f := rider(t, evenWeek, raceOn(100, planner.PriorityA), raceOn(125, planner.PriorityA))
	f.Taper.Days = 20
	goal, eve := f.Races[0].Date, 0.5-left(20)[19] // half of the usual load instead of what the taper leaves
	var own []float64
	for _, draw := range response.Prior() {
		own = append(own, eve*influence(draw, 1))
	}
	for today, want := range map[planner.Date]response.Range{goal: {}, goal - 1: quantiles(own)} {
		check := f.CheckSeason(today)
		nearRange(t, "as a B race on "+today.String(), check.Clashes[0].Choices[0].Own, want, 1e-9)
		if today == goal && check.Best != nil && slices.ContainsFunc(check.Best.ToB, func(r *planner.Race) bool { return r.Date == goal }) {
			t.Errorf("on %s: %+v for what is past", today, check.Best)
		}
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
