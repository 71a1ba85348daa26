package planner

import (
	"musette/planner/response"
)

// SeasonCheck weighs the tapers of the season that the next race belongs to.
type SeasonCheck struct {
	Goals                 []SeasonGoal   // A races to come, by date
	TaperDays, SeasonDays int            // of the A races of the whole season; its days with the build-up
	Crowded               bool           // more than 30 % of the season's days are taper days
	Last                  *Race          // the season's last A race; nil: none to come
	Tapers                int            // that end by the last A race's morning
	Lost                  response.Range // per cent of the fitness of that morning that these tapers take
	Clashes               []Clash
	Weight                float64       // of the races to come in sum: an A race counts 1, B 0.4, C 0.1
	Best                  *SeasonChange // the best other choice that was found; nil: none brings more, and nothing clashes
}

// SeasonGoal is an A race with its planned taper: Gain is its own, Later what the
// taper does to all later races together, each counted by its priority, per cent;
// divided by LaterWeight, the sum of their weights, it is an average.
type SeasonGoal struct {
	Race        *Race
	Days        int
	Gain, Later response.Range
	LaterWeight float64
}

// SeasonTaper is what an A race would get: days of taper, or, ridden as a B
// race, its half week or nothing.
type SeasonTaper struct {
	Race *Race
	Days int
	AsB  bool
}

// RaceEffect is by how many per cent a choice changes the performance in a race.
type RaceEffect struct {
	Race   *Race
	Change response.Range
}

// SeasonChange is another choice for a season: races to make B races, and
// automatic lengths where told ones are worse. Tapers and Effects are of the A races
// Tapers are of the A races to come under
// it, Effects of all races to come. is what it brings in sum over all races to come, each counted by
// the priority that it was told with, per cent; divided by Weight it is an average. Sure means
// that the middle half of that is above zero.
type SeasonChange struct {
	ToB       []*Race
	Automatic bool
	Tapers    []SeasonTaper
	Effects   []RaceEffect
	Total     response.Range
	Sure      bool
}

// clashAhead is how far ahead clashes are weighed, in days.
const clashAhead = 365

// Clash is a pair of A races at most 28 days apart, and what it would bring to
// make either a B race. Carried means that the second lives off the first one's taper.
type Clash struct {
	First, Second *Race
	Days          int
	Carried       bool
	Choices       []ClashChoice // of those that are to come
}

// ClashChoice is one of a clash's races made a B race: what that does to the race
// itself, to the other one and to the whole season, per cent.
type ClashChoice struct {
	Race              *Race
	Own, Other, Total response.Range
}

// CheckSeason weighs the season of the next race, nil where no race is to come,
// nothing is usually ridden or symptoms allow no plan. The optimum is exact, of the
// linear model; what it suggests is weighed by the days as they would be planned. It is advice.
func (f *Facts) CheckSeason(today Date) *SeasonCheck {
	f = f.KnownOn(today)
	s := f.newSeasonTrial(today)
	if s == nil {
		return nil
	}
	check := &SeasonCheck{SeasonDays: s.season.days(), Weight: s.weightToCome()}
	s.weighGoals(check)
	check.Crowded = check.TaperDays > s.season.budget()
	s.weighFitness(check)
	s.clashes(check)
	check.Best = s.advise(check.Clashes)
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
		if g.Days > 0 && s.facts.unit(r.Date) > 0 {
			removed, unit, out := make([]float64, g.Days), s.facts.unit(r.Date), make([]float64, len(s.belief))
			for k := range removed {
				removed[k] = s.base.removedOn(r.Date.AddDays(-k-1)) / unit
			}
			change := response.Change{Before: removed}
			s.belief.Effect(out, 1, response.Reach{}, change)
			g.Gain = response.RangeOf(out)
			later := s.season.later(i)
			for _, l := range later {
				g.LaterWeight += l.Weight
			}
			s.belief.Effect(out, 0, s.belief.Reach(later), change)
			g.Later = response.RangeOf(out)
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
			case r.Last() < s.today.AddDays(-pastReach):
				removed[d.DaysUntil(check.Last.Date)-1] = ideal[k-1] * s.facts.unit(r.Date) / s.unit
			default:
				removed[d.DaysUntil(check.Last.Date)-1] = s.base.removedOn(d) / s.unit
			}
		}
	}
	out := make([]float64, len(s.belief))
	s.belief.FitnessLost(out, removed)
	check.Lost = response.RangeOf(out)
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

// clashes lists A races to come that are too near each other for two whole tapers.
func (s *seasonTrial) clashes(check *SeasonCheck) {
	for k := 1; k < len(check.Goals); k++ {
		first, second := check.Goals[k-1].Race, check.Goals[k].Race
		gap := first.Last().DaysUntil(second.Date)
		if gap > closeGap || first.Date > s.today+clashAhead {
			continue
		}
		c := Clash{First: first, Second: second, Days: gap, Carried: gap <= carriedGap}
		for _, pair := range [2][2]*Race{{first, second}, {second, first}} {
			if pair[0].Date > s.today {
				c.Choices = append(c.Choices, s.weighClash(pair[0], pair[1]))
			}
		}
		check.Clashes = append(check.Clashes, c)
	}
}

// weighClash makes one of two clashing races a B race.
func (s *seasonTrial) weighClash(race, other *Race) ClashChoice {
	choice := s.scenario([]*Race{race}, false)
	out := ClashChoice{Race: race}
	for _, e := range s.effects(choice) {
		switch e.Race {
		case race:
			out.Own = e.Change
		case other:
			out.Other = e.Change
		}
	}
	out.Total, _ = s.difference(choice, s.present)
	return out
}
