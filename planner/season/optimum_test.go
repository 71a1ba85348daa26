package season

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// exhausted tries every choice of one option a race: no taper day is a taper, race or recovery day of
// another race, and the budget holds.
func exhausted(p response.Season) (best float64, ok bool) {
	var choice []int
	var try func(gain float64)
	try = func(gain float64) {
		if i := len(choice); i < len(p.Stops) {
			for k := range p.Stops[i].Options {
				choice = append(choice, k)
				try(gain + p.Stops[i].Options[k].Gain)
				choice = choice[:i]
			}
			return
		}
		if (!ok || gain > best) && allowed(p, choice) {
			best, ok = gain, true
		}
	}
	try(0)
	return best, ok
}

func allowed(p response.Season, choice []int) bool {
	spent := 0
	for i, a := range p.Stops {
		option := a.Options[choice[i]]
		spent += option.Days
		for k, b := range p.Stops {
			other := b.Options[choice[k]]
			if k == i || option.Days == 0 {
				continue
			}
			tapers := a.First-option.Days < b.First && b.First-other.Days < a.First && other.Days > 0
			races := a.First-option.Days <= b.Last+other.After && b.First < a.First && other.After >= 0
			if tapers || races {
				return false
			}
		}
	}
	return spent <= p.Budget
}

// The optimum of a season is the best of all choices, and there always is one. A races that it leaves without a taper are those
// that are weighed as B races.
func TestOptimumIsTheBestOfAll(t *testing.T) {
	untapered, tapered := 0, 0
	forEach(t, 120, func(i int) {
		today, f := busySeason(t, rand.New(rand.NewPCG(uint64(i), 97)), 6)
		s := newSeason(today, f)
		if s == nil {
			return
		}
		problem := s.problem()
		choice, gain, ok := problem.Solve()
		want, may := exhausted(problem)
		if !ok || !may || math.Abs(gain-want) > 1e-9 || !allowed(problem, choice) {
			t.Errorf("seed %d on %s: %v brings %.12f (%v), the best %.12f (%v)", i, today, choice, gain, ok, want, may)
			return
		}
		none := s.untapered()
		for k, r := range s.races {
			if r.Priority != planner.PriorityA || r.Date <= today {
				continue
			}
			without := problem.Stops[k].Options[choice[k]].Days == 0
			if without {
				untapered++
			} else {
				tapered++
			}
			if without != slices.Contains(none, r) {
				t.Errorf("seed %d: %s without a taper: %v", i, r.Name, without)
			}
		}
	})
	if untapered < 20 || tapered < 40 {
		t.Errorf("%d races without a taper, %d with one", untapered, tapered)
	}
}

// Each A race to come is offered none, its planned length, the table's, 7, 10, 14 and 21 days as they fit, each B race none or four, C races
// nothing; taper days that are over have been spent. Each brings what the days bring that a rider would have who told that length.
func TestOptimumOffers(t *testing.T) {
	offers := 0
	forEach(t, rounds.Of(120), func(i int) {
		today, f := busySeason(t, rand.New(rand.NewPCG(uint64(i), 97)), 6)
		s := newSeason(today, f)
		if s == nil {
			return
		}
		problem := s.problem()
		first, last := s.races[0].Date, s.races[0].Last()
		for _, r := range s.races {
			last = max(last, r.Last())
		}
		budget := (first.DaysUntil(last) + 1 + 84) * 30 / 100
		for k, r := range s.races {
			var want []int
			switch {
			case r.Date <= today:
				want = []int{0}
				budget -= s.tapers[k].days
			case r.Priority == planner.PriorityB && r.Date-4 >= today:
				want = []int{0, 4}
			case r.Priority != planner.PriorityA:
				want = []int{0}
			default:
				want = s.fitting(t, i, k, problem.Stops[k].Options)
				offers += len(want)
			}
			var got []int
			for _, o := range problem.Stops[k].Options {
				got = append(got, o.Days)
			}
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("seed %d on %s: %s is offered %v, want %v", i, today, r.Name, got, want)
			}
		}
		if problem.Budget != max(0, budget) {
			t.Errorf("seed %d: %d days may be taper days, want %d", i, problem.Budget, budget)
		}
	})
	if offers < rounds.Of(200) {
		t.Errorf("only %d lengths were offered", offers)
	}
}

