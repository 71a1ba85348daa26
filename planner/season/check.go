package season

import (
	"slices"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// Check weighs the tapers of the season that the next race belongs to. Races
// that are not ridden count nothing.
type Check struct {
	Goals                 []Goal // A races to come, by date
	TaperDays, SeasonDays int    // of the A races of the whole season; its days with the build-up
	Crowded               bool   // more than WindowShare of the season's days are taper days
	Clashes               []Clash
	Weight                float64  // of the races to come in sum
	Best                  *Change  // the best other choice that was found; nil: none is clearly better
	Touched               []Effect // what the A races' tapers do to the other races to come
	Over                  bool     // some of the season's tapers are over and count no more
	Inside                []Inside // races to come inside the tapers of the goals; no goal's figure has their cost in it
}

// Touches reports a B or C race to which the A races' tapers make a difference that can be told.
func (c *Check) Touches(r *planner.Race) bool {
	return slices.ContainsFunc(c.Touched, func(e Effect) bool { return e.Race.Is(r) && Tenths(e.Change.Mid) != "0" })
}

// Goal is an A race with its planned taper: Gain is what its own taper does to
// it, Before what earlier ones do, and Net what all of these do, in per cent of performance
// in the race against usual days: middles, which need not add up. Of earlier tapers only days from today on count: what is over
// cannot be changed.
type Goal struct {
	Race      *planner.Race
	Days      int
	Gain, Net response.Range
	Before    response.Range
}

// Taper is what an A race would get: days of taper, or, ridden as a B race, its
// half week or nothing.
type Taper struct {
	Race *planner.Race
	Days int
	AsB  bool
}

// Effect is by how many per cent a choice changes the performance in a race.
type Effect struct {
	Race   *planner.Race
	Change response.Range
}

// Change is another choice for a season that is clearly better: races to make B
// races, and automatic lengths where told ones are worse. Every race is ridden as
// before. Tapers are of the A races to come under it, Effects of all races to
// come. Total is what it brings in sum over these, each counted by the priority
// that it was told with, per cent; divided by Weight it is an average. The middle
// half of it lies above zero. Step is the one of several such races that brings most by
// itself, if that may be offered too.
type Change struct {
	ToB       []*planner.Race
	Automatic bool
	Tapers    []Taper
	Effects   []Effect
	Total     response.Range
	Step      *Change
}

// clashAhead is how far ahead clashes are weighed, in days.
const clashAhead = 365

// Clash is a pair of A races at most engine.CloseGap days apart, and what it would bring to
// make either a B race. Carried means that the second lives off the first one's taper.
type Clash struct {
	First, Second *planner.Race
	Days          int
	Carried       bool
	Choices       []ClashChoice // of those that are to come and would still be ridden
}

// ClashChoice is one of a clash's races made a B race: what that does to the race
// itself, to the other one and to the whole season, per cent.
type ClashChoice struct {
	Race              *planner.Race
	Own, Other, Total response.Range
}

// NewCheck weighs the season of the next race, nil where no race is to come,
// nothing is usually ridden or symptoms allow no plan. The optimum is exact, of the
// linear model; what it suggests is weighed by the days as they would be planned. It is advice.
func NewCheck(today planner.Date, f *planner.Facts) *Check {
	s := newSeason(today, f)
	if s == nil {
		return nil
	}
	check := &Check{SeasonDays: s.days(), Weight: s.weight}
	s.weighGoals(check)
	check.Crowded = check.TaperDays > s.budget()
	s.clashes(check)
	check.Best = s.suggest(s.advise())
	return check
}

// weighGoals lists the A races to come, and what their tapers do to the others.
func (s *season) weighGoals(check *Check) {
	nets, before := s.nets()
	for i, r := range s.races {
		if r.Priority != planner.PriorityA {
			if r.Date > s.today {
				check.Touched = append(check.Touched, Effect{Race: r, Change: response.RangeOf(nets[i])})
			}
			continue
		}
		days := s.tapers[i].days
		check.TaperDays += days
		check.Over = check.Over || days > 0 && r.Last() < s.today
		if r.Last() < s.today {
			continue
		}
		g := Goal{Race: r, Days: days}
		if g.Days > 0 && s.unit(r.Date) > 0 {
			g.Gain = s.expect(r, s.changeOf(i), s.unit(r.Date)).Gain
		}
		g.Net, g.Before = response.RangeOf(nets[i]), response.RangeOf(before[i])
		check.Goals = append(check.Goals, g)
		if k := slices.IndexFunc(s.base.Tapers, func(t engine.Taper) bool { return t.Race == r }); k >= 0 {
			check.Inside = append(check.Inside, s.inside(s.base, &s.base.Tapers[k])...)
		}
	}
}

// nets are what all tapers up to each race do to it, one value a draw: its own, and the
// days to come of those before, which are told apart too.
func (s *season) nets() (nets, before [][]float64) {
	nets, before = make([][]float64, len(s.races)), make([][]float64, len(s.races))
	for i := range nets {
		nets[i], before[i] = make([]float64, len(response.Prior())), make([]float64, len(response.Prior()))
	}
	for k, r := range s.races {
		if s.tapers[k].days == 0 || s.unit(r.Date) == 0 || r.Last() < s.today {
			continue
		}
		change, later := s.changeOf(k), within(s.races[k:], r.Date)
		for i, row := range ownWhole(r.Date, change, s.today, s.unit(r.Date), later) {
			for j, v := range row {
				nets[k+i][j] += v
				if i > 0 {
					before[k+i][j] += v
				}
			}
		}
	}
	return nets, before
}

// changeOf is what the taper of a race of the season changes.
func (s *season) changeOf(i int) []float64 {
	return s.change(s.tapers[i].plan, s.races[i].Date, s.tapers[i].days)
}

// clashes lists A races to come that are too near each other for two whole tapers.
func (s *season) clashes(check *Check) {
	for k := 1; k < len(check.Goals); k++ {
		first, second := check.Goals[k-1].Race, check.Goals[k].Race
		gap := first.Last().DaysUntil(second.Date)
		if gap > engine.CloseGap || first.Date > s.today+clashAhead {
			continue
		}
		c := Clash{First: first, Second: second, Days: gap, Carried: gap <= CarriedGap}
		for _, pair := range [2][2]*planner.Race{{first, second}, {second, first}} {
			if len(check.Clashes) < mostWeighed && pair[0].Date > s.today && !s.choice([]*planner.Race{pair[0]}, false).drops {
				c.Choices = append(c.Choices, s.weighClash(pair[0], pair[1]))
			}
		}
		check.Clashes = append(check.Clashes, c)
	}
}

// weighClash makes one of two clashing races a B race.
func (s *season) weighClash(race, other *planner.Race) ClashChoice {
	c := s.choice([]*planner.Race{race}, false)
	return ClashChoice{Race: race, Own: s.effect(c, race), Other: s.effect(c, other), Total: c.total}
}
