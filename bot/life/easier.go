package life

import (
	"context"
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/planner/words"
	"musette/storage"
)

// What is left of a day in its easier form, in minutes.
const (
	easierHard  = 30 // no room for a hard part
	leastEasier = 20
)

// easier offers the easier form of a day with what it costs.
func easier(p *say.Page, reply *say.Reply, f desk.Ledger, day *engine.Day, today planner.Date) {
	name := show.DayName(day.Date, today)
	switch {
	case day.Phase == planner.RaceDay:
		p.Addf("%s is race day, so nothing changes. Warm up a little longer and begin easily.", name)
		p.Add(caution(day)...)
	case day.Minutes() == 0:
		p.Addf("%s: your plan has rest already, and that is what heavy legs need.", name)
	default:
		cost := "It costs little: the time is not made up on another day."
		if day.IsHard() {
			cost = "It costs one hard session of this week, which is not made up. One is soon forgotten, several in a taper take the edge off."
		}
		minutes := easierMinutes(day)
		with := *f.All
		with.Limits = append(slices.Clone(f.All.Limits), planner.Limit{Date: day.Date, Minutes: minutes, Eased: true, Told: planner.Told{On: today}})
		form, _ := engine.DeriveUntil(today, day.Date, &with).Day(day.Date)
		p.Addf("%s: %s. Nothing changes unless you say so.", name, show.Headline(day))
		p.Add(caution(day)...)
		p.Addf("Easier: %s. %s", show.Headline(form), cost)
		p.Addf("Or begin as planned, and turn home if the legs stay heavy after 15 minutes.")
		reply.Offer(p, "Take the easier form", "tell tired", easedOptions(day.Date, minutes))
	}
}

// caution is what to mind on a hard day, in a few words.
func caution(day *engine.Day) []say.Line {
	if short := words.ShortCaution(day); short != "" {
		return []say.Line{say.Linef("! %s.", say.UpperFirst(short))}
	}
	return nil
}

// easierMinutes is how long the easier form of a day is.
func easierMinutes(day *engine.Day) int {
	minutes := max(leastEasier, day.Minutes()/10*5)
	if day.IsHard() {
		minutes = min(minutes, easierHard)
	}
	return minutes
}

func easedOptions(day planner.Date, minutes int) map[string]string {
	return map[string]string{"day": day.String(), "legs": legsEased, "minutes": fmt.Sprint(minutes)}
}

// takeEasier keeps the easier form of a day. What falls out of it is not made up.
func takeEasier(ctx context.Context, b *desk.Base, req desk.Request, f desk.Ledger, date planner.Date) (say.Reply, error) {
	today := req.Rider.Today
	day, ok := engine.DeriveUntil(today, date, f.All).Day(date)
	logged := slices.ContainsFunc(f.Now.Done, func(r planner.Ride) bool { return r.Date == date })
	switch {
	case date < today || !ok || logged:
		return say.Reply{}, say.Refuse("day", "%s is over or logged, so it stays as it was. For example day:today", date.Long())
	case day.Phase == planner.RaceDay || day.Minutes() == 0 && !req.Has("minutes"):
		return say.Reply{}, say.Refuse("day", "%s has no ride that could be easier: %s. For example day:today", date.Long(), show.Headline(day))
	}
	minutes := easierMinutes(day)
	if req.Has("minutes") {
		var err error
		if minutes, err = typed.Minutes(req.Get("minutes")); err != nil {
			return say.Reply{}, say.InField("minutes", err)
		}
	}
	eased := planner.Limit{Date: date, Minutes: minutes, Eased: true}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.SetLimit(ctx, req.Rider.Athlete.ID, today, eased) })
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: date, text: fmt.Sprintf("Noted: an easier day on %s, at most %s.", show.Dated(date, today), planner.Duration(minutes))}
	if h, held := desk.Held(e.Facts); held {
		n.more = []say.Line{say.Linef("! %s", words.StopAnswer(h.Level))}
	}
	n.takesLimitBack(e, eased)
	return told(e, n), nil
}
