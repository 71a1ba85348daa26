package planner_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"musette/planner"
	"musette/planner/response"
)

// Weights of a race in a season's sum, by priority (our choice).
var worth = map[planner.Priority]float64{planner.PriorityA: 1, planner.PriorityB: 0.4, planner.PriorityC: 0.1}

// naiveSeason is a season of one week, worked out again from the rules' text.
type naiveSeason struct {
	facts *planner.Facts
	races []planner.Race // by date
}

// way is one way to ride a race: days of taper, whether days after are its own, and what changes.
type way struct {
	days    int
	owns    int // days after its last day that are its own, -1: neither these nor the race's
	asB     bool
	changed map[planner.Date]float64 // loads, in usual days
	gains   []float64                // of each draw: weighted per cent over all races
	mean    float64
}

func newNaiveSeason(f *planner.Facts) *naiveSeason {
	s := &naiveSeason{facts: f, races: slices.Clone(f.Races)}
	slices.SortFunc(s.races, func(a, b planner.Race) int { return int(a.Date - b.Date) })
	return s
}

// share is the usual load of a date in usual days.
func (s *naiveSeason) share(d planner.Date) float64 {
	w := &s.facts.Weeks[0].Week
	day := w[d.Weekday()]
	if day.Busy {
		return 0
	}
	return sessionsLoad(day.Sessions) / weekLoad(w)
}

// recovers is how many days after an A race are easy (common practice).
func recovers(r planner.Race) int {
	switch {
	case r.Days > 1 || r.Hours > 8:
		return 7
	case r.Hours > 5:
		return 5
	case r.Hours > 3:
		return 3
	case r.Hours >= 1.5:
		return 2
	}
	return 1
}

// left is the share of load on each day of a taper, the first day first: even up to
// 8 days, else exponential, half of the load in all (Mujika and Padilla 2003).
func left(n int) []float64 {
	out := make([]float64, n)
	sum := func(x float64) float64 {
		total := 0.0
		for k := range out {
			out[k] = math.Pow(x, float64(k+1))
			total += out[k]
		}
		return total / float64(n)
	}
	lo, hi := 0.0, 1.0
	for range 60 {
		if mid := (lo + hi) / 2; sum(mid) < 0.5 {
			lo = mid
		} else {
			hi = mid
		}
	}
	if n <= 8 {
		for k := range out {
			out[k] = 0.5
		}
	}
	return out
}

func (s *naiveSeason) raced(d planner.Date) bool {
	return slices.ContainsFunc(s.races, func(r planner.Race) bool { return r.Date <= d && d <= r.Last() })
}

// taper is a way with n days of taper of an evenly cut week, without what recovery does.
func (s *naiveSeason) taper(r planner.Race, n int) way {
	w := way{days: n, owns: recovers(r), changed: map[planner.Date]float64{}}
	for k, share := range left(n) {
		if d := r.Date.AddDays(k - n); !s.raced(d) {
			w.changed[d] = (share - 1) * s.share(d)
		}
	}
	return s.weighed(w)
}

// half is a B race's half week: its two last days and the one after at half load.
func (s *naiveSeason) half(r planner.Race) way {
	w := way{days: 4, owns: 1, asB: true, changed: map[planner.Date]float64{}}
	for _, d := range []planner.Date{r.Date - 2, r.Date - 1, r.Last() + 1} {
		w.changed[d] = -0.5 * s.share(d)
	}
	return s.weighed(w)
}

// planned is a way as a plan has it whose tapers all take n days.
func (s *naiveSeason) planned(r planner.Race, n int) way {
	told := *s.facts
	told.Taper.Days = n
	p := planner.Derive(firstDay, &told)
	w := way{days: n, owns: recovers(r), changed: map[planner.Date]float64{}}
	for d := r.Date.AddDays(-n); d < r.Date; d++ {
		if day, _ := p.Day(d); day.Phase != planner.RaceDay && day.Phase != planner.Health {
			w.changed[d] = (ridden(day, s.facts) - usually(day, s.facts)) / weekLoad(&s.facts.Weeks[0].Week)
		}
	}
	return s.weighed(w)
}

// withHalves adds the half weeks of B races in the 28 days before a race that n days of taper leave to them.
func (s *naiveSeason) withHalves(i int, w way) way {
	w.gains = slices.Clone(w.gains)
	for _, b := range s.races[:i] {
		if free := w.days + 1; b.Priority != planner.PriorityB || b.Last().DaysUntil(s.races[i].Date) <= free || b.Last().DaysUntil(s.races[i].Date) > 28 {
			continue
		}
		half := s.half(b)
		w.mean += half.mean
		for k := range w.gains {
			w.gains[k] += half.gains[k]
		}
	}
	return w
}

// better reports whether n days are clearly better than the default, evenly cut and as they would be planned.
func (s *naiveSeason) better(i, n, standard int) bool {
	r := s.races[i]
	even, evenStandard := s.withHalves(i, s.taper(r, n)), s.withHalves(i, s.taper(r, standard))
	return even.mean > evenStandard.mean && clearly(even, evenStandard) &&
		clearly(s.withHalves(i, s.planned(r, n)), s.withHalves(i, s.planned(r, standard)))
}

// weighed fills in what a way brings to all races: each changed day acts on each later
// race by its age (Fitz-Clarke et al. 1991).
func (s *naiveSeason) weighed(w way) way {
	var dates []planner.Date // in order, so that sums come out the same each time
	for d := range w.changed {
		dates = append(dates, d)
	}
	slices.Sort(dates)
	for _, draw := range response.Prior() {
		sum := 0.0
		for _, d := range dates {
			for _, r := range s.races {
				if age := d.DaysUntil(r.Date); age > 0 {
					sum += worth[r.Priority] * w.changed[d] * influence(draw, age)
				}
			}
		}
		w.gains = append(w.gains, sum)
		w.mean += sum / float64(len(response.Prior()))
	}
	return w
}

