package show

import (
	"fmt"
	"math"

	"musette/planner/learn"
	"musette/planner/season"
)

// fewRaces is how many races with a result teach so little that nothing is said of them.
const fewRaces = 3

// LearnedLines say what a rider's races have taught and how surely, in the words of
// whose: your or the rider's.
func LearnedLines(h *season.History, whose string) []string {
	l := h.Learned
	if l.Races == 0 {
		return []string{"Nothing is learned yet: no race with a result counts so far."}
	}
	text := fmt.Sprintf("After %s, hard training seems to stop paying off about %s before a race for %s (most likely %.0f to %.0f).",
		Count(l.Races, "race"), Count(int(math.Round(l.Day.Mid)), "day"), whose, l.Day.Low, l.Day.High)
	sure := int(math.Round(100 * l.Sure()))
	switch {
	case l.Races < fewRaces:
		return []string{text, "So few races say little: this is still what holds for most riders, and the usual length for the hours stays."}
	case sure < 1 && math.Abs(l.Day.Mid-learn.From(nil).Day.Mid) >= 1:
		return []string{text, "The races so far moved that day, but they left it as uncertain as it is for most riders. Legs from 1 to 10 vary for many reasons."}
	case sure < 1:
		return []string{text, "The races so far have hardly changed that: it is still what holds for most riders. Legs from 1 to 10 vary for many reasons."}
	}
	return []string{text, fmt.Sprintf("Your races so far show %d %% of what there is to learn about it.", sure)}
}

// LengthLine is what was learned, as a length for the next race; "" where none can be chosen.
func LengthLine(h *season.History) string {
	p := h.Proposal
	if p == nil || h.Learned.Races < fewRaces || p.Own {
		return ""
	}
	text := fmt.Sprintf("With easy rides up to the race that makes a taper of about %[2]s for %[1]s (most likely %[3]d to %[4]d). The usual length for the hours is %[5]d", RaceName(p.Race), Count(p.Length.Days, "day"), p.Length.Low, p.Length.High, p.Table)
	if p.Length.Decides {
		return text + ", which these results leave out."
	}
	return text + ", which fits as well, so it stays."
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
