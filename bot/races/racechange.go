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
	found, err := b.RaceOf(ctx, req)
	if err != nil {
		return say.Reply{}, err
	}
	if len(req.Options) < 2 {
		return say.Reply{}, say.Refuse("race", "%s stays as it is. Add what to change, for example start:10:30", found.Name)
	}
	return saveRace(ctx, b, req, found.ID)
}

func racePriority(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	found, err := b.RaceOf(ctx, req)
	if err != nil {
		return say.Reply{}, err
	}
	return saveRace(ctx, b, req, found.ID)
}

// saveRace lays the options over a stored race. It stays registered when it was.
func saveRace(ctx context.Context, b *desk.Base, req desk.Request, id storage.RaceID) (say.Reply, error) {
	var was, is storage.Race
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		var wanted planner.Race
		was, is, err = tx.ChangeRace(ctx, req.Rider.Athlete.ID, req.Rider.Today, id, func(r *planner.Race) error {
			old := *r
			if err := readRace(r, &req); err != nil {
				return err
			}
			wanted = *r
			if r.Date != old.Date {
				return desk.AheadOnly("date", r.Date, req.Rider.Today)
			}
			return nil
		})
		return onSameDay(err, &wanted)
	})
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	if is == was {
		p.Addf("%s stays as it was: %s.", was.Name, show.DescribeRace(&was.Race))
		if desk.Planned(e.Facts) {
			p.Addf("The days: %s", show.RaceLink(e.Facts, &is.Race))
		}
		return aboutRace(&req, &p, e.Facts, &is.Race), nil
	}
	p.Addf("%s is now: %s.", is.Name, show.DescribeRace(&is.Race))
	p.Add(desk.RaceNews(e, &is.Race)...)
	if desk.Planned(e.Facts) {
		p.Add(e.ChangedDays()...)
	}
	return aboutRace(&req, &p, e.Facts, &is.Race), nil
}

func raceRemove(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	found, err := b.RaceOf(ctx, req)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.NamedExactly(found, req.Get("race"), req.Rider.Today) {
		whole := map[string]string{"race": found.Name + " " + found.Date.String()}
		return say.Reply{Buttons: []say.Button{{Label: "Remove " + found.Name, Danger: true, Command: "race remove", Options: whole}}},
			say.Refuse("race", "removing needs the whole name or the date, not %s. Did you mean race:%s?", say.Shown(req.Get("race")), say.Quote(whole["race"]))
	}
	if err := onlyOneNamed(ctx, b, req, found); err != nil {
		return say.Reply{}, err
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
		p.Add(e.News()...)
	}
	reply := say.Reply{Date: found.Date, Race: found.Name}
	reply.Offer(&p, "Undo", "race add", raceOptions(&found.Race))
	reply.Lines = p.Done()
	return reply, nil
}

// askRemoval asks before a race is taken out.
func askRemoval(r *storage.Race) say.Reply {
	return say.Reply{Date: r.Date, Race: r.Name,
		Lines: []say.Line{say.Linef("Take %s on %s out of your calendar?", r.Name, r.Date.Long()),
			say.Linef("Its days go back to your usual week. Nothing has changed yet.")},
		Buttons: []say.Button{
			{Label: "Remove it", Danger: true, Command: "race remove", Options: map[string]string{"race": r.Name + " " + r.Date.String()}},
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
			return say.Refuse("race", "two of your races are called %s. Write the date too, for example race:%s", r.Name, say.Quote(r.Name+" "+r.Date.String()))
		}
	}
	return nil
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
