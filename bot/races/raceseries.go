package races

import (
	"context"
	"errors"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// seriesAdd registers a race of each week up to a day; each is a race of its own.
func seriesAdd(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	today := req.Rider.Today
	race := planner.Race{Days: 1}
	if err := readRace(&race, &req); err != nil {
		return say.Reply{}, say.Together(err, Read(&req))
	}
	if !req.Has("until") {
		return say.Reply{}, say.Refuse("until", "is missing: the last day of the series. For example until:%s", race.Date.AddDays(28))
	}
	until, err := lastDay(req.Get("until"), race.Date, today)
	if err != nil {
		return say.Reply{}, say.InField("until", err)
	}
	if err := desk.AheadOnly("date", race.Date, today); err != nil {
		return say.Reply{}, err
	}
	if err := desk.AheadOnly("until", until, today); err != nil {
		return say.Reply{}, err
	}
	if !req.Has("repeat") {
		return say.Reply{}, say.Refuse("repeat", "is missing: until goes with it. For example repeat:weekly until:%s", until)
	}
	var added []storage.Race
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		added, err = tx.AddSeries(ctx, req.Rider.Athlete.ID, today, race, until)
		if errors.Is(err, storage.ErrExists) {
			return say.Refuse("name", "all races of this series are in your calendar already. See /race list")
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	return seriesReply(&req, e, added, until), nil
}

// seriesReply tells what a series means: of the plan what is new to other races.
func seriesReply(req *desk.Request, e *desk.Effect, added []storage.Race, until planner.Date) say.Reply {
	const most = 3
	first, last := &added[0].Race, added[len(added)-1].Date
	var p say.Page
	p.Addf("%s is in your calendar %s, every %s from %s to %s: %s race.", first.Name, times(len(added)), first.Date.Weekday(), first.Date.Long(), last.Long(), first.Priority)
	p.Add(kindRead(req, first)...)
	weeks := first.Date.DaysUntil(until)/7 + 1
	if had := weeks - len(added); had > 0 {
		p.Addf("You had %s of them already.", show.Count(had, "race"))
	}
	reply := say.Reply{Date: first.Date, Race: first.Name}
	if desk.Planned(e.Facts) {
		p.Addf("The first one is on %s. %s", first.Date.Short(), show.Window(e.After, show.RoleOf(e.After, e.Facts, first), first))
		p.Add(e.OtherRaces()...)
		warnings := e.NewWarnings()
		p.Add(warnings[:min(most, len(warnings))]...)
		if n := len(warnings) - most; n > 0 {
			p.Addf("The plan has more warnings: %d. See /plan show", n)
		}
		p.Add(say.Offeredf("The days: %s", show.RaceLink(e.Facts, first)))
		reply.Buttons = []say.Button{show.PlanButton(first)}
	} else {
		p.Add(desk.RaceNews(e, first)...)
		reply.Buttons = req.WeekForm()
	}
	if weeks == len(added) {
		show.OfferRace(&reply, &p, "Undo", "race remove", first, "until", last.String())
	}
	reply.Lines = p.Done()
	if req.Rider.Athlete.Settings.Announce && req.Rider.HasChannel() {
		reply.Sent = []say.Message{{To: "#" + req.Rider.Club.Name, Kind: "race", Buttons: []say.Button{joinButton(first)},
			Lines: []say.Line{say.Linef("%s races %s every %s from %s to %s (%s race).", req.Rider.Athlete.Name, first.Name, first.Date.Weekday(), first.Date.Long(), last.Long(), first.Priority)}}}
	}
	return reply
}

// times is how often: once, twice, 8 times.
func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return show.Count(n, "time")
}

// removeSeries takes out a race and those of its name up to a day.
func removeSeries(ctx context.Context, b *desk.Base, req desk.Request, first storage.Race) (say.Reply, error) {
	until, err := lastDay(req.Get("until"), first.Date, req.Rider.Today)
	if err == nil && until < first.Date {
		err = say.Refuse("", "%s is before %s. For example %s", until.Long(), first.Date.Long(), first.Date.AddDays(28))
	}
	if err != nil {
		return say.Reply{}, say.InField("until", err)
	}
	all, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	var out []storage.Race
	var changed []*planner.Race
	for _, r := range all {
		if show.SameName(r.Name, first.Name) && first.Date <= r.Date && r.Date <= until {
			out = append(out, r)
			changed = append(changed, &r.Race)
		}
	}
	if req.Ask {
		return askSeries(out, until), nil
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		for _, r := range out {
			if err := tx.RemoveRace(ctx, req.Rider.Athlete.ID, req.Rider.Today, r.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return say.Reply{}, err
	}
	last := out[len(out)-1].Date
	var p say.Page
	p.Addf("%s is out of your calendar %s, from %s to %s.", first.Name, times(len(out)), first.Date.Long(), last.Long())
	if desk.Planned(e.Facts) {
		p.Add(e.OtherRaces(changed...)...)
		p.Add(e.News()...)
	}
	reply := say.Reply{Date: first.Date, Race: first.Name}
	if isSeries(out) && first.Date >= req.Rider.Today {
		options := raceOptions(&first.Race)
		options["repeat"], options["until"] = weekly, last.String()
		reply.Offer(&p, wayBack(&first.Race), "race add", options)
	}
	reply.Lines = p.Done()
	return reply, nil
}

// isSeries reports races that differ in nothing but their weeks.
func isSeries(list []storage.Race) bool {
	for i, r := range list {
		want := list[0].Race
		want.Date, want.ID, want.Told, want.Registered = want.Date.AddDays(7*i), r.Race.ID, r.Told, r.Registered
		if r.Race != want {
			return false
		}
	}
	return true
}

// askSeries asks before several races are taken out.
func askSeries(list []storage.Race, until planner.Date) say.Reply {
	first := &list[0]
	return say.Reply{Date: first.Date, Race: first.Name,
		Lines: []say.Line{say.Linef("Take %s out of your calendar %s, from %s to %s?", first.Name, times(len(list)), first.Date.Long(), until.Long()),
			say.Linef("Their days go back to your usual week. Nothing has changed yet.")},
		Buttons: []say.Button{
			{Label: "Remove them", Danger: true, Command: "race remove", Options: map[string]string{"race": first.Key(), "until": until.String()}},
			{Label: "Keep them"},
		}}
}
