package coach

import (
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/storage"
)

// showAll asks for all that coaches may know of a rider.
const showAll = "all"

// What one screen of a rider has room for.
const (
	screenLooks   = 4
	screenRaces   = 2
	screenNotes   = 2
	screenResults = 2
	allRaces      = 5
)

// everything is all that coaches may know of a rider.
func (s *standing) everything(a *storage.Athlete, notes []storage.CoachNote) []say.Line {
	var p say.Page
	p.Addf("%s.", s.Line())
	p.Add(s.looks()...)
	s.AddRaces(&p, allRaces)
	s.AddDays(&p, show.Schedule)
	p.Lines = show.WithNotes(p.Lines, "Noted", notes)
	s.AddRidden(&p)
	s.addResults(&p)
	s.addTapers(&p)
	p.Gap()
	p.Headingf("Settings")
	p.Add(coachSettings(a, s)...)
	return p.Done()
}

// screen is what a coach looks for first, in at most 25 lines.
func (s *standing) screen(notes []storage.CoachNote) []say.Line {
	var p say.Page
	p.Addf("%s.", s.Line())
	looks := s.looks()
	if n := len(looks); n > screenLooks {
		looks = append(looks[:screenLooks-1:screenLooks-1], say.Linef("! and %d more to look at", n-screenLooks+1))
	}
	p.Add(looks...)
	s.AddRaces(&p, screenRaces)
	s.AddDays(&p, briefDays)
	p.Lines = show.WithNotes(p.Lines, "Noted", notes[:min(screenNotes, len(notes))])
	p.Gap()
	p.Addf("%s", s.riddenLine())
	for _, r := range slices.Concat(s.results, s.untoldLines())[:min(screenResults, len(s.results)+len(s.untold))] {
		p.Addf("%s", r)
	}
	return p.Done()
}

// looks are what needs a look and what has to be decided.
func (s *standing) looks() (lines []say.Line) {
	for _, n := range s.Needs {
		lines = append(lines, say.Linef("! %s.", say.UpperFirst(n)))
	}
	for _, c := range s.Choices {
		lines = append(lines, say.Linef("! %s", c))
	}
	return lines
}

// briefDays are days with what to mind in a few words.
func briefDays(days []engine.Day) []say.Line {
	var lines []say.Line
	for i := range days {
		lines = append(lines, show.MindedDay(&days[i]))
	}
	return lines
}

// untoldLines are the races without a result.
func (s *standing) untoldLines() (lines []string) {
	for _, r := range s.untold {
		lines = append(lines, r+": no result yet")
	}
	return lines
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
	if a.Settings.Taper.Usual {
		taper = desk.UsualTaper
	}
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
