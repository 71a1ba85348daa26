package desk

import (
	"slices"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
)

// PinNews is the kind of a message to coaches about what they set.
const PinNews = "pin"

// fallen are the days that a coach set and that a change of the rider's makes go by
// the plan again: what was entered leaves no room for them, or the rider let go of them.
type fallen struct {
	days   []planner.Date
	health bool // so coaches read no more than that the rider does not train
	letGo  bool
}

// fallenPins finds what a change did to the days that a coach set.
func (e *Effect) fallenPins() (f fallen) {
	gone := func(p *engine.Plan, day planner.Date) (gone, health bool) {
		d, ok := p.Day(day)
		health = ok && d.Phase == planner.Health
		return health || slices.ContainsFunc(p.Warnings, func(w engine.Warning) bool { return w.Code == engine.WarnPinDropped && w.Day == day }), health
	}
	for _, pin := range e.Old.Pins {
		if was, _ := gone(e.before, pin.Date); was || pin.Date < e.After.Today {
			continue
		}
		stays := slices.ContainsFunc(e.Facts.Pins, func(p planner.Pin) bool { return p.Date == pin.Date })
		is, health := gone(e.After, pin.Date)
		if stays && !is {
			continue
		}
		f.days = append(f.days, pin.Date)
		f.letGo = f.letGo || !stays
		f.health = f.health || health
	}
	return f
}

// TellCoaches is what the coaches are told at once of a rider's change, none where
// it concerns nothing that they set or they have no channel.
func (r *Rider) TellCoaches() []say.Message {
	f := r.fallen
	if len(f.days) == 0 || r.Club.Setup.Coaches == "" {
		return nil
	}
	var days []string
	for _, d := range f.days {
		days = append(days, d.Short())
	}
	what := say.Linef("%s: what you set for %s no longer fits what the rider entered since.", r.Athlete.Name, say.AndList(days))
	switch {
	case f.health:
		what = say.Linef("%s: not training: health. What you set for %s waits.", r.Athlete.Name, say.AndList(days))
	case f.letGo:
		what = say.Linef("%s let go of what you set for %s.", r.Athlete.Name, say.AndList(days))
	}
	return []say.Message{{To: "#coaches", Kind: PinNews, Lines: []say.Line{what, say.Linef("See /coach athlete %s", say.Quote(r.Athlete.Name))}}}
}