// fitting are the lengths that fit before an A race; it checks what those bring whose days are all to come.
func (s *season) fitting(t *testing.T, seed, k int, options []response.Option) []int {
	t.Helper()
	r, f := s.races[k], s.Facts
	taper := taperOf(s.base, r.Name)
	want := []int{0}
	if taper == nil {
		return want
	}
	room := min(roomBefore(f, r), s.today.DaysUntil(r.Date))
	if len(f.Blocks) > 0 && taper.Length == planner.LengthBlock {
		room = taper.Days
	}
	var prev, next *planner.Race
	for _, other := range s.races {
		switch {
		case other.Priority != planner.PriorityA || other == r:
		case other.Date < r.Date:
			prev = other
		case next == nil:
			next = other
		}
	}
	table, _ := engine.TableLength(f, r, prev, next)
	for _, n := range []int{taper.Days, table, 7, 10, 14, 21} {
		if !slices.Contains(want, n) && (n <= room || n <= taper.Days) {
			want = append(want, n)
		}
	}
	slices.Sort(want)
	if taper.From < s.today || len(f.Blocks) > 0 || len(f.Done) > 0 {
		return want
	}
	for _, o := range options {
		if o.Days > 0 {
			closeTo(t, "gain", o.Gain, s.toldGain(r, o.Days), 1e-9)
		}
	}
	return want
}

// toldGain is what a length that a rider told brings to this and all later races of the season, each by its weight.
func (s *season) toldGain(r *planner.Race, days int) float64 {
	f := *s.Facts
	f.Races = slices.Clone(f.Races)
	for i := range f.Races {
		if f.Races[i].Name == r.Name {
			f.Races[i].TaperDays = days
		}
	}
	p, gain := engine.Derive(s.today, &f), 0.0
	from := r.Date.AddDays(-days)
	for d := from; d < r.Date; d++ {
		left := leftOut(&f, p, r.Date, d.DaysUntil(r.Date)) * unitOf(&f, r.Date) / s.load
		for _, other := range f.Races { // days after an earlier race are nobody's taper
			if other.Priority == planner.PriorityA && other.Date < r.Date && d <= other.Last().AddDays(engine.RecoveryDays(&f, &other)) {
				left = 0
			}
		}
		for _, race := range s.races {
			if d < race.Date {
				for _, draw := range response.Prior() {
					gain += worth[race.Priority] * left * influence(draw, d.DaysUntil(race.Date)) / float64(len(response.Prior()))
				}
			}
		}
	}
	return gain
}

// A trial is planned from shortly before its race on, and has the days that it would have from today on.
func TestTrialsStartNearTheirRace(t *testing.T) {
	tried := 0
	for seed := range 30 {
		today, f := goalsSeason(t, rand.New(rand.NewPCG(uint64(seed), 77)), 3+seed%6)
		base := engine.Derive(today, f)
		for _, race := range raced(base) {
			g, ok := newGoal(near(f, race), newRider(f.KnownOn(today)), base, race)
			if !ok || race.Date.AddDays(-nearBefore) <= today {
				continue
			}
			g.trialsFrom = race.Date.AddDays(-nearBefore)
			for _, n := range []int{0, 4, 7, 10, 14, 21} {
				if n == g.taper.Days || !g.fits(n) {
					continue
				}
				whole := engine.DeriveTrial(today, race.Date, g.told, engine.Trial{Race: race, Days: n})
				if got, want := g.trial(g.plan(n, g.taper.Cut), n), g.trial(whole, n); !slices.Equal(got, want) {
					t.Errorf("seed %d, %d days before %s: %v, from today on %v", seed, n, race.Date, got, want)
				}
				tried++
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d trials", tried)
	}
}
