package planner

import (
	"math"
	"slices"

	"musette/planner/response"
)

// A season as the optimum sees it.
const (
	seasonGap   = 120  // days between races from which on they belong to two seasons
	seasonLead  = 84   // days before its first race with which a season begins
	windowShare = 0.30 // of a season's days at most are taper days

	halfDays  = 4   // of a B race's half week
	halfEases = 2   // of these, days before the race that are cut
	easedDay  = 0.5 // of the usual load is left on them and on recovery days (common practice)
)

// weights of a race's performance in the sum, by priority.
var weights = [...]float64{PriorityA: 1, PriorityB: 0.4, PriorityC: 0.1}

// seasonRun is a run of races, by date, with no long gap, and its A races.
type seasonRun struct {
	facts  *Facts
	logged []Block // overload found in the log
	races  []*Race
	goals  []goalRace
}

// seasons parts all races that were ever told, whatever today is.
func (c *calendar) seasons() []seasonRun {
	all := c.told
	var out []seasonRun
	for first := 0; first < len(all); {
		end, last := first+1, all[first].Last()
		for end < len(all) && last.DaysUntil(all[end].Date) <= seasonGap {
			last = max(last, all[end].Last())
			end++
		}
		out = append(out, c.newSeason(all[first:end]))
		first = end
	}
	return out
}

func (c *calendar) newSeason(races []*Race) seasonRun {
	s := seasonRun{facts: c.facts, logged: c.logged, races: races}
	var prev *Race
	var raced Date // the last race day so far
	for i, r := range races {
		inside := raced >= r.Date.AddDays(-21)
		raced = max(raced, r.Last())
		if r.Priority != PriorityA {
			continue
		}
		g := goalRace{race: r, stop: i}
		g.lengths, g.why = c.admissible(r, prev, nextGoal(races[i+1:]), inside)
		s.goals = append(s.goals, g)
		prev = r
	}
	return s
}

func nextGoal(races []*Race) *Race {
	for _, r := range races {
		if r.Priority == PriorityA {
			return r
		}
	}
	return nil
}

// raced lists the races that get days, by date, those of higher right first.
func (c *calendar) raced() []*Race {
	out := make([]*Race, 0, len(c.plan.Races))
	for i := range c.plan.Races {
		if r := c.plan.Races[i].Race; r.Days > 0 {
			out = append(out, r)
		}
	}
	sortRaces(out)
	return out
}

// days is the length of the season, build-up included.
func (s *seasonRun) days() int {
	last := s.races[0].Last()
	for _, r := range s.races {
		last = max(last, r.Last())
	}
	return s.races[0].Date.DaysUntil(last) + 1 + seasonLead
}

// budget is the most taper days that the season may hold.
func (s *seasonRun) budget() int { return int(windowShare * float64(s.days())) }

// stops are the season's races for the optimum: B races choose between nothing
// and their half week, C races have nothing to choose, and what A races may
// have is put in by the caller.
func (s *seasonRun) stops() []response.Stop {
	out := make([]response.Stop, len(s.races))
	for i, r := range s.races {
		out[i] = response.Stop{First: int(r.Date), Last: int(r.Last()), Options: []response.Option{{After: -1}}}
		if r.Priority == PriorityB {
			out[i].Options = append(out[i].Options, response.Option{Days: halfDays, After: 1, Gain: s.gain(i, s.half(r))})
		}
	}
	return out
}

// option is a taper of n days, or of what fits, for the optimum.
func (s *seasonRun) option(g *goalRace, n int) response.Option {
	n = max(0, min(n, s.room(g)))
	return response.Option{Days: n, After: g.race.recoveryDays(), Gain: s.gain(g.stop, s.taper(g.race, n))}
}

// room is how many days are free before an A race.
func (s *seasonRun) room(g *goalRace) int {
	room := g.race.Registered.DaysUntil(g.race.Date)
	for _, r := range s.races[:g.stop] {
		if r.Priority == PriorityA {
			room = min(room, r.Last().AddDays(r.recoveryDays()+1).DaysUntil(g.race.Date))
		}
	}
	return room
}

