package show

import (
	"fmt"
	"math"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/season"
)

// fewRaces is how many races with a result teach so little that no length is told.
const fewRaces = 3

// Shares of what was unknown from which on races say something, and much.
const (
	sureSomething = 0.2
	sureMuch      = 0.5
)

// LengthLines say first which length of taper the next race has and why, with the one
// that the rider's results point to, then how much these say. own speaks to the rider.
func LengthLines(h *season.History, own bool) []string {
	lines, your := []string{lengthLine(h, own)}, "their"
	if own {
		your = "your"
	}
	switch races := say.UpperFirst(your) + " " + Count(h.Learned.Races, "race"); {
	case len(h.Tried) == 0:
		lines = append(lines, "I cannot say yet which length suits you: no race has been rated so far.")
	case h.Learned.Races == 0:
		lines = append(lines, "I cannot say yet which length suits you: no race with a result counts so far.")
	case h.Learned.Races < fewRaces:
		lines = append(lines, fewLine(h.Learned.Races, own))
	case h.Proposal != nil && h.Proposal.Own:
		lines = append(lines, fmt.Sprintf("%s say enough to change from the usual %s, but only part of the way, since luck counts too. Such a range is right in about 8 cases of 10.", races, Count(h.Proposal.Table, "day")))
	case h.Learned.Sure() >= sureMuch:
		lines = append(lines, fmt.Sprintf("%s say much about that length.", races))
	case h.Learned.Sure() >= sureSomething:
		lines = append(lines, fmt.Sprintf("%s say something about that length, but not much.", races))
	default:
		lines = append(lines, fmt.Sprintf("%s cannot narrow that down yet: legs also depend on sleep, food, weather and luck.", races))
	}
	if lines[0] == "" {
		return lines[1:]
	}
	return lines
}

// lengthLine is the first of them, "" where nothing can be said.
func lengthLine(h *season.History, own bool) string {
	your, you, them := "their", "they", "them"
	if own {
		your, you, them = "your", "you", "you"
	}
	p := h.Proposal
	if p == nil {
		return shareLine(h, your, them)
	}
	race, planned := fmt.Sprintf("%s (%s)", RaceName(p.Race), p.Race.Date.Short()), Count(p.Planned, "day")
	keeps := fmt.Sprintf("%s plan has %s of taper for %s", say.UpperFirst(your), planned, race)
	points := fmt.Sprintf("%s races point to a taper of about %s for %s%s.", say.UpperFirst(your), Count(p.Length.Days, "day"), race, spanOf(p.Length))
	usual := "the usual length for " + UsualFor(p.Hours, p.Race)
	few := h.Learned.Races < fewRaces && !p.Own
	switch {
	case p.Told && few:
		return fmt.Sprintf("%s, as %s set it%s.", keeps, you, forAll(p))
	case p.Told:
		return fmt.Sprintf("%s It has %s, as %s set it%s.", points, planned, you, forAll(p))
	case p.Own:
		return fmt.Sprintf("%s So it has %s instead of the usual %d.", points, planned, p.Table)
	case few && p.Planned != p.Table:
		return keeps + ", because of the races around it."
	case few:
		return fmt.Sprintf("%s, %s.", keeps, usual)
	case p.Planned != p.Table, p.Length.Decides && !p.Refused:
		return fmt.Sprintf("%s It has %s, because of the races around it.", points, planned)
	case p.Refused:
		return fmt.Sprintf("%s It has %s, %s, because %s chose that.", points, planned, usual, you)
	}
	found := fmt.Sprintf("By %s races so far, the best length for %s may be anything from %d to %d days.", your, them, p.Length.Low, p.Length.High)
	if p.Length.Days == p.Table && h.Learned.Sure() >= sureSomething {
		found = fmt.Sprintf("%s races point to about the same%s.", say.UpperFirst(your), spanOf(p.Length))
	}
	return fmt.Sprintf("%s, %s. %s", keeps, usual, found)
}

// fewLine says that so few races teach nothing yet.
func fewLine(races int, own bool) string {
	is, whom := "are", "them"
	if races == 1 {
		is = "is"
	}
	if own {
		whom = "you"
	}
	return fmt.Sprintf("%s so far %s too few to say which length suits %s. I can begin to say something after %d races, and to be sure often takes many more.", Count(races, "race"), is, whom, fewRaces)
}

// longRace is from how many minutes on a race has a longer taper.
const longRace = 240

// UsualFor is what the usual length of a taper is usual for: 9h30 of riding a week and
// a race of 5h.
func UsualFor(hours float64, race *planner.Race) string {
	text := planner.Duration(5*int(math.Round(12*hours))) + " of riding a week"
	if minutes := race.Minutes(); minutes >= longRace {
		text += " and a race of " + planner.Duration(minutes)
	}
	return text
}

// forAll tells a length that was set for all races.
func forAll(p *season.Proposal) string {
	if p.Here {
		return ""
	}
	return " for all races"
}

// spanOf is a range of days, "" where it is a single one.
func spanOf(l planner.OwnLength) string {
	if l.Low == l.High {
		return ""
	}
	return fmt.Sprintf(", most likely %d to %d", l.Low, l.High)
}

// shareLine is what was learned where no race is to come whose length it could be.
func shareLine(h *season.History, your, them string) string {
	if h.Learned.Races < fewRaces {
		return ""
	}
	l := h.Learned.Length(h.Usual)
	if l.Low < l.High && h.Learned.Sure() < sureSomething {
		return fmt.Sprintf("By %s races so far, the best length for %s may be anything from %d to %d days, where %d are usual.", your, them, l.Low, l.High, h.Usual)
	}
	return fmt.Sprintf("%s races point to a taper of about %s, where %d are usual%s.", say.UpperFirst(your), Count(l.Days, "day"), h.Usual, spanOf(l))
}

// TriedLine is a race with its taper and what was entered about it. Of health it says no
// more than others may read.
func TriedLine(t *season.Tried) string {
	text := fmt.Sprintf("%s (%s, %s): ", CutTo(t.Race.Name, mostTriedName), t.Race.Priority, t.Race.Date.Short())
	switch {
	case t.Days > 0 && t.Cut >= 0:
		text += fmt.Sprintf("%s with %.0f %% less riding", Count(t.Days, "day"), t.Cut)
	case t.Days > 0:
		text += Count(t.Days, "day")
	default:
		text += "no taper"
	}
	if t.Legs > 0 {
		text += fmt.Sprintf(", legs %d of 10", t.Legs)
	}
	if words := ComparedWords(t.Compared); words != "" {
		text += ", " + words
	}
	if t.Ill {
		text += ". Not counted: shortly before it there was no training, for health reasons"
	}
	return text
}

const mostTriedName = 24 // of a name, in units of UTF-16
