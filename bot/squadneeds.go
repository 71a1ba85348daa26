package bot

import (
	"fmt"
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/engine"
)

// mostName is how much of a race's or a rider's name or of a placing stands in a line
// for coaches, in units of UTF-16.
const mostName = 60

// cutTo is a text with "..." where it is too long.
func cutTo(s string, most int) string {
	if short := clip16(s, most); short != s {
		return clip16(s, most-3) + "..."
	}
	return s
}

func raceName(r *planner.Race) string { return cutTo(r.Name, mostName) }

// andList is "a, b and c".
func andList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// seasonNeeds finds what a season asks a coach to decide: A races that are too
// many or too near, races on one day, and a race on a day away.
func (s *standing) seasonNeeds() {
	races := slices.Clone(s.facts.now.Races)
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
		if r := &races[i]; r.Last() >= s.today && s.awayFor(r) {
			s.clashes = append(s.clashes, "a race on a day away")
			s.choices = append(s.choices, fmt.Sprintf("%s on %s is on a day told as away: which of them counts?", raceName(r), dated(r.Date, s.today)))
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
		if gap <= 0 || gap >= engine.CloseGap || b.Date < s.today {
			continue
		}
		if pairs++; pairs == 1 || gap < nearest {
			nearest = gap
		}
		if a.Last() >= s.today {
			s.choices = append(s.choices, fmt.Sprintf("%s and %s are both A, %s apart: which one stays A?", raceName(a), raceName(b), count(gap, "day")))
		} else {
			s.choices = append(s.choices, fmt.Sprintf("%s is A, %s after %s: does it stay A?", raceName(b), count(gap, "day"), raceName(a)))
		}
	}
	switch {
	case pairs == 1:
		s.clashes = append(s.clashes, fmt.Sprintf("A races %s apart", count(nearest, "day")))
	case pairs > 1:
		s.clashes = append(s.clashes, fmt.Sprintf("%d times A races under %d days apart", pairs, engine.CloseGap))
	}
}

// manyGoals finds the most A races to come within 26 weeks.
func (s *standing) manyGoals(goals []planner.Race) {
	ahead := slices.DeleteFunc(slices.Clone(goals), func(r planner.Race) bool { return r.Last() < s.today })
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
	s.clashes = append(s.clashes, fmt.Sprintf("%d A races in 26 weeks", most))
	s.choices = append(s.choices, fmt.Sprintf("%d A races, %s: which %d stay A?", most, span(ahead[from].Date, ahead[from+most-1].Date, s.today), mostARaces))
}

// sameDay finds the first pair of races to come that share a day.
func (s *standing) sameDay(races []planner.Race) {
	for i := range races {
		for j := i + 1; j < len(races) && races[j].Date <= races[i].Last(); j++ {
			a, b := &races[i], &races[j]
			if b.Date < s.today && a.Last() < s.today || min(a.Last(), b.Last()) < s.today {
				continue
			}
			s.clashes = append(s.clashes, "two races on "+dated(b.Date, s.today))
			s.choices = append(s.choices, fmt.Sprintf("%s (%s) and %s (%s) are both on %s: which one is ridden?",
				raceName(a), a.Priority, raceName(b), b.Priority, dated(b.Date, s.today)))
			return
		}
	}
}

func (s *standing) awayFor(r *planner.Race) bool {
	for _, a := range s.facts.now.Absences {
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

// line is a rider in one line: the taper, else the next race.
func (s *standing) line() string {
	switch {
	case s.taper != nil:
		return s.name + ": " + s.taperText()
	case s.next != nil:
		return fmt.Sprintf("%s: %s %s", s.name, raceAndDay(s.next, s.today), inDays(s.today, s.next.Date))
	}
	return s.name + ": no race to come"
}

func raceAndDay(r *planner.Race, today planner.Date) string {
	return fmt.Sprintf("%s (%s, %s)", raceName(r), r.Priority, dated(r.Date, today))
}

// taperText is where the rider is in the taper.
func (s *standing) taperText() string {
	t := s.taper
	text := fmt.Sprintf("%s %s, taper day %d of %d", raceAndDay(t.race, s.today), inDays(s.today, t.race.Date), t.day, t.of)
	switch {
	case !t.known:
	case t.cut < 0:
		text += fmt.Sprintf(", %d %% more than usual so far", -t.cut)
	default:
		text += fmt.Sprintf(", cut so far %d %%", t.cut)
	}
	return text
}

// lookAt is all that a coach should look at, in a few words each.
func (s *standing) lookAt() []string { return slices.Concat(s.needs, s.clashes) }
