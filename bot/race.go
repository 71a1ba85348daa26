package bot

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"musette/planner"
	"musette/storage"
)

func (b *Bot) raceAdd(ctx context.Context, req Request) (Reply, error) {
	race := planner.Race{Days: 1, Registered: req.rider.today}
	if past, err := b.removedInPast(ctx, &req); err != nil {
		return Reply{}, err
	} else if !past.IsZero() {
		race.Date = past
		delete(req.Options, "date")
	}
	if err := readRace(&race, &req); err != nil {
		return Reply{}, err
	}
	again := false
	e, err := b.change(ctx, req, func() error {
		added, err := b.db.AddRace(ctx, req.rider.athlete.ID, race)
		again = added.Registered != race.Registered
		return onSameDay(err, &race)
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s is in your calendar: %s.", race.Name, describeRace(&race))
	p.add(raceNews(e, &race)...)
	reply := aboutRace(&p, &race)
	if !planned(e.facts) {
		reply.Buttons = nil // nothing is planned yet
	}
	if req.rider.athlete.Settings.Announce && !again {
		reply.Sent = []Message{{To: "#" + req.rider.club.Name, Kind: "race",
			Text: fmt.Sprintf("%s races %s on %s (%s race).", req.rider.athlete.Name, race.Name, race.Date.Long(), race.Priority)}}
	}
	return reply, nil
}

// removedInPast is the past date of a race that the rider removed and now adds
// again; zero for all others.
func (b *Bot) removedInPast(ctx context.Context, req *Request) (planner.Date, error) {
	date, err := planner.ParseDate(req.get("date"), req.rider.today)
	if err != nil || date >= req.rider.today {
		return 0, nil // readRace says what is wrong with it
	}
	removed, err := b.db.WasRemoved(ctx, req.rider.athlete.ID, req.get("name"), date)
	if err != nil || !removed {
		return 0, err
	}
	return date, nil
}

// raceNews is what a new or changed race means: window, warnings, next step.
func raceNews(e *effect, race *planner.Race) []string {
	if !planned(e.facts) {
		return []string{"No plan yet: I do not know your typical week. Share it, for example", `/week share week:"` + exampleWeek + `"`}
	}
	lines := append([]string{window(e.after, race)}, e.newWarnings()...)
	return append(lines, "The days: /plan show race:"+raceRef(e.after, race))
}

// aboutRace is a reply that has understood a race and offers its plan.
func aboutRace(p *page, race *planner.Race) Reply {
	return Reply{Text: p.String(), Date: race.Date, Race: race.Name, Buttons: []Button{planButton(race)}}
}

func planButton(race *planner.Race) Button {
	return Button{Label: "Show plan", Command: "plan show", Options: map[string]string{"race": race.Name + " " + race.Date.String()}}
}

// onSameDay puts the refusal of a double into words.
func onSameDay(err error, race *planner.Race) error {
	if errors.Is(err, storage.ErrExists) {
		return refuse("name", "%s on %s is in your calendar already; change it with /race change race:%s",
			race.Name, race.Date.Long(), Quote(race.Name))
	}
	return err
}

// readRace lays the options given over a race and checks the whole.
func readRace(race *planner.Race, req *Request) error {
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"name", func(s string) error { race.Name = s; return nil }},
		{"date", func(s string) (err error) { race.Date, err = req.day("date"); return err }},
		{"priority", func(s string) (err error) { race.Priority, err = planner.ParsePriority(s); return err }},
		{"hours", func(s string) (err error) { race.Hours, err = planner.ParseHours(s); return err }},
		{"kind", func(s string) error { race.Kind = s; return nil }},
		{"start", func(s string) (err error) { race.Start, err = planner.ParseStart(s); return err }},
		{"days", func(s string) (err error) {
			race.Days, err = wholeNumber(s, 1, planner.MaxRaceDays, "3")
			return err
		}},
		{"emphasis", func(s string) (err error) { race.Emphasis, err = planner.ParseEmphasis(s); return err }},
		{"place", func(s string) error { race.Place = s; return nil }},
	} {
		if !req.has(step.option) {
			continue
		}
		if err := step.read(req.get(step.option)); err != nil {
			return inField(step.option, err)
		}
	}
	return race.Validate()
}

// wholeNumber reads a number within bounds; a per cent sign may follow it.
func wholeNumber(s string, least, most int, example string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(s, "%")))
	if err != nil {
		return 0, refuse("", "%q is not a whole number; for example %s", clip(s), example)
	}
	if n < least || n > most {
		return 0, refuse("", "%d is outside %d to %d; for example %s", n, least, most, example)
	}
	return n, nil
}

// mostListed is how many races the calendar shows at once.
const mostListed = 40

func (b *Bot) raceList(ctx context.Context, req Request) (Reply, error) {
	all, err := b.db.ClubRaces(ctx, req.rider.club.ID)
	if err != nil {
		return Reply{}, err
	}
	var rows []string
	var next planner.Race
	for i := 0; i < len(all); {
		race := all[i].Race.Race
		var riders []string
		for ; i < len(all) && all[i].Date == race.Date && strings.EqualFold(all[i].Race.Name, race.Name); i++ {
			riders = append(riders, all[i].Athlete+" "+all[i].Priority.String())
		}
		if race.Last() < req.rider.today {
			continue
		}
		if len(rows) == 0 {
			next = race
		}
		name := race.Name
		if race.Days > 1 {
			name += " (" + count(race.Days, "day") + ")"
		}
		rows = append(rows, fmt.Sprintf("%s  %s: %s", raceDate(&race, req.rider.today), name, strings.Join(riders, ", ")))
	}
	if len(rows) == 0 {
		return Reply{Text: fmt.Sprintf("No race to come in %s.\nAdd one: /race add name:\"Hill Loop\" date:%s priority:A hours:3",
			req.rider.club.Name, raceDayAhead(req.rider.today))}, nil
	}
	var p page
	p.addf("%s: %s to come, next %s on %s.", req.rider.club.Name, count(len(rows), "race"), next.Name, next.Date.Short())
	p.add(rows[:min(len(rows), mostListed)]...)
	if n := len(rows) - mostListed; n > 0 {
		p.addf("and %d more", n)
	}
	return Reply{Text: p.String(), Date: next.Date, Race: next.Name}, nil
}

// raceDate is weekday and day, with the year when it is not near.
func raceDate(r *planner.Race, today planner.Date) string {
	if today.DaysUntil(r.Date) > 300 {
		return r.Date.Short() + " " + r.Date.String()[:4]
	}
	return fmt.Sprintf("%-10s", r.Date.Short())
}
