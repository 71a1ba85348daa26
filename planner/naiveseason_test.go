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
	if day.Off {
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

// taper is a way with n days of taper, without what recovery does.
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
				if w := s.taper(r, n); all || clearly(w, out[i][0]) && w.mean > out[i][0].mean {
					out[i] = append(out[i], w)
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

// easyAfter adds an A race's recovery days at half load to a way, as far as the next race lets them.
func (s *naiveSeason) easyAfter(i int, w way) way {
	r := s.races[i]
	for d := r.Last() + 1; d <= r.Last().AddDays(recovers(r)); d++ {
		if i+1 < len(s.races) && d >= s.races[i+1].Date {
			break
		}
		w.changed[d] = -0.5 * s.share(d)
	}
	w.gains, w.mean = nil, 0
	return s.weighed(w)
}

// whole are all ways of the season optimum: an A race as planned, with 0, 7, 10, 14 and as the
// single goal 21 days, or as a B race; B races with or without their half week.
func (s *naiveSeason) whole(today planner.Date, planned map[planner.Date]int) [][]way {
	out := make([][]way, len(s.races))
	goals := 0
	for _, r := range s.races {
		if r.Priority == planner.PriorityA {
			goals++
		}
	}
	nothing := way{owns: -1, gains: make([]float64, len(response.Prior()))}
	for i, r := range s.races {
		asB := nothing
		asB.asB = true
		if r.Last() < today && r.Priority == planner.PriorityA {
			out[i] = []way{s.easyAfter(i, s.taper(r, planned[r.Date]))}
			continue
		}
		switch r.Priority {
		case planner.PriorityA:
			lengths := []int{0, planned[r.Date]}
			for _, n := range []int{7, 10, 14, 21} {
				if r.Date.AddDays(-n) >= max(today, r.Registered) && (n <= 14 || goals == 1) {
					lengths = append(lengths, n)
				}
			}
			slices.Sort(lengths)
			for _, n := range slices.Compact(lengths) {
				out[i] = append(out[i], s.easyAfter(i, s.taper(r, n)))
			}
			out[i] = append(out[i], asB, s.half(r))
		case planner.PriorityB:
			half := s.half(r)
			half.asB = false
			out[i] = []way{nothing, half}
		default:
			out[i] = []way{nothing}
		}
	}
	return out
}

// quietDay is a day at which no taper or half week is under way, no B race is past
// and a race is to come.
func (s *naiveSeason) quietDay(r *rand.Rand, planned map[planner.Date]int) planner.Date {
	today := firstDay.AddDays(r.IntN(200))
	if today > s.races[len(s.races)-1].Last() {
		return firstDay
	}
	for _, race := range s.races {
		begins := race.Date.AddDays(-max(4, planned[race.Date]))
		if begins < today && today <= race.Last() || race.Priority == planner.PriorityB && race.Last() < today {
			return firstDay
		}
	}
	return today
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
