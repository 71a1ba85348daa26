package planner

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"musette/planner/response"
)

// scattered is a season of up to six races, some of several days, asked about while some of them are past.
func scattered(t *testing.T, r *rand.Rand) (Date, *Facts) {
	t.Helper()
	f := ines(t)
	first := mustDate(t, "2026-03-02")
	for day := 60; len(f.Races) < 2+r.IntN(5); {
		race := Race{Name: fmt.Sprintf("Race %d", day), Date: first.AddDays(day), Priority: []Priority{PriorityA, PriorityA, PriorityB, PriorityC}[r.IntN(4)],
			Hours: []float64{1, 2, 4, 6, 9}[r.IntN(5)], Days: 1}
		if r.IntN(5) == 0 {
			race.Days = 2 + r.IntN(8)
		}
		if r.IntN(5) == 0 {
			race.Registered = race.Date.AddDays(-r.IntN(20))
		}
		f.Races = append(f.Races, race)
		day += race.Days + []int{r.IntN(5), r.IntN(30), 30 + r.IntN(60)}[r.IntN(3)]
	}
	f.Taper.Days = []int{0, 0, 7, 14, 28}[r.IntN(5)]
	today := first.AddDays(r.IntN(int(f.Races[len(f.Races)-1].Date - first)))
	for i := range f.Races {
		if r.IntN(3) > 0 { // else asked before the race was told
			f.Races[i].Registered = min(f.Races[i].Registered, today)
		}
	}
	return today, f
}

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
			races := a.First-option.Days <= b.Last+other.After && b.First < a.First && (other.After >= 0)
			if tapers || races {
				return false
			}
		}
	}
	return spent <= p.Budget
}

// The optimum of a season is the best of all choices, and there always is one: what is past binds
// nobody but by the days it has spent.
func TestSeasonProblemIsSolved(t *testing.T) {
	past, open := 0, 0
	for i := range 150 {
		today, f := scattered(t, rand.New(rand.NewPCG(uint64(i), 97)))
		s := f.newSeasonTrial(today)
		if s == nil {
			continue
		}
		problem, asB := s.problem()
		choice, gain, ok := problem.Solve()
		want, may := exhausted(problem)
		if !ok || !may || math.Abs(gain-want) > 1e-9 || !allowed(problem, choice) {
			t.Errorf("seed %d on %s: %v brings %.12f (%v), the best %.12f (%v)\n%+v", i, today, choice, gain, ok, want, may, f.Races)
		}
		got := s.optimum()
		for k, r := range s.season.races {
			option := problem.Stops[k].Options[choice[k]]
			switch {
			case r.Date > today:
				open++
				if got.days[k] != option.Days || got.asB[k] != asB[k][choice[k]] {
					t.Errorf("seed %d: %s has %d days, %+v was chosen", i, r.Name, got.days[k], option)
				}
			default:
				past++
				if got.days[k] != s.present.days[k] || got.asB[k] || option.Days != 0 {
					t.Errorf("seed %d: %s is past, but changes from %d to %d days", i, r.Name, s.present.days[k], got.days[k])
				}
			}
		}
		s.checkOffers(t, i, problem, asB)
		if i%3 == 0 {
			s.checkGains(t, i, problem, asB)
		}
	}
	if past < 50 || open < 50 {
		t.Errorf("%d races were past, %d to come", past, open)
	}
}

// checkOffers compares the options of each race to come with what it may take: the planned length, no taper, the
// lengths that it may have and that still fit, or the half week or nothing of a B race.
func (s *seasonTrial) checkOffers(t *testing.T, seed int, problem response.Season, asB [][]bool) {
	t.Helper()
	budget := s.season.days() * 30 / 100
	for i, r := range s.season.races {
		if r.Date <= s.today && r.Priority != PriorityC {
			budget -= s.present.days[i]
		}
	}
	if problem.Budget != max(0, budget) {
		t.Errorf("seed %d: %d days may be taper days, want %d", seed, problem.Budget, budget)
	}
	for _, i := range s.toCome {
		r := s.season.races[i]
		var want []string
		add := func(days int, b bool) {
			if offer := fmt.Sprint(days, b); !slices.Contains(want, offer) {
				want = append(want, offer)
			}
		}
		if r.Priority == PriorityA {
			add(s.present.days[i], false)
			add(0, false)
			for _, n := range s.base.lengthsOf(r) {
				if start := r.Date.AddDays(-n); start >= s.today && start >= r.Registered {
					add(n, false)
				}
			}
		}
		if r.Priority == PriorityC {
			add(0, false)
		} else {
			add(0, r.Priority == PriorityA)
			if r.Date-4 >= s.today {
				add(4, r.Priority == PriorityA)
			}
		}
		var got []string
		for k, option := range problem.Stops[i].Options {
			got = append(got, fmt.Sprint(option.Days, asB[i][k]))
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("seed %d: %s is offered %v, want %v", seed, r.Name, got, want)
		}
	}
}

// checkGains compares what each option of a race to come brings with the sum over the days that a plan has for it.
func (s *seasonTrial) checkGains(t *testing.T, seed int, problem response.Season, asB [][]bool) {
	t.Helper()
	for _, i := range s.toCome {
		for k, option := range problem.Stops[i].Options {
			if r := s.season.races[i]; r.Priority != PriorityC {
				if want, fits := s.planGain(i, option.Days, asB[i][k]); fits && math.Abs(option.Gain-want) > 1e-9 {
					t.Errorf("seed %d on %s: %s with %d days (as B: %v) brings %.12f, want %.12f\n%+v", seed, s.today, r.Name, option.Days, asB[i][k], option.Gain, want, s.facts.Races)
				}
			}
		}
	}
}

// planGain follows the days before a race and of its recovery in a plan in which all tapers take so many days, from today
// on. It reports false for a taper that the races before leave no room for.
func (s *seasonTrial) planGain(i, days int, asB bool) (gain float64, fits bool) {
	r, f := s.season.races[i], *s.facts
	goal := r.Priority == PriorityA && !asB
	if days == 0 && !goal {
		return 0, true
	}
	f.Races, f.Taper.Days = slices.Clone(f.Races), days
	if days == 0 || !goal {
		f.Taper.Days = 8
	}
	last := r.Last() + 1
	if goal {
		last = r.Last().AddDays(r.recoveryDays())
	} else {
		f.Races[s.base.indexOf(r)].Priority = PriorityB
	}
	if i+1 < len(s.season.races) {
		last = min(last, s.season.races[i+1].Date-1)
	}
	p := Derive(r.Date-60, &f)
	if goal && days > 0 && !slices.ContainsFunc(p.Tapers, func(sum TaperSummary) bool { return sum.Race.Name == r.Name && sum.Days == days }) {
		return 0, false
	}
	for d := max(s.today, r.Date.AddDays(-days)); d <= last; d++ {
		day, _ := p.Day(d)
		if day.Phase == RaceDay {
			continue
		}
		removed := (load(day.Sessions) - load(day.Usual)) / f.Weeks[0].Week.meanLoad()
		for _, other := range s.season.races {
			if age := d.DaysUntil(other.Date); age > 0 {
				gain += weights[other.Priority] * removed * response.PriorCurve().At(age)
			}
		}
	}
	return gain, true
}
