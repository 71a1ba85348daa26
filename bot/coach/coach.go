package coach

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
)

func coachDigest(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	return Digest(ctx, b, req.Rider.Club, req.Now)
}

// rosterRiders is how many riders a roster shows; with those who need attention
// and headings it stays about 40 lines.
const rosterRiders = 26

func coachRoster(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	club := &req.Rider.Club
	squad, news, err := squadOf(ctx, b, club, req.Now)
	if err != nil {
		return say.Reply{}, err
	}
	if len(squad) == 0 {
		return say.Reply{Lines: []say.Line{say.Linef("%s has no rider yet.", show.CutTo(club.Name, show.MostName)),
			say.Linef("Riders are here once they share a week: /week share week:%s", say.Quote(desk.ExampleWeek))}}, nil
	}
	var sections []section
	for _, s := range []section{decisions(squad), attention(squad, news)} {
		const most = 10
		if len(s.lines) == 0 {
			continue
		}
		if n := len(s.lines); n > most {
			s.lines = append(s.lines[:most-1:most-1], say.Linef("and %d more: %s, /coach digest", n-most+1, ridersFile))
		}
		sections = append(sections, s)
	}
	riders := section{head: "Riders"}
	for i := range squad {
		riders.add(squad[i].Line())
	}
	sections = append(sections, riders)
	reply := say.Reply{Buttons: []say.Button{{Label: "Digest", Command: "coach digest"}}}
	last, whole := say.Linef("One rider: /coach athlete %s", say.Quote(squad[0].Name)), false
	if reply.Lines, whole = fitted(clubLine(club, squad), sections, last, rosterRiders); !whole {
		reply.Files = []say.File{riderList(club, squad)}
		reply.Lines, _ = fitted(clubLine(club, squad), sections, say.Linef("Everybody: %s. %s", ridersFile, last), rosterRiders)
	}
	return reply, nil
}

