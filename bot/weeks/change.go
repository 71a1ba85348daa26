package weeks

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// weekChange changes some days of the usual week and leaves the others.
func weekChange(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	days, wrongDay := typed.Weekdays(req.Get("day"))
	plan, wrongSession := typed.Day(req.Get("session"))
	from, wrongFrom := fromDay(&req)
	if err := say.Together(say.InField("day", wrongDay), say.InField("session", wrongSession), wrongFrom); err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	was := weekFrom(facts.Now, from)
	week := changed(was, days, plan)
	if sameWeeks(&was, &week) {
		reply := say.Reply{Date: from}
		reply.Addf("Your week has that already: %s %s. Nothing changes.", dayNames(days), plan.String())
		reply.Addf("Your week: /week show")
		return reply, nil
	}
	return keepWeek(ctx, b, req, week, func(_ *desk.Effect, w *planner.DatedWeek) []say.Line {
		lines := []say.Line{say.Linef("%s from %s: %s (until now %s).", dayNames(days), from.Long(), plan.String(), was.Week[days[0]].String()),
			say.Linef("Your week is now %s.", show.WeekSum(&w.Week))}
		if len(days) > 1 {
			lines[0] = say.Linef("%s from %s: %s.", dayNames(days), from.Long(), plan.String())
		}
		if w.Second != nil {
			lines = append(lines, say.Linef("It counts in both of your weeks in turn. The other one is now %s.", show.WeekSum(w.Second)))
		}
		alone := planner.Week{}
		alone[days[0]] = plan
		return append(lines, assumedHard(&alone)...)
	})
}

// weekFrom is the usual week as it holds on a date, from then on. Of two in turn the
// one of that date's calendar week stands first.
func weekFrom(f *planner.Facts, from planner.Date) planner.DatedWeek {
	in := &f.Weeks[0]
	for i := range f.Weeks {
		if f.Weeks[i].From <= from {
			in = &f.Weeks[i]
		}
	}
	week := planner.DatedWeek{From: from, Week: in.Week, Second: in.Second}
	if in.Second != nil && f.WeekOn(from) == in.Second {
		week.Week, week.Second = *in.Second, &in.Week
	}
	return week
}

// changed is a week with another plan for some days, in both of two in turn.
func changed(w planner.DatedWeek, days []planner.Weekday, plan planner.WeekdayPlan) planner.DatedWeek {
	if w.Second != nil {
		other := *w.Second
		w.Second = &other
	}
	for _, d := range days {
		w.Week[d] = plan
		if w.Second != nil {
			w.Second[d] = plan
		}
	}
	return w
}

// sameWeeks reports whether two weeks, or both pairs in turn, hold the same.
func sameWeeks(a, b *planner.DatedWeek) bool {
	second := func(w *planner.DatedWeek) string {
		if w.Second == nil {
			return ""
		}
		return w.Second.String()
	}
	return a.Week.String() == b.Week.String() && second(a) == second(b)
}

// dayNames are weekdays as words: Tue and Thu.
func dayNames(days []planner.Weekday) string {
	if len(days) == 1 {
		return days[0].String()
	}
	names := make([]string, len(days))
	for i, d := range days {
		names[i] = d.Short()
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// fewDays asks what a week of one or two days means to a rider who has a fuller one:
// that the others are rest, or that these alone change.
func fewDays(r *desk.Request, f *planner.Facts, week *planner.Week, from planner.Date) (say.Reply, error) {
	const few = 2
	named := typed.Named(r.Get("week"))
	if len(named) > few || !desk.Planned(f) || r.Has("second") {
		return say.Reply{}, nil
	}
	only := weekFrom(f, from)
	for _, d := range named {
		only = changed(only, []planner.Weekday{d}, week[d])
	}
	rest := planner.DatedWeek{From: from, Week: *week}
	if sameWeeks(&only, &rest) {
		return say.Reply{}, nil
	}
	names, verb := dayNames(named), "changes"
	if len(named) > 1 {
		verb = "change"
	}
	reply := say.Reply{Buttons: []say.Button{
		{Label: "Only " + names + " " + verb, Command: "week share", Options: Options(&only)},
		{Label: "The other days are rest", Command: "week share", Options: Options(&rest)},
	}}
	day := strings.ToLower(named[0].Short())
	return reply, say.Refuse("week", "names %s alone. Are the other days rest, or do they stay as they are? If they are rest, name all seven. To change one day: /week change day:%s session:%s",
		names, day, say.Quote(week[named[0]].String()))
}

// weekWithdraw takes back a week that was entered for later, or today.
func weekWithdraw(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	from, err := req.FromDay("from")
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	at := slices.IndexFunc(facts.Now.Weeks, func(w planner.DatedWeek) bool { return w.From == from })
	if at < 0 {
		return say.Reply{}, noSuchWeek(facts.Now, from, req.Rider.Today)
	}
	was := facts.Now.Weeks[at]
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		err := tx.WithdrawWeek(ctx, req.Rider.Athlete.ID, req.Rider.Today, from)
		if errors.Is(err, storage.ErrPast) {
			return holdsAlready(facts.Now, at, req.Rider.Today)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	for _, r := range e.Facts.Done {
		e.Settle(r.Date)
	}
	var p say.Page
	p.Addf("Taken back: your week from %s.", from.Long())
	if desk.Planned(e.Facts) {
		holds := weekFrom(e.Facts, max(from, req.Rider.Today))
		p.Addf("Now this week counts instead: %s.", show.WeekSum(&holds.Week))
		p.Add(whatChanges(e, &was)...)
	} else {
		p.Addf("I know no week of yours now. Share one: /week share week:%s", say.Quote(desk.ExampleWeek))
	}
	reply := say.Reply{Date: from}
	reply.Offer(&p, "Undo", "week share", Options(&was))
	reply.Lines = p.Done()
	return reply, nil
}

// noSuchWeek refuses to take back what was not told, and lists what was.
func noSuchWeek(f *planner.Facts, from, today planner.Date) error {
	var later []say.Line
	for _, w := range f.Weeks {
		if w.From > today {
			later = append(later, say.Linef("/week withdraw from:%s", w.From))
		}
	}
	if len(later) == 0 {
		return say.Refuse("from", "you shared no week from %s, and none for later. See yours: /week show", from.Long())
	}
	return say.Refuse("from", "you shared no week from %s. Shared for later: %s", from.Long(), say.Joined(later, ", "))
}

// holdsAlready refuses to take back a week by which days were lived, and shows how to
// go back to the one before it.
func holdsAlready(f *planner.Facts, at int, today planner.Date) error {
	since := fmt.Sprintf("that week holds since %s and is not taken back any more.", f.Weeks[at].From.Long())
	if at == 0 {
		return say.Refuse("from", "%s Share another one, for example /week share week:%s", since, say.Quote(desk.ExampleWeek))
	}
	before := f.Weeks[at-1]
	before.From = today
	return say.Refuse("from", "%s To go back to the one before it: %s", since, shareLine(&before))
}

// shareLine is the command that shares a week.
func shareLine(w *planner.DatedWeek) say.Line {
	if w.Second != nil {
		return say.Linef("/week share week:%s second:%s from:%s", say.Quote(w.Week.String()), say.Quote(w.Second.String()), w.From)
	}
	return say.Linef("/week share week:%s from:%s", say.Quote(w.Week.String()), w.From)
}