// gain is what a change around a race is expected to do to the weighted sum of
// performance at it, at all later races, and at those between the days changed before it: per cent.
func (s *seasonRun) gain(stop int, c response.Change) float64 {
	curve, total := s.facts.curve(), 0.0
	for k := s.firstInside(stop); k < len(s.races); k++ {
		r := s.races[k]
		gap, sum := s.races[stop].Date.DaysUntil(r.Date), 0.0
		if gap >= response.Horizon {
			break
		}
		if gap == 0 && k != stop {
			continue
		}
		for i, load := range c.Before {
			if age := gap + i + 1; age > 0 {
				sum += load * curve.At(age)
			}
		}
		for i, load := range c.After {
			if age := gap - i - 1; age > 0 {
				sum += load * curve.At(age)
			}
		}
		total += weights[r.Priority] * sum
	}
	return total
}

// firstInside is the first race that the longest taper for a race could span.
func (s *seasonRun) firstInside(stop int) int {
	first := stop
	for first > 0 && s.races[first-1].Date >= s.races[stop].Date.AddDays(-MaxTaperDays) {
		first--
	}
	return first
}

// effect writes the same over out as one value a draw. reach is that of the races
// after the one in question, more is as long as out.
func (s *seasonRun) effect(out, more []float64, stop int, reach response.Reach, c response.Change) {
	r, belief := s.races[stop], s.facts.belief()
	belief.Effect(out, weights[r.Priority], reach, c)
	for _, earlier := range s.races[s.firstInside(stop):stop] {
		gap := earlier.Date.DaysUntil(r.Date)
		if gap <= 0 || gap >= len(c.Before) {
			continue
		}
		belief.Effect(more, weights[earlier.Priority], response.Reach{}, response.Change{Before: c.Before[gap:]})
		for i, v := range more {
			out[i] += v
		}
	}
}

// later are the races after one of the season, as the models want them.
func (s *seasonRun) later(stop int) []response.Later {
	var out []response.Later
	for _, r := range s.races[stop+1:] {
		days := s.races[stop].Date.DaysUntil(r.Date)
		if days >= response.Horizon {
			break
		}
		if days > 0 {
			out = append(out, response.Later{Days: days, Weight: weights[r.Priority]})
		}
	}
	return out
}

// sure finds of an A race's options the default and those of which the model is
// sure: the middle half of their difference to the default, over the parameters
// that are plausible, is above zero; for an evenly cut week, and then for the days
// as they would be planned.
func (s *seasonRun) sure(g *goalRace, options []response.Option) []int {
	out := make([]int, 1, len(options))
	var t *lengthTest
	for k := 1; k < len(options); k++ {
		if options[k].Gain+s.halvesLeft(g, options[k].Days) <= options[0].Gain+s.halvesLeft(g, options[0].Days) {
			continue
		}
		if t == nil {
			t = s.newLengthTest(g)
		}
		if t.clear(s.taper, options[k].Days, options[0].Days) && t.clear(s.planned, options[k].Days, options[0].Days) {
			out = append(out, k)
		}
	}
	return out
}

// planned is real for a goal of the season.
func (s *seasonRun) planned(r *Race, n int) response.Change {
	return s.real(slices.Index(s.races, r), PriorityA, n)
}

// lengthTest weighs lengths of one race's taper as they would be planned, one value a draw.
type lengthTest struct {
	season                *seasonRun
	goal                  *goalRace
	reach                 response.Reach
	standard, other, more []float64
}

func (s *seasonRun) newLengthTest(g *goalRace) *lengthTest {
	n := len(s.facts.belief())
	return &lengthTest{season: s, goal: g, reach: s.facts.belief().Reach(s.later(g.stop)),
		standard: make([]float64, n), other: make([]float64, n), more: make([]float64, n)}
}

// clear reports whether one length is clearly better than another.
func (t *lengthTest) clear(taper func(*Race, int) response.Change, n, than int) bool {
	t.weigh(t.other, n, taper)
	t.weigh(t.standard, than, taper)
	for i := range t.other {
		t.other[i] -= t.standard[i]
	}
	return response.Clear(t.other)
}

