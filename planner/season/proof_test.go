package season

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
)

// seasons is how many random seasons the proofs try. docs/performance.md has what more of them gave.
var seasons = flag.Int("seasons", rounds.Of(10), "how many random seasons are proved")

// goalsSeason is a random season of which so many A races are to come, in one run.
func goalsSeason(t *testing.T, r *rand.Rand, goals int) (today planner.Date, f *planner.Facts) {
	t.Helper()
	f = facts(t, oneOf(r, mixedWeek, evenWeek, ordinaryWeek(r)))
	f.Taper.Days = oneOf(r, 0, 0, 0, 10, 14)
	day := 20 + r.IntN(30)
	for range goals {
		a := raceOn(day, planner.PriorityA)
		a.Hours, a.Days = oneOf(r, 1.0, 2, 3.5, 5), oneOf(r, 1, 1, 1, 1, 3)
		f.Races = append(f.Races, a)
		if r.IntN(3) == 0 {
			other := raceOn(day+1+r.IntN(25), oneOf(r, planner.PriorityB, planner.PriorityC))
			other.Hours = oneOf(r, 1.0, 2, 4)
			f.Races = append(f.Races, other)
		}
		day += oneOf(r, 5, 7, 10, 14, 21, 28, 35, 50) + r.IntN(4)
	}
	seen := map[planner.Date]bool{}
	f.Races = slices.DeleteFunc(f.Races, func(r planner.Race) bool {
		twice := seen[r.Date]
		seen[r.Date] = true
		return twice
	})
	return firstDay, f
}

// exhaustive is the best choice that may be offered of all sets of the A races to come, each of which
// adds clearly to the others; and the best one if none had to.
func exhaustive(s *season, races []*planner.Race) (best, any *choice) {
	autos := []bool{false}
	if s.Taper.Days != 0 {
		autos = append(autos, true)
	}
	for _, automatic := range autos {
		for k := range 1 << len(races) {
			var set []*planner.Race
			for i, r := range races {
				if k>>i&1 == 1 {
					set = append(set, r)
				}
			}
			if len(set) == 0 && !automatic {
				continue
			}
			c := s.choice(set, automatic)
			if !s.offered(c) {
				continue
			}
			if any == nil || c.total.Mid > any.total.Mid {
				any = c
			}
			adds := true
			for i := range set {
				if without := slices.Delete(slices.Clone(set), i, i+1); automatic || len(without) > 0 {
					adds = adds && c.surelyBetter(s.choice(without, automatic))
				}
			}
			if adds && (best == nil || c.total.Mid > best.total.Mid) {
				best = c
			}
		}
	}
	return best, any
}

// toComeA are the A races to come.
func (s *season) toComeA() []*planner.Race {
	return slices.DeleteFunc(slices.Clone(s.toCome), func(r *planner.Race) bool { return r.Priority != planner.PriorityA })
}

// Up to seven A races to come the advice is what an exhaustive search finds. What a plan that is told then does is
// recomputed day by day, and is the same.
func TestAdviceIsExhaustive(t *testing.T) {
	offered := 0
	var lock sync.Mutex
	forEach(t, *seasons, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 211))
		today, f := goalsSeason(t, r, 2+i%6)
		check, s := NewCheck(today, f), newSeason(today, f)
		if check == nil || s == nil {
			return
		}
		best, _ := exhaustive(s, s.toComeA())
		switch {
		case best == nil && check.Best == nil:
			return
		case best == nil || check.Best == nil:
			t.Errorf("season %d: advice %+v, exhaustive search %+v", i, check.Best, best)
			return
		}
		if check.Best.Total.Mid < best.total.Mid-1e-12 {
			t.Errorf("season %d: advice brings %v, exhaustive search %v", i, check.Best.Total.Mid, best.total.Mid)
		}
		checkSaid(t, i, today, f, check.Best)
		lock.Lock()
		offered++
		lock.Unlock()
	})
	if offered < *seasons/5 {
		t.Errorf("%d of %d seasons have advice", offered, *seasons)
	}
	t.Logf("%d of %d seasons have advice, all as good as exhaustive search", offered, *seasons)
}

