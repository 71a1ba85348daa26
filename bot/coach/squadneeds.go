package coach

import (
	"fmt"
	"slices"

	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
)

// SeasonNeeds finds what a season asks a coach to decide: A races that are too
// many or too near, races on one day, and a race on a day away.
func (s *standing) SeasonNeeds() {
	races := slices.Clone(s.Facts.Now.Races)
	slices.SortStableFunc(races, func(a, b planner.Race) int { return int(a.Date - b.Date) })
	var goals []planner.Race
	for _, r := range races {
		if r.Priority == planner.PriorityA {
			goals = append(goals, r)
		}
	}
	s.closeGoals(goals)
	s.manyGoals(goals)
	s.sameDay(races)
	for i := range races {
		if r := &races[i]; r.Last() >= s.Today && s.awayFor(r) {
			s.Clashes = append(s.Clashes, "a race on a day away")
			s.Choices = append(s.Choices, fmt.Sprintf("%s on %s is on a day they said they are away. Do they race?", show.RaceName(r), show.Dated(r.Date, s.Today)))
			break
		}
	}
}

// closeGoals finds neighbouring A races within too few days, the second to come.
func (s *standing) closeGoals(goals []planner.Race) {
	nearest, pairs := 0, 0
	for i := 1; i < len(goals); i++ {
		a, b := &goals[i-1], &goals[i]
		gap := a.Last().DaysUntil(b.Date)
		if gap <= 0 || gap >= engine.CloseGap || b.Date < s.Today {
			continue
		}
		if pairs++; pairs == 1 || gap < nearest {
			nearest = gap
		}
		switch {
		case a.Last() >= s.Today:
			if advice := s.advice(); advice != "" {
				s.Choices = append(s.Choices, fmt.Sprintf("%s and %s are both A, %s apart: %s", show.RaceName(a), show.RaceName(b), show.Count(gap, "day"), advice))
			}
		default:
			s.Choices = append(s.Choices, fmt.Sprintf("%s is A, %s after %s: does it stay A?", show.RaceName(b), show.Count(gap, "day"), show.RaceName(a)))
		}
	}
	switch {
	case pairs == 1:
		s.Clashes = append(s.Clashes, fmt.Sprintf("A races %s apart", show.Count(nearest, "day")))
	case pairs > 1:
		s.Clashes = append(s.Clashes, fmt.Sprintf("%d times A races under %d days apart", pairs, engine.CloseGap))
	}
}

// advice is what the season check would do, "" where it would keep all as it is.
func (s *standing) advice() string {
	if s.plan == nil {
		return "should both stay A?"
	}
	check := season.NewCheck(s.Today, s.Facts.All)
	if check == nil || !show.WorthIt(check) {
		return ""
	}
	auto := ""
	if check.Best.Automatic {
		auto = " and let taper lengths be automatic"
	}
	switch toB := check.Best.ToB; len(toB) {
	case 0:
		return "the season check would let taper lengths be automatic. Agree?"
	case 1:
		return fmt.Sprintf("the season check would make %s a B race%s. Agree?", show.RaceName(toB[0]), auto)
	case 2:
		return fmt.Sprintf("the season check would make %s and %s B races%s. Agree?", show.RaceName(toB[0]), show.RaceName(toB[1]), auto)
	}
	if step := check.Best.Step; step != nil {
		return fmt.Sprintf("the season check would make %d of the A races B races%s, first %s. Agree?", len(check.Best.ToB), auto, show.RaceName(step.ToB[0]))
	}
	return fmt.Sprintf("the season check would make %d of the A races B races%s. Agree?", len(check.Best.ToB), auto)
}

// manyGoals finds the most A races to come within 26 weeks.
func (s *standing) manyGoals(goals []planner.Race) {
	ahead := slices.DeleteFunc(slices.Clone(goals), func(r planner.Race) bool { return r.Last() < s.Today })
	most, from := 0, 0
	for i := range ahead {
		n := 0
		for n < len(ahead)-i && ahead[i].Date.DaysUntil(ahead[i+n].Date) < seasonDays {
			n++
		}
		if n > most {
			most, from = n, i
		}
	}
	if most <= mostARaces {
		return
	}
	s.Clashes = append(s.Clashes, fmt.Sprintf("%d A races in 26 weeks", most))
	s.Choices = append(s.Choices, fmt.Sprintf("%d A races, %s: which %d stay A?", most, show.Span(ahead[from].Date, ahead[from+most-1].Date, s.Today), mostARaces))
}

// sameDay finds the first pair of races to come that share a day.
func (s *standing) sameDay(races []planner.Race) {
	for i := range races {
		for j := i + 1; j < len(races) && races[j].Date <= races[i].Last(); j++ {
			a, b := &races[i], &races[j]
			if b.Date < s.Today && a.Last() < s.Today || min(a.Last(), b.Last()) < s.Today {
				continue
			}
			s.Clashes = append(s.Clashes, "two races on "+show.Dated(b.Date, s.Today))
			s.Choices = append(s.Choices, fmt.Sprintf("%s (%s) and %s (%s) are both on %s: which one is ridden?",
				show.RaceName(a), a.Priority, show.RaceName(b), b.Priority, show.Dated(b.Date, s.Today)))
			return
		}
	}
}

func (s *standing) awayFor(r *planner.Race) bool {
	for _, a := range s.Facts.Now.Absences {
		if !a.Travel && a.From <= r.Last() && r.Date <= a.To {
			return true
		}
	}
	return false
}

// inDays is how far a day lies ahead: today, tomorrow, in 12 days.
func inDays(today, date planner.Date) string {
	switch n := today.DaysUntil(date); {
	case n < 0:
		return "under way"
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	default:
		return fmt.Sprintf("in %d days", n)
	}
}

// Line is a rider in one line: the taper, else the next race.
func (s *standing) Line() string {
	switch {
	case s.taper != nil:
		return s.Name + ": " + s.taperText()
	case s.Next != nil:
		return fmt.Sprintf("%s: %s %s", s.Name, raceAndDay(s.Next, s.Today), inDays(s.Today, s.Next.Date))
	}
	return s.Name + ": no race to come"
}

func raceAndDay(r *planner.Race, today planner.Date) string {
	return fmt.Sprintf("%s (%s, %s)", show.RaceName(r), r.Priority, show.Dated(r.Date, today))
}

// taperText is where the rider is in the taper.
func (s *standing) taperText() string {
	t := s.taper
	text := fmt.Sprintf("%s %s, taper day %d of %d", raceAndDay(t.race, s.Today), inDays(s.Today, t.race.Date), t.day, t.of)
	switch {
	case !t.known:
	case t.cut < 0:
		text += fmt.Sprintf(", %d %% more riding than usual up to yesterday", -t.cut)
	default:
		text += fmt.Sprintf(", %d %% less riding than usual up to yesterday (%.0f %% less in the whole taper)", t.cut, t.planned)
	}
	return text
}
