package plans

import (
	"context"
	"fmt"

	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
	"musette/storage"
)

// quietDays is how many days a plan without a race shows.
const quietDays = 7

func planShow(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today := req.Rider.Today
	var race *planner.Race
	until := today
	if req.Has("race") {
		found, err := b.RaceToPlan(ctx, req)
		if err != nil {
			return say.Reply{}, err
		}
		race, until = &found.Race, found.Last().AddDays(show.AfterDays)
	}
	if reply, ok := desk.NotTraining(facts.Now, today); ok {
		return reply, nil
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	plan := engine.DeriveUntil(today, until, facts.All)
	if race == nil {
		race = firstRace(plan, facts.Now)
	}
	notes, err := b.DB.CoachNotes(ctx, req.Rider.Athlete.ID, today, desk.LastDay(plan))
	if err != nil {
		return say.Reply{}, err
	}
	switch {
	case race == nil:
		return noted(comingDays(plan, facts), notes), nil
	case race.Last() < today:
		return noted(afterRace(plan, facts, race, req.Get("days") == daysAll), notes), nil
	}
	role := show.RoleOf(plan, facts.Now, race)
	shown := scheduled{Plan: plan, Facts: facts, Role: role, Race: race, Days: show.RaceDays(plan, role, race)}
	reply := notedBriefly(shown.Brief(), notes)
	if req.Get("days") == daysAll {
		reply = noted(shown.whole(), notes)
	}
	reply.Moments = req.StartOf(race)
	if t := show.TaperOf(plan, role); t != nil && today < t.Race.Date && season.Expect(plan, facts.All, t) != nil {
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Other lengths", Command: "plan options", Options: show.ByRace(race)})
	}
	b.Attach(ctx, &reply, "plan.png", func() (picture.Picture, error) {
		return picture.Strip(fmt.Sprintf("%s, %s", race.Name, race.Date.Short()), today, shown.Days)
	})
	return reply, nil
}

// noted puts the coach's notes below their days.
func noted(reply say.Reply, notes []storage.CoachNote) say.Reply {
	reply.Lines = show.WithNotes(reply.Lines, "Your coach", notes)
	return reply
}

// notedBriefly adds as many of the coach's notes as the screen has room for, the
// nearest first. The whole plan has them all.
func notedBriefly(reply say.Reply, notes []storage.CoachNote) say.Reply {
	for n := len(notes); n > 0; n-- {
		if with := noted(reply, notes[:n]); len(with.Lines) <= mostScreen {
			return with
		}
	}
	return reply
}

// firstRace is the race that the days from today on belong to: the next one, or the
// one in whose taper that will be; but
// the A or B race that already shapes today before a C race that comes earlier or a
// race inside its taper, and an A or B race that is over until its easier days end
// or the next one's begin.
func firstRace(plan *engine.Plan, f *planner.Facts) *planner.Race {
	next := f.NextRace(plan.Today)
	if next != nil && (next.Priority == planner.PriorityC || show.RoleOf(plan, f, next).Role == planner.InsideTaper) {
		if around := raceAround(plan, f, next); around != nil {
			return around
		}
	}
	if next != nil {
		if role := show.RoleOf(plan, f, next); role.Role == planner.InsideTaper && role.Host != nil {
			return show.ToldRace(plan, f, role.Host)
		}
	}
	d := &plan.Days[0]
	if next == nil || d.Phase != planner.Recovering || d.Race == nil || d.Race.Priority == planner.PriorityC {
		return next
	}
	over := show.ToldRace(plan, f, d.Race)
	if over == nil || over.Last() >= plan.Today || next.Priority != planner.PriorityC && show.RaceDays(plan, show.RoleOf(plan, f, next), next)[0].Date == plan.Today {
		return next
	}
	return over
}

// raceAround is the A or B race whose days hold both today and a race inside them.
func raceAround(plan *engine.Plan, f *planner.Facts, inside *planner.Race) *planner.Race {
	var around *planner.Race
	for i := range plan.Races {
		role, told := plan.Races[i], &f.Races[i]
		if told.Priority == planner.PriorityC || role.Role == planner.InsideTaper || told.Is(inside) || told.Last() < inside.Date || around != nil && around.Date <= told.Date {
			continue
		}
		from := told.Date.AddDays(-show.LeadDays[told.Priority])
		if t := show.TaperOf(plan, role); t != nil {
			from = t.From
		}
		if from <= plan.Today {
			around = told
		}
	}
	return around
}

// warningsOf are the warnings that a race's plan needs: its own, those of races inside its taper and those of the whole plan.
func warningsOf(plan *engine.Plan, role planner.RaceRole) []say.Line {
	var lines []say.Line
	for i, w := range words.Warnings(plan) {
		of := &plan.Warnings[i]
		if w.Race == nil || w.Race == role.Race || of.Code == engine.WarnInside && of.Other == role.Race {
			lines = append(lines, show.WarningLine(&w))
		}
	}
	return lines
}
