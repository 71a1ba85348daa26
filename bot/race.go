package bot

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

func (b *Base) raceAdd(ctx context.Context, req Request) (Reply, error) {
	today := req.rider.today
	race := planner.Race{Days: 1}
	if err := readRace(&race, &req); err != nil {
		return Reply{}, err
	}
	past := aheadOnly("date", race.Date, today)
	if past != nil && (race.Date > today || !req.rider.known()) {
		return Reply{}, past
	}
	again := false
	e, err := b.change(ctx, req, func() error {
		added, revived, err := b.db.AddRace(ctx, req.rider.athlete.ID, today, race)
		if errors.Is(err, storage.ErrPast) {
			return past
		}
		if err != nil {
			return onSameDay(err, &race)
		}
		race, again = added.Race, revived
		return nil
	})
	if err != nil {
		return Reply{}, err
	}
	var p page
	if again {
		p.addf("%s is back in your calendar: %s.", race.Name, describeRace(&race))
	} else {
		p.addf("%s is in your calendar: %s.", race.Name, describeRace(&race))
	}
	p.add(raceNews(e, &race)...)
	reply := req.aboutRace(&p, e.facts, &race)
	if req.rider.athlete.Settings.Announce && req.rider.hasChannel() && !again {
		reply.Sent = []Message{{To: "#" + req.rider.club.Name, Kind: "race",
			Lines: []Line{Say("%s races %s on %s (%s race).", req.rider.athlete.Name, race.Name, race.Date.Long(), race.Priority)}}}
	}
	return reply, nil
}

// raceNews is what a new or changed race means: window, warnings, next step.
func raceNews(e *effect, race *planner.Race) []Line {
	if !planned(e.facts) {
		return []Line{Say("No plan yet: I do not know your typical week. Share it, for example"), Say(`/week share week:"` + exampleWeek + `"`)}
	}
	role := roleOf(e.after, e.facts, race)
	lines := append(plainLines(window(e.after, role, race)), e.newWarnings()...)
	return append(lines, Say("The days: %s", showRace(e.facts, race)))
}

// showRace is the command that shows a race's days: by its name, and its date
// too where another race is called the same.
func showRace(f *planner.Facts, race *planner.Race) Span {
	name := race.Name
	for i := range f.Races {
		if other := &f.Races[i]; sameName(other.Name, race.Name) && other.Date != race.Date {
			name = race.Name + " " + race.Date.String()
		}
	}
	return lineOf("plan show", map[string]string{"race": name})
}

// sameName is the one rule for names in other capitals.
func sameName(a, b string) bool { return storage.Fold(a) == storage.Fold(b) }

// aboutRace is a reply that has understood a race and offers its plan, if there
// is one, or the form of the week that is lacking.
func (r *Request) aboutRace(p *page, f *planner.Facts, race *planner.Race) Reply {
	reply := Reply{Lines: p.done(), Date: race.Date, Race: race.Name, Moments: r.startOf(race), Buttons: r.weekForm()}
	if planned(f) {
		reply.Buttons = append([]Button{planButton(race)}, r.remindButton()...)
	}
	return reply
}

// remindButton offers reminders to who has none.
func (r *Request) remindButton() []Button {
	if r.rider.athlete.Settings.Remind.Mode != storage.RemindOff {
		return nil
	}
	return []Button{{Label: "Remind me", Command: "me set", Options: map[string]string{"remind": r.rider.athlete.Settings.Remind.At}}}
}

// startOf is the instant at which a race begins, where the start is known and to come.
func (r *Request) startOf(race *planner.Race) []Moment { return startOf(race, r.rider.zone, r.Now) }

func startOf(race *planner.Race, zone *time.Location, now time.Time) []Moment {
	clock, err := time.Parse("15:04", race.Start)
	if err != nil {
		return nil
	}
	year, month, day := race.Date.Civil()
	at := time.Date(year, month, day, clock.Hour(), clock.Minute(), 0, 0, zone)
	if at.Before(now) {
		return nil
	}
	return []Moment{{Label: "Start", At: at}}
}

func planButton(race *planner.Race) Button {
	return Button{Label: "Show plan", Command: "plan show", Options: map[string]string{"race": race.Name + " " + race.Date.String()}}
}

// onSameDay puts the refusal of a double into words.
func onSameDay(err error, race *planner.Race) error {
	if errors.Is(err, storage.ErrExists) {
		return refuse("name", "%s on %s is in your calendar already. See it with /plan show race:%s",
			race.Name, race.Date.Long(), Quote(race.Name+" "+race.Date.String()))
	}
	return err
}

// readRace lays the options given over a race and checks the whole. "none"
// forgets a detail. Whether a date may be past is for the caller to say.
func readRace(race *planner.Race, req *Request) error {
	for _, step := range []struct {
		option string
		read   func(string) error
	}{
		{"name", func(s string) error { race.Name = s; return storage.CheckName("name", s, "Hill Loop") }},
		{"date", func(s string) (err error) { race.Date, err = typed.Date(s, req.rider.today); return err }},
		{"priority", func(s string) (err error) { race.Priority, err = planner.ParsePriority(s); return err }},
		{"kind", func(s string) error { race.Kind = s; return nil }},
		{"start", func(s string) (err error) { race.Start, err = typed.Start(s); return err }},
		{"days", func(s string) (err error) {
			race.Days, err = wholeNumber(s, 1, planner.MaxRaceDays, "3")
			return err
		}},
		{"hours", func(s string) (err error) { race.Hours, err = typed.Hours(s, race.Days); return err }}, // after days: they tell how many can be
		{"emphasis", func(s string) (err error) { race.Emphasis, err = planner.ParseEmphasis(s); return err }},
		{"place", func(s string) error { race.Place = s; return nil }},
		{optionTaper, func(s string) (err error) { race.TaperDays, err = readTaperDays(s); return err }},
	} {
		if !req.has(step.option) || strings.EqualFold(req.get(step.option), none) && clearDetail(race, step.option) {
			continue
		}
		if err := step.read(req.get(step.option)); err != nil {
			return inField(step.option, err)
		}
	}
	return race.Validate()
}

// clearDetail brings a detail back to what it is when nothing was told, and
// reports whether it is one that can be left out.
func clearDetail(r *planner.Race, option string) bool {
	switch option {
	case "hours":
		r.Hours = 0
	case "kind":
		r.Kind = ""
	case "start":
		r.Start = ""
	case "days":
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

// wholeNumber reads a number within bounds; a per cent sign may follow it.
func wholeNumber(s string, least, most int, example string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(s, "%")))
	if err != nil {
		return 0, refuse("", "%s is not a whole number. For example %s", Shown(s), example)
	}
	if n < least || n > most {
		return 0, refuse("", "%d is outside %d to %d. For example %s", n, least, most, example)
	}
	return n, nil
}
