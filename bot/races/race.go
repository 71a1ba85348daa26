package races

import (
	"context"
	"errors"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

func raceAdd(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	if req.Has("repeat") || req.Has("until") {
		return seriesAdd(ctx, b, req)
	}
	race, again, e, err := Register(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	if again {
		p.Addf("%s is back in your calendar: %s.", race.Name, show.DescribeRace(&race))
	} else {
		p.Addf("%s is in your calendar: %s.", race.Name, show.DescribeRace(&race))
	}
	p.Add(kindRead(&req, &race)...)
	p.Add(desk.RaceNews(e, &race)...)
	p.Add(firstChange(e, &race, p.Done())...)
	reply := aboutRace(&req, &p, e.Facts, &race)
	if !again {
		reply.Sent = announced(&req, &race)
	}
	return reply, nil
}

// kindRead says back a kind of race in which slips were mended.
func kindRead(req *desk.Request, race *planner.Race) []say.Line {
	typed := req.Get("kind")
	if race.Kind == "" || strings.EqualFold(strings.Join(strings.Fields(typed), " "), race.Kind) || !req.Has("kind") {
		return nil
	}
	return []say.Line{say.Linef("Its kind is %s, as I read it: you wrote %s. Is it another? For example: /race change race:%s kind:gravel", race.Kind, say.Shown(typed), say.Quote(show.RaceKey(race)))}
}

// firstChange says which day before a race changes first, where that comes before the days that were named.
func firstChange(e *desk.Effect, race *planner.Race, said []say.Line) []say.Line {
	if _, held := desk.Held(e.Facts); held || !desk.Planned(e.Facts) || !desk.Planned(e.Old) || desk.OpenIllness(e.Facts) != nil || race.Last() < e.After.Today {
		return nil
	}
	before := engine.DeriveUntil(e.After.Today, desk.LastDay(e.After), e.Told.All)
	taper := show.TaperOf(e.After, show.RoleOf(e.After, e.Facts, race))
	for i := range e.After.Days {
		is, was := &e.After.Days[i], &before.Days[i]
		if is.Date >= race.Date || taper != nil && is.Date >= taper.From {
			return nil
		}
		now, then := show.SessionsLabel(is.Sessions, is.Race), show.SessionsLabel(was.Sessions, was.Race)
		if now == then {
			continue
		}
		if slices.ContainsFunc(said, func(l say.Line) bool { return strings.Contains(l.String(), is.Date.Short()) }) {
			return nil
		}
		return []say.Line{say.Linef("The first day that changes is %s: %s instead of %s.", is.Date.Short(), now, then)}
	}
	return nil
}

// Register puts the race that the options describe into the rider's calendar; again
// tells that it had been there before.
func Register(ctx context.Context, b *desk.Base, req desk.Request) (race planner.Race, again bool, e *desk.Effect, err error) {
	today := req.Rider.Today
	race = planner.Race{Days: 1}
	if err := readRace(&race, &req); err != nil {
		return race, false, nil, say.Together(err, Read(&req))
	}
	past := desk.AheadOnly("date", race.Date, today)
	if past != nil && (race.Date > today || !req.Rider.Known()) {
		return race, false, nil, past
	}
	e, err = b.Change(ctx, req, func(tx *storage.DB) error {
		added, revived, err := tx.AddRace(ctx, req.Rider.Athlete.ID, today, race)
		if errors.Is(err, storage.ErrPast) {
			return past
		}
		if err != nil {
			return onSameDay(err, &race)
		}
		race, again = added.Race, revived
		return nil
	})
	return race, again, e, err
}

// announced is the public line about a race, with a button for those who ride it
// too; none where the rider or the club wants none.
func announced(req *desk.Request, race *planner.Race) []say.Message {
	if !req.Rider.Athlete.Settings.Announce || !req.Rider.HasChannel() {
		return nil
	}
	return []say.Message{{To: "#" + req.Rider.Club.Name, Kind: "race", Buttons: []say.Button{joinButton(race)},
		Lines: []say.Line{say.Linef("%s races %s on %s (%s race).", req.Rider.Athlete.Name, race.Name, race.Date.Long(), race.Priority)}}}
}

// aboutRace is a reply that has understood a race and offers its plan, if there
// is one, or the form of the week that is lacking.
func aboutRace(r *desk.Request, p *say.Page, f *planner.Facts, race *planner.Race) say.Reply {
	reply := say.Reply{Lines: p.Done(), Date: race.Date, Race: race.Name, Moments: r.StartOf(race), Buttons: r.WeekForm()}
	if desk.Planned(f) {
		reply.Buttons = append([]say.Button{show.PlanButton(race)}, remindButton(r)...)
	}
	return reply
}

// remindButton offers reminders to who has none.
func remindButton(r *desk.Request) []say.Button {
	if r.Rider.Athlete.Settings.Remind.Mode != storage.RemindOff {
		return nil
	}
	return []say.Button{{Label: "Remind me", Command: "me set", Options: map[string]string{"remind": r.Rider.Athlete.Settings.Remind.At}}}
}

// ErrDouble marks a race that is in the rider's calendar already.
var ErrDouble = errors.New("the race is there already")

// double is the refusal of such a race.
type double struct{ error }

func (d double) Is(target error) bool { return target == ErrDouble }

func (d double) Unwrap() error { return d.error }

// onSameDay puts the refusal of a double into words.
func onSameDay(err error, race *planner.Race) error {
	if errors.Is(err, storage.ErrExists) {
		return double{say.Refuse("name", "%s on %s is in your calendar already. See it with /plan show race:%s",
			race.Name, race.Date.Long(), say.Quote(race.Name+" "+race.Date.String()))}
	}
	return err
}

// readRace lays the options given over a race and checks the whole. Whether a date
// may be past is for the caller to say.
func readRace(race *planner.Race, req *desk.Request) error {
	if err := readDetails(race, req); err != nil {
		return err
	}
	return race.Validate()
}

// readDetails lays the options given over a race. "none" forgets a detail. All faults
// are said together.
func readDetails(race *planner.Race, req *desk.Request) error {
	var faults []error
	wrong := map[string]bool{}
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"name", func(s string) error { race.Name = s; return storage.CheckName("name", s, "Hill Loop") }},
		{"date", func(s string) (err error) { race.Date, err = typed.DateComing(s, req.Rider.Today); return err }},
		{"priority", func(s string) (err error) { race.Priority, err = planner.ParsePriority(s); return err }},
		{"kind", func(s string) error { race.Kind = typed.RaceKind(s); return nil }},
		{"start", func(s string) (err error) { race.Start, err = typed.Start(s); return err }},
		{"days", func(s string) (err error) {
			race.Days, err = desk.WholeNumber(s, 1, planner.MaxRaceDays, "3")
			return err
		}},
		{"end", func(s string) error { return readEnd(race, req, s) }},
		{"hours", func(s string) (err error) { race.Hours, err = typed.Hours(s, race.Days); return err }}, // after days: they tell how many can be
		{"emphasis", func(s string) (err error) { race.Emphasis, err = planner.ParseEmphasis(s); return err }},
		{"place", func(s string) error { race.Place = s; return nil }},
		{desk.OptionTaper, func(s string) (err error) { race.TaperDays, err = desk.ReadTaperDays(s); return err }},
	} {
		if !req.Has(step.option) || strings.EqualFold(req.Get(step.option), say.None) && clearDetail(race, step.option) {
			continue
		}
		if wrong[needs[step.option]] {
			continue
		}
		if err := step.read(req.Get(step.option)); err != nil {
			faults, wrong[step.option] = append(faults, say.InField(step.option, err)), true
		}
	}
	if _, is := show.RefID(race.Name); is {
		faults = append(faults, say.Refuse("name", "%s is a number of mine. Give the race a name of letters, for example Hill Loop", say.Shown(race.Name)))
	}
	return say.Together(faults...)
}

