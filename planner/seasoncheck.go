package planner

import (
	"slices"

	"musette/planner/response"
)

// SeasonCheck weighs the tapers of the season that the next race belongs to.
type SeasonCheck struct {
	Goals                 []SeasonGoal   // A races to come, by date
	TaperDays, SeasonDays int            // of the A races of the whole season; its days with the build-up
	Last                  *Race          // the season's last A race; nil: none to come
	Tapers                int            // that end by the last A race's morning
	Lost                  response.Range // per cent of the fitness of that morning that these tapers take
	Clashes               []Clash
	Best                  *SeasonChange // nil: nothing better was found
	Average               []SeasonTaper // optimum of the expected values alone, of the A races to come
	Held                  bool          // Average is what is planned
}

// SeasonGoal is an A race with its planned taper: Gain is its own, Later what the
// taper does to all later races together, each counted by its priority, per cent.
type SeasonGoal struct {
	Race        *Race
	Days        int
	Gain, Later response.Range
}

// SeasonTaper is what an A race would get: days of taper, or, ridden as a B
// race, its half week.
type SeasonTaper struct {
	Race *Race
	Days int
	AsB  bool
}

// SeasonChange is another choice for a season: races to make B races, and
// automatic lengths where told ones are worse. Tapers are those of the A races to come
// under it. Total is what it brings over all races, each counted by the priority that
// it was told with, per cent. Sure means that the middle half of that is above zero.
type SeasonChange struct {
	ToB       []*Race
	Automatic bool
	Tapers    []SeasonTaper
	Total     response.Range
	Sure      bool
}

// clashAhead is how far ahead clashes are weighed, in days.
const clashAhead = 365

// Clash is a pair of A races less than 28 days apart, and what it would bring to
// make either a B race.
type Clash struct {
	First, Second *Race
	Days          int
	Choices       [2]ClashChoice
}

// ClashChoice is one of a clash's races made a B race: what that does to the race
// itself, to the other one and to the whole season, per cent.
type ClashChoice struct {
	Race              *Race
	Own, Other, Total response.Range
}

// CheckSeason weighs the season of the next race, nil where no race is to come or
// nothing is usually ridden. The optimum is exact, of the linear model; it is advice.
func (f *Facts) CheckSeason(today Date) *SeasonCheck {
	s := f.newSeasonTrial(today)
	if s == nil {
		return nil
	}
	check := &SeasonCheck{SeasonDays: s.season.days()}
	s.weighGoals(check)
	s.weighFitness(check)
	average := s.optimum()
	check.Average, check.Held = s.tapersOf(average), s.sameTapers(average)
	s.clashes(check)
	check.Best = s.advise(average, check.Clashes)
	return check
}

// weighGoals lists the A races to come.
func (s *seasonTrial) weighGoals(check *SeasonCheck) {
	for i, r := range s.season.races {
		if r.Priority != PriorityA {
			continue
		}
		check.TaperDays += s.present.days[i]
		if r.Last() < s.today {
			continue
		}
		g := SeasonGoal{Race: r, Days: s.present.days[i]}
		if g.Days > 0 && s.facts.weekOn(r.Date-1).meanLoad() > 0 {
			removed, unit := make([]float64, g.Days), s.facts.weekOn(r.Date-1).meanLoad()
			for k := range removed {
				removed[k] = s.base.removedOn(r.Date.AddDays(-k-1), unit)
			}
			change := response.Change{Before: removed}
			s.belief.Effect(s.out, 1, response.Reach{}, change)
			g.Gain = response.RangeOf(s.out)
			s.belief.Effect(s.out, 0, s.reach[i], change)
			g.Later = response.RangeOf(s.out)
		}
		check.Goals = append(check.Goals, g)
		check.Last = r
	}
}

// weighFitness tells what all tapers together leave out of the last A race's fitness.
func (s *seasonTrial) weighFitness(check *SeasonCheck) {
	if check.Last == nil {
		return
	}
	unit := s.facts.weekOn(check.Last.Date - 1).meanLoad()
	first := s.season.races[0].Date.AddDays(-MaxTaperDays)
	removed := make([]float64, first.DaysUntil(check.Last.Date))
	for i, r := range s.season.races {
		if r.Priority != PriorityA || r.Date > check.Last.Date || s.present.days[i] == 0 {
			continue
		}
		check.Tapers++
		ideal := s.season.taper(r, s.present.days[i]).Before
		for k := 1; k <= s.present.days[i]; k++ {
			d := r.Date.AddDays(-k)
			switch {
			case unit == 0:
			case r.Last() < s.today.AddDays(-pastReach):
				removed[d.DaysUntil(check.Last.Date)-1] = ideal[k-1]
			default:
				removed[d.DaysUntil(check.Last.Date)-1] = s.base.removedOn(d, unit)
			}
		}
	}
	s.belief.FitnessLost(s.out, removed)
	check.Lost = response.RangeOf(s.out)
}

// tapersOf is a choice in the terms of riders.
func (s *seasonTrial) tapersOf(c seasonChoice) []SeasonTaper {
	var out []SeasonTaper
	for i, r := range s.season.races {
		if r.Priority == PriorityA && r.Last() >= s.today {
			out = append(out, SeasonTaper{Race: r, Days: c.days[i], AsB: c.asB[i]})
		}
	}
	return out
}

func (s *seasonTrial) sameTapers(c seasonChoice) bool {
	return slices.Equal(c.days, s.present.days) && slices.Equal(c.asB, s.present.asB)
}

// clashes lists A races to come that are too near each other for two whole tapers.
func (s *seasonTrial) clashes(check *SeasonCheck) {
	for k := 1; k < len(check.Goals); k++ {
		first, second := check.Goals[k-1].Race, check.Goals[k].Race
		gap := first.Last().DaysUntil(second.Date)
		if gap >= closeGap || first.Date > s.today+clashAhead {
			continue
		}
		c := Clash{First: first, Second: second, Days: gap}
		for j, pair := range [2][2]*Race{{first, second}, {second, first}} {
			other := s.scenario([]*Race{pair[0]}, false)
			c.Choices[j] = ClashChoice{Race: pair[0], Own: s.differenceAt(pair[0], other), Other: s.differenceAt(pair[1], other)}
			total, _ := s.difference(other, s.present)
			c.Choices[j].Total = total
		}
		check.Clashes = append(check.Clashes, c)
	}
}
