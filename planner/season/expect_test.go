package season

import (
	"math"
	"math/rand/v2"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// simulated is what the linear model makes of a taper of n days: fitness and fatigue of all days before, each by its
// age (Morton et al. 1990), of usual days and of those that the taper leaves.
func simulated(t *testing.T, f *planner.Facts, p *engine.Plan, race planner.Date, n int) Expected {
	t.Helper()
	var tau struct{ Tau1, Tau2 float64 }
	published(t, "banister.params.morton", &tau)
	share := func(tau float64) float64 {
		usual, left := 0.0, 0.0
		for u := 1; u <= 450; u++ {
			load := asUsual(f, race.AddDays(-u))
			usual += load * math.Exp(-float64(u)/tau)
			if u <= n {
				load += leftOut(f, p, race, u) * unitOf(f, race)
			}
			left += load * math.Exp(-float64(u)/tau)
		}
		return left / usual
	}
	var gains []float64
	for _, draw := range response.Prior() {
		sum := 0.0
		for u := 1; u <= n; u++ {
			sum += leftOut(f, p, race, u) * influence(draw, u)
		}
		gains = append(gains, sum)
	}
	return Expected{Kept: min(1, share(tau.Tau1)), Shed: max(0, 1-share(tau.Tau2)), Gain: quantiles(gains)}
}

func sameExpected(t *testing.T, what string, got, want Expected) {
	t.Helper()
	closeTo(t, what+": kept", got.Kept, want.Kept, 1e-9)
	closeTo(t, what+": shed", got.Shed, want.Shed, 1e-9)
	nearRange(t, what+": gain", got.Gain, want.Gain, 1e-9)
}

// happenings are what may happen to a rider with one goal on day 200.
func happenings(t *testing.T) map[string]func(f *planner.Facts) {
	t.Helper()
	day := func(n int) planner.Date { return firstDay.AddDays(n) }
	return map[string]func(f *planner.Facts){
		"plain":             func(*planner.Facts) {},
		"told 28 days":      func(f *planner.Facts) { f.Taper.Days = 28 },
		"told 5 days, 80 %": func(f *planner.Facts) { f.Taper = planner.Taper{Days: 5, Cut: 80} },
		"B race inside": func(f *planner.Facts) {
			b := raceOn(194, planner.PriorityB)
			b.Hours = 1.25
			f.Races = append(f.Races, b)
		},
		"stage race before": func(f *planner.Facts) {
			r := raceOn(150, planner.PriorityA)
			r.Days = 4
			f.Races = append(f.Races, r)
		},
		"rated rides": func(f *planner.Facts) {
			f.Done = []planner.Ride{rode(day(70), 400, 7), rode(day(150), 200, 6), rode(day(192), 90, 2.5), rode(day(193), 30, 9), rode(day(193), 40, 2), rode(day(195), 45, 3)}
		},
		"ridden without a rating": func(f *planner.Facts) {
			f.Done = []planner.Ride{rode(day(191), 77, 0), rode(day(194), 0, 0), rode(day(196), 20, 0)}
		},
		"absence": func(f *planner.Facts) {
			f.Absences = []planner.Absence{{From: day(180), To: day(192)}, {From: day(194), To: day(195), Travel: true}}
		},
		"limits": func(f *planner.Facts) {
			f.Limits = []planner.Limit{{Date: day(193), Minutes: 33}, {Date: day(170), Minutes: 20}, {Date: day(196), Minutes: 300}}
		},
		"overload block": func(f *planner.Facts) { f.Blocks = []planner.Block{{From: day(160), To: day(183), Percent: 25}} },
		"head cold": func(f *planner.Facts) {
			f.Ill = []planner.Illness{{From: day(193), To: day(194), Symptoms: []string{"runny nose"}}}
		},
		"absence until the race":    func(f *planner.Facts) { f.Absences = []planner.Absence{{From: day(70), To: day(199)}} },
		"lighter week from D-26 on": func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(174), lightWeek)) },
		"lighter week from D-29 on": func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(171), lightWeek)) },
		"another week in the taper": func(f *planner.Facts) { f.Weeks = append(f.Weeks, dated(t, day(195), mixedWeek)) },
		"hardly a week for the race": func(f *planner.Facts) {
			f.Weeks = append(f.Weeks, dated(t, day(197), hardlyWeek))
		},
	}
}

// Kept, shed and gain are those of a simulation day by day, also once the taper has begun.
func TestExpectedIsSimulated(t *testing.T) {
	for name, change := range happenings(t) {
		for _, week := range []string{evenWeek, mixedWeek} {
			f := facts(t, week, raceOn(200, planner.PriorityA))
			change(f)
			race := f.Races[0].Date
			for _, today := range []planner.Date{firstDay, race - 40, race - 6, race - 1} {
				p := engine.Derive(today, f)
				taper := taperOf(p, "Race 200")
				sameExpected(t, name, *Expect(p, f, taper), simulated(t, f.KnownOn(today), p, race, taper.Days))
			}
		}
	}
}

