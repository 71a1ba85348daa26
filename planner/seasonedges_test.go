package planner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/planner"
	"musette/planner/response"
)

// An A race long over, chained to later B and C races, fails nothing, whatever day it is asked on and whoever chose the
// lengths; taper days stay those of the whole season.
func TestOldGoalInAChainOfRaces(t *testing.T) {
	on := func(name string, p planner.Priority, month time.Month, day int) planner.Race {
		return planner.Race{Name: name, Date: planner.NewDate(2026, month, day), Priority: p, Hours: 3, Days: 1}
	}
	for _, told := range []int{0, 21} {
		f := rider(t, mixedWeek, on("Gorge Circuit", planner.PriorityA, 4, 11), on("Heron Valley", planner.PriorityB, 7, 25),
			on("Mill Circuit", planner.PriorityB, 10, 10), on("Hill Loop", planner.PriorityC, 11, 21))
		f.Taper.Days = told
		first := f.CheckSeason(planner.NewDate(2026, 4, 12))
		for today := planner.NewDate(2026, 4, 12); today <= f.Races[3].Date; today += 3 {
			check := f.CheckSeason(today)
			if check == nil || check.TaperDays != first.TaperDays || check.TaperDays == 0 || check.Last != nil || check.Best != nil ||
				check.SeasonDays != f.Races[0].Date.DaysUntil(f.Races[3].Date)+85 {
				t.Errorf("%s: %+v", today, check)
			}
			if p := planner.Derive(today, f); len(p.Days) == 0 {
				t.Errorf("%s: no days", today)
			}
		}
		if check := f.CheckSeason(planner.NewDate(2026, 10, 1)); math.Abs(check.Weight-0.5) > 1e-12 {
			t.Errorf("on 1 Oct races of weight %v are to come", check.Weight)
		}
	}
}

// A lighter week shared a few days before the race is no other training: gain, length and what the season loses stay nearly
// as they were, also where next to nothing is left of it.
func TestLighterWeekBeforeTheRace(t *testing.T) {
	for left, week := range map[int]string{4: lightWeek, 3: hardlyWeek, 1: hardlyWeek} {
		f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(200, planner.PriorityA))
		goal := f.Races[1].Date
		for _, today := range []planner.Date{firstDay, goal.AddDays(-left)} {
			before, usual := f.CheckSeason(today), planner.Derive(today, f)
			lighter := *f
			lighter.Weeks = append(slices.Clone(f.Weeks), dated(t, goal.AddDays(-left), week))
			after, p := lighter.CheckSeason(today), planner.Derive(today, &lighter)
			was, is := usual.Tapers[len(usual.Tapers)-1], p.Tapers[len(p.Tapers)-1]
			if is.Days != was.Days || after.TaperDays != before.TaperDays || len(after.Goals) != len(before.Goals) || after.Best != nil {
				t.Fatalf("week shared on D-%d: %+v, before %+v", left, after, before)
			}
			what := fmt.Sprintf("week shared on D-%d, asked on %s: ", left, today)
			near(t, what+"kept", is.Expected.Kept, was.Expected.Kept, 0.03)
			near(t, what+"shed", is.Expected.Shed, was.Expected.Shed, 0.1)
			// What the last days no longer have cannot be cut any more; with their week as the measure all would be many times as much.
			for _, pair := range [][2]response.Range{{is.Expected.Gain, was.Expected.Gain}, {after.Lost, before.Lost}} {
				if got, want := pair[0], pair[1]; got.Mid < 0.55*want.Mid || got.Mid > 1.15*want.Mid || got.High < 0.55*want.High || got.High > 1.15*want.High {
					t.Errorf("%sgot %+v, with the whole week %+v", what, got, want)
				}
			}
			if is.Expected.Gain.Mid < 0.5 || after.Goals[len(after.Goals)-1].Gain != is.Expected.Gain {
				t.Errorf("%sgain %+v, in the season check %+v", what, is.Expected.Gain, after.Goals[len(after.Goals)-1].Gain)
			}
			o, ok := lighter.Options(min(today, goal-1), f.Races[1].Name, goal)
			if !ok {
				t.Fatalf("%sno options", what)
			}
			checkOptions(t, o, is, is.From < min(today, goal-1))
		}
	}
}

