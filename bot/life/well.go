package life

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

// tellWell ends an illness, an injury or a stop.
func tellWell(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	h, held := desk.Held(facts.Now)
	cleared, stops := req.Get("cleared"), stopsIn(req.Get("of"))
	if cleared == show.ClearedNot && (stops != nil || !held && !req.Has("of")) {
		if reply, ok, err := heldAgain(ctx, b, req, stops); ok || err != nil {
			return reply, err
		}
	}
	switch {
	case cleared == show.ClearedWasNot:
		return notThat(ctx, b, req, facts.Now)
	case cleared == show.ClearedNot && held:
		return stillSo(h, req.Rider.Today), nil
	case cleared == show.ClearedYes && held:
		return clear(ctx, b, req, stands(facts.Now, planner.LevelHead))
	case held && stops != nil:
		return stayHeld(h), nil
	}
	var all []storage.Illness
	if req.Rider.Known() {
		if all, err = b.DB.Illnesses(ctx, req.Rider.Athlete.ID); err != nil {
			return say.Reply{}, err
		}
	}
	ill, hurt := illness.open(all), injury.open(all)
	what, ends := &illness, ill
	switch of := req.Get("of"); {
	case of == injury.noun, of != illness.noun && ill == nil:
		what, ends = &injury, hurt
	case of != illness.noun && hurt != nil && cleared != show.ClearedNot:
		return bothOpen(&req), nil
	}
	switch {
	case ends == nil && held:
		return stayHeld(h), nil
	case ends == nil:
		return say.Reply{}, say.Refuse("day", "you entered no illness or injury that goes on, so there is nothing to end. For example /tell sick symptoms:fever")
	case cleared == show.ClearedNot:
		return what.goesOnReply(ends, req.Rider.Today), nil
	}
	return what.end(ctx, b, req, ends)
}

// stayHeld answers who is well but held back.
func stayHeld(h desk.Hold) say.Reply {
	return show.Stopped(say.Linef("Training stays held back until a doctor has cleared you."), h.Level)
}

// bothOpen asks which of two is over.
func bothOpen(req *desk.Request) say.Reply {
	var p say.Page
	var reply say.Reply
	of := func(noun string) map[string]string {
		options := map[string]string{"of": noun}
		if req.Has("day") {
			options["day"] = req.Get("day")
		}
		return options
	}
	p.Addf("Which is over: your illness or your injury?")
	reply.Offer(&p, "The illness", "tell well", of(illness.noun))
	reply.Offer(&p, "The injury", "tell well", of(injury.noun))
	reply.Lines = p.Done()
	return reply
}

// goesOnReply answers that it is not over.
func (t *trouble) goesOnReply(ill *storage.Illness, today planner.Date) say.Reply {
	return say.Reply{Date: ill.From, Lines: []say.Line{
		say.Linef("All right: you are still %s, since %s. Nothing changes, and I ask again in three days.", t.state, show.Dated(ill.From, today)),
		say.Linef("! %s", words.StopAnswer(ill.Level)), say.Linef("When you are well: /tell well")}}
}

// end keeps the first day on which the rider is well.
func (t *trouble) end(ctx context.Context, b *desk.Base, req desk.Request, ill *storage.Illness) (say.Reply, error) {
	day, err := req.PastDay("day")
	if err != nil {
		return say.Reply{}, err
	}
	if day <= ill.From {
		return say.Reply{}, say.Refuse("day", "you told me that you are %s since %s, so you can be well from %s on. Was it no %s? /%s %s:none since:%s",
			t.state, ill.From.Short(), (ill.From + 1).Short(), t.noun, t.command, t.option, ill.From)
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		_, _, err := tx.EndIllness(ctx, req.Rider.Athlete.ID, req.Now, ill.ID, day)
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: day, text: fmt.Sprintf("Noted: well since %s. Good to hear.", show.Dated(day, req.Rider.Today)), undo: t.command, values: t.options(&ill.Illness)}
	if day == req.Rider.Today {
		n.text = fmt.Sprintf("Noted: well from today, %s. Good to hear.", day.Short())
	}
	n.more = append(comeback(e, req.Rider.Today, ill.Level == planner.LevelEasy && !ill.Injury), noStart(e, req.Rider.Today)...)
	return told(e, n), nil
}

