package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/storage"
)

// raceOf finds the rider's race that the option race means.
func (b *Bot) raceOf(ctx context.Context, req Request) (foundRace, error) {
	races, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return foundRace{}, err
	}
	return findRace(races, req.get("race"), req.rider.today)
}

func (b *Bot) raceChange(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if len(req.Options) < 2 {
		return Reply{}, refuse("race", "%s stays as it is; add what to change, for example start:10:30", found.Name)
	}
	changed := found.Race
	for _, option := range []string{"hours", "kind", "start", "place"} {
		if strings.EqualFold(req.get(option), "none") {
			clearDetail(&changed.Race, option)
			delete(req.Options, option)
		}
	}
	if err := readRace(&changed.Race, &req); err != nil {
		return Reply{}, err
	}
	return b.saveRace(ctx, req, found.Race, changed)
}

// clearDetail forgets what was told: start:none.
func clearDetail(r *planner.Race, option string) {
	switch option {
	case "hours":
		r.Hours = 0
	case "kind":
		r.Kind = ""
	case "start":
		r.Start = ""
	case "place":
		r.Place = ""
	}
}

func (b *Bot) racePriority(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	changed := found.Race
	if changed.Priority, err = planner.ParsePriority(req.get("priority")); err != nil {
		return Reply{}, inField("priority", err)
	}
	return b.saveRace(ctx, req, found.Race, changed)
}

// saveRace stores a changed race. One that matters more than before counts as
// registered today: days that have gone by cannot be planned for it any more.
// A new date leaves the day of registering: a taper under way goes on.
func (b *Bot) saveRace(ctx context.Context, req Request, old, changed storage.Race) (Reply, error) {
	if changed == old {
		p := page{}
		p.addf("%s stays as it was: %s.", old.Name, describeRace(&old.Race))
		return aboutRace(&p, &old.Race), nil
	}
	if changed.Priority < old.Priority {
		changed.Registered = req.rider.today
	}
	e, err := b.change(ctx, req, func() error {
		return onSameDay(b.db.ChangeRace(ctx, req.rider.athlete.ID, changed), &changed.Race)
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s is changed: %s.", changed.Name, describeRace(&changed.Race))
	p.add(raceNews(e, &changed.Race)...)
	if planned(e.facts) {
		p.add(e.changedDays()...)
	}
	return aboutRace(&p, &changed.Race), nil
}

func (b *Bot) raceRemove(ctx context.Context, req Request) (Reply, error) {
	found, err := b.raceOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	if !namedExactly(found.Race, req.get("race"), req.rider.today) {
		return Reply{}, refuse("race", "none of your races is called %q; did you mean race:%s?", clip(req.get("race")), Quote(found.Name))
	}
	if err := b.onlyOneNamed(ctx, req, found.Race); err != nil {
		return Reply{}, err
	}
	e, err := b.change(ctx, req, func() error {
		return b.db.RemoveRace(ctx, req.rider.athlete.ID, found.ID)
	})
	if err != nil {
		return Reply{}, err
	}
	add, err := b.command("race add")
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s on %s is out of your calendar.", found.Name, found.Date.Long())
	p.add(e.news()...)
	p.add("Undo: " + add.FormatLine(raceOptions(&found.Race.Race)))
	return Reply{Text: p.String(), Date: found.Date, Race: found.Name,
		Buttons: []Button{{Label: "Undo", Command: "race add", Options: raceOptions(&found.Race.Race)}}}, nil
}

// onlyOneNamed refuses a bare name that two of the rider's races have, past ones too.
func (b *Bot) onlyOneNamed(ctx context.Context, req Request, r storage.Race) error {
	if !strings.EqualFold(strings.TrimSpace(req.get("race")), r.Name) {
		return nil // a date was named
	}
	all, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return err
	}
	for _, other := range all {
		if other.ID != r.ID && strings.EqualFold(other.Name, r.Name) {
			return refuse("race", "two of your races are called %s; write the date too, for example race:%s", r.Name, Quote(r.Name+" "+r.Date.String()))
		}
	}
	return nil
}

// namedExactly reports whether the text is the race's whole name or its date:
// nothing is removed on less.
func namedExactly(r storage.Race, text string, today planner.Date) bool {
	name, on := cutDate(strings.TrimSpace(text))
	if strings.EqualFold(name, r.Name) && (on.IsZero() || on == r.Date) || strings.EqualFold(text, r.Name) {
		return true
	}
	date, err := planner.ParseDate(text, today)
	return err == nil && date == r.Date
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
	if r.Emphasis != planner.TrainThrough {
		out["emphasis"] = r.Emphasis.String()
	}
	for option, value := range map[string]string{"kind": r.Kind, "start": r.Start, "place": r.Place} {
		if value != "" {
			out[option] = value
		}
	}
	return out
}
