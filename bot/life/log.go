package life

import (
	"cmp"
	"context"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

// done keeps what was ridden on a day. Rides of a day add up; without minutes it was
// what is planned, or it says more of the ride that is logged already.
func done(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	forget := strings.EqualFold(req.Get("minutes"), say.None)
	ride, nr, err := logged(&req, forget)
	if err != nil {
		return say.Reply{}, err
	}
	if forget {
		return notDone(ctx, b, req, ride.Date, nr)
	}
	if !req.Has("minutes") {
		facts, err := b.Facts(ctx, req.Rider)
		if err != nil {
			return say.Reply{}, err
		}
		day := desk.Unlogged(facts, ride.Date)
		told, err := b.DB.Entries(ctx, req.Rider.Athlete.ID, ride.Date)
		if err != nil {
			return say.Reply{}, err
		}
		was := entry(told, nr)
		switch {
		case was == nil || was.Minutes == 0:
			if ride.Minutes, err = plannedMinutes(day, ride.Date); err != nil {
				return say.Reply{}, err
			}
		case !req.Has("rpe") && !req.Has("note"):
			return loggedAlready(told, day, req.Rider.Today), nil
		default:
			nr, ride = was.Nr, more(was.Ride, ride)
		}
	}
	return keepRide(ctx, b, req, ride, nr, news{})
}

// more is a logged ride with what was entered about it since.
func more(was, ride storage.Ride) storage.Ride {
	ride.Minutes = was.Minutes
	ride.RPE = cmp.Or(ride.RPE, was.RPE)
	ride.Note = cmp.Or(ride.Note, was.Note)
	return ride
}

// loggedAlready says that nothing is added to a day by saying once more that it was ridden.
func loggedAlready(told []storage.Entry, day *engine.Day, today planner.Date) say.Reply {
	date := told[0].Date
	reply := say.Reply{Date: date}
	reply.Addf("%s is logged already: %s. Nothing is added.", show.DayOrToday(date, today), show.Ridden(ridesOf(told), day))
	reply.Addf("To log one more ride: /done minutes:40 day:%s", date)
	return reply
}

// logged reads the options of what was ridden, and which entry of the day it is, 0
// for a new one. What is to be forgotten needs the day alone.
func logged(r *desk.Request, forget bool) (ride storage.Ride, nr int, err error) {
	var faults []error
	if r.Has("minutes") && !forget {
		ride.Minutes, err = typed.Minutes(r.Get("minutes"))
		if err == nil && ride.Minutes == 0 {
			err = say.Refuse("", "0 minutes is no ride. For a day that you missed: /tell missed")
		}
		faults = append(faults, say.InField("minutes", err))
	}
	if r.Has("rpe") {
		ride.RPE, err = typed.Rating(r.Get("rpe"))
		faults = append(faults, say.InField("rpe", err))
	}
	if r.Has("entry") {
		nr, err = typed.Whole(r.Get("entry"), 1, storage.MostRides, "1")
		faults = append(faults, say.InField("entry", err))
	}
	ride.Note = r.Get("note")
	ride.Date, err = r.PastDay("day")
	return ride, nr, say.Together(append(faults, err)...)
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