// comeback says which ride comes first. After a head cold no days of rest come before it.
func comeback(e *desk.Effect, today planner.Date, cold bool) []say.Line {
	if h, held := desk.Held(e.Facts); held {
		return []say.Line{say.Linef("! %s", words.StopAnswer(h.Level)), say.Linef("Your training stays held back. When a doctor has cleared you: /tell well cleared:yes")}
	}
	if !desk.Planned(e.Facts) && cold {
		return []say.Line{say.Linef("Begin with short, easy rides. If a symptom comes back, stop: /tell sick")}
	}
	if !desk.Planned(e.Facts) {
		return []say.Line{say.Linef("Stay free of symptoms for %s before you train, then begin with short, easy rides.", words.WellFor)}
	}
	if ill := desk.OpenIllness(e.Facts); ill != nil {
		return []say.Line{say.Linef("You are still %s, since %s, so every day is rest. When that is over: /tell well", stateOf(ill), show.Dated(ill.From, today))}
	}
	lines := riddenAlready(e, today)
	for i := range e.After.Days {
		d := &e.After.Days[i]
		if d.Minutes() == 0 || slices.ContainsFunc(e.Facts.Done, func(r planner.Ride) bool { return r.Date == d.Date }) {
			continue
		}
		first := say.Linef("%s, you ride again: %s. If a symptom comes back, stop: /tell sick", show.DayName(d.Date, today), show.Careful(d))
		if d.Date > today && !cold {
			if len(lines) == 0 {
				lines = []say.Line{say.Linef("Rest until you have had %s without symptoms. After that you come back step by step.", words.WellFor)}
			}
			return append(lines, first)
		}
		return []say.Line{say.Linef("From here you come back step by step."), first}
	}
	return lines
}

// noStart says that the next race is not to be started, where that is not new and so not said besides.
func noStart(e *desk.Effect, today planner.Date) []say.Line {
	race := e.Facts.NextRace(today)
	if race == nil || !desk.Planned(e.Facts) {
		return nil
	}
	for _, w := range words.Warnings(e.After) {
		if w.Race != nil && w.Race.Is(race) && w.Code == "health.easy" {
			line := show.WarningLine(&w)
			if slices.ContainsFunc(e.NewWarnings(), func(l say.Line) bool { return l.String() == line.String() }) {
				return nil
			}
			return []say.Line{line}
		}
	}
	return nil
}

// stateOf is ill or injured.
func stateOf(ill *planner.Illness) string {
	if ill.Injury {
		return injury.state
	}
	return illness.state
}

// riddenAlready says of a first day back on which a ride is logged already what it would have had.
func riddenAlready(e *desk.Effect, today planner.Date) []say.Line {
	var rides []planner.Ride
	for _, r := range e.Facts.Done {
		if r.Date == today && r.Minutes > 0 {
			rides = append(rides, r)
		}
	}
	d := desk.Unlogged(e.Known, today)
	if len(rides) == 0 || d == nil || d.Minutes() == 0 {
		return nil
	}
	return []say.Line{say.Linef("Your way back begins today, %s, with %s. You have ridden %s already, so ride no more today.", today.Short(), show.Careful(d), show.Ridden(rides, nil))}
}

// stillSo answers a rider whom no doctor has cleared yet.
func stillSo(h desk.Hold, today planner.Date) say.Reply {
	return show.Stopped(say.Linef("All right: your training stays held back, as it has been since %s. I ask again in three days.", show.Dated(h.Since, today)), h.Level)
}

// steps are the minutes of the first rides after a knock to the head.
func steps() string {
	return strings.Join(strings.Fields(strings.Trim(fmt.Sprint(engine.HeadSteps), "[]")), ", ")
}

// clear ends all holds, because a doctor has cleared the rider. head: one of them is a
// knock to the head.
func clear(ctx context.Context, b *desk.Base, req desk.Request, head bool) (say.Reply, error) {
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.ClearHolds(ctx, req.Rider.Athlete.ID, req.Now) })
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: req.Rider.Today, text: "Noted: a doctor has cleared you. Good to hear."}
	if head {
		n.more = append(n.more, say.Linef("After a knock to the head you come back step by step: %s minutes easy. No hard riding before day %d, and no race.", steps(), engine.HeadReturn+1),
			say.Linef("If a headache or dizziness comes back, stop and see the doctor again."))
	}
	if req.Has("day") {
		n.more = append(n.more, say.Linef("I count it from today on, whenever that was."))
	}
	n.more = append(n.more, firstRide(e, req.Rider.Today)...)
	n.label, n.undo, n.values = "Not cleared after all", "tell well", map[string]string{"cleared": show.ClearedNot}
	return told(e, n), nil
}

// firstRide is the first ride to come, in a line.
func firstRide(e *desk.Effect, today planner.Date) []say.Line {
	lines := comeback(e, today, false)
	if already := riddenAlready(e, today); len(already) > 0 {
		return lines
	}
	return lines[max(0, len(lines)-1):]
}
