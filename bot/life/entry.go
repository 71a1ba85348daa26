package life

import (
	"context"
	"errors"
	"fmt"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/words"
	"musette/storage"
)

// entry is the entry of a day with that number, of number 0 the last; nil where
// there is none.
func entry(told []storage.Entry, nr int) *storage.Entry {
	for i := len(told) - 1; i >= 0; i-- {
		if nr == 0 || told[i].Nr == nr {
			return &told[i]
		}
	}
	return nil
}

// ridesOf are the rides of a day, none where it was missed.
func ridesOf(told []storage.Entry) []planner.Ride {
	var rides []planner.Ride
	for _, r := range told {
		if r.Minutes > 0 {
			rides = append(rides, r.Ride.Ride)
		}
	}
	return rides
}

// keepRide stores what was ridden, as a new entry of its day where nr is 0, and
// answers with what it changes. No minutes are a missed day.
func keepRide(ctx context.Context, b *desk.Base, req desk.Request, ride storage.Ride, nr int, n news) (say.Reply, error) {
	var before, after []storage.Entry
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		id, today := req.Rider.Athlete.ID, req.Rider.Today
		if before, err = tx.Entries(ctx, id, ride.Date); err != nil {
			return err
		}
		switch rides := ridesOf(before); {
		case ride.Minutes == 0 && len(rides) > 1:
			return say.Refuse("day", "%s has %d rides: %s. If you did not ride, delete them one by one: /done minutes:none day:%s",
				ride.Date.Long(), len(rides), show.Ridden(rides, nil), ride.Date)
		case ride.Minutes == 0:
			err = tx.SetRide(ctx, id, today, ride)
		case nr > 0:
			err = tx.PutRide(ctx, id, today, nr, ride)
		default:
			err = tx.AddRide(ctx, id, today, ride)
		}
		if err == nil {
			after, err = tx.Entries(ctx, id, ride.Date)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	e.Settle(ride.Date)
	switch {
	case ride.Minutes == 0:
		nr = 1
	case nr == 0:
		nr = entry(after, 0).Nr
	}
	switch h, held := desk.Held(e.Facts); {
	case ride.Minutes == 0:
	case held && ride.Date >= h.Since: // there is nothing to compare it with
		n.more = append(n.more, say.Linef("! %s", words.StopAnswer(h.Level)))
	default:
		n.day = desk.Unlogged(e.Told, ride.Date)
		if ill := desk.OpenIllness(e.Facts); ill != nil && ride.Date >= ill.From {
			n.more = append(n.more, say.Linef("! %s", words.TroubleAnswer(ill.Level, ill.Injury)))
		}
	}
	n.from = ride.Date
	n.saysRides(after, ride, req.Rider.Today)
	n.takesBack(before, ride, nr)
	if ride.Minutes > 0 {
		n.comes = nextDay(e, ride.Date)
		n.offerBlock(e, ride.Date)
	}
	return told(e, n), nil
}

// saysRides is the answer to a ride: it, or all of its day where there are several.
func (n *news) saysRides(after []storage.Entry, ride storage.Ride, today planner.Date) {
	rides := ridesOf(after)
	if len(rides) == 1 {
		n.text = "Noted: " + show.RodeOn(&rides[0], n.day, today) + "."
	} else if len(rides) > 1 {
		n.text = show.DayOrToday(ride.Date, today) + ": " + show.Ridden(rides, n.day) + "."
	}
	var more []say.Line
	if ride.Note != "" {
		more = append(more, say.Linef("Your note: %s", ride.Note))
	}
	if d := n.day; len(rides) > 0 && d != nil && d.Phase == planner.RaceDay && d.Race != nil {
		more = append(more, say.Linef("Say how your legs were in the race: /race result race:%s feeling:7", say.Quote(d.Race.Name+" "+d.Race.Date.String())))
	}
	_, rpe := planner.Ridden(rides)
	if band, ok := harderThan(n.day, rpe); ok {
		more = append(more, say.Linef("! That was harder than planned (%s). Do not ride harder than planned in the next days, and tell your coach if your legs stay heavy.", band))
	}
	n.more = append(more, n.more...)
}

// takesBack is the way back from a ride that is entry nr of its day now.
func (n *news) takesBack(before []storage.Entry, ride storage.Ride, nr int) {
	n.undo, n.values = "done", noEntry(ride.Date, nr)
	last := entry(before, 0)
	switch was := entry(before, nr); {
	case last == nil:
	case was != nil && sameRide(&was.Ride, &ride):
		n.label = say.TakeBack
	case last.Minutes == 0 || ride.Minutes == 0: // one of them is all of the day
		n.replaces(last)
	case was != nil:
		n.replaces(was)
	case nr > last.Nr:
		n.offers = append(n.offers, offer{"It was the same ride", "done", noEntry(ride.Date, last.Nr)})
	}
}

// replaces says what was entered before, and tells it again on the way back.
func (n *news) replaces(was *storage.Entry) {
	n.more = append([]say.Line{say.Linef("It replaces what you logged before: %s.", oldRide(&was.Ride))}, n.more...)
	n.undo, n.values = entryCommand(was)
}

// noEntry are the options that forget an entry of a day.
func noEntry(day planner.Date, nr int) map[string]string {
	return map[string]string{"day": day.String(), "minutes": say.None, "entry": fmt.Sprint(nr)}
}

// nextDay is what comes after a day that is ridden, where that is today.
func nextDay(e *desk.Effect, day planner.Date) []say.Line {
	if day != e.After.Today || !desk.Planned(e.Facts) {
		return nil
	}
	d, ok := e.After.Day(day + 1)
	if !ok {
		return nil
	}
	return []say.Line{say.Linef("%s: %s.", show.DayName(d.Date, day), show.Careful(d))}
}

// sameRide reports two rides that say the same.
func sameRide(a, b *storage.Ride) bool {
	return a.Minutes == b.Minutes && a.RPE == b.RPE && a.Note == b.Note
}

func oldRide(r *storage.Ride) string {
	if r.Minutes == 0 {
		return "missed"
	}
	return show.Ridden([]planner.Ride{r.Ride}, nil)
}

// entryCommand is the command that tells an entry again.
func entryCommand(r *storage.Entry) (command string, values map[string]string) {
	command, values = "tell missed", map[string]string{"day": r.Date.String()}
	if r.Minutes > 0 {
		command, values["minutes"], values["entry"] = "done", fmt.Sprint(r.Minutes), fmt.Sprint(r.Nr)
	}
	if r.RPE > 0 {
		values["rpe"] = show.Rating(r.RPE)
	}
	if r.Note != "" {
		values["note"] = r.Note
	}
	return command, values
}

// notDone forgets an entry of a day, the last where nr is 0, and says what is left.
func notDone(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date, nr int) (say.Reply, error) {
	nothing := say.Refuse("minutes", "nothing is logged on %s, so there is nothing to delete. For example minutes:60", day.Long())
	if !req.Rider.Known() {
		return say.Reply{}, nothing
	}
	var was *storage.Entry
	var left []storage.Entry
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		id := req.Rider.Athlete.ID
		told, err := tx.Entries(ctx, id, day)
		if err != nil {
			return err
		}
		switch was = entry(told, nr); {
		case len(told) == 0:
			return nothing
		case was == nil:
			return say.Refuse("entry", "%s has no entry %d any more. It has %s", day.Long(), nr, oldDay(told))
		}
		if err = tx.RemoveEntry(ctx, id, req.Rider.Today, day, was.Nr); errors.Is(err, storage.ErrNotFound) {
			return nothing
		}
		if err == nil {
			left, err = tx.Entries(ctx, id, day)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	e.Settle(day)
	n := news{from: day, text: fmt.Sprintf("Forgotten: %s on %s.", oldRide(&was.Ride), show.Dated(day, req.Rider.Today))}
	if len(left) > 0 {
		n.text += " Left: " + oldDay(left) + "."
	} else {
		n.text += " Nothing else is logged on that day."
	}
	n.undo, n.values = entryCommand(was)
	return told(e, n), nil
}

// oldDay is all that is entered for a day.
func oldDay(told []storage.Entry) string {
	if rides := ridesOf(told); len(rides) > 0 {
		return show.Ridden(rides, nil)
	}
	return "missed"
}
