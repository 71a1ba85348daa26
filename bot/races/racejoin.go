package races

import (
	"context"
	"errors"
	"slices"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// joinButton lets whoever reads of a race ride it too.
func joinButton(r *planner.Race) say.Button {
	return say.Button{Label: "Join " + say.Clip16(r.Name, maxLabel) + ", " + r.Date.Short(), Command: "race join", Anybody: true,
		Options: show.ByRace(r)}
}

const maxLabel = 60 // units of UTF-16 of a button's label

// joinable are the races to come of other riders that the rider has not; mine are
// the rider's own.
func joinable(all []storage.ClubRace, who *desk.Rider) (theirs, mine []storage.Race) {
	same := func(r *storage.ClubRace) func(storage.Race) bool {
		return func(o storage.Race) bool { return o.Date == r.Date && show.SameName(o.Name, r.Name) }
	}
	for i := range all {
		if r := &all[i]; who.Known() && r.AthleteID == who.Athlete.ID {
			mine = append(mine, r.Race)
		}
	}
	for i := range all {
		r := &all[i]
		if r.Date >= who.Today && r.Status.Counts() && !slices.ContainsFunc(mine, same(r)) && !slices.ContainsFunc(theirs, same(r)) {
			theirs = append(theirs, r.Race)
		}
	}
	return theirs, mine
}

// raceJoin registers another rider's race for the rider too. How much it matters
// is asked where it was not told.
func raceJoin(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	all, err := b.DB.ClubRaces(ctx, req.Rider.Club.ID)
	if err != nil {
		return say.Reply{}, err
	}
	found, reply, err := raceToJoin(all, req)
	if err != nil {
		return reply, err
	}
	if !req.Has("priority") {
		return askPriority(&found), nil
	}
	priority, err := planner.ParsePriority(req.Get("priority"))
	if err != nil {
		return say.Reply{}, say.InField("priority", err)
	}
	var race storage.Race
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		race, err = tx.JoinRace(ctx, req.Rider.Athlete.ID, req.Rider.Today, found.ID, priority)
		if errors.Is(err, storage.ErrExists) {
			return mineAlready(&found)
		}
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("%s is in your calendar too: %s.", race.Name, show.DescribeRace(&race.Race))
	p.Add(desk.RaceNews(e, &race.Race)...)
	p.Addf("How long will it take you? For example /race change race:%s hours:3h", say.Quote(race.Key()))
	reply = aboutRace(&req, &p, e.Facts, &race.Race)
	show.OfferRace(&reply, &p, "Undo", "race remove", &race.Race)
	reply.Lines = p.Done()
	reply.Sent = announced(&req, &race.Race)
	return reply, nil
}

// raceToJoin finds the race that the option race means among those to join.
func raceToJoin(all []storage.ClubRace, req desk.Request) (storage.Race, say.Reply, error) {
	text, today := req.Get("race"), req.Rider.Today
	theirs, mine := joinable(all, req.Rider)
	if id, is := show.RefID(text); is {
		race, err := sharedRace(all, theirs, mine, id)
		return race, say.Reply{}, err
	}
	sure := desk.SureMatches(theirs, text, today)
	if len(sure) == 0 {
		sure = desk.OnDate(theirs, text, today)
	}
	if len(sure) == 0 {
		for _, r := range mine {
			if desk.NamedExactly(r, text, today) {
				return r, say.Reply{}, mineAlready(&r)
			}
		}
		names := make([]string, len(theirs))
		for i, r := range theirs {
			names[i] = r.Name
		}
		near := typed.Nearest(text, names)
		for _, r := range theirs {
			if near != "" && r.Name == near {
				sure = append(sure, r)
			}
		}
	}
	switch {
	case len(theirs) == 0:
		return storage.Race{}, say.Reply{}, say.Refuse("race", "no other rider has a race ahead that you do not have yet. Register one: %s", desk.RaceExample(today))
	case len(sure) == 0:
		return storage.Race{}, say.Reply{}, say.Refuse("race", "no race to join is like %s. See /race list", say.Shown(text))
	case len(sure) > 1:
		return storage.Race{}, say.Reply{}, desk.Ambiguous("race", text, sure)
	}
	if !desk.SureEnough(theirs, sure[0], text, today) {
		reply, err := desk.AskRace(req, sure[0])
		return sure[0], reply, err
	}
	return sure[0], say.Reply{}, nil
}

// sharedRace is the race that a button means, of whichever rider's calendar it is.
func sharedRace(all []storage.ClubRace, theirs, mine []storage.Race, id int64) (storage.Race, error) {
	at := slices.IndexFunc(all, func(r storage.ClubRace) bool { return r.Race.Race.ID == id })
	if at < 0 {
		return storage.Race{}, say.Refuse("race", "this race is not in the club's calendar any more. See /race list")
	}
	named := func(r storage.Race) bool { return r.Date == all[at].Date && show.SameName(r.Name, all[at].Name) }
	if i := slices.IndexFunc(mine, named); i >= 0 {
		return mine[i], mineAlready(&mine[i])
	}
	if i := slices.IndexFunc(theirs, named); i >= 0 {
		return theirs[i], nil
	}
	return storage.Race{}, say.Refuse("race", "%s on %s cannot be joined any more. See /race list", all[at].Name, all[at].Date.Long())
}

func mineAlready(r *storage.Race) error {
	return say.Refuse("race", "%s on %s is in your calendar already. See it with /plan show race:%s", r.Name, r.Date.Long(), say.Quote(r.Key()))
}

// askPriority asks how much a race matters.
func askPriority(r *storage.Race) say.Reply {
	reply := say.Reply{Date: r.Date, Race: r.Name, Lines: []say.Line{
		say.Linef("How much does %s on %s matter to you?", r.Name, r.Date.Long()),
		say.Linef("A: you taper for it. B: a few easier days before it. C: you ride it as training."),
		say.Linef("Press one."), say.Offeredf("Or write: /race join race:%s priority:B", say.Quote(r.Key()))}}
	for _, p := range choicePriority {
		reply.Buttons = append(reply.Buttons, say.Button{Label: p + " race", Command: "race join", Options: show.ByRace(&r.Race, "priority", p)})
	}
	return reply
}

// JoinOffers are the races that a rider can join.
func JoinOffers(ctx context.Context, b *desk.Base, who *desk.Rider, text string) []command.Offer {
	all, err := b.DB.ClubRaces(ctx, who.Club.ID)
	if err != nil {
		return nil
	}
	theirs, _ := joinable(all, who)
	offers := command.RaceOffers(theirs)
	for i, r := range theirs {
		tail := ", " + r.Date.Short() + " " + r.Date.String()[:4]
		offers[i].Label = say.Clip16(r.Name, desk.MaxOfferText-len(tail)) + tail
	}
	return command.Fitting(offers, text)
}