// candidates are the default length (common practice; Bosquet et al. 2007: 8 to 14 days) and
// the others, and how many days there are.
func (s *naiveSeason) candidates(i int) (standard int, others []int, room int) {
	r := s.races[i]
	before, after := 1000, 1000
	room = r.Registered.DaysUntil(r.Date)
	single := true
	for k, o := range s.races {
		if o.Date < r.Date && o.Last() >= r.Date.AddDays(-21) {
			single = false // another race lies in the 21 days before
		}
		switch {
		case k == i || o.Priority != planner.PriorityA:
			continue
		case k < i:
			before = min(before, o.Last().DaysUntil(r.Date))
			room = min(room, o.Last().DaysUntil(r.Date)-1-recovers(o))
		default:
			after = min(after, r.Last().DaysUntil(o.Date))
		}
		single = false
	}
	standard, others = 14, []int{7, 10}
	switch {
	case before <= 28 || after <= 28:
		return 7, nil, max(room, 0)
	case after <= 56:
		standard, others = 10, []int{7, 14}
	}
	if single {
		others = append(others, 21)
	}
	others = slices.DeleteFunc(others, func(n int) bool { return max(n, standard) > room })
	return standard, others, max(room, 0)
}

// clearly reports whether more than three of four draws prefer the first way.
func clearly(better, than way) bool {
	n := 0
	for i := range better.gains {
		if better.gains[i] > than.gains[i] {
			n++
		}
	}
	return 4*n > 3*len(better.gains)
}

// ways are those of each race: of A races the default and what is clearly better.
func (s *naiveSeason) ways(all bool) [][]way {
	out := make([][]way, len(s.races))
	for i, r := range s.races {
		nothing := way{owns: -1, gains: make([]float64, len(response.Prior()))}
		switch r.Priority {
		case planner.PriorityA:
			standard, others, room := s.candidates(i)
			out[i] = []way{s.taper(r, min(standard, room))}
			for _, n := range others {
				if all || s.better(i, n, standard) {
					out[i] = append(out[i], s.taper(r, n))
				}
			}
		case planner.PriorityB:
			out[i] = []way{nothing, s.half(r)}
		default:
			out[i] = []way{nothing}
		}
	}
	return out
}

// days is the season's length with the 84 days before its first race (our choice).
func (s *naiveSeason) days() int {
	return s.races[0].Date.DaysUntil(s.races[len(s.races)-1].Last()) + 1 + 84
}

// fits reports whether the taper days of every race are nobody else's.
func (s *naiveSeason) fits(choice []way) bool {
	taken, owner := map[planner.Date]int{}, map[planner.Date]int{}
	spent := 0
	for i, w := range choice {
		spent += w.days
		for d := s.races[i].Date.AddDays(-w.days); d < s.races[i].Date; d++ {
			if _, ok := owner[d]; ok {
				return false
			}
			owner[d] = i
		}
		for k := s.races[i].Date; k <= s.races[i].Last().AddDays(w.owns) && w.owns >= 0; k++ {
			taken[k] = i
		}
	}
	for d, i := range owner {
		if by, ok := taken[d]; ok && by != i {
			return false
		}
	}
	return spent <= s.days()*30/100
}

// best tries all choices that keep may hold; ok is false where none is allowed.
func (s *naiveSeason) best(ways [][]way, keep func(i int, w way) bool) (choice []way, sum float64, ok bool) {
	now := make([]way, 0, len(ways))
	var try func(total float64)
	try = func(total float64) {
		i := len(now)
		if i == len(ways) {
			if (!ok || total > sum+1e-12) && s.fits(now) {
				choice, sum, ok = slices.Clone(now), total, true
			}
			return
		}
		for _, w := range ways[i] {
			if keep == nil || keep(i, w) {
				now = append(now, w)
				try(total + w.mean)
				now = now[:i]
			}
		}
	}
	try(0)
	return choice, sum, ok
}

// randomSeason is up to so many races on different days.
func randomSeason(t *testing.T, r *rand.Rand, most int) *planner.Facts {
	t.Helper()
	f := rider(t, []string{mixedWeek, evenWeek}[r.IntN(2)])
	day := 60
	for range 1 + r.IntN(most) {
		race := raceOn(day, []planner.Priority{planner.PriorityA, planner.PriorityA, planner.PriorityB, planner.PriorityC}[r.IntN(4)])
		race.Hours = []float64{1, 1.5, 3, 3.5, 6, 9}[r.IntN(6)]
		if r.IntN(6) == 0 {
			race.Days = 2 + r.IntN(4)
		}
		if r.IntN(6) == 0 {
			race.Registered = race.Date.AddDays(-r.IntN(20))
		}
		f.Races = append(f.Races, race)
		day += race.Days + []int{r.IntN(5), r.IntN(30), 10 + r.IntN(30), 30 + r.IntN(60)}[r.IntN(4)]
	}
	r.Shuffle(len(f.Races), func(i, j int) { f.Races[i], f.Races[j] = f.Races[j], f.Races[i] })
	return f
}

// tapersOf are the planned lengths by race day, 0 for A races that get none.
func tapersOf(p *planner.Plan) map[planner.Date]int {
	out := map[planner.Date]int{}
	for _, r := range p.Races {
		if r.Race.Priority == planner.PriorityA && r.Race.Days > 0 {
			out[r.Race.Date] = 0
		}
	}
	for _, sum := range p.Tapers {
		out[sum.Race.Date] = sum.Days
	}
	return out
}
