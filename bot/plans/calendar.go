package plans

import (
	"context"
	"fmt"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/ics"
	"musette/planner/words"
)

// planCalendar puts a race's days, or those of the whole season, into a file that
// calendars read.
func planCalendar(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	var race *planner.Race
	if req.Has("race") {
		found, err := b.RaceOf(ctx, req)
		if err != nil {
			return say.Reply{}, err
		}
		race = &found.Race
	}
	c := newCalendar(req.Rider.Zone)
	entries, err := c.giveOut(ctx, b, &req, facts.All, c.entries(req.Rider.Today, facts.All))
	if err != nil {
		return say.Reply{}, err
	}
	if race != nil {
		entries = ofRace(entries, race.ID)
	}
	reply := say.Reply{Lines: append(notTraining(facts.Now), calendarLines(entries, race, req.Rider.Today)...), Date: req.Rider.Today}
	if race != nil {
		reply.Date, reply.Race = race.Date, race.Name
	}
	if len(entries) == 0 {
		return reply, nil
	}
	if !desk.Planned(facts.Now) {
		reply.Addf("Only races are in it, since I do not know your typical week yet. Share it: /week share week:%s", say.Quote(desk.ExampleWeek))
		reply.Buttons = req.WeekForm()
	} else if race != nil {
		reply.Buttons = []say.Button{show.PlanButton(race)}
	}
	file := ics.Calendar{Name: "Race plan", Made: req.Now}
	for i := range entries {
		file.Events = append(file.Events, entries[i].event)
	}
	name := "season"
	if race != nil {
		file.Name, name = race.Name, fileName(race)
	}
	reply.Files = []say.File{{Name: name + ".ics", Type: "text/calendar", Alt: "A calendar with " + entryCount(len(entries)), Data: file.Write()}}
	return reply, nil
}

// notTraining says first what keeps from training: the file itself has no word of health.
func notTraining(f *planner.Facts) []say.Line {
	stop := ""
	if h, held := desk.Held(f); held {
		stop = words.StopAnswer(h.Level)
	} else if ill := desk.OpenIllness(f); ill != nil {
		stop = words.TroubleAnswer(ill.Level, ill.Injury)
	} else {
		return nil
	}
	return []say.Line{say.Linef("! %s", stop), say.Linef("Until then the days in the file have no training.")}
}

// calendarLines say what is in the file.
func calendarLines(entries []entry, race *planner.Race, today planner.Date) []say.Line {
	var p say.Page
	kept, gone := 0, 0
	var from, to planner.Date
	for i := range entries {
		e := &entries[i]
		if e.event.Cancelled {
			gone++
			continue
		}
		if kept++; kept == 1 {
			from = e.date
		}
		to = max(to, e.until)
	}
	what := "your season"
	if race != nil {
		what = race.Name
	}
	switch {
	case kept+gone == 0 && race != nil && race.Last() < today:
		p.Addf("%s is over: it was on %s. Your season: /plan calendar", race.Name, race.Date.Long())
		return p.Done()
	case kept+gone == 0 && race != nil:
		p.Addf("Nothing is planned for %s. Your season: /plan calendar", race.Name)
		return p.Done()
	case kept+gone == 0:
		p.Addf("There is nothing to put into a calendar: you have no race to come. Add one: %s", desk.RaceExample(today))
		return p.Done()
	case kept == 0:
		p.Addf("Calendar of %s: no day is left, the file takes %s out.", what, entryCount(gone))
	default:
		p.Addf("Calendar of %s: %s, %s, in the file.", what, entryCount(kept), show.Span(from, to, today))
	}
	p.Addf("Open the file on your phone or computer, and your calendar app adds the entries. Races have their start time. Training days are all-day notes.")
	if gone > 0 && kept > 0 {
		p.Addf("Marked as cancelled, since the plan has changed: %s.", entryCount(gone))
	}
	p.Addf("The file does not update itself. When your plan changes, type /plan calendar again and open the new file: new entries replace the old ones. Days that are no longer planned are then marked as cancelled.")
	return p.Done()
}

func entryCount(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// fileName is a race's name in letters that any system takes.
func fileName(r *planner.Race) string {
	words := desk.WordsOf(r.Name)
	name := strings.Map(func(c rune) rune {
		if c > 'z' {
			return -1
		}
		return c
	}, strings.Join(words, "-"))
	if name = strings.Trim(say.Clip16(name, 40), "-"); name == "" {
		name = "race"
	}
	return name
}