// needs are options that can be judged only by another.
var needs = map[string]string{"end": "date", "hours": "days"}

// Read finds all that is wrong with the options that describe a race.
func Read(req *desk.Request) error {
	race := planner.Race{Days: 1}
	err := readDetails(&race, req)
	if race.Date.IsZero() {
		return err
	}
	var until error
	if req.Has("until") {
		_, until = lastDay(req.Get("until"), race.Date, req.Rider.Today)
	}
	return say.Together(err, desk.AheadOnly("date", race.Date, req.Rider.Today), say.InField("until", until))
}

// readEnd reads the last day of a race as its number of days.
func readEnd(race *planner.Race, req *desk.Request, text string) error {
	last, err := lastDay(text, race.Date, req.Rider.Today)
	if err != nil {
		return err
	}
	days := race.Date.DaysUntil(last) + 1
	switch {
	case days < 1:
		return say.Refuse("", "%s is before the race's first day, %s. For example %s", last.Long(), race.Date.Long(), race.Date.AddDays(2))
	case days > planner.MaxRaceDays:
		return say.Refuse("", "%s makes %d race days, and a race has at most %d. For example %s", last.Long(), days, planner.MaxRaceDays, race.Date.AddDays(2))
	case req.Has("days") && days != race.Days:
		return say.Refuse("", "%s would make %s, and days says %d. Write one of the two", last.Long(), show.Count(days, "race day"), race.Days)
	}
	race.Days = days
	return nil
}

// lastDay reads the last day of what begins on a day: a weekday, or a day without
// a year, is the first such one from then on.
func lastDay(text string, first, today planner.Date) (planner.Date, error) {
	last, err := typed.Date(text, today)
	if err == nil && last < first {
		if later, err := typed.Date(text, first); err == nil {
			last = later
		}
	}
	return last, err
}

// clearDetail brings a detail back to what it is when nothing was entered, and
// reports whether it is one that can be left out.
func clearDetail(r *planner.Race, option string) bool {
	switch option {
	case "hours":
		r.Hours = 0
	case "kind":
		r.Kind = ""
	case "start":
		r.Start = ""
	case "days", "end":
		r.Days = 1
	case "emphasis":
		r.Emphasis = planner.NoEmphasis
	case "place":
		r.Place = ""
	default:
		return false
	}
	return true
}
