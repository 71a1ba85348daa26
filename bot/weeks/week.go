package weeks

import (
	"context"
	"errors"
	"fmt"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

func weekShare(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	week, from, e, err := Share(ctx, b, req)
	if errors.Is(err, errWeek) {
		return formAgain(&req), err
	}
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Your week from %s: %s.", from.Long(), show.WeekSum(&week))
	p.Add(Lines(&week)...)
	p.Add(assumedHard(&week)...)
	for _, w := range e.Facts.Weeks {
		if w.From > from {
			p.Addf("From %s on the week that you shared for then holds: /week show", w.From.Short())
			break
		}
	}
	reply := say.Reply{Date: from}
	if race := show.NextRace(e.Facts, req.Rider.Today); race != nil {
		p.Headingf("%s, %s race on %s:", race.Name, race.Priority, race.Date.Short())
		p.Add(desk.RaceNews(e, race)...)
		reply.Race, reply.Buttons = race.Name, []say.Button{show.PlanButton(race)}
	} else {
		p.Addf("Next, register a race: %s", desk.RaceExample(req.Rider.Today))
	}
	reply.Lines = p.Done()
	return reply, nil
}

// errWeek marks the fault of a week that was not understood.
var errWeek = errors.New("week")

// Share stores the typical week that the options hold, from its day on.
func Share(ctx context.Context, b *desk.Base, req desk.Request) (week planner.Week, from planner.Date, e *desk.Effect, err error) {
	if week, err = typed.Week(req.Get("week")); err != nil {
		return week, 0, nil, weekFault{say.InField("week", err)}
	}
	from = req.Rider.Today
	if req.Has("from") {
		if from, err = typed.Date(req.Get("from"), req.Rider.Today); err != nil {
			return week, 0, nil, say.InField("from", err)
		}
		if from < req.Rider.Today.AddDays(-366) || from > req.Rider.Today.AddDays(planner.MaxAhead) {
			return week, 0, nil, say.Refuse("from", "%s is too far from today. For example %s", from.Long(), req.Rider.Today)
		}
	}
	e, err = b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.SetWeek(ctx, req.Rider.Athlete.ID, req.Rider.Today, planner.DatedWeek{From: from, Week: week})
	})
	return week, from, e, err
}

// weekFault is the fault of a week that was not understood.
type weekFault struct{ error }

func (f weekFault) Is(target error) bool { return target == errWeek }

func (f weekFault) Unwrap() error { return f.error }

// formAgain offers the form with what was typed, so that nothing is typed twice.
func formAgain(r *desk.Request) say.Reply {
	if !r.Forms {
		return say.Reply{}
	}
	return say.Reply{Buttons: []say.Button{{Label: "Open the form again", Command: r.Command, Options: r.Options, Form: true}}}
}

// Lines are the days of a week.
func Lines(w *planner.Week) []say.Line {
	lines := make([]say.Line, 7)
	for i, p := range w {
		lines[i] = say.Dayf(planner.Weekday(i).Short()+" ", "%s", p.String())
	}
	return lines
}

// assumedHard tells of hard days without sets how much of them counts as hard,
// and how to say otherwise.
func assumedHard(w *planner.Week) []say.Line {
	var lines []say.Line
	example := ""
	for i, p := range w {
		for _, s := range p.Sessions {
			if hard := s.AssumedHard(); hard > 0 {
				lines = append(lines, say.Linef("%s %s: I count %s of it as hard.", planner.Weekday(i).Short(), s.Label(), planner.Duration(hard)))
				example = s.Label() + " " + otherSet(s)
			}
		}
	}
	if len(lines) > 0 {
		last := &lines[len(lines)-1]
		*last = say.Linef("%s If it is more or less, write for example %s.", *last, example)
	}
	return lines
}

// otherSet is one repetition that is longer than what counts as hard.
func otherSet(s planner.Session) string {
	const most = 180 // minutes that one can take
	longer := (s.AssumedHard()+4)/5*5 + 10
	return fmt.Sprintf("1x%dmin", min(longer, int(s.Minutes), most))
}

func weekShow(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	weeks, err := b.DB.Weeks(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	if len(weeks) == 0 {
		return req.NeedWeek(), nil
	}
	now := 0
	for i, w := range weeks {
		if w.From <= req.Rider.Today {
			now = i
		}
	}
	var p say.Page
	for i, w := range weeks[now:] {
		if i > 0 {
			p.Gap()
		}
		p.Addf("Your week from %s: %s.", w.From.Long(), show.WeekSum(&w.Week))
		p.Add(Lines(&w.Week)...)
	}
	p.Gap()
	p.Addf("Change it, for example: /week share week:%s from:%s", say.Quote(weeks[now].Week.String()), req.Rider.Today)
	return say.Reply{Lines: p.Done(), Date: weeks[now].From}, nil
}
