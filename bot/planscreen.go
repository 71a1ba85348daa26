package bot

import (
	"slices"

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
	plan  *engine.Plan
	facts ledger
	role  planner.RaceRole
	race  *planner.Race // as it was told
	days  []engine.Day
}

// brief is the first message of a plan: the answer, the coming days, what to mind.
func (s *scheduled) brief() Reply {
	var p page
	head := planHead(s.plan, s.facts.all, s.role, s.race)
	p.add(plainLines(head[:2]...)...)
	if t := taperOf(s.plan, s.role); t != nil && t.From <= s.plan.Today && s.plan.Today < t.Race.Date {
		p.addf("%s", dayOfTaper(s.plan, t))
	}
	p.add(s.fewWarnings()...)
	p.gap()
	if all := s.firstDays(shortPlan); len(s.days) <= shortPlan && len(p.lines)+len(all) <= mostScreen {
		p.add(all...)
	} else {
		p.add(s.firstDays(screenDays)...)
	}
	return s.reply(&p, append(s.wholeButton(), dayButtons(s.plan.Today, s.days)...))
}

// whole is every day with its reasons and cautions, and what the taper is expected to bring.
func (s *scheduled) whole() Reply {
	var p page
	p.add(plainLines(planHead(s.plan, s.facts.all, s.role, s.race)...)...)
	p.add(warningsOf(s.plan, s.role)...)
	p.gap()
	p.add(Schedule(s.days)...)
	if from, to, ok := swappable(s.facts, s.plan.Today, s.days); ok {
		p.gap()
		p.addf("Swap two days: /plan move from:%s to:%s", from, to)
	}
	return s.reply(&p, dayButtons(s.plan.Today, s.days))
}

func (s *scheduled) reply(p *page, buttons []Button) Reply {
	return Reply{Lines: p.done(), Date: s.race.Date, Race: s.race.Name, Buttons: buttons}
}

// wholeButton leads to every day with its reasons, where the first message lacks some.
func (s *scheduled) wholeButton() []Button {
	if len(s.days) <= shortPlan && taperOf(s.plan, s.role) == nil && len(warningsOf(s.plan, s.role)) <= screenWarnings {
		return nil
	}
	options := raceNamed(s.race)
	options["days"] = daysAll
	return []Button{{Label: "Whole plan", Command: "plan show", Options: options}}
}

// fewWarnings are the first warnings of the plan, and how many more there are.
func (s *scheduled) fewWarnings() []Line {
	lines := warningsOf(s.plan, s.role)
	if more := len(lines) - screenWarnings; more > 0 {
		lines = append(lines[:screenWarnings:screenWarnings], Say("! %s more in the whole plan.", count(more, "warning")))
	}
	return lines
}

// firstDays are the first days with what to mind, and how many more there are.
func (s *scheduled) firstDays(most int) []Line {
	first := s.days[:min(most, len(s.days))]
	lines := briefDays(first)
	if more := len(s.days) - len(first); more > 0 {
		lines = append(lines, Say("The whole plan has %s more, to %s.", count(more, "day"), s.days[len(s.days)-1].Date.Short()))
	}
	return append(lines, longCautions(first)...)
}

// briefDays is a day a line with its short caution; a reason stands only where a
// day is not of the kind that its rider expects, and once.
func briefDays(days []engine.Day) []Line {
	var lines []Line
	explained := map[engine.Code]bool{}
	for i := range days {
		d := &days[i]
		line := dayLine(d)
		line.Mind = words.ShortCaution(d)
		line.Flag = line.Mind != ""
		lines = append(lines, line)
		why := words.Why(d)
		if !surprises(d) || len(why) == 0 || len(explained) == screenReasons || explained[d.Causes[0].Code] {
			continue
		}
		explained[d.Causes[0].Code] = true
		lines = append(lines, Say("  %s", why[0].Text))
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

// longCautions are the cautions of days in full, each once, behind an empty line.
func longCautions(days []engine.Day) []Line {
	var said []string
	lines := []Line{{Kind: Gap}}
	for i := range days {
		for _, c := range words.Cautions(&days[i]) {
			if !slices.Contains(said, c) {
				said = append(said, c)
				lines = append(lines, Say("! %s", c))
			}
		}
	}
	if len(said) == 0 {
		return nil
	}
	return lines
}

// dayButtons lead to the reasons of the first day on the screen that surprises,
// else that changes, and to the first day's session.
func dayButtons(today planner.Date, days []engine.Day) []Button {
	days = days[:min(screenDays, len(days))]
	ride := rideButton(today, days[0].Date)
	changed := func(d engine.Day) bool { return d.Changed() && d.Phase != planner.RaceDay }
	for _, worth := range [2]func(engine.Day) bool{func(d engine.Day) bool { return surprises(&d) }, changed} {
		if i := slices.IndexFunc(days, worth); i >= 0 {
			return []Button{whyButton(days[i].Date), ride}
		}
	}
	return []Button{ride}
}

// whyButton says why a day is planned as it is.
func whyButton(day planner.Date) Button {
	return Button{Label: "Why " + day.Short() + "?", Command: "plan why", Options: map[string]string{"day": day.String()}}
}
