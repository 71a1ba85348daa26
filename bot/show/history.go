package show

import (
	"fmt"
	"math"

	"musette/planner/season"
)

// fewRaces is how many races with a result teach so little that nothing is said of them.
const fewRaces = 3

// LearnedLines say what a rider's races have taught and how surely, in the words of
// whose: your or the rider's.
func LearnedLines(h *season.History, whose string) []string {
	l := h.Learned
	if l.Races == 0 {
		return []string{"Nothing is learned yet: no race with a result counts so far, so the table decides."}
	}
	text := fmt.Sprintf("After %s, training seems to turn harmful about %s before a race for %s (8 in 10: %.0f to %.0f).",
		Count(l.Races, "race"), Count(int(math.Round(l.Day.Mid)), "day"), whose, l.Day.Low, l.Day.High)
	sure := int(math.Round(100 * l.Sure()))
	switch {
	case l.Races < fewRaces:
		return []string{text, "That is far too few races: it is still nearly what holds for every rider, so the table decides."}
	case sure < 1:
		return []string{text, "That is hardly surer than what holds for every rider."}
	}
	return []string{text, fmt.Sprintf("That is %d %% surer than what holds for every rider.", sure)}
}

// LengthLine is what was learned, as a length for the next race; "" where none can be chosen.
func LengthLine(h *season.History) string {
	p := h.Proposal
	if p == nil || h.Learned.Races < fewRaces {
		return ""
	}
	if p.Length.Low == p.Length.High {
		return ""
	}
	text := fmt.Sprintf("For %s that makes a taper of about %s (8 in 10: %d to %d), where the table gives %d", RaceName(p.Race), Count(p.Length.Days, "day"), p.Length.Low, p.Length.High, p.Table)
	if p.Own {
		return text + ": these results are surer than the table."
	}
	return text + ": the table decides."
}

// TriedLine is a race with its taper and what was told of it. Of health it says no
// more than others may read.
func TriedLine(t *season.Tried) string {
	text := fmt.Sprintf("%s (%s, %s): ", CutTo(t.Race.Name, mostTriedName), t.Race.Priority, t.Race.Date.Short())
	switch {
	case t.Days > 0 && t.Cut >= 0:
		text += fmt.Sprintf("%s with %.0f %% less", Count(t.Days, "day"), t.Cut)
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
		text += ". Not counted: no training for health"
	}
	return text
}

const mostTriedName = 24 // of a name, in units of UTF-16