// A season goes on while its races are at most 120 days apart, counted from the last day of the longest stage race.
func TestSeasonGapCountsFromTheLastDay(t *testing.T) {
	stages := raceOn(0, planner.PriorityB)
	stages.Days = 28
	for gap, days := range map[int]int{120: 28 + 120 + 84, 121: 1 + 84} {
		for _, inside := range []bool{false, true} {
			f := rider(t, mixedWeek, stages, raceOn(27+gap, planner.PriorityA))
			if inside { // a race of one day among the stages ends before they do
				f.Races = append(f.Races, raceOn(3, planner.PriorityC), raceOn(5, planner.PriorityA))
			}
			today := f.Races[0].Last() + 1
			if got := f.CheckSeason(today); got.SeasonDays != days {
				t.Errorf("%d days apart, another race inside: %v: a season of %d days, want %d", gap, inside, got.SeasonDays, days)
			}
		}
	}
}

// A told length says that it is the rider's and, over three weeks, that no trial supports it; its reason is common practice. An
// automatic one names papers.
func TestWhatLengthsSay(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(200, planner.PriorityA))
	for days, want := range map[int]string{0: "no other A race is near", 14: "14 days, as you set it.", 21: "21 days, as you set it.",
		22: "22 days, as you set it; trials support 8 to 14, and none more than 21.", 28: "28 days, as you set it; trials support 8 to 14, and none more than 21."} {
		f.Taper.Days = days
		p := planner.Derive(firstDay, f)
		sum := &p.Tapers[0]
		why := p.WhyLength(sum)
		if !strings.Contains(sum.LengthRule, want) || !strings.HasPrefix(why.Text, sum.LengthRule) || sum.Automatic != (days == 0) ||
			strings.Contains(why.Source, "2007") != (days == 0) {
			t.Errorf("told %d days: %q (automatic: %v), because %+v", days, sum.LengthRule, sum.Automatic, why)
		}
	}
	f.Taper.Days, f.Races[0].Registered = 0, f.Races[0].Date-9
	p := planner.Derive(f.Races[0].Registered, f)
	if sum := &p.Tapers[0]; sum.Automatic || strings.Contains(p.WhyLength(sum).Source, "2007") || p.OtherLengths(sum) != "" {
		t.Errorf("registered late: %+v, %+v", sum, p.WhyLength(sum))
	}
}

// Where the defaults take more than 30 % of a season's days, what replaces them says so and claims nothing of the model.
func TestWhatCrowdedLengthsSay(t *testing.T) {
	f := rider(t, mixedWeek)
	for _, day := range []int{60, 73, 84, 97, 108, 119, 149, 179} {
		r := raceOn(day, planner.PriorityA)
		r.Hours = 2
		f.Races = append(f.Races, r)
	}
	s := newNaiveSeason(f)
	if _, _, ok := s.best(s.ways(false), nil); ok {
		t.Fatal("the season is not crowded")
	}
	shorter := 0
	for _, sum := range planner.Derive(firstDay, f).Tapers {
		at := slices.IndexFunc(s.races, func(r planner.Race) bool { return r.Date == sum.Race.Date })
		standard, _, _ := s.candidates(at)
		said := fmt.Sprintf("%d days, because tapers would take over 30 %% of the season's days with the usual %d.", sum.Days, standard)
		if sum.Days != standard {
			shorter++
		}
		if (sum.LengthRule == said) != (sum.Days != standard) || strings.Contains(sum.LengthRule, "the model") {
			t.Errorf("%s: %d days, the default is %d: %q", sum.Race.Name, sum.Days, standard, sum.LengthRule)
		}
	}
	if check := f.CheckSeason(firstDay); shorter == 0 || check.Crowded || check.TaperDays > check.SeasonDays*30/100 {
		t.Errorf("%d shorter tapers, %d taper days of %d", shorter, check.TaperDays, check.SeasonDays)
	}
	f.Taper.Days = 28
	if check := f.CheckSeason(firstDay); !check.Crowded {
		t.Errorf("told 28 days: %d taper days of %d are not crowded", check.TaperDays, check.SeasonDays)
	}
}

