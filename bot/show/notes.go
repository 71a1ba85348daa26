package show

import (
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// NoteLines are a coach's notes on a day.
func NoteLines(notes []storage.CoachNote, day planner.Date) []say.Line {
	var lines []say.Line
	for _, n := range notes {
		if n.Date == day {
			lines = append(lines, say.Linef("Your coach: %s", n.Text))
		}
	}
	return lines
}

// WithNotes puts a coach's notes below the days that they are about.
func WithNotes(lines []say.Line, who string, notes []storage.CoachNote) []say.Line {
	if len(notes) == 0 {
		return lines
	}
	var out []say.Line
	for _, l := range lines {
		out = append(out, l)
		for _, n := range notes {
			if l.Kind == say.Day && l.Lead == DayLead(n.Date) {
				out = append(out, say.Linef("  %s: %s", who, n.Text))
			}
		}
	}
	return out
}

// PinOn is what a coach set for a day, nil where nothing is.
func PinOn(f *planner.Facts, day planner.Date) *planner.Pin {
	for i := range f.Pins {
		if f.Pins[i].Date == day {
			return &f.Pins[i]
		}
	}
	return nil
}
