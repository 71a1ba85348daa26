package races

import (
	"context"
	"fmt"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

func raceChange(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	found, reply, err := b.RaceToChange(ctx, req)
	if err != nil {
		return reply, err
	}
	if len(req.Options) < 2 {
		return say.Reply{}, say.Refuse("race", "%s stays as it is. Add what to change, for example start:10:30", found.Name)
	}
	return saveRace(ctx, b, req, found.ID)
}

func racePriority(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	found, reply, err := b.RaceToChange(ctx, req)
	if err != nil {
		return reply, err
	}
	return saveRace(ctx, b, req, found.ID)
}

// saveRace lays the options over a stored race. It stays registered when it was.
func saveRace(ctx context.Context, b *desk.Base, req desk.Request, id storage.RaceID) (say.Reply, error) {
	var was, is storage.Race
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		var wanted planner.Race
		was, is, err = tx.ChangeRace(ctx, req.Rider.Athlete.ID, req.Rider.Today, id, func(r *planner.Race) error {
			err := changeRace(r, &req)
			wanted = *r
			return err
		})
		return onSameDay(err, &wanted)
	})
	if err != nil {
		return say.Reply{}, err
	}
	if is == was {
		return unchanged(&req, e, &is), nil
	}
	var p say.Page
	switch {
	case is.Status == planner.Cancelled:
		p.Addf("%s on %s is cancelled.", is.Name, is.Date.Long())
	case was.Status == planner.Cancelled:
		p.Addf("%s takes place: %s.", is.Name, show.DescribeRace(&is.Race))
	case req.Get("status") == statusPostponed:
		p.Addf("%s is moved from %s: %s.", is.Name, was.Date.Long(), show.DescribeRace(&is.Race))
	default:
		p.Addf("%s is now: %s.", is.Name, show.DescribeRace(&is.Race))
	}
	p.Add(kindRead(&req, &is.Race)...)
	reply := say.Reply{Date: is.Date, Race: is.Name}
	if is.Status.Counts() {
		p.Add(desk.RaceNews(e, &is.Race)...)
		reply = aboutRace(&req, &p, e.Facts, &is.Race)
	} else if desk.Planned(e.Facts) {
		p.Add(e.OtherRaces(&is.Race)...)
		p.Add(e.NewWarnings()...)
	}
	if desk.Planned(e.Facts) {
		p.Add(e.ChangedDays()...)
	}
	if options, ok := changedBack(&req, &was, &is); ok {
		if was.Priority != is.Priority || was.TaperDays != is.TaperDays {
			p.Addf("%s", desk.WayBack)
		}
		reply.Offer(&p, "Undo", "race change", options)
		show.Refer(&reply, &is.Race)
	}
	reply.Lines = p.Done()
	return reply, nil
}

// unchanged answers a change to what was so before.
func unchanged(req *desk.Request, e *desk.Effect, is *storage.Race) say.Reply {
	var p say.Page
	if !is.Status.Counts() {
		p.Addf("%s on %s stays as it was: %s.", is.Name, is.Date.Long(), show.OutcomeWords(is.Status))
		return say.Reply{Date: is.Date, Race: is.Name, Lines: p.Done()}
	}
	p.Addf("%s stays as it was: %s.", is.Name, show.DescribeRace(&is.Race))
	if desk.Planned(e.Facts) {
		p.Add(say.Offeredf("The days: %s", show.RaceLink(e.Facts, &is.Race)))
	}
	return aboutRace(req, &p, e.Facts, &is.Race)
}

// changeRace lays the options over a race, last what happens to it.
func changeRace(r *planner.Race, req *desk.Request) error {
	old := *r
	if err := readRace(r, req); err != nil {
		return err
	}
	if r.Date != old.Date {
		if err := desk.AheadOnly("date", r.Date, req.Rider.Today); err != nil {
			return err
		}
		if r.Status == planner.GaveUp || r.Status == planner.NotStarted || r.Status == planner.Finished {
			r.Postpone(r.Date)
		}
	}
	switch req.Get("status") {
	case statusCancelled:
		if r.Date != old.Date {
			return say.Refuse("date", "goes with status:postponed. A race that is cancelled has no new date")
		}
		r.Became(planner.Cancelled, req.Rider.Today)
	case statusPostponed:
		if r.Date == old.Date {
			return say.Refuse("date", "is missing: to which day is %s postponed? For example status:postponed date:%s", r.Name, max(r.Date, req.Rider.Today).AddDays(7))
		}
		r.Postpone(r.Date)
	case statusPlanned:
		r.Postpone(r.Date)
	}
	return nil
}

