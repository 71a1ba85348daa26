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
			weight, later := laterOf(f, p, &p.Tapers[k])
			near(t, g.Race.Name+": weight of later races", g.LaterWeight, weight, 1e-9)
			nearRange(t, g.Race.Name+": later", g.Later, quantiles(later), 1e-9)
		}
	}
	if check := f.CheckSeason(firstDay); check.TaperDays != p.Tapers[0].Days+p.Tapers[1].Days+p.Tapers[2].Days {
		t.Errorf("%d taper days", check.TaperDays)
	}
}

// laterOf is what a taper does to all later races, one value a draw, and how much they weigh.
func laterOf(f *planner.Facts, p *planner.Plan, sum *planner.TaperSummary) (weight float64, later []float64) {
	later = make([]float64, len(response.Prior()))
	for _, r := range f.Races {
		if r.Date <= sum.Race.Date {
			continue
		}
		weight += worth[r.Priority]
		for d := sum.From; d < sum.Race.Date; d++ {
			if day, _ := p.Day(d); day.Phase != planner.RaceDay {
				for j, draw := range response.Prior() {
					later[j] += worth[r.Priority] * (ridden(day, f) - usually(day, f)) / unitOf(f, sum.Race.Date) * influence(draw, d.DaysUntil(r.Date))
				}
			}
		}
	}
	return weight, later
}

// A races at most 28 days apart clash, those less apart have the warning; counted from the last day of a stage race (common practice).
func TestClashes(t *testing.T) {
	for gap, want := range map[int]int{5: 1, 14: 1, 15: 1, 27: 1, 28: 1, 29: 0} {
		first := raceOn(100, planner.PriorityA)
		first.Days = 4
		f := rider(t, mixedWeek, first, raceOn(103+gap, planner.PriorityA))
		check := f.CheckSeason(firstDay)
		if len(check.Clashes) != want || hasCloseWarning(f) != (gap < 28) {
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

// What tapers take from fitness stays the same as those long past are planned no
// more, to less than what is shown.
func TestLostKeepsOldTapers(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(200, planner.PriorityA), raceOn(300, planner.PriorityA))
	want := f.CheckSeason(firstDay)
	for day := 0; day <= 300; day += 5 {
		nearRange(t, fmt.Sprintf("day %d: lost", day), f.CheckSeason(firstDay.AddDays(day)).Lost, want.Lost, 0.1)
	}
}
