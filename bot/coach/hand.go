package coach

import (
	"context"
	"errors"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

// handed is a request of a coach about a rider: by is as whom it is stored.
type handed struct {
	desk.Request
	rider storage.Athlete
	name  string // as coaches find the rider
	fresh bool   // nothing was stored of the rider before
}

// hand finds the rider of a coach's request. The coach is stored too, so that what
// is set names its coach.
func hand(ctx context.Context, b *desk.Base, req desk.Request) (h handed, err error) {
	rider, err := athleteOf(ctx, b, req)
	if err != nil {
		return h, err
	}
	return h.found(ctx, b, req, rider)
}

func (h handed) found(ctx context.Context, b *desk.Base, req desk.Request, rider storage.Athlete) (handed, error) {
	h.rider = rider
	athletes, err := b.DB.Athletes(ctx, req.Rider.Club.ID)
	if err != nil {
		return h, err
	}
	h.name = tellApart(athletes)[h.rider.ID]
	h.Request, err = b.For(req, h.rider)
	return h, err
}

// handOrNew finds the rider of a coach's request by name, or the member of the club
// that it names, who may be new.
func handOrNew(ctx context.Context, b *desk.Base, req desk.Request) (h handed, err error) {
	named, picked := req.Has("athlete"), req.Has("member")
	switch {
	case named && picked:
		return h, say.Refuse("member", "give athlete or member, not both. For example athlete:Ines")
	case named:
		return hand(ctx, b, req)
	}
	who := req.Member
	if who.Key.IsZero() { // of a transport where people have names alone
		who.Name = desk.Tidy(req.Get("member"))
		if err := storage.CheckName("member", who.Name, "Ines"); err != nil {
			return h, err
		}
		who.Key = storage.NameKey(who.Name)
	}
	known, err := b.DB.FindAthlete(ctx, req.Rider.Club.ID, who.Key)
	switch {
	case err == nil && known.Left.IsZero():
		return h.found(ctx, b, req, known)
	case err == nil:
		return h, say.Refuse("member", "%s has left the club", known.Name)
	case !errors.Is(err, storage.ErrNotFound):
		return h, err
	}
	h.name, h.fresh = who.Name, true
	h.Request, err = b.ForNew(req, who.Key, who.Name)
	return h, err
}

// stored is the rider after the first fact of theirs has been kept.
func (h *handed) stored(ctx context.Context, b *desk.Base) error {
	if !h.fresh {
		return nil
	}
	all, err := b.DB.Athletes(ctx, h.Rider.Club.ID)
	h.rider = h.Rider.Athlete
	if err == nil {
		h.name = tellApart(all)[h.rider.ID]
	}
	return err
}

// tells says when a rider learns of what a coach has entered; to is what is sent to them now.
func (h *handed) tells(can string, to []say.Message) (say.Line, []say.Message) {
	if h.rider.Entered {
		return say.Linef("%s has not written to me yet. When they do, I tell them what you entered, what I store and how to erase it.", h.name), nil
	}
	return say.Linef("%s gets a private message about it now. They can %s.", h.name, can), to
}

// setPin stores a session that a coach sets, and the coach as who sets it.
func (h *handed) setPin(ctx context.Context, tx *storage.DB, coach desk.Rider, pin planner.Pin) error {
	if err := (&desk.Base{DB: tx}).Join(ctx, &coach); err != nil {
		return err
	}
	return tx.SetPin(ctx, h.rider.ID, coach.Athlete.ID, h.Rider.Today, pin)
}

// day reads the option day as one of the rider's, from today on.
func (h *handed) day() (planner.Date, error) { return h.Request.Day("day") }

// needWeek refuses what needs a plan for a rider who has none.
func (h *handed) needWeek() error {
	return say.Refuse("athlete", "%s has no typical week yet, so there is no plan. Share one for them: /coach week athlete:%s week:%s", h.name, say.Quote(h.name), say.Quote(desk.ExampleWeek))
}

// atOnce reports that a rider is told of a change of a day now: of today and
// tomorrow, and where no reminder will.
func atOnce(a *storage.Athlete, today, day planner.Date) bool {
	return day <= today+1 || a.Settings.Remind.Mode == storage.RemindOff || a.Settings.Remind.By == storage.RemindRide
}

// toRider is a private message to a rider.
func toRider(a *storage.Athlete, lines []say.Line, buttons ...say.Button) []say.Message {
	return []say.Message{{To: a.Name, Kind: "coach", Rider: a.ID, Lines: lines, Buttons: buttons}}
}

// rideOn shows a rider the session of a day.
func rideOn(day planner.Date) say.Button {
	return say.Button{Label: "How to ride " + day.Short(), Command: "ride", Options: map[string]string{"day": day.String()}}
}

// letGo lets a rider go of what the coach set.
func (h *handed) letGo(day planner.Date) say.Button {
	return say.Button{Label: "Let go of it", Command: "coach release", Options: map[string]string{"athlete": h.name, "day": day.String()}}
}

// errPinned ends a change that sets what is set already.
var errPinned = errors.New("set already")

// coachAdjust pins a session to a rider's day.
func coachAdjust(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	h, err := hand(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	day, err := h.day()
	if err != nil {
		return say.Reply{}, err
	}
	session, err := typed.Session(req.Get("session"))
	if err != nil {
		return say.Reply{}, say.InField("session", err)
	}
	if session.Kind == planner.RaceRide {
		return say.Reply{}, say.Refuse("session", "%s is no training session. To add a race, use /coach race. For example session:%s", say.Shown(req.Get("session")), say.Quote("endurance 1h"))
	}
	pin := planner.Pin{Date: day, Session: session}
	var old *planner.Pin
	var was string
	e, err := b.Decide(ctx, h.Request, func(tx *storage.DB, known desk.Ledger) error {
		if !desk.Planned(known.Now) {
			return h.needWeek()
		}
		old = show.PinOn(known.Now, day)
		if old != nil && old.Session.Label() == session.Label() {
			return errPinned
		}
		if err := engine.CheckPin(h.Rider.Today, pin, known.All); err != nil {
			return h.refusal(err, day)
		}
		was = dayLabel(known, h.Rider.Today, day)
		return h.setPin(ctx, tx, *req.Rider, pin)
	})
	switch {
	case errors.Is(err, errPinned):
		return say.Reply{Date: day, Lines: []say.Line{say.Linef("%s, %s: %s is set already.", h.name, show.Dated(day, h.Rider.Today), session.Label())}}, nil
	case err != nil:
		return say.Reply{}, err
	}
	req.Rider.Saved = true
	var p say.Page
	p.Addf("%s, %s: you set %s (it was %s).", h.name, show.Dated(day, h.Rider.Today), show.CarefulSession(session), was)
	reply := h.changed(&p, e, day)
	back, options := "coach release", map[string]string{"athlete": h.name, "day": day.String()}
	if old != nil {
		back, options["session"] = "coach adjust", old.Session.Label()
	}
	if atOnce(&h.rider, h.Rider.Today, day) {
		reply.Sent = toRider(&h.rider, []say.Line{
			say.Linef("%s: your coach set %s (it was %s).", show.DayName(day, h.Rider.Today), show.CarefulSession(session), was),
			say.Linef("The rest of your plan: /plan show")}, rideOn(day), h.letGo(day))
	}
	reply.Offer(&p, "Undo", back, options)
	reply.Lines = p.Done()
	return reply, nil
}

// changed adds what a change of a day does besides, and when the rider hears of it.
func (h *handed) changed(p *say.Page, e *desk.Effect, day planner.Date) say.Reply {
	e = e.ForCoach()
	e.Settle(day)
	p.Add(e.NewWarnings()...)
	if lines := e.ChangedDays(); len(lines) > 1 {
		p.Add(lines...)
	}
	p.Add(h.hears(day))
	return say.Reply{Date: day, Buttons: []say.Button{{Label: "Show " + h.name, Command: "coach athlete", Options: map[string]string{"athlete": h.name}}}}
}

// hears says when the rider reads it.
func (h *handed) hears(day planner.Date) say.Line {
	if atOnce(&h.rider, h.Rider.Today, day) {
		return say.Linef("%s gets a private message about it now.", h.name)
	}
	return say.Linef("%s reads it in the next reminder.", h.name)
}

// refusal words for a coach why a day cannot be set. Of health it says no more
// than coaches may know.
func (h *handed) refusal(err error, day planner.Date) error {
	in := (*planner.InputError)(nil)
	if !errors.As(err, &in) {
		return err
	}
	if strings.Contains(in.Msg, "your health") {
		return say.Refuse("day", "%s is kept free. %s is %s. Choose a later day, for example %s", day.Long(), h.name, show.NotTraining, day.AddDays(7))
	}
	return say.Refuse("day", "%s", strings.Replace(in.Msg, "You cannot ride", h.name+" cannot ride", 1))
}

// dayLabel is a day of the plan in a few words.
func dayLabel(f desk.Ledger, today, day planner.Date) string {
	d, ok := engine.DeriveUntil(today, day, f.All).Day(day)
	if !ok {
		return show.RestLabel
	}
	return show.SessionsLabel(d.Sessions, d.Race)
}

// coachRelease lets go of what a coach set for a day. Riders may do so for themselves.
func coachRelease(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if !req.IsCoach() && !req.Rider.Known() {
		return say.Reply{}, say.Refuse("athlete", "nothing is set for you. Your plan: /plan show")
	}
	h, err := ownHand(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	day, err := h.day()
	if err != nil {
		return say.Reply{}, err
	}
	own := h.rider.ID == req.Rider.Athlete.ID
	e, err := b.Change(ctx, h.Request, func(tx *storage.DB) error {
		err := tx.RemovePin(ctx, h.rider.ID, h.Rider.Today, day)
		if errors.Is(err, storage.ErrNotFound) {
			return h.noPin(ctx, tx, day)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	req.Rider.Saved = true
	pin := show.PinOn(e.Old, day)
	now := show.RestLabel
	if d, ok := e.After.Day(day); ok {
		now = show.SessionsLabel(d.Sessions, d.Race)
	}
	var p say.Page
	if own {
		p.Addf("%s goes by your plan again: %s.", show.DayName(day, h.Rider.Today), now)
		e.Settle(day)
		p.Add(e.NewWarnings()...)
		if lines := e.ChangedDays(); len(lines) > 1 {
			p.Add(lines...)
		}
		p.Addf("Your coach can set it again.")
		return say.Reply{Date: day, Lines: p.Done(), Buttons: []say.Button{rideOn(day)}}, nil
	}
	seen := now
	if d, ok := e.After.Day(day); ok && d.Phase == planner.Health {
		seen = show.NotTraining
	}
	p.Addf("%s, %s: the plan holds again, with %s.", h.name, show.Dated(day, h.Rider.Today), seen)
	reply := h.changed(&p, e, day)
	if atOnce(&h.rider, h.Rider.Today, day) {
		reply.Sent = toRider(&h.rider, []say.Line{say.Linef("%s: %s. Your coach let go of %s, so your plan holds again.", show.DayName(day, h.Rider.Today), now, pin.Session.Label())}, rideOn(day))
	}
	reply.Offer(&p, "Undo", "coach adjust", map[string]string{"athlete": h.name, "day": day.String(), "session": pin.Session.Label()})
	reply.Lines = p.Done()
	return reply, nil
}

// ownHand is hand, for a rider who is no coach only where it is about themselves.
func ownHand(ctx context.Context, b *desk.Base, req desk.Request) (handed, error) {
	if req.IsCoach() {
		return hand(ctx, b, req)
	}
	own := req.Rider.Athlete
	athletes, err := b.DB.Athletes(ctx, req.Rider.Club.ID)
	if err != nil {
		return handed{}, err
	}
	text := req.Get("athlete")
	for _, a := range findAthlete(athletes, text) {
		if a.ID == own.ID {
			return handed{Request: req, rider: own, name: tellApart(athletes)[own.ID]}, nil
		}
	}
	return handed{}, say.Refuse("athlete", "that is for the club's coaches. You can let go of your own days, for example athlete:%s", say.Quote(tellApart(athletes)[own.ID]))
}

// noPin refuses a day for which nothing is set, and names those that are.
func (h *handed) noPin(ctx context.Context, tx *storage.DB, day planner.Date) error {
	pins, err := tx.Pins(ctx, h.rider.ID)
	if err != nil {
		return err
	}
	var days []string
	for _, p := range pins {
		if p.Date >= h.Rider.Today && len(days) < 5 {
			days = append(days, show.Dated(p.Date, h.Rider.Today))
		}
	}
	if len(days) == 0 {
		return say.Refuse("day", "nothing is set for %s on %s or later days", h.name, day.Long())
	}
	return say.Refuse("day", "nothing is set for %s on %s. Days that are: %s", h.name, day.Long(), say.AndList(days))
}
