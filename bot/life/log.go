package life

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

// done keeps what was ridden on a day; without minutes it was what is planned.
func done(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	forget := strings.EqualFold(req.Get("minutes"), say.None)
	ride, err := logged(&req, forget)
	if err != nil {
		return say.Reply{}, err
	}
	if forget {
		return notDone(ctx, b, req, ride.Date)
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	day := desk.Unlogged(facts, ride.Date)
	if !req.Has("minutes") {
		if ride.Minutes, err = plannedMinutes(day, ride.Date); err != nil {
			return say.Reply{}, err
		}
	}
	n := news{text: "Noted: " + ridden(&ride, day, req.Rider.Today) + "."}
	if d := day; d != nil && d.Phase == planner.RaceDay && d.Race != nil {
		n.more = append(n.more, say.Linef("How your legs were in the race: /race result race:%s feeling:7", say.Quote(d.Race.Name+" "+d.Race.Date.String())))
	}
	if band, ok := harderThan(day, ride.RPE); ok {
		n.more = append(n.more, say.Linef("! Harder than planned (%s): ride the next days no harder than they are planned, and if your legs stay heavy, tell your coach.", band))
	}
	return keepRide(ctx, b, req, ride, n)
}

// logged reads the options of what was ridden. What is to be forgotten needs the day alone.
func logged(r *desk.Request, forget bool) (ride storage.Ride, err error) {
	if r.Has("minutes") && !forget {
		ride.Minutes, err = typed.Minutes(r.Get("minutes"))
		if err == nil && ride.Minutes == 0 {
			err = say.Refuse("", "0 minutes is no ride. A day that you missed: /tell missed")
		}
		if err != nil {
			return ride, say.InField("minutes", err)
		}
	}
	if r.Has("rpe") {
		if ride.RPE, err = readRPE(r.Get("rpe")); err != nil {
			return ride, err
		}
	}
	ride.Note = r.Get("note")
	ride.Date, err = r.PastDay("day")
	return ride, err
}

// readRPE reads a rating of 1 to 10 in halves.
func readRPE(text string) (float64, error) {
	plain := strings.Replace(strings.TrimSuffix(text, "/10"), ",", ".", 1)
	rpe, err := strconv.ParseFloat(plain, 64)
	if err != nil || !(rpe >= 1 && rpe <= 10) || rpe*2 != float64(int(rpe*2)) {
		return 0, say.Refuse("rpe", "%s is no rating from 1 (very easy) to 10 (all that you have) in halves. For example 7 or 7.5", say.Shown(text))
	}
	return rpe, nil
}

func plannedMinutes(day *engine.Day, date planner.Date) (int, error) {
	switch {
	case day == nil:
		return 0, say.Refuse("minutes", "is missing: I do not know your typical week. For example minutes:60")
	case day.Minutes() == 0:
		return 0, say.Refuse("minutes", "is missing: no ride is planned on %s. For example minutes:60", date.Long())
	}
	return day.Minutes(), nil
}

// ridden is a ride beside what was planned: 55min on Tue 2 Jun, as planned, RPE 8.
func ridden(ride *storage.Ride, day *engine.Day, today planner.Date) string {
	text := planner.Duration(ride.Minutes) + " on " + show.Dated(ride.Date, today)
	switch {
	case day == nil:
	case day.Minutes() == ride.Minutes:
		text += ", as planned"
	case day.Minutes() == 0:
		text += " (rest was planned)"
	default:
		text += " (planned " + planner.Duration(day.Minutes()) + ")"
	}
	if ride.RPE > 0 {
		text += ", RPE " + rating(ride.RPE)
	}
	return text
}

func rating(rpe float64) string { return strconv.FormatFloat(rpe, 'f', -1, 64) }

// harderThan reports a rating two steps or more above what the day was planned
// for, and in words what that was.
func harderThan(day *engine.Day, rpe float64) (band string, ok bool) {
	if day == nil {
		return "", false
	}
	const muchAbove = 2
	band, top := "rest", 3.0
	for _, s := range day.Sessions {
		most := map[planner.Effort]float64{planner.Easy: 3, planner.OpenersEffort: 3, planner.Steady: 4, planner.Hard: 9, planner.RaceEffort: 10}[s.Effort]
		if s.Kind.IsRide() && (band == "rest" || most > top) {
			band, top = "RPE "+s.RPE(), most
		}
	}
	return band, rpe >= top+muchAbove
}

// keepRide stores what was ridden and answers with what it changes.
func keepRide(ctx context.Context, b *desk.Base, req desk.Request, ride storage.Ride, n news) (say.Reply, error) {
	old, err := rideOn(ctx, b, req, ride.Date)
	if err != nil {
		return say.Reply{}, err
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.SetRide(ctx, req.Rider.Athlete.ID, req.Rider.Today, ride) })
	if err != nil {
		return say.Reply{}, err
	}
	e.Settle(ride.Date)
	if ride.Note != "" {
		n.more = append([]say.Line{say.Linef("Your note: %s", ride.Note)}, n.more...)
	}
	n.from, n.undo, n.values = ride.Date, "done", map[string]string{"day": ride.Date.String(), "minutes": say.None}
	switch {
	case old == nil:
	case sameRide(old, &ride):
		n.label = say.TakeBack
	default:
		n.more = append([]say.Line{say.Linef("Before it was: %s.", oldRide(old))}, n.more...)
		n.undo, n.values = rideCommand(old)
	}
	return told(e, n), nil
}

// sameRide reports two rides that say the same.
func sameRide(a, b *storage.Ride) bool {
	return a.Minutes == b.Minutes && a.RPE == b.RPE && a.Note == b.Note
}

// rideOn is what was told of a day, nil where nothing was.
func rideOn(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date) (*storage.Ride, error) {
	rides, err := b.DB.Rides(ctx, req.Rider.Athlete.ID, day)
	if err != nil || len(rides) == 0 || rides[0].Date != day {
		return nil, err
	}
	return &rides[0], nil
}

func oldRide(r *storage.Ride) string {
	switch {
	case r.Minutes == 0:
		return "missed"
	case r.RPE == 0:
		return planner.Duration(r.Minutes)
	}
	return planner.Duration(r.Minutes) + ", RPE " + rating(r.RPE)
}

// rideCommand is the command that tells the ride again.
func rideCommand(r *storage.Ride) (command string, values map[string]string) {
	command, values = "tell missed", map[string]string{"day": r.Date.String()}
	if r.Minutes > 0 {
		command, values["minutes"] = "done", fmt.Sprint(r.Minutes)
	}
	if r.RPE > 0 {
		values["rpe"] = rating(r.RPE)
	}
	if r.Note != "" {
		values["note"] = r.Note
	}
	return command, values
}

// notDone forgets what was told of a day.
func notDone(ctx context.Context, b *desk.Base, req desk.Request, day planner.Date) (say.Reply, error) {
	old, err := rideOn(ctx, b, req, day)
	if err != nil {
		return say.Reply{}, err
	}
	refusal := say.Refuse("minutes", "nothing is logged on %s, so there is nothing to delete. For example minutes:60", day.Long())
	if old == nil {
		return say.Reply{}, refusal
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		err := tx.RemoveRide(ctx, req.Rider.Athlete.ID, req.Rider.Today, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refusal
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	e.Settle(day)
	n := news{from: day, text: fmt.Sprintf("Forgotten: %s on %s.", oldRide(old), show.Dated(day, req.Rider.Today))}
	n.undo, n.values = rideCommand(old)
	return told(e, n), nil
}