// Of more A races, up to the twelve that are weighed, no set is worth 0.2 points more.
func TestLongSeasonsMissLittle(t *testing.T) {
	rounds.Skip(t, "that advice on long seasons misses little")
	n := max(2, *seasons/5)
	missed, most, loose := 0, 0.0, 0.0
	var lock sync.Mutex
	forEach(t, n, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 223))
		goals := 8 + i%2
		if *seasons >= 100 {
			goals = 8 + i%5
		}
		today, f := goalsSeason(t, r, goals)
		check, s := NewCheck(today, f), newSeason(today, f)
		races := s.toComeA()
		best, any := exhaustive(s, races[:min(len(races), mostWeighed)])
		lock.Lock()
		defer lock.Unlock()
		mid := 0.0
		if check.Best != nil {
			mid = check.Best.Total.Mid
			checkSaid(t, i, today, f, check.Best)
		}
		if best != nil && best.total.Mid > mid+1e-12 {
			missed++
			if most = max(most, best.total.Mid-mid); best.total.Mid-mid >= 0.2 {
				t.Errorf("season %d: advice brings %.2f, %d races as B races %.2f", i, mid, len(best.toB), best.total.Mid)
			}
		}
		if any != nil {
			loose = max(loose, any.total.Mid-mid)
		}
	})
	t.Logf("%d seasons: %d miss a better set, by %.3f points at most (%.3f if races need not add clearly)", n, missed, most, loose)
}

// In random seasons, also those with races that overlap or lie inside tapers, said and recomputed effects are equal
// and nothing worse is offered.
func TestSaidIsRecomputed(t *testing.T) {
	offers, inside, overlaps := 0, 0, 0
	var lock sync.Mutex
	forEach(t, 5**seasons, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 227))
		today, f := busySeason(t, r, 7)
		overlapping := i%3 == 0 && len(f.Races) > 1
		if overlapping {
			a, b := &f.Races[0], &f.Races[len(f.Races)-1]
			a.Days, a.Priority = 2+r.IntN(3), planner.PriorityA
			b.Date = a.Date.AddDays(r.IntN(a.Days))
		}
		if i%3 == 1 {
			b := raceOn(firstDay.DaysUntil(f.Races[0].Date)-3-r.IntN(6), planner.PriorityB)
			b.Name, b.Hours = fmt.Sprint("Inside ", i), 4
			f.Races = append(f.Races, b)
		}
		check := NewCheck(today, f)
		if check == nil || check.Best == nil {
			return
		}
		checkSaid(t, i, today, f, check.Best)
		lock.Lock()
		defer lock.Unlock()
		offers++
		if overlapping {
			overlaps++
		}
		for _, role := range engine.Derive(today, f).Races {
			if role.Role == planner.InsideTaper {
				inside++
				break
			}
		}
		if check.Best.Total.Mid <= 0 {
			t.Errorf("season %d: an offer that is worse: %+v", i, check.Best)
		}
	})
	t.Logf("%d seasons, %d offers, %d of them with races inside a taper and %d with races that overlap", 5**seasons, offers, inside, overlaps)
}

// checkSaid compares what is said of an offer with sums over the days of both plans, over the races that are ridden.
func checkSaid(t *testing.T, seed int, today planner.Date, f *planner.Facts, best *Change) {
	t.Helper()
	s := newSeason(today, f)
	ridden := *f
	ridden.Races = nil
	for _, race := range s.toCome {
		ridden.Races = append(ridden.Races, *race)
	}
	unit := unitOfAll(f, s.races)
	before, after := engine.Derive(today, f), engine.Derive(today, changed(f, today, best.ToB, best.Automatic))
	sum := sumOver(&ridden, after, before, today, unit)
	if nearRange(t, fmt.Sprintf("season %d: total", seed), best.Total, quantiles(sum), 1e-9); !surely(sum) {
		t.Errorf("season %d: %+v is not clear", seed, best)
	}
	for _, e := range best.Effects {
		nearRange(t, fmt.Sprintf("season %d: effect on %s", seed, e.Race.Name), e.Change, quantiles(onRace(f, after, before, today, unit, e.Race.Date)), 1e-9)
	}
	for i, was := range before.Races {
		if is := after.Races[i]; was.Race.Last() >= today && rides(before, was) != rides(after, is) {
			t.Errorf("season %d: %s is lost by %+v", seed, was.Race.Name, best)
		}
	}
}