// What is expected stays the same until race day if nothing new is told.
func TestExpectedStaysAsTodayMoves(t *testing.T) {
	for name, change := range happenings(t) {
		f := facts(t, mixedWeek, raceOn(200, planner.PriorityA))
		change(f)
		if len(f.Done) > 0 {
			continue
		}
		race := f.Races[0].Date
		p := engine.Derive(firstDay, f)
		want := *Expect(p, f, taperOf(p, "Race 200"))
		for _, left := range []int{40, 20, 9, 6, 1, 0} {
			p := engine.Derive(race.AddDays(-left), f)
			sameExpected(t, name, *Expect(p, f, taperOf(p, "Race 200")), want)
		}
	}
}

// Without usual training nothing is expected, and nothing fails.
func TestNothingExpectedWithoutTraining(t *testing.T) {
	f := facts(t, emptyWeek, raceOn(100, planner.PriorityA))
	for range 2 {
		p := engine.Derive(firstDay, f)
		if len(p.Tapers) != 1 || Expect(p, f, &p.Tapers[0]) != nil || RunnersUp(p, f, &p.Tapers[0]) != nil {
			t.Errorf("expected of no training: %+v", p.Tapers)
		}
		if _, ok := NewOptions(firstDay, f, &f.Races[0]); ok {
			t.Error("options without training")
		}
		if check := NewCheck(firstDay, f); check != nil {
			t.Errorf("season check without training: %+v", check)
		}
		f.Weeks = nil
	}
}

// A race inside the window, however long, does not hide what the taper does: the shares stay near those without it.
func TestRaceInsideHidesNothing(t *testing.T) {
	plain := facts(t, mixedWeek, raceOn(200, planner.PriorityA))
	plain.Taper.Days = 14
	p := engine.Derive(firstDay, plain)
	want := Expect(p, plain, &p.Tapers[0])
	for before := 1; before <= 13; before++ {
		for _, priority := range []planner.Priority{planner.PriorityB, planner.PriorityC} {
			f := facts(t, mixedWeek, raceOn(200, planner.PriorityA), raceOn(200-before, priority))
			f.Races[1].Hours, f.Taper.Days = 6, 14
			p := engine.Derive(firstDay, f)
			e := Expect(p, f, taperOf(p, "Race 200"))
			if e.Kept < want.Kept-0.08 || e.Kept > 0.97 || e.Shed < 0.1 || e.Gain.Mid <= 0 {
				t.Errorf("%s race on D-%d: %+v, without it %+v", priority, before, *e, *want)
			}
		}
	}
}

// Days after an earlier A race are easy whether a taper follows or not: it is not paid for them.
func TestRecoveryIsNoTaper(t *testing.T) {
	f := facts(t, evenWeek, raceOn(193, planner.PriorityA), raceOn(200, planner.PriorityA))
	p := engine.Derive(firstDay, f)
	taper := taperOf(p, "Race 200")
	free := f.Races[0].Date.AddDays(engine.RecoveryDays(f, &f.Races[0])).DaysUntil(f.Races[1].Date) - 1
	if free >= taper.Days {
		t.Fatalf("%d days are free, the taper takes %d", free, taper.Days)
	}
	sameExpected(t, "after a race", *Expect(p, f, taper), simulated(t, f, p, f.Races[1].Date, free))
}

// What is expected of an automatic taper of an ordinary week lies within the published 0.5 to 6.0 %
// (Mujika and Padilla 2003: about 3 %).
func TestDefaultTapersGainAsPublished(t *testing.T) {
	var want struct{ Mean, Min, Max float64 }
	published(t, "mp03.gain", &want)
	sum, n := 0.0, 600
	for i := range n {
		r := rand.New(rand.NewPCG(uint64(i), 37))
		f := oneRace(t, r, ordinaryWeek(r))
		p := engine.Derive(f.Races[0].Date-30, f)
		e := Expect(p, f, &p.Tapers[0])
		sum += e.Gain.Mid
		if e.Gain.Mid < want.Min || e.Gain.Mid > want.Max || inBounds(*e) != nil {
			t.Errorf("seed %d: %+v from %d days", i, *e, p.Tapers[0].Days)
		}
	}
	closeTo(t, "mean gain", sum/float64(n), want.Mean, 0.5)
}

// The linear model always wants more rest before one race: the more a cut leaves out, the more it
// expects (Fitz-Clarke et al. 1991: each load nearer than t_n harms).
func TestDeeperCutsGainMore(t *testing.T) {
	for _, week := range []string{mixedWeek, evenWeek} {
		for _, n := range []int{5, 7, 10, 14} {
			var before *Expected
			removed := 0.0
			for cut := planner.MinCut; cut <= planner.MaxCut; cut += 10 {
				f := facts(t, week, raceOn(200, planner.PriorityA))
				f.Taper = planner.Taper{Days: n, Cut: cut}
				p := engine.Derive(f.Races[0].Date-40, f)
				e := Expect(p, f, &p.Tapers[0])
				if before != nil && p.Tapers[0].CutPercent > removed && (e.Gain.Mid <= before.Gain.Mid || e.Shed <= before.Shed || e.Kept >= before.Kept) {
					t.Errorf("%d days: %.1f %% gives %+v, %.1f %% gives %+v", n, removed, *before, p.Tapers[0].CutPercent, *e)
				}
				before, removed = e, p.Tapers[0].CutPercent
			}
		}
	}
}
