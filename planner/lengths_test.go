package planner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"musette/planner"
)

// Automatic lengths are the best that trying everything finds among the defaults and
// what is clearly better, with windows, races, recovery days and 30 % of the days as bounds.
func TestLengthsAreTheBestOfAll(t *testing.T) {
	forEach(t, 100, func(t *testing.T, i int) {
		checkBest(t, i, randomSeason(t, rand.New(rand.NewPCG(uint64(i), 41)), 6))
	})
}

// Where that is too much for a season, all candidates may be taken; where that is too much too, the
// defaults stand (our choice).
func TestLengthsOfCrowdedSeasons(t *testing.T) {
	forEach(t, 30, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 51))
		f := rider(t, mixedWeek)
		for day := 60; len(f.Races) < 10; day += []int{11, 12, 12, 13, 30, 31, 57}[r.IntN(7)] {
			race := raceOn(day, planner.PriorityA)
			race.Hours = 2
			f.Races = append(f.Races, race)
		}
		checkBest(t, i, f)
	})
}

// B races before a goal have their half weeks only if its taper is shorter than that: these count.
func TestLengthsLeaveHalfWeeks(t *testing.T) {
	forEach(t, 9, func(t *testing.T, i int) {
		first := 8 + i
		for second := first; second <= 16; second++ {
			for k, next := range []int{0, 35, 60} {
				f := rider(t, []string{mixedWeek, evenWeek}[(second+k)%2], raceOn(100, planner.PriorityA), raceOn(100-first, planner.PriorityB))
				if second > first {
					f.Races = append(f.Races, raceOn(100-second, planner.PriorityB))
				}
				if next > 0 {
					f.Races = append(f.Races, raceOn(100+next, planner.PriorityA))
				}
				checkBest(t, i, f)
			}
		}
	})
}

// checkBest compares the planned lengths with the best of all choices.
func checkBest(t *testing.T, seed int, f *planner.Facts) {
	t.Helper()
	got := tapersOf(planner.Derive(firstDay, f))
	s := newNaiveSeason(f)
	ways := s.ways(false)
	_, want, ok := s.best(ways, nil)
	if !ok {
		ways = s.ways(true)
		_, want, ok = s.best(ways, nil)
	}
	keep := func(k int, w way) bool {
		return s.races[k].Priority != planner.PriorityA || w.days == got[s.races[k].Date]
	}
	if _, sum, found := s.best(ways, keep); ok && (!found || math.Abs(sum-want) > 1e-9) {
		t.Errorf("seed %d: tapers %v bring %.12f (allowed: %v), the best bring %.12f\n%+v", seed, got, sum, found, want, f.Races)
	}
	for k := range s.races {
		if w := ways[k][0]; !ok && s.races[k].Priority == planner.PriorityA && w.days != got[s.races[k].Date] {
			t.Errorf("seed %d: nothing fits, and %s has %d days, not the default %d\n%+v", seed, s.races[k].Name, got[s.races[k].Date], w.days, f.Races)
		}
	}
}

// The default stands where the model is not sure, and nothing else does (by the draws that
// are plausible, their spread from Hellard et al. 2006).
func TestDefaultStandsUnlessClear(t *testing.T) {
	for _, week := range []string{mixedWeek, evenWeek} {
		for gap := 29; gap < 100; gap += 7 {
			f := rider(t, week, raceOn(100, planner.PriorityA), raceOn(100+gap, planner.PriorityA))
			s := newNaiveSeason(f)
			got := tapersOf(planner.Derive(firstDay, f))
			for i, r := range s.races {
				standard, others, _ := s.candidates(i)
				best := s.taper(r, standard)
				for _, n := range others {
					if w := s.taper(r, n); s.better(i, n, standard) && w.mean > best.mean {
						best = w
					}
				}
				if got[r.Date] != best.days {
					t.Errorf("%d days apart, race %d: %d days, want %d (default %d)", gap, i+1, got[r.Date], best.days, standard)
				}
			}
		}
	}
}

// A single goal gets three weeks only if the model is sure of them; told
// days and late registration win over both.
func TestSingleGoalAndWhatWins(t *testing.T) {
	f := rider(t, evenWeek, raceOn(200, planner.PriorityA))
	s := newNaiveSeason(f)
	want := 14
	if s.better(0, 21, 14) {
		want = 21
	}
	if got := planner.Derive(firstDay, f).Tapers[0].Days; got != want {
		t.Errorf("single goal: %d days, want %d", got, want)
	}
	for days := planner.MinTaperDays; days <= planner.MaxTaperDays; days++ {
		f.Taper.Days = days
		p := planner.Derive(firstDay, f)
		if p.Tapers[0].Days != days || p.RunnersUp(&p.Tapers[0]) != nil {
			t.Errorf("told %d days: %d planned, runners-up %v", days, p.Tapers[0].Days, p.RunnersUp(&p.Tapers[0]))
		}
	}
	f.Taper.Days = 0
	for days := 1; days < 14; days++ {
		f.Races[0].Registered = f.Races[0].Date.AddDays(-days)
		p := planner.Derive(f.Races[0].Registered, f)
		if p.Tapers[0].Days != days || len(p.RunnersUp(&p.Tapers[0])) > 0 {
			t.Errorf("registered %d days before: %d planned, runners-up %v", days, p.Tapers[0].Days, p.RunnersUp(&p.Tapers[0]))
		}
	}
}

