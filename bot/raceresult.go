package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/storage"
)

// raceResult keeps how a race went.
func (b *Base) raceResult(ctx context.Context, req Request) (Reply, error) {
	result := storage.Result{Place: unlessNone(req.get("result")), Note: unlessNone(req.get("note"))}
	forget := strings.EqualFold(req.get("feeling"), none)
	var err error
	if !forget {
		if result.Feeling, err = wholeNumber(req.get("feeling"), 1, 10, "8"); err != nil {
			return Reply{}, inField("feeling", err)
		}
	}
	races, err := b.db.Races(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	race, err := findOver(races, req.get("race"), req.rider.today)
	if err != nil {
		return Reply{}, err
	}
	results, err := b.db.Results(ctx, req.rider.athlete.ID)
	if err != nil {
		return Reply{}, err
	}
	old, had := results[race.ID]
	if forget {
		return b.noResult(ctx, req, &race, old, had)
	}
	result.Race = race.ID
	e, err := b.change(ctx, req, func() error { return b.db.SetResult(ctx, req.rider.athlete.ID, result) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Noted: %s on %s, %s.", race.Name, dated(race.Date, req.rider.today), legsText(&result))
	if result.Note != "" {
		p.addf("Your note: %s", result.Note)
	}
	label, values := "Undo", resultOptions(&race, nil)
	switch result.Added = old.Added; {
	case had && old == result:
		label = takeBack
	case had:
		p.addf("Before it was: %s.", legsText(&old))
		values = resultOptions(&race, &old)
	}
	return resultReply(&p, e, &race, label, values), nil
}

// noResult forgets how a race went.
func (b *Base) noResult(ctx context.Context, req Request, race *storage.Race, old storage.Result, had bool) (Reply, error) {
	if !had {
		return Reply{}, refuse("feeling", "you have not said how %s went, so there is nothing to forget. For example feeling:8", race.Name)
	}
	e, err := b.change(ctx, req, func() error { return b.db.RemoveResult(ctx, req.rider.athlete.ID, race.ID) })
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("Forgotten: %s on %s, %s.", race.Name, dated(race.Date, req.rider.today), legsText(&old))
	return resultReply(&p, e, race, "Undo", resultOptions(race, &old)), nil
}

// resultReply offers the way back and, while the race still shapes days, these.
func resultReply(p *page, e *effect, race *storage.Race, label string, values map[string]string) Reply {
	role := roleOf(e.after, e.facts, &race.Race)
	if planned(e.facts) && role.Race != nil && len(raceDays(e.after, role, &race.Race)) > 0 {
		p.addf("The days after it: %s", showRace(e.facts, &race.Race))
	}
	reply := Reply{Date: race.Date, Race: race.Name}
	reply.offer(p, label, "race result", values)
	reply.Lines = p.done()
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
	values := map[string]string{"race": race.Name + " " + race.Date.String(), "feeling": none}
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

// findOver finds a race that has begun, as findRace finds one to come. Of
// several with one name the last is meant; one to come is refused with its date.
func findOver(races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	over := begun(races, today)
	sure := sureMatches(over, text, today)
	if len(sure) == 0 {
		if day, err := lastDayOf(text, today); err == nil {
			sure = onDate(over, day.String(), today)
		}
	}
	if n := len(sure); n > 0 {
		last := sure[n-1]
		for _, r := range sure {
			if !sameName(r.Name, last.Name) {
				return storage.Race{}, ambiguous("race", text, sure)
			}
		}
		return last, nil
	}
	found, err := findRace(races, text, today)
	if ahead := toCome(races, today); err != nil || len(sureMatches(ahead, text, today))+len(onDate(ahead, text, today)) == 0 {
		if near, miss := closeRace("race", over, text, 0); miss == nil { // a slip of the pen
			return near, nil
		}
	}
	if err == nil && found.Date > today {
		err = refuse("race", "%s is on %s, still to come. Tell how it went once it is over, good luck until then", found.Name, found.Date.Long())
	}
	return found, err
}

// begun are the races that are over or under way.
func begun(races []storage.Race, today planner.Date) []storage.Race {
	var out []storage.Race
	for _, r := range races {
		if r.Date <= today {
			out = append(out, r)
		}
	}
	return out
}

// unlessNone is a text, empty where none was written.
func unlessNone(text string) string {
	if strings.EqualFold(text, none) {
		return ""
	}
	return text
}