// weigh writes over out what a length brings, with the half weeks that it leaves to B races.
func (t *lengthTest) weigh(out []float64, n int, taper func(*Race, int) response.Change) {
	s, g := t.season, t.goal
	s.effect(out, t.more, g.stop, t.reach, taper(g.race, n))
	half := make([]float64, len(out))
	for i := s.firstInside(g.stop); i < g.stop; i++ {
		r := s.races[i]
		if !s.leaves(g, n, r) {
			continue
		}
		s.effect(half, t.more, i, s.facts.belief().Reach(s.later(i)), s.half(r))
		for j, v := range half {
			out[j] += v
		}
	}
}

// leaves reports whether a taper of n days leaves a B race before it its half
// week, which the longest of the lengths would take.
func (s *seasonRun) leaves(g *goalRace, n int, r *Race) bool {
	if r.Priority != PriorityB || r.Last() < g.race.Date.AddDays(-MaxTaperDays) {
		return false
	}
	return r.Last().AddDays(1) < g.race.Date.AddDays(-n)
}

// halvesLeft is what the half weeks that a taper leaves to B races are expected to bring.
func (s *seasonRun) halvesLeft(g *goalRace, n int) float64 {
	total := 0.0
	for i := s.firstInside(g.stop); i < g.stop; i++ {
		if r := s.races[i]; s.leaves(g, n, r) {
			total += s.gain(i, s.half(r))
		}
	}
	return total
}

// taper is what n days of taper take from the usual days before a race, by the
// rider's cut and shape, in usual days.
func (s *seasonRun) taper(r *Race, n int) response.Change {
	before := make([]float64, n)
	kept := s.facts.Taper.kept(n)
	unit := s.facts.unit(r.Date)
	for i := range before {
		before[i] = (kept[i] - 1) * s.facts.usualShare(r.Date.AddDays(-i-1), unit)
	}
	for _, other := range s.races { // what is raced is not cut
		if other.Date >= r.Date {
			break
		}
		for d := max(other.Date, r.Date.AddDays(-n)); d <= min(other.Last(), r.Date-1); d++ {
			before[d.DaysUntil(r.Date)-1] = 0
		}
	}
	return response.Change{Before: before}
}

// half is what a B race's half week and the day after take.
func (s *seasonRun) half(r *Race) response.Change {
	unit := s.facts.unit(r.Date)
	c := response.Change{Before: make([]float64, halfEases), After: make([]float64, r.Days)}
	for i := range c.Before {
		c.Before[i] = (easedDay - 1) * s.facts.usualShare(r.Date.AddDays(-i-1), unit)
	}
	c.After[r.Days-1] = (easedDay - 1) * s.facts.usualShare(r.Last()+1, unit)
	return c
}

// usualShare is the usual load of a date in usual days.
func (f *Facts) usualShare(d Date, unit float64) float64 {
	day := &f.weekOn(d)[d.Weekday()]
	if day.Busy || unit == 0 {
		return 0
	}
	return load(day.Sessions) / unit
}

// usualOn is the load of a date in the usual week.
func (f *Facts) usualOn(d Date) float64 { return f.usualShare(d, 1) }

// kept is the share of the usual load that a taper of n days leaves on each of
// them, the day before the race first.
func (t Taper) kept(n int) []float64 {
	out := make([]float64, n)
	left := 1 - float64(t.cut())/100
	even := n <= oneWeekMax || t.Shape == Step
	decay := 0.0
	if !even && t.Shape == Exponential {
		decay = decayTo(left, n)
	}
	for i := range out {
		day := float64(n - i) // of the taper, from 1 on
		switch {
		case even:
			out[i] = left
		case t.Shape == Linear:
			out[i] = math.Max(0, 1-2*(1-left)*day/float64(n+1))
		default:
			out[i] = math.Exp(-decay * day)
		}
	}
	return out
}

// decayTo is the decay a day at which n days keep a share of their load on average.
func decayTo(share float64, n int) float64 {
	lo, hi := 1e-6, 4.0
	for range 40 {
		mid := (lo + hi) / 2
		if -math.Expm1(-mid*float64(n))/math.Expm1(mid)/float64(n) > share {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
