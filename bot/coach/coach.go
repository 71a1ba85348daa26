package coach

import (
	"context"
	"fmt"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
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
	if s := attention(squad, news); len(s.lines) > 0 {
		const most = 10
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
	var p say.Page
	p.Addf("%s.", s.Line())
	for _, n := range s.Needs {
		p.Addf("! %s.", say.UpperFirst(n))
	}
	for _, c := range s.Choices {
		p.Addf("! %s", c)
	}
	s.AddRaces(&p)
	notes, err := b.DB.CoachNotes(ctx, athlete.ID, s.Today, s.Today.AddDays(lookAhead))
	if err != nil {
		return say.Reply{}, err
	}
	s.AddDays(&p)
	p.Lines = show.WithNotes(p.Lines, "Noted", notes)
	s.AddRidden(&p)
	s.addResults(&p)
	s.addTapers(&p)
	p.Gap()
	p.Headingf("Settings")
	p.Add(coachSettings(&athlete, s)...)
	reply := say.Reply{Lines: p.Done(), Date: s.Today, Buttons: []say.Button{{Label: "Roster", Command: "coach roster"}}}
	if s.Next != nil {
		reply.Date, reply.Race = s.Next.Date, s.Next.Name
	}
	return reply, nil
}

func (s *standing) AddRaces(p *say.Page) {
	const most = 5
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
func (s *standing) AddDays(p *say.Page) {
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
		days = append(days, withoutHealth(d))
	}
	p.Gap()
	p.Headingf("The next %d days", lookAhead)
	for _, line := range show.Schedule(days) {
		if line.Kind == say.Day && ill[line.Lead] {
			line = say.Dayf(line.Lead, notTraining)
		}
		p.Add(line)
	}
}

// withoutHealth is a day without the reasons that health gives it, and so without
// their cautions.
func withoutHealth(d *engine.Day) engine.Day {
	out := *d
	out.Causes = nil
	for i, r := range words.Why(d) {
		if !strings.HasPrefix(r.Rule, "health.") {
			out.Causes = append(out.Causes, d.Causes[i])
		}
	}
	return out
}

// AddRidden puts what was told of the last days beside what was planned.
func (s *standing) AddRidden(p *say.Page) {
	told := map[planner.Date][]planner.Ride{}
	for _, r := range s.Facts.Now.Done {
		told[r.Date] = append(told[r.Date], r)
	}
	var lines []say.Line
	rides, missed, minutes := 0, 0, 0
	last := s.Today // a day that goes on counts once something is told of it
	if _, ok := told[last]; !ok {
		last--
	}
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
				label = notTraining
			}
			if what == "nothing logged" && len(d.Sessions) == 1 && d.Sessions[0].Kind == planner.Rest {
				what = ""
			}
			what = strings.TrimSuffix("planned "+show.CutTo(label, mostDigestLine)+"; "+what, "; ")
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

// coachPattern is the setting of hard days as coaches read it.
func coachPattern(p planner.Pattern) string {
	if p == planner.UsualDays {
		return "usual hard days"
	}
	return show.PatternText(p)
}

// coachSettings are those that shape the plan, and whether reminders go out.
func coachSettings(a *storage.Athlete, s *standing) []say.Line {
	var lines []say.Line
	if desk.Planned(s.Facts.Now) {
		lines = append(lines, say.Linef("  usual week: %s", show.WeekSum(&show.WeekOn(s.Facts.Now, s.Today).Week)))
	}
	taper, cut, openers := desk.AutoTaper, desk.AutoTaper, "D-1"
	if a.Settings.Taper.Days > 0 {
		taper = show.Count(a.Settings.Taper.Days, "day")
	}
	if a.Settings.Taper.Cut > 0 {
		cut = fmt.Sprintf("%d %%", a.Settings.Taper.Cut)
	}
	if a.Settings.Taper.OpenersD2 {
		openers = "D-2"
	}
	remind := a.Settings.Remind.Mode.String()
	if a.Settings.Remind.Mode != storage.RemindOff {
		remind += " at " + a.Settings.Remind.At
	}
	return append(lines,
		say.Linef("  taper: %s, cut %s, %s, openers %s", taper, cut, coachPattern(a.Settings.Taper.Pattern), openers),
		say.Linef("  zone: %s, reminders: %s", a.Zone, remind))
}