// Near another A race a week is the most (common practice); after an overload block two
// weeks are the least and the length (Thomas and Busso 2005).
func TestNearGoalsAndOverload(t *testing.T) {
	for gap := 11; gap <= 40; gap++ {
		f := rider(t, mixedWeek, raceOn(100, planner.PriorityA), raceOn(100+gap, planner.PriorityA))
		for day, n := range tapersOf(planner.Derive(firstDay, f)) {
			if gap <= 28 && n != 7 || gap > 28 && n < 7 {
				t.Errorf("%d days apart: %d days before %s", gap, n, day)
			}
		}
	}
	for end := 15; end <= 30; end++ {
		f := rider(t, mixedWeek, raceOn(100, planner.PriorityA))
		goal := f.Races[0].Date
		f.Blocks = []planner.Block{{From: goal.AddDays(-end - 20), To: goal.AddDays(-end), Percent: 20}}
		p := planner.Derive(firstDay, f)
		if n := p.Tapers[0].Days; n < 14 || end <= 20 && n != 14 {
			t.Errorf("block until D-%d: %d days", end, n)
		}
		if end <= 20 && len(p.RunnersUp(&p.Tapers[0])) > 0 {
			t.Errorf("block until D-%d: runners-up %v, though the block leaves no choice", end, p.RunnersUp(&p.Tapers[0]))
		}
	}
}

// Seven goals 30 days apart: each keeps an admissible length, and at most 30 % of the
// days are taper days (our choice).
func TestSevenGoals(t *testing.T) {
	f := rider(t, mixedWeek)
	for i := range 7 {
		f.Races = append(f.Races, raceOn(100+30*i, planner.PriorityA))
	}
	spent := 0
	for day, n := range tapersOf(planner.Derive(firstDay, f)) {
		spent += n
		if n != 7 && n != 10 && n != 14 {
			t.Errorf("%d days before %s", n, day)
		}
	}
	if s := newNaiveSeason(f); spent > s.days()*30/100 {
		t.Errorf("%d taper days of %d", spent, s.days())
	}
}

// Runners-up are the other candidates, the nearest first, each behind by what the draws make of the days as they would be
// planned: over the race, those inside and all later ones.
func TestRunnersUpAreWeighed(t *testing.T) {
	forEach(t, 30, func(t *testing.T, i int) {
		f := randomSeason(t, rand.New(rand.NewPCG(uint64(i), 43)), 5)
		if i < 3 { // a race inside
			f = rider(t, mixedWeek, raceOn(88+3*i, planner.PriorityB), raceOn(100, planner.PriorityA), raceOn(100+40*(i+1), planner.PriorityC))
		}
		p := planner.Derive(firstDay, f)
		s := newNaiveSeason(f)
		for k := range p.Tapers {
			sum := &p.Tapers[k]
			at := slices.IndexFunc(s.races, func(r planner.Race) bool { return r.Date == sum.Race.Date })
			standard, others, room := s.candidates(at)
			got := p.RunnersUp(sum)
			all := append([]int{standard}, others...)
			if standard > room || !slices.Contains(all, sum.Days) {
				if len(got) > 0 {
					t.Errorf("seed %d: no choice was left for %s, runners-up %v", i, sum.Race.Name, got)
				}
				continue
			}
			if len(got) != len(all)-1 || !slices.IsSortedFunc(got, func(a, b planner.RunnerUp) int { return int(math.Copysign(1, a.Behind.Mid-b.Behind.Mid)) }) {
				t.Errorf("seed %d: %s of %v has runners-up %v", i, sum.Race.Name, all, got)
			}
			chosen := s.planned(s.races[at], sum.Days)
			for _, up := range got {
				other := s.planned(s.races[at], up.Days)
				behind := make([]float64, len(chosen.gains))
				for j := range behind {
					behind[j] = chosen.gains[j] - other.gains[j]
				}
				nearRange(t, fmt.Sprintf("seed %d: %d days behind %d", i, up.Days, sum.Days), up.Behind, quantiles(behind), 1e-9)
			}
		}
	})
}

// Runners-up are the same on every day until the race, and what is said of them too.
func TestRunnersUpStayAsTodayMoves(t *testing.T) {
	f := rider(t, mixedWeek, raceOn(80, planner.PriorityA), raceOn(94, planner.PriorityB), raceOn(140, planner.PriorityA), raceOn(148, planner.PriorityC), raceOn(210, planner.PriorityA))
	for k := range f.Races {
		first := planner.Derive(firstDay, f)
		at := slices.IndexFunc(first.Tapers, func(sum planner.TaperSummary) bool { return sum.Race.Name == f.Races[k].Name })
		if at < 0 {
			continue
		}
		want, said := first.RunnersUp(&first.Tapers[at]), first.OtherLengths(&first.Tapers[at])
		if len(want) == 0 || said == "" {
			t.Fatalf("%s has no runners-up", f.Races[k].Name)
		}
		for _, left := range []int{50, 28, 20, 14, 8, 1, 0} {
			p := planner.Derive(f.Races[k].Date.AddDays(-left), f)
			sum := &p.Tapers[slices.IndexFunc(p.Tapers, func(sum planner.TaperSummary) bool { return sum.Race.Name == f.Races[k].Name })]
			if got := p.RunnersUp(sum); !reflect.DeepEqual(got, want) || p.OtherLengths(sum) != said {
				t.Errorf("%s on D-%d: %+v, before %+v", f.Races[k].Name, left, got, want)
			}
		}
	}
}

