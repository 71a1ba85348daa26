package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

// mostLogged is how far back a ride can be told, in days.
const mostLogged = 366

// done keeps what was ridden on a day; without minutes it was what is planned.
func (b *Base) done(ctx context.Context, req Request) (Reply, error) {
	forget := strings.EqualFold(req.get("minutes"), none)
	ride, err := req.logged(forget)
	if err != nil {
		return Reply{}, err
	}
	if forget {
		return b.notDone(ctx, req, ride.Date)
	}
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	day := unlogged(facts, ride.Date)
	if !req.has("minutes") {
		if ride.Minutes, err = plannedMinutes(day, ride.Date); err != nil {
			return Reply{}, err
		}
	}
	n := news{text: "Noted: " + ridden(&ride, day, req.rider.today) + "."}
	if d := day; d != nil && d.Phase == planner.RaceDay && d.Race != nil {
		n.more = append(n.more, Say("How your legs were in the race: /race result race:%s feeling:7", Quote(d.Race.Name+" "+d.Race.Date.String())))
	}
	if band, ok := harderThan(day, ride.RPE); ok {
		n.more = append(n.more, Say("! Harder than planned (%s): ride the next days no harder than they are planned, and if your legs stay heavy, tell your coach.", band))
	}
	return b.keepRide(ctx, req, ride, n)
}

// logged reads the options of what was ridden. What is to be forgotten needs the day alone.
func (r *Request) logged(forget bool) (ride storage.Ride, err error) {
	if r.has("minutes") && !forget {
		ride.Minutes, err = typed.Minutes(r.get("minutes"))
		if err == nil && ride.Minutes == 0 {
			err = refuse("", "0 minutes is no ride. A day that you missed: /tell missed")
		}
		if err != nil {
			return ride, inField("minutes", err)
		}
	}
	if r.has("rpe") {
		if ride.RPE, err = readRPE(r.get("rpe")); err != nil {
			return ride, err
		}
	}
	ride.Note = r.get("note")
	ride.Date, err = r.pastDay("day")
	return ride, err
}

// readRPE reads a rating of 1 to 10 in halves.
func readRPE(text string) (float64, error) {
	plain := strings.Replace(strings.TrimSuffix(text, "/10"), ",", ".", 1)
	rpe, err := strconv.ParseFloat(plain, 64)
	if err != nil || !(rpe >= 1 && rpe <= 10) || rpe*2 != float64(int(rpe*2)) {
		return 0, refuse("rpe", "%s is no rating from 1 (very easy) to 10 (all that you have) in halves. For example 7 or 7.5", Shown(text))
	}
	return rpe, nil
}

// pastDay reads the day of something that is over, today where it was left out.
// A weekday is the last such one, a date without a year the nearest.
func (r *Request) pastDay(option string) (planner.Date, error) {
	today := r.rider.today
	if !r.has(option) {
		return today, nil
	}
	day, err := lastDayOf(r.get(option), today)
	switch {
	case err != nil:
		return 0, inField(option, err)
	case day > today:
		return 0, refuse(option, "%s is to come (today is %s). Name a day that is over, for example %s", day.Long(), today.Long(), today.AddDays(-1))
	case day < today.AddDays(-mostLogged):
		return 0, refuse(option, "%s is over a year ago. For example %s", day.Long(), today.AddDays(-1))
	}
	return day, nil
}

// lastDayOf is typed.Date for days that are over: where its next such day
// is to come, the last such day is meant if it is nearer or within a week.
func lastDayOf(text string, today planner.Date) (planner.Date, error) {
	next, err := typed.Date(text, today)
	if err != nil || next <= today || strings.HasPrefix(strings.ToLower(text), "next") {
		return next, err
	}
	// Asked a day earlier, a weekday or a date is the same day, or yesterday; "tomorrow" is not.
	if eve, err := typed.Date(text, today-1); err != nil || eve != next && eve != today-1 {
		return next, nil
	}
	for _, back := range []int{6, 30, 365} {
		last, err := typed.Date(text, today.AddDays(-back))
		ago := last.DaysUntil(today)
		if err == nil && ago >= 0 && (ago < 7 || ago < today.DaysUntil(next)) {
			return last, nil
		}
	}
	return next, nil
}

