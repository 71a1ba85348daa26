package races

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

// raceResult keeps how a race went.
func raceResult(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	result := storage.Result{Place: unlessNone(req.Get("result")), Note: unlessNone(req.Get("note"))}
	forget := strings.EqualFold(req.Get("feeling"), say.None)
	var err error
	if !forget {
		if result.Feeling, err = desk.WholeNumber(req.Get("feeling"), 1, 10, "8"); err != nil {
			return say.Reply{}, say.InField("feeling", err)
		}
	}
	races, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	race, err := findOver(races, req.Get("race"), req.Rider.Today)
	if err != nil {
		return say.Reply{}, err
	}
	results, err := b.DB.Results(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	old, had := results[race.ID]
	if forget {
		return noResult(ctx, b, req, &race, old, had)
	}
	result.Race = race.ID
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.SetResult(ctx, req.Rider.Athlete.ID, result) })
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Noted: %s on %s, %s.", race.Name, show.Dated(race.Date, req.Rider.Today), legsText(&result))
	if result.Note != "" {
		p.Addf("Your note: %s", result.Note)
	}
	label, values := "Undo", resultOptions(&race, nil)
	switch result.Added = old.Added; {
	case had && old == result:
		label = say.TakeBack
	case had:
		p.Addf("Before it was: %s.", legsText(&old))
		values = resultOptions(&race, &old)
	}
	return resultReply(&p, e, &race, label, values), nil
}

// noResult forgets how a race went.
func noResult(ctx context.Context, b *desk.Base, req desk.Request, race *storage.Race, old storage.Result, had bool) (say.Reply, error) {
	if !had {
		return say.Reply{}, say.Refuse("feeling", "you have not said how %s went, so there is nothing to forget. For example feeling:8", race.Name)
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.RemoveResult(ctx, req.Rider.Athlete.ID, race.ID) })
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Forgotten: %s on %s, %s.", race.Name, show.Dated(race.Date, req.Rider.Today), legsText(&old))
	return resultReply(&p, e, race, "Undo", resultOptions(race, &old)), nil
}

// resultReply offers the way back and, while the race still shapes days, these.
func resultReply(p *say.Page, e *desk.Effect, race *storage.Race, label string, values map[string]string) say.Reply {
	role := show.RoleOf(e.After, e.Facts, &race.Race)
	if desk.Planned(e.Facts) && role.Race != nil && len(show.RaceDays(e.After, role, &race.Race)) > 0 {
		p.Addf("The days after it: %s", show.RaceLink(e.Facts, &race.Race))
	}
	reply := say.Reply{Date: race.Date, Race: race.Name}
	reply.Offer(p, label, "race result", values)
	reply.Lines = p.Done()
	return reply
}

// legsText is a result in short: legs 8 of 10, 12th.
func legsText(r *storage.Result) string {
	text := fmt.Sprintf("legs %d of 10", r.Feeling)
	if r.Place != "" {
		text += ", " + r.Place
	}
	return text
}

// resultOptions tell a result again; nil is none.
func resultOptions(race *storage.Race, r *storage.Result) map[string]string {
	values := map[string]string{"race": race.Name + " " + race.Date.String(), "feeling": say.None}
	if r == nil {
		return values
	}
	values["feeling"] = fmt.Sprint(r.Feeling)
	if r.Place != "" {
		values["result"] = r.Place
	}
	if r.Note != "" {
		values["note"] = r.Note
	}
	return values
}

// findOver finds a race that has begun, as desk.FindRace finds one to come. Of
// several with one name the last is meant; one to come is refused with its date.
func findOver(races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	over := desk.Begun(races, today)
	sure := desk.SureMatches(over, text, today)
	if len(sure) == 0 {
		if day, err := typed.DateBack(text, today); err == nil {
			sure = desk.OnDate(over, day.String(), today)
		}
	}
	if n := len(sure); n > 0 {
		last := sure[n-1]
		for _, r := range sure {
			if !show.SameName(r.Name, last.Name) {
				return storage.Race{}, desk.Ambiguous("race", text, sure)
			}
		}
		return last, nil
	}
	found, err := desk.FindRace(races, text, today)
	if ahead := desk.ToCome(races, today); err != nil || len(desk.SureMatches(ahead, text, today))+len(desk.OnDate(ahead, text, today)) == 0 {
		if near, miss := desk.CloseRace("race", over, text, 0); miss == nil { // a slip of the pen
			return near, nil
		}
	}
	if err == nil && found.Date > today {
		err = say.Refuse("race", "%s is on %s, still to come. Tell how it went once it is over, good luck until then", found.Name, found.Date.Long())
	}
	return found, err
}

// unlessNone is a text, empty where none was written.
func unlessNone(text string) string {
	if strings.EqualFold(text, say.None) {
		return ""
	}
	return text
}
