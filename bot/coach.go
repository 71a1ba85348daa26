package bot

import (
	"context"
	"fmt"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

// coachCommands are the rows of the coaches' side.
func coachCommands() []Command {
	return []Command{
		{Name: "coach roster", Task: taskCoach, run: (*Base).coachRoster, Coach: true, Club: true,
			Description: "Every rider: who tapers, who starts, who needs attention",
			Example:     "coach roster"},
		{Name: "coach athlete", Task: taskCoach, run: (*Base).coachAthlete, Coach: true, Club: true, Options: []Option{
			{Name: "athlete", Type: "rider", Required: true, Complete: CompleteRider, Example: "Ines",
				Description: "Which rider of the club: the name or part of it"}},
			Description: "One rider: races, taper, the days behind and ahead",
			Example:     "coach athlete athlete:Ines"},
		{Name: "coach digest", Task: taskCoach, run: (*Base).coachDigest, Coach: true, Club: true,
			Description: "The coaches' weekly digest, now",
			Example:     "coach digest"},
	}
}

func (b *Base) coachDigest(ctx context.Context, req Request) (Reply, error) {
	return b.digest(ctx, req.rider.club, req.Now)
}

// rosterRiders is how many riders a roster shows; with those who need attention
// and headings it stays about 40 lines.
const rosterRiders = 26

func (b *Base) coachRoster(ctx context.Context, req Request) (Reply, error) {
	club := &req.rider.club
	squad, news, err := b.squadOf(ctx, club, req.Now)
	if err != nil {
		return Reply{}, err
	}
	if len(squad) == 0 {
		return Reply{Lines: []Line{Say("%s has no rider yet.", cutTo(club.Name, mostName)),
			Say("Riders are here once they share a week: /week share week:%s", Quote(exampleWeek))}}, nil
	}
	var sections []section
	if s := attention(squad, news); len(s.lines) > 0 {
		const most = 10
		if n := len(s.lines); n > most {
			s.lines = append(s.lines[:most-1:most-1], Say("and %d more: %s, /coach digest", n-most+1, ridersFile))
		}
		sections = append(sections, s)
	}
	riders := section{head: "Riders"}
	for i := range squad {
		riders.add(squad[i].line())
	}
	sections = append(sections, riders)
	reply := Reply{Buttons: []Button{{Label: "Digest", Command: "coach digest"}}}
	last, whole := Say("One rider: /coach athlete %s", Quote(squad[0].name)), false
	if reply.Lines, whole = fitted(clubLine(club, squad), sections, last, rosterRiders); !whole {
		reply.Files = []File{riderList(club, squad)}
		reply.Lines, _ = fitted(clubLine(club, squad), sections, Say("Everybody: %s. %s", ridersFile, last), rosterRiders)
	}
	return reply, nil
}

// coachAthlete is one rider for the coaches: never symptoms, never notes.
func (b *Base) coachAthlete(ctx context.Context, req Request) (Reply, error) {
	athlete, err := b.athleteOf(ctx, req)
	if err != nil {
		return Reply{}, err
	}
	athletes, err := b.db.Athletes(ctx, req.rider.club.ID)
	if err != nil {
		return Reply{}, err
	}
	news, err := b.newsOf(ctx, req.rider.club.ID, athletes, req.Now)
	if err != nil {
		return Reply{}, err
	}
	s, err := b.standingOf(ctx, &athlete, news)
	if err != nil {
		return Reply{}, err
	}
	var p page
	p.addf("%s.", s.line())
	for _, n := range s.needs {
		p.addf("! %s.", upperFirst(n))
	}
	for _, c := range s.choices {
		p.addf("! %s", c)
	}
	s.addRaces(&p)
	s.addDays(&p)
	s.addRidden(&p)
	s.addResults(&p)
	p.gap()
	p.heading("Settings")
	p.add(coachSettings(&athlete, s)...)
	reply := Reply{Lines: p.done(), Date: s.today, Buttons: []Button{{Label: "Roster", Command: "coach roster"}}}
	if s.next != nil {
		reply.Date, reply.Race = s.next.Date, s.next.Name
	}
	return reply, nil
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func (s *standing) addRaces(p *page) {
	const most = 5
	shown := 0
	for _, r := range s.facts.now.Races {
		if r.Last() < s.today {
			continue
		}
		if shown == 0 {
			p.gap()
			p.heading("Races to come")
		}
		if shown++; shown <= most {
			p.addf("  %s, %s: %s", raceName(&r), inDays(s.today, r.Date), cutTo(describeRace(&r), mostDigestLine))
		}
	}
	if shown > most {
		p.addf("  and %d more", shown-most)
	}
}

// addDays is the plan of the coming days. A day that health decides says no more
// than that.
func (s *standing) addDays(p *page) {
	if s.plan == nil {
		return
	}
	var days []engine.Day
	ill := map[string]bool{}
	for date := s.today; date < s.today.AddDays(lookAhead); date++ {
		d, ok := s.plan.Day(date)
		if !ok {
			continue
		}
		if d.Phase == planner.Health {
			d = &engine.Day{Date: date}
			ill[dayLead(date)] = true
		}
		days = append(days, withoutHealth(d))
	}
	p.gap()
	p.heading("The next %d days", lookAhead)
	for _, line := range Schedule(days) {
		if line.Kind == Day && ill[line.Lead] {
			line = dayOf(line.Lead, notTraining)
		}
		p.add(line)
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

// addRidden puts what was told of the last days beside what was planned.
func (s *standing) addRidden(p *page) {
	told := map[planner.Date]planner.Ride{}
	for _, r := range s.facts.now.Done {
		day := told[r.Date]
		told[r.Date] = planner.Ride{Date: r.Date, Minutes: day.Minutes + r.Minutes, RPE: max(day.RPE, r.RPE)}
	}
	var lines []Line
	rides, missed, minutes := 0, 0, 0
	for date := s.today.AddDays(-lookBack); date <= s.today; date++ {
		ride, ok := told[date]
		if !ok && (s.plan == nil || date == s.today) {
			continue
		}
		what := "nothing logged"
		switch {
		case ok && ride.Minutes == 0:
			what, missed = "missed", missed+1
		case ok:
			what, rides, minutes = "rode "+planner.Duration(ride.Minutes), rides+1, minutes+ride.Minutes
			if ride.RPE > 0 {
				what += fmt.Sprintf(", RPE %g", ride.RPE)
			}
		}
		if d := unlogged(s.facts, date); d != nil {
			label := sessionsLabel(d.Sessions, d.Race)
			if d.Phase == planner.Health {
				label = notTraining
			}
			if what == "nothing logged" && len(d.Sessions) == 1 && d.Sessions[0].Kind == planner.Rest {
				what = ""
			}
			what = strings.TrimSuffix("planned "+cutTo(label, mostDigestLine)+"; "+what, "; ")
		}
		lines = append(lines, dayOf(dayLead(date), "%s", what))
	}
	if len(lines) == 0 {
		return
	}
	p.gap()
	p.heading("The last %d days", lookBack)
	p.addf("%s logged, %s, missed: %d.", count(rides, "ride"), planner.Duration(minutes), missed)
	p.add(lines...)
}

func (s *standing) addResults(p *page) {
	if len(s.results)+len(s.untold) == 0 {
		return
	}
	p.gap()
	p.heading("Results")
	for _, r := range s.results {
		p.addf("  %s", r)
	}
	for _, r := range s.untold {
		p.addf("  %s: no result yet", r)
	}
}

// coachPattern is the setting of hard days as coaches read it.
func coachPattern(p planner.Pattern) string {
	if p == planner.UsualDays {
		return "usual hard days"
	}
	return patternText(p)
}

// coachSettings are those that shape the plan, and whether reminders go out.
func coachSettings(a *storage.Athlete, s *standing) []Line {
	var lines []Line
	if planned(s.facts.now) {
		lines = append(lines, Say("  usual week: %s", weekSum(&weekOn(s.facts.now, s.today).Week)))
	}
	taper, cut, openers := autoTaper, autoTaper, "D-1"
	if a.Settings.Taper.Days > 0 {
		taper = count(a.Settings.Taper.Days, "day")
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
		Say("  taper: %s, cut %s, %s, openers %s", taper, cut, coachPattern(a.Settings.Taper.Pattern), openers),
		Say("  zone: %s, reminders: %s", a.Zone, remind))
}