// changedBack are the options that make a race what it was; ok is false where no
// change can do that any more.
func changedBack(req *desk.Request, was, is *storage.Race) (options map[string]string, ok bool) {
	if was.Date != is.Date && was.Date < req.Rider.Today || was.Status != planner.Planned && was.Status != planner.Cancelled {
		return nil, false
	}
	before, after := raceOptions(&was.Race), raceOptions(&is.Race)
	options = map[string]string{"race": is.Key()}
	for option := range after {
		if _, had := before[option]; !had {
			before[option] = say.None
			if option == desk.OptionTaper {
				before[option] = desk.AutoTaper
			}
		}
	}
	for option, value := range before {
		if after[option] != value {
			options[option] = value
		}
	}
	if was.Status != is.Status {
		options["status"] = was.Status.String()
	}
	return options, true
}

func raceRemove(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if req.Has("until") {
		if first, ok, err := nextNamed(ctx, b, req); err != nil {
			return say.Reply{}, err
		} else if ok {
			return removeSeries(ctx, b, req, first)
		}
	}
	found, err := b.RaceOf(ctx, req)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.NamedExactly(found, req.Get("race"), req.Rider.Today) {
		return say.Reply{Buttons: []say.Button{{Label: "Remove " + found.Name, Danger: true, Command: "race remove", Options: show.ByRace(&found.Race)}}},
			say.Refuse("race", "removing needs the whole name or the date, not %s. Did you mean race:%s?", say.Shown(req.Get("race")), say.Quote(found.Key()))
	}
	if err := onlyOneNamed(ctx, b, req, found); err != nil {
		return say.Reply{}, err
	}
	if req.Has("until") {
		return removeSeries(ctx, b, req, found)
	}
	if req.Ask {
		return askRemoval(&found), nil
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.RemoveRace(ctx, req.Rider.Athlete.ID, req.Rider.Today, found.ID) })
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("%s on %s is out of your calendar.", found.Name, found.Date.Long())
	if desk.Planned(e.Facts) {
		p.Add(e.OtherRaces(&found.Race)...)
		p.Add(e.News()...)
	}
	reply := say.Reply{Date: found.Date, Race: found.Name}
	reply.Offer(&p, wayBack(&found.Race), "race add", raceOptions(&found.Race))
	reply.Lines = p.Done()
	return reply, nil
}

// wayBack is what adding a race again is called: one that was cancelled would take place.
func wayBack(r *planner.Race) string {
	if r.Status == planner.Planned {
		return "Undo"
	}
	return "Add it as planned"
}

// askRemoval asks before a race is taken out. A yes holds for this name and date alone.
func askRemoval(r *storage.Race) say.Reply {
	return say.Reply{Date: r.Date, Race: r.Name,
		Lines: []say.Line{say.Linef("Take %s on %s out of your calendar?", r.Name, r.Date.Long()),
			say.Linef("Its days go back to your usual week. Nothing has changed yet.")},
		Buttons: []say.Button{
			{Label: "Remove it", Danger: true, Command: "race remove", Options: map[string]string{"race": r.Key()}},
			{Label: "Keep it"},
		}}
}

// onlyOneNamed refuses a bare name that two of the rider's races have, past ones too.
func onlyOneNamed(ctx context.Context, b *desk.Base, req desk.Request, r storage.Race) error {
	if !show.SameName(req.Get("race"), r.Name) {
		return nil // a date was named
	}
	all, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return err
	}
	for _, other := range all {
		if other.ID != r.ID && show.SameName(other.Name, r.Name) {
			return say.Refuse("race", "two of your races are called %s. Write the date too, for example race:%s", r.Name, say.Quote(r.Key()))
		}
	}
	return nil
}

// nextNamed is the next race to come whose whole name the request gives, without a date.
func nextNamed(ctx context.Context, b *desk.Base, req desk.Request) (next storage.Race, ok bool, err error) {
	if !req.Rider.Known() {
		return next, false, nil
	}
	all, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	for _, r := range all { // by date
		if err == nil && r.Date >= req.Rider.Today && show.SameName(r.Name, req.Get("race")) {
			return r, true, nil
		}
	}
	return next, false, err
}

// raceOptions are the options that register the race again.
func raceOptions(r *planner.Race) map[string]string {
	out := map[string]string{"name": r.Name, "date": r.Date.String(), "priority": r.Priority.String()}
	if r.Hours > 0 {
		out["hours"] = planner.Duration(int(r.Hours*60 + 0.5))
	}
	if r.Days > 1 {
		out["days"] = fmt.Sprint(r.Days)
	}
	if r.TaperDays > 0 {
		out[desk.OptionTaper] = fmt.Sprint(r.TaperDays)
	}
	if r.Emphasis != planner.NoEmphasis {
		out["emphasis"] = r.Emphasis.String()
	}
	for option, value := range map[string]string{"kind": r.Kind, "start": r.Start, "place": r.Place} {
		if value != "" {
			out[option] = value
		}
	}
	return out
}