// What is planned for races to come stays the same as today moves on, though races that lost days to each other are long
// over: they belong to the season on every day as they did.
func TestRacesLongPastStayAsTheyWere(t *testing.T) {
	forEach(t, 10, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 101))
		stages := raceOn(0, planner.PriorityA)
		stages.Days = 28
		f := rider(t, mixedWeek, stages, raceOn(2, planner.PriorityC))
		if i > 0 { // else the known case
			f.Races = nil
			for range 2 + r.IntN(4) {
				race := raceOn(r.IntN(40), planner.Priority(r.IntN(3)))
				race.Name, race.Days = fmt.Sprintf("Past race %d", len(f.Races)), []int{1, 1, 3, 10, 28}[r.IntN(5)]
				f.Races = append(f.Races, race)
			}
		}
		f.Races = append(f.Races, raceOn(140, planner.PriorityB), raceOn(250, planner.PriorityA))
		f.Taper.Days = []int{0, 0, 14}[i%3]
		wantPlan, want := planner.Derive(firstDay+100, f), f.CheckSeason(firstDay+100)
		last := wantPlan.Tapers[len(wantPlan.Tapers)-1]
		for day := 110; day < 250; day += 7 {
			today := firstDay.AddDays(day)
			p, got := planner.Derive(today, f), f.CheckSeason(today)
			if got.SeasonDays != want.SeasonDays || got.TaperDays != want.TaperDays || got.Tapers != want.Tapers || got.Crowded != want.Crowded {
				t.Errorf("seed %d, day %d: %d season days, %d taper days, %d tapers; on day 100 %d, %d and %d\n%+v", i, day, got.SeasonDays, got.TaperDays, got.Tapers,
					want.SeasonDays, want.TaperDays, want.Tapers, f.Races)
			}
			if sum := p.Tapers[len(p.Tapers)-1]; sum.Days != last.Days || sum.LengthRule != last.LengthRule {
				t.Errorf("seed %d, day %d: %+v, on day 100 %+v", i, day, sum, last)
			}
			for k := range p.Days {
				d := &p.Days[k]
				if was, ok := wantPlan.Day(d.Date); ok && !slices.Equal(d.Sessions, was.Sessions) {
					t.Errorf("seed %d, day %d: %s is %v, was %v", i, day, d.Date, d.Sessions, was.Sessions)
				}
			}
		}
	})
}

// 21 days are no candidate where another race lies in the 21 days before, also the last of stages that a shorter race follows
// by its first day.
func TestStageRaceBeforeRulesOut21Days(t *testing.T) {
	stages := raceOn(60, planner.PriorityC)
	stages.Days = 28
	for gap, want := range map[int]bool{18: false, 21: false, 22: true} {
		for _, extra := range [][]planner.Race{nil, {raceOn(62, planner.PriorityB)}} {
			f := rider(t, evenWeek, append([]planner.Race{stages, raceOn(87+gap, planner.PriorityA)}, extra...)...)
			p := planner.Derive(firstDay, f)
			weighed := []int{p.Tapers[0].Days}
			for _, up := range p.RunnersUp(&p.Tapers[0]) {
				weighed = append(weighed, up.Days)
			}
			if slices.Contains(weighed, 21) != want {
				t.Errorf("stages that end %d days before, %d races inside: lengths %v", gap, len(extra), weighed)
			}
		}
	}
}

// Tapers of a rich week take no more than they do of its fitness, though the last race has a lighter week.
func TestTapersTakeNoMoreThanAllFitness(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(130, planner.PriorityA), raceOn(170, planner.PriorityA))
	rich := f.CheckSeason(firstDay).Lost
	f.Weeks = append(f.Weeks, dated(t, firstDay+131, lightWeek))
	if lost := f.CheckSeason(firstDay).Lost; !(lost.Low > 0 && lost.Low < rich.Low && lost.Mid < rich.Mid && lost.High < rich.High) {
		t.Errorf("three tapers take %+v %% of the fitness, %+v of the rich week's alone", lost, rich)
	}
}