// coachAthlete is one rider for the coaches: never symptoms, never notes.
func coachAthlete(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	athlete, err := athleteOf(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	athletes, err := b.DB.Athletes(ctx, req.Rider.Club.ID)
	if err != nil {
		return say.Reply{}, err
	}
	news, err := newsOf(ctx, b, req.Rider.Club.ID, athletes, req.Now)
	if err != nil {
		return say.Reply{}, err
	}
	s, err := standingOf(ctx, b, &athlete, news)
	if err != nil {
		return say.Reply{}, err
	}
	notes, err := b.DB.CoachNotes(ctx, athlete.ID, s.Today, s.Today.AddDays(lookAhead))
	if err != nil {
		return say.Reply{}, err
	}
	reply := say.Reply{Date: s.Today, Buttons: []say.Button{{Label: "Roster", Command: "coach roster"}}}
	if req.Get("show") == showAll {
		reply.Lines = s.everything(&athlete, notes)
	} else {
		reply.Lines = s.screen(notes)
		whole := say.Button{Label: "Everything", Command: "coach athlete", Options: map[string]string{"athlete": s.Name, "show": showAll}}
		reply.Buttons = append([]say.Button{whole}, reply.Buttons...)
	}
	if s.Next != nil {
		reply.Date, reply.Race = s.Next.Date, s.Next.Name
	}
	return reply, nil
}

// AddRaces lists the first races to come.
func (s *standing) AddRaces(p *say.Page, most int) {
	shown := 0
	for _, r := range s.Facts.Now.Races {
		if r.Last() < s.Today {
			continue
		}
		if shown == 0 {
			p.Gap()
			p.Headingf("Races to come")
		}
		if shown++; shown <= most {
			p.Addf("  %s, %s: %s", show.RaceName(&r), inDays(s.Today, r.Date), show.CutTo(show.DescribeRace(&r), mostDigestLine))
		}
	}
	if shown > most {
		p.Addf("  and %d more", shown-most)
	}
}

// AddDays is the plan of the coming days. A day that health decides says no more
// than that.
func (s *standing) AddDays(p *say.Page, lines func([]engine.Day) []say.Line) {
	if s.plan == nil {
		return
	}
	var days []engine.Day
	ill := map[string]bool{}
	for date := s.Today; date < s.Today.AddDays(lookAhead); date++ {
		d, ok := s.plan.Day(date)
		if !ok {
			continue
		}
		if d.Phase == planner.Health {
			d = &engine.Day{Date: date}
			ill[show.DayLead(date)] = true
		}
		days = append(days, show.WithoutHealth(d))
	}
	p.Gap()
	p.Headingf("The next %d days", lookAhead)
	pinned := s.pinned()
	for _, line := range lines(days) {
		switch {
		case line.Kind == say.Day && ill[line.Lead]:
			line = say.Dayf(line.Lead, "%s", show.NotTraining)
		case line.Kind == say.Day && pinned[line.Lead]:
			line.Spans = append(slices.Clone(line.Spans), say.Linef(", set by a coach").Spans...)
		}
		p.Add(line)
	}
}

// pinned are the days that a coach set, as far as they hold, by how a day begins.
func (s *standing) pinned() map[string]bool {
	days := map[string]bool{}
	for _, pin := range s.Facts.Now.Pins {
		days[show.DayLead(pin.Date)] = true
	}
	for i := range s.plan.Warnings {
		if w := &s.plan.Warnings[i]; w.Code == engine.WarnPinDropped {
			delete(days, show.DayLead(w.Day))
		}
	}
	return days
}

// riddenLine counts what was entered about the last days.
func (s *standing) riddenLine() string {
	rides, missed, minutes := 0, 0, 0
	last := s.lastTold()
	for _, r := range s.Facts.Now.Done {
		switch {
		case r.Date <= last-lookBack || r.Date > last:
		case r.Minutes == 0:
			missed++
		default:
			rides, minutes = rides+1, minutes+r.Minutes
		}
	}
	return fmt.Sprintf("The last %d days: %s logged, %s, missed: %d.", lookBack, show.Count(rides, "ride"), planner.Duration(minutes), missed)
}

// lastTold is the last of the days that count as over: a day that goes on counts
// once a result is entered.
func (s *standing) lastTold() planner.Date {
	if slices.ContainsFunc(s.Facts.Now.Done, func(r planner.Ride) bool { return r.Date == s.Today }) {
		return s.Today
	}
	return s.Today - 1
}

// AddRidden puts what was entered about the last days beside what was planned.
func (s *standing) AddRidden(p *say.Page) {
	told := map[planner.Date][]planner.Ride{}
	for _, r := range s.Facts.Now.Done {
		told[r.Date] = append(told[r.Date], r)
	}
	var lines []say.Line
	rides, missed, minutes := 0, 0, 0
	last := s.lastTold()
	for date := last.AddDays(1 - lookBack); date <= last; date++ {
		day, ok := told[date]
		ridden, rpe := planner.Ridden(day)
		if !ok && s.plan == nil {
			continue
		}
		what := "nothing logged"
		switch {
		case ok && ridden == 0:
			what, missed = "missed", missed+1
		case ok:
			what, rides, minutes = "rode "+planner.Duration(ridden), rides+len(day), minutes+ridden
			if rpe > 0 {
				what += ", RPE " + show.Rating(rpe)
			}
		}
		if d := desk.Unlogged(s.Facts, date); d != nil && desk.PlannedThen(s.Facts, date) {
			label := show.SessionsLabel(d.Sessions, d.Race)
			if d.Phase == planner.Health {
				label = show.NotTraining
			}
			if what == "nothing logged" && label != show.NotTraining && d.Phase != planner.RaceDay && desk.LaidLow(s.Facts.Now, date) {
				what = show.NotTraining
			}
			if what == "nothing logged" && len(d.Sessions) == 1 && d.Sessions[0].Kind == planner.Rest {
				what = ""
			}
			what = strings.TrimSuffix("planned "+show.CutTo(label, mostDigestLine)+", "+what, ", ")
		}
		lines = append(lines, say.Dayf(show.DayLead(date), "%s", what))
	}
	if len(lines) == 0 {
		return
	}
	p.Gap()
	p.Headingf("The last %d days", lookBack)
	p.Addf("%s logged, %s, missed: %d.", show.Count(rides, "ride"), planner.Duration(minutes), missed)
	p.Add(lines...)
}

func (s *standing) addResults(p *say.Page) {
	if len(s.results)+len(s.untold) == 0 {
		return
	}
	p.Gap()
	p.Headingf("Results")
	for _, r := range s.results {
		p.Addf("  %s", r)
	}
	for _, r := range s.untold {
		p.Addf("  %s: no result yet", r)
	}
}
