package weeks

import (
	"context"
	"fmt"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

func weekShare(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	week, second, err := readWeeks(&req)
	if err != nil {
		return formAgain(&req), err
	}
	from, err := fromDay(&req)
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if reply, err := fewDays(&req, facts.Now, &week, from); err != nil {
		return reply, err
	}
	return keepWeek(ctx, b, req, planner.DatedWeek{From: from, Week: week, Second: second}, weekHead)
}

// readWeeks reads the week, and the other of two in turn where one was entered.
func readWeeks(r *desk.Request) (week planner.Week, second *planner.Week, err error) {
	if week, err = typed.Week(r.Get("week")); err != nil {
		return week, nil, say.InField("week", err)
	}
	if !r.Has("second") || strings.EqualFold(r.Get("second"), say.None) {
		return week, nil, nil
	}
	other, err := typed.Week(r.Get("second"))
	if err != nil {
		return week, nil, say.InField("second", err)
	}
	return week, &other, nil
}

// Share stores the typical week that the options hold, or two in turn, from its day on.
func Share(ctx context.Context, b *desk.Base, req desk.Request) (week planner.DatedWeek, e *desk.Effect, err error) {
	if week.Week, week.Second, err = readWeeks(&req); err != nil {
		return week, nil, err
	}
	if week.From, err = fromDay(&req); err != nil {
		return week, nil, err
	}
	e, err = b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.SetWeek(ctx, req.Rider.Athlete.ID, req.Rider.Today, week)
	})
	return week, e, err
}

// fromDay is the first day of a week, today where it was left out.
func fromDay(r *desk.Request) (planner.Date, error) {
	if !r.Has("from") {
		return r.Rider.Today, nil
	}
	return r.FromDay("from")
}

// keepWeek stores a week and answers with it, what it changes and the way back.
func keepWeek(ctx context.Context, b *desk.Base, req desk.Request, week planner.DatedWeek, head func(e *desk.Effect, w *planner.DatedWeek) []say.Line) (say.Reply, error) {
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		return tx.SetWeek(ctx, req.Rider.Athlete.ID, req.Rider.Today, week)
	})
	if err != nil {
		return say.Reply{}, err
	}
	for _, r := range e.Facts.Done {
		e.Settle(r.Date) // no week changes what was ridden
	}
	var p say.Page
	p.Add(head(e, &week)...)
	for _, w := range e.Facts.Weeks {
		if w.From > week.From {
			p.Addf("From %s on the week that you shared for then holds: /week show", w.From.Short())
			break
		}
	}
	reply := say.Reply{Date: week.From}
	race := e.Facts.NextRace(req.Rider.Today)
	if race == nil && !desk.Planned(e.Old) {
		p.Addf("Next, register a race: %s", desk.RaceExample(req.Rider.Today))
	} else if race != nil {
		raceNews(&p, e, race, &week)
		reply.Race, reply.Buttons = race.Name, []say.Button{show.PlanButton(race)}
	}
	if desk.Planned(e.Old) {
		p.Add(whatChanges(e, &week)...)
		command, values := undoWeek(e.Old, week.From)
		reply.Offer(&p, "Undo", command, values)
	}
	reply.Lines = p.Done()
	return reply, nil
}

// raceNews is what a week means for the next race: the whole of it where it is the
// first week, else in a line.
func raceNews(p *say.Page, e *desk.Effect, race *planner.Race, week *planner.DatedWeek) {
	if desk.Planned(e.Old) && week.Second != nil {
		return // two weeks leave no room
	}
	p.Headingf("%s, %s race on %s:", race.Name, race.Priority, race.Date.Short())
	if !desk.Planned(e.Old) {
		p.Add(desk.RaceNews(e, race)...)
		return
	}
	p.Add(say.PlainLines(show.Window(e.After, show.RoleOf(e.After, e.Facts, race), race))...)
}

// whatChanges are the warnings and days that a week changes, as many as a screen holds.
func whatChanges(e *desk.Effect, week *planner.DatedWeek) []say.Line {
	days, warnings := 5, e.NewWarnings()
	if week.Second != nil {
		days = 3
	}
	if end := desk.LastDay(e.After); week.From > end {
		return append(warnings, say.Linef("Your plan ends on %s for now. I will count this when it gets that far.", end.Short()))
	}
	return append(warnings[:min(len(warnings), 2)], e.FewChangedDays(days)...)
}

// undoWeek is the command that brings back what was known of a date before: the week
// that was shared from then on, or none.
func undoWeek(old *planner.Facts, from planner.Date) (command string, values map[string]string) {
	for _, w := range old.Weeks {
		if w.From == from {
			return "week share", Options(&w)
		}
	}
	return "week withdraw", map[string]string{"from": from.String()}
}

// Options are those that share a week.
func Options(w *planner.DatedWeek) map[string]string {
	values := map[string]string{"week": w.Week.String(), "from": w.From.String()}
	if w.Second != nil {
		values["second"] = w.Second.String()
	}
	return values
}

// weekHead is a week as it was understood, all its days.
func weekHead(_ *desk.Effect, w *planner.DatedWeek) []say.Line {
	if w.Second == nil {
		lines := []say.Line{say.Linef("Your week from %s: %s.", w.From.Long(), show.WeekSum(&w.Week))}
		lines = append(lines, Lines(&w.Week)...)
		return append(lines, assumedHard(&w.Week)...)
	}
	next := w.From.AddDays(7 - int(w.From.Weekday()))
	lines := []say.Line{say.Linef("Your two weeks in turn, from %s: %s.", w.From.Long(), show.WeekSum(&w.Week))}
	lines = append(lines, Lines(&w.Week)...)
	lines = append(lines, say.Linef("The other one, from %s: %s.", next.Long(), show.WeekSum(w.Second)))
	return append(lines, Lines(w.Second)...)
}

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

// mostAssumed is of how many hard days it tells, so that an answer is no wall of text.
const mostAssumed = 3

// assumedHard tells of hard days without sets how much of them counts as hard,
// and how to say otherwise.
func assumedHard(w *planner.Week) []say.Line {
	var lines []say.Line
	example := ""
	for i, p := range w {
		for _, s := range p.Sessions {
			if hard := s.AssumedHard(); hard > 0 && len(lines) < mostAssumed {
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

// shareAnother is the week that holds, to be typed with changes; of two in turn this one comes first.
func shareAnother(w *planner.DatedWeek, today planner.Date) say.Line {
	if w.Second == nil {
		return say.Linef("Share another: /week share week:%s from:%s", say.Quote(w.Week.String()), today)
	}
	monday := func(d planner.Date) planner.Date { return d - planner.Date(d.Weekday()) }
	this, other := &w.Week, w.Second
	if monday(w.From).DaysUntil(monday(today))/7%2 != 0 {
		this, other = other, this
	}
	return say.Linef("Share two others: /week share week:%s from:%s second:%s", say.Quote(this.String()), today, say.Quote(other.String()))
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
		if w.Second != nil {
			p.Add(weekHead(nil, &w)...)
		} else {
			p.Addf("Your week from %s: %s.", w.From.Long(), show.WeekSum(&w.Week))
			p.Add(Lines(&w.Week)...)
		}
		if w.From > req.Rider.Today {
			p.Addf("Take it back: /week withdraw from:%s", w.From)
		}
	}
	p.Gap()
	p.Addf("Change one day: /week change day:tue session:\"endurance 1h15\"")
	p.Add(shareAnother(&weeks[now], req.Rider.Today))
	return say.Reply{Lines: p.Done(), Date: weeks[now].From}, nil
}
