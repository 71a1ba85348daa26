package desk

import (
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// Emergency is the emergency words as a line.
func Emergency() say.Line { return say.Linef("%s", words.Emergency) }

// Hold is what holds all training back: since when, and the gravest of what was entered.
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

// NotTraining answers for every plan while training is held back or the rider is ill or
// injured: there is none. ok is false for a rider who trains.
func NotTraining(f *planner.Facts, today planner.Date) (reply say.Reply, ok bool) {
	if h, held := Held(f); held {
		return show.NoPlan(say.Linef("There is no plan for now: your training has been held back since %s, until a doctor clears you.", show.Dated(h.Since, today)), h.Level), true
	}
	ill := OpenIllness(f)
	if ill == nil {
		return say.Reply{}, false
	}
	var p say.Page
	state := "ill"
	if ill.Injury {
		state = "injured"
	}
	p.Addf("! Your health comes first. You have been %s since %s, so your plan has rest every day until you are well.", state, show.Dated(ill.From, today))
	p.Addf("! %s", words.TroubleAnswer(ill.Level, ill.Injury))
	switch race := f.NextRace(today); {
	case race == nil:
	case race.Date <= engine.NoStart(ill, today):
		p.Addf("! %s", words.DoNotStart(race, ill.Injury))
		reply.Race = race.Name
	default:
		p.Addf("The plan for %s on %s comes back when you are well.", race.Name, show.Dated(race.Date, today))
		reply.Race = race.Name
	}
	reply.Offer(&p, "I am well", "tell well", nil)
	reply.Lines = p.Done()
	return reply, true
}
