package desk

import (
	"musette/bot/say"
	"musette/planner"
	"musette/planner/words"
)

// Emergency is the emergency words as a line.
func Emergency() say.Line { return say.Linef("%s", words.Emergency) }

// Hold is what holds all training back: since when, and the gravest of what was told.
type Hold struct {
	Since planner.Date
	Level planner.Level
}

// Held is the hold that is in force; ok is false where there is none.
func Held(f *planner.Facts) (h Hold, ok bool) {
	for _, told := range f.Holds {
		if !told.Cleared.IsZero() {
			continue
		}
		if !ok || told.Date < h.Since {
			h.Since = told.Date
		}
		h.Level, ok = max(h.Level, told.Level), true
	}
	return h, ok
}

// OpenIllness is an illness or injury that goes on, nil where there is none.
func OpenIllness(f *planner.Facts) *planner.Illness {
	for i := range f.Ill {
		if f.Ill[i].To.IsZero() {
			return &f.Ill[i]
		}
	}
	return nil
}