// unlogged is a day as it was planned, whatever was logged of it; nil without a
// typical week.
func unlogged(f ledger, date planner.Date) *engine.Day { return shownOn(f, date, nil) }

// lived is a day that is over as it was shown, or as it was ridden where that is
// logged; nil without a typical week.
func lived(f ledger, date planner.Date) *engine.Day {
	var rides []planner.Ride
	for _, r := range f.now.Done {
		if r.Date == date {
			r.Told = planner.Told{On: date} // a log shows on its own day
			rides = append(rides, r)
		}
	}
	return shownOn(f, date, rides)
}

// shownOn is a day as it was planned on that day, with rides in place of those
// that are logged.
func shownOn(f ledger, date planner.Date, rides []planner.Ride) *engine.Day {
	if !planned(f.now) {
		return nil
	}
	then := *f.all
	then.Done = slices.DeleteFunc(slices.Clone(f.all.Done), func(r planner.Ride) bool { return r.Date == date })
	then.Done = append(then.Done, rides...)
	day, _ := engine.DeriveUntil(date, date, &then).Day(date)
	return day
}

func plannedMinutes(day *engine.Day, date planner.Date) (int, error) {
	switch {
	case day == nil:
		return 0, refuse("minutes", "is missing: I do not know your typical week. For example minutes:60")
	case day.Minutes() == 0:
		return 0, refuse("minutes", "is missing: no ride is planned on %s. For example minutes:60", date.Long())
	}
	return day.Minutes(), nil
}

// ridden is a ride beside what was planned: 55min on Tue 2 Jun, as planned, RPE 8.
func ridden(ride *storage.Ride, day *engine.Day, today planner.Date) string {
	text := planner.Duration(ride.Minutes) + " on " + dated(ride.Date, today)
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
func (b *Base) keepRide(ctx context.Context, req Request, ride storage.Ride, n news) (Reply, error) {
	old, err := b.rideOn(ctx, req, ride.Date)
	if err != nil {
		return Reply{}, err
	}
	e, err := b.change(ctx, req, func() error { return b.db.SetRide(ctx, req.rider.athlete.ID, req.rider.today, ride) })
	if err != nil {
		return Reply{}, err
	}
	e.settle(ride.Date)
	if ride.Note != "" {
		n.more = append([]Line{Say("Your note: %s", ride.Note)}, n.more...)
	}
	n.from, n.undo, n.values = ride.Date, "done", map[string]string{"day": ride.Date.String(), "minutes": none}
	switch {
	case old == nil:
	case sameRide(old, &ride):
		n.label = takeBack
	default:
		n.more = append([]Line{Say("Before it was: %s.", oldRide(old))}, n.more...)
		n.undo, n.values = rideCommand(old)
	}
	return told(e, n), nil
}

// sameRide reports two rides that say the same.
func sameRide(a, b *storage.Ride) bool {
	return a.Minutes == b.Minutes && a.RPE == b.RPE && a.Note == b.Note
}

// rideOn is what was told of a day, nil where nothing was.
func (b *Base) rideOn(ctx context.Context, req Request, day planner.Date) (*storage.Ride, error) {
	rides, err := b.db.Rides(ctx, req.rider.athlete.ID, day)
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
func (b *Base) notDone(ctx context.Context, req Request, day planner.Date) (Reply, error) {
	old, err := b.rideOn(ctx, req, day)
	if err != nil {
		return Reply{}, err
	}
	refusal := refuse("minutes", "nothing is logged on %s, so there is nothing to delete. For example minutes:60", day.Long())
	if old == nil {
		return Reply{}, refusal
	}
	e, err := b.change(ctx, req, func() error {
		err := b.db.RemoveRide(ctx, req.rider.athlete.ID, req.rider.today, day)
		if errors.Is(err, storage.ErrNotFound) {
			return refusal
		}
		return err
	})
	if err != nil {
		return Reply{}, err
	}
	e.settle(day)
	n := news{from: day, text: fmt.Sprintf("Forgotten: %s on %s.", oldRide(old), dated(day, req.rider.today))}
	n.undo, n.values = rideCommand(old)
	return told(e, n), nil
}
