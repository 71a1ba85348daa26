package plans

import (
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/words"
)

// The first message of a plan fits a phone, so that its picture and buttons are
// in reach: at most 25 lines.
const (
	mostScreen     = 25
	screenDays     = 7
	shortPlan      = 10 // days; a plan that ends so soon is shown whole where there is room
	screenWarnings = 3
	screenReasons  = 4
)

// daysAll is the choice of /plan show that shows every day with its reasons.
const daysAll = "all"

// scheduled is a race's plan as it is shown: the days from today on that the race shapes.
type scheduled struct {
	Plan  *engine.Plan
	Facts desk.Ledger
	Role  planner.RaceRole
	Race  *planner.Race // as it was entered
	Days  []engine.Day
}

// Brief is the first message of a plan: the answer, the coming days, what to mind.
func (s *scheduled) Brief() say.Reply {
	var p say.Page
	head := show.PlanHead(s.Plan, s.Facts.All, s.Role, s.Race)
	p.Add(say.PlainLines(head[:min(2, len(head))]...)...)
	if t := show.TaperOf(s.Plan, s.Role); t != nil && t.Length == planner.LengthOwn {
		p.Addf("%s Why, and the way back: /taper history", words.WhyLength(t).Text)
	}
	if t := show.TaperOf(s.Plan, s.Role); t != nil && t.From <= s.Plan.Today && s.Plan.Today < t.Race.Date {
		p.Addf("%s", strings.TrimSpace(show.DayOfTaper(s.Plan, t)+" "+show.LostDays(s.Plan, t)))
	} else {
		p.Add(lostDays(show.LostDays(s.Plan, t))...)
	}
	p.Add(s.fewWarnings()...)
	p.Gap()
	if all := s.firstDays(shortPlan); len(s.Days) <= shortPlan && len(p.Lines)+len(all) <= mostScreen {
		p.Add(all...)
	} else {
		p.Add(s.firstDays(screenDays)...)
	}
	return s.reply(&p, append(s.wholeButton(), dayButtons(s.Plan.Today, s.Days)...))
}

// whole is every day with its reasons and cautions, and what the taper is expected to bring.
func (s *scheduled) whole() say.Reply {
	var p say.Page
	p.Add(say.PlainLines(show.PlanHead(s.Plan, s.Facts.All, s.Role, s.Race)...)...)
	p.Add(lostDays(show.LostDays(s.Plan, show.TaperOf(s.Plan, s.Role)))...)
	p.Add(warningsOf(s.Plan, s.Role)...)
	p.Gap()
	p.Add(show.Schedule(s.Days)...)
	if from, to, ok := swappable(s.Facts, s.Plan.Today, s.Days); ok {
		p.Gap()
		p.Addf("Swap two days: /plan move from:%s to:%s", from, to)
	}
	return s.reply(&p, dayButtons(s.Plan.Today, s.Days))
}

// lostDays is a line of what a taper lost, none where there is nothing to say.
func lostDays(text string) []say.Line {
	if text == "" {
		return nil
	}
	return []say.Line{say.Linef("%s", text)}
}

func (s *scheduled) reply(p *say.Page, buttons []say.Button) say.Reply {
	return say.Reply{Lines: p.Done(), Date: s.Race.Date, Race: s.Race.Name, Buttons: buttons}
}

// wholeButton leads to every day with its reasons, where the first message lacks some.
func (s *scheduled) wholeButton() []say.Button {
	if len(s.Days) <= shortPlan && show.TaperOf(s.Plan, s.Role) == nil && len(warningsOf(s.Plan, s.Role)) <= screenWarnings {
		return nil
	}
	return []say.Button{{Label: "Whole plan", Command: "plan show", Options: show.ByRace(s.Race, "days", daysAll)}}
}

// fewWarnings are the first warnings of the plan, and how many more there are.
func (s *scheduled) fewWarnings() []say.Line {
	lines := warningsOf(s.Plan, s.Role)
	if more := len(lines) - screenWarnings; more > 0 {
		lines = append(lines[:screenWarnings:screenWarnings], say.Linef("! %s more in the whole plan.", show.Count(more, "warning")))
	}
	return lines
}

// firstDays are the first days with what to mind, and how many more there are.
func (s *scheduled) firstDays(most int) []say.Line {
	first := s.Days[:min(most, len(s.Days))]
	lines := briefDays(first)
	if more := len(s.Days) - len(first); more > 0 {
		line := say.Linef("%s, to %s.", moreFollow(more), s.Days[len(s.Days)-1].Date.Short())
		if s.Race.Date > first[len(first)-1].Date {
			line = say.Linef("%s, among them the race on %s.", moreFollow(more), s.Race.Date.Short())
		}
		lines = append(lines, line)
	}
	return append(lines, show.LongCautions(first)...)
}

// briefDays is a day a line with its short caution; a reason is shown only where a
// day is not of the kind that its rider expects, and once.
func briefDays(days []engine.Day) []say.Line {
	var lines []say.Line
	given, reasons := show.ReasonsGiven{}, 0
	for i := range days {
		d := &days[i]
		lines = append(lines, show.MindedDay(d))
		why := words.Why(d)
		if !surprises(d) || len(why) == 0 || reasons == screenReasons || !given.New(d) {
			continue
		}
		reasons++
		lines = append(lines, say.Linef("  %s", why[0].Text))
	}
	return lines
}

// surprises reports a changed day that is hard, ridden or free where it usually
// is not. A ride that only got shorter explains itself.
func surprises(d *engine.Day) bool {
	if !d.Changed() || d.Phase == planner.RaceDay {
		return false
	}
	usual := engine.Day{Sessions: d.Usual}
	return usual.IsHard() != d.IsHard() || (usual.Minutes() == 0) != (d.Minutes() == 0)
}

// dayButtons lead to the reasons of the first day on the screen that surprises,
// else that changes, and to the first day's session.
func dayButtons(today planner.Date, days []engine.Day) []say.Button {
	days = days[:min(screenDays, len(days))]
	ride := rideButton(today, days[0].Date)
	changed := func(d engine.Day) bool { return d.Changed() && d.Phase != planner.RaceDay }
	for _, worth := range [2]func(engine.Day) bool{func(d engine.Day) bool { return surprises(&d) }, changed} {
		if i := slices.IndexFunc(days, worth); i >= 0 {
			return []say.Button{show.WhyButton(days[i].Date), ride}
		}
	}
	return []say.Button{ride}
}

// moreFollow counts the days below those that are shown.
func moreFollow(days int) string {
	if days == 1 {
		return "1 more day follows"
	}
	return fmt.Sprintf("%d more days follow", days)
}
