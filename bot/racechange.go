package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// raceOf finds the rider's race that the option race means.
func (b *Base) raceOf(ctx context.Context, req Request) (storage.Race, error) {
	races, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return storage.Race{}, err
	}
	return findRace(races, req.get("race"), req.rider.today)
}

func (b *Base) raceChange(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if len(req.Options) < 2 {
		return Reply{}, refuse("race", "%s stays as it is. Add what to change, for example start:10:30", found.Name)
	}
	return b.saveRace(ctx, req, found.ID)
}

func (b *Base) racePriority(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	return b.saveRace(ctx, req, found.ID)
}

// saveRace lays the options over a stored race. It stays registered when it was.
func (b *Base) saveRace(ctx context.Context, req Request, id storage.RaceID) (Reply, error) {
	var was, is storage.Race
	e, err := b.change(ctx, req, func() (err error) {
		var wanted planner.Race
		was, is, err = b.db.ChangeRace(ctx, req.rider.athlete.ID, req.rider.today, id, func(r *planner.Race) error {
			old := *r
			if err := readRace(r, &req); err != nil {
				return err
			}
			wanted = *r
			if r.Date != old.Date {
				return aheadOnly("date", r.Date, req.rider.today)
			}
			return nil
		})
		return onSameDay(err, &wanted)
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	if is == was {
		p.addf("%s stays as it was: %s.", was.Name, describeRace(&was.Race))
		if planned(e.facts) {
			p.addf("The days: %s", showRace(e.facts, &is.Race))
		}
		return req.aboutRace(&p, e.facts, &is.Race), nil
	}
	p.addf("%s is now: %s.", is.Name, describeRace(&is.Race))
	p.add(raceNews(e, &is.Race)...)
	if planned(e.facts) {
		p.add(e.changedDays()...)
	}
	return req.aboutRace(&p, e.facts, &is.Race), nil
}

func (b *Base) raceRemove(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if !namedExactly(found, req.get("race"), req.rider.today) {
		whole := map[string]string{"race": found.Name + " " + found.Date.String()}
		return Reply{Buttons: []Button{{Label: "Remove " + found.Name, Danger: true, Command: "race remove", Options: whole}}},
			refuse("race", "removing needs the whole name or the date, not %s. Did you mean race:%s?", Shown(req.get("race")), Quote(whole["race"]))
	}
	if err := b.onlyOneNamed(ctx, req, found); err != nil {
		return Reply{}, err
	}
	if req.Ask {
		return askRemoval(&found), nil
	}
	e, err := b.change(ctx, req, func() error { return b.db.RemoveRace(ctx, req.rider.athlete.ID, req.rider.today, found.ID) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s on %s is out of your calendar.", found.Name, found.Date.Long())
	if planned(e.facts) {
		p.add(e.news()...)
	}
	reply := Reply{Date: found.Date, Race: found.Name}
	reply.offer(&p, "Undo", "race add", raceOptions(&found.Race))
	reply.Lines = p.done()
	return reply, nil
}

// askRemoval asks before a race is taken out.
func askRemoval(r *storage.Race) Reply {
	return Reply{Date: r.Date, Race: r.Name,
		Lines: []Line{Say("Take %s on %s out of your calendar?", r.Name, r.Date.Long()),
			Say("Its days go back to your usual week. Nothing has changed yet.")},
		Buttons: []Button{
			{Label: "Remove it", Danger: true, Command: "race remove", Options: map[string]string{"race": r.Name + " " + r.Date.String()}},
			{Label: "Keep it"},
		}}
}

// onlyOneNamed refuses a bare name that two of the rider's races have, past ones too.
func (b *Base) onlyOneNamed(ctx context.Context, req Request, r storage.Race) error {
	if !sameName(req.get("race"), r.Name) {
		return nil // a date was named
	}
	all, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return err
	}
	for _, other := range all {
		if other.ID != r.ID && sameName(other.Name, r.Name) {
			return refuse("race", "two of your races are called %s. Write the date too, for example race:%s", r.Name, Quote(r.Name+" "+r.Date.String()))
		}
	}
	return nil
}

// namedExactly reports whether the text is the race's whole name or its date:
// nothing is removed on less, such as a weekday.
func namedExactly(r storage.Race, text string, today planner.Date) bool {
	name, on := cutDate(text)
	if sameName(text, r.Name) || on == r.Date && (sameName(name, r.Name) || offeredName(name, r.Name)) {
		return true
	}
	date, err := typed.Date(text, today)
	return err == nil && date == r.Date && strings.ContainsAny(text, "0123456789") && !strings.Contains(strings.ToLower(text), "day")
}

// offeredName reports a long name as raceOffers cuts it.
func offeredName(text, name string) bool {
	return text != "" && text == clip16(name, maxOfferText-len(" 2026-06-28"))
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
		out[optionTaper] = fmt.Sprint(r.TaperDays)
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