// No taper, none of its expectations and no planned day changes as today moves through a season, and through the next one.
func TestLengthsStayAsTodayMoves(t *testing.T) {
	forEach(t, 6, func(t *testing.T, i int) {
		r := rand.New(rand.NewPCG(uint64(i), 47))
		f := crowdedYear(t, r, i%3 == 0)
		before := planner.Derive(firstDay, f)
		end := before.Days[len(before.Days)-1].Date
		tapers := map[string]planner.TaperSummary{}
		for _, sum := range before.Tapers {
			tapers[sum.Race.Name] = sum
		}
		for today := firstDay.AddDays(1 + r.IntN(5)); today <= end && !t.Failed(); today = today.AddDays(1 + r.IntN(14)) {
			p := planner.Derive(today, f)
			for _, sum := range p.Tapers {
				want := tapers[sum.Race.Name]
				if sum.Days != want.Days || sum.From != want.From || sum.LengthRule != want.LengthRule || sum.PlanMinutes != want.PlanMinutes || !reflect.DeepEqual(sum.Expected, want.Expected) {
					t.Errorf("seed %d: asked on %s: %+v, on %s: %+v", i, firstDay, want, today, sum)
				}
			}
			for k := range p.Days {
				want, ok := before.Day(p.Days[k].Date)
				if got := &p.Days[k]; ok && (got.Phase != want.Phase || !slices.Equal(got.Sessions, want.Sessions)) {
					t.Errorf("seed %d: %s asked on %s: %v, on %s: %v", i, got.Date, firstDay, want.Sessions, today, got.Sessions)
				}
			}
		}
	})
}

// Days after a race that is over count in the history of a taper until its race, however long ago they were.
func TestOldRecoveryStaysInHistory(t *testing.T) {
	for back := 140; back < 160; back++ {
		stages := raceOn(250-back-4, planner.PriorityA)
		stages.Days = 5
		f := rider(t, mixedWeek, stages, raceOn(250, planner.PriorityA))
		f.Taper.Days = planner.MaxTaperDays
		want, goal := planner.Derive(firstDay, f).Tapers[1].Expected, f.Races[1].Date
		for _, today := range []planner.Date{goal - 20, goal} {
			p := planner.Derive(today, f)
			if got := p.Tapers[len(p.Tapers)-1].Expected; !reflect.DeepEqual(got, want) {
				t.Errorf("stages that end %d days before, asked on %s: %+v, before %+v", back, today, got, want)
			}
		}
	}
}

// crowdedYear is two seasons of races, some near each other, an overload block before one.
func crowdedYear(t *testing.T, r *rand.Rand, crowded bool) *planner.Facts {
	t.Helper()
	f := rider(t, mixedWeek)
	for day := 60; day < 600; {
		race := raceOn(day, []planner.Priority{planner.PriorityA, planner.PriorityA, planner.PriorityB, planner.PriorityC}[r.IntN(4)])
		race.Hours = []float64{1, 3, 3.5, 9}[r.IntN(4)]
		f.Races = append(f.Races, race)
		if r.IntN(5) == 0 {
			f.Blocks = append(f.Blocks, planner.Block{From: race.Date - 40, To: race.Date.AddDays(-10 - r.IntN(15)), Percent: 20})
		}
		switch day += 20 + r.IntN(20); {
		case !crowded:
			day += r.IntN(50)
		case r.IntN(8) == 0:
			day += 121
		}
	}
	return f
}

// A block before a race long over still counts in a crowded season's budget.
func TestOldBlockStaysInTheBudget(t *testing.T) {
	f := rider(t, mixedWeek)
	for _, day := range []int{60, 118, 141, 157, 169, 187, 207, 223, 254, 266, 279, 290, 320} {
		r := raceOn(day, planner.PriorityA)
		r.Hours = 2
		f.Races = append(f.Races, r)
	}
	f.Blocks = []planner.Block{{From: firstDay.AddDays(20), To: firstDay.AddDays(44), Percent: 20}}
	want := tapersOf(planner.Derive(firstDay, f))
	for day := 0; day < 320; day += 8 {
		for _, sum := range planner.Derive(firstDay.AddDays(day), f).Tapers {
			if sum.Days != want[sum.Race.Date] {
				t.Fatalf("day %d: %s has %d days, %d on day 0", day, sum.Race.Name, sum.Days, want[sum.Race.Date])
			}
		}
	}
}
