package races

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/raceday"
	"musette/planner/typed"
	"musette/planner/words"
	"musette/storage"
)

// Options beside the race; the answer says what is kept.
const (
	optionTravel = "travel"
	optionZone   = "zone"
	optionKit    = "kit"
	optionWeight = "weight" // not kept
)

func morningRow() command.Command {
	return command.Command{Name: "race morning", Task: command.TaskRaces, Run: raceMorning, Writes: true, Options: []command.Option{command.RaceOption(),
		{Name: optionTravel, Type: "minutes", Example: "45min",
			Description: "How long your way to the start takes: 45min, 1h30. I keep it. none deletes it"},
		{Name: optionZone, Type: "zone", Complete: command.CompleteZone, Example: "Europe/Lisbon",
			Description: "Time zone of the start, if it is not yours. I keep it. none deletes it"},
		{Name: optionKit, Type: "text", Example: "lights; no gloves",
			Description: "What you also pack, or with no before it what you leave out. I keep it. none: the usual list"},
		{Name: optionWeight, Type: "text", Example: "62kg",
			Description: "Your weight, for the food figures of this answer. I do not keep it"}},
		Description: "Race day, counted back from the start: get up, eat, leave, warm up. Food and kit",
		Example:     `race morning race:"Hill Loop" travel:45min`}
}

// morning is a race day that is counted back from its start.
type morning struct {
	race *planner.Race
	on   planner.Date // the race day, a later one of a stage race that goes on
	day  *engine.Day  // as it is planned
	plan *engine.Plan
	week bool // the plan is made from a typical week

	packs []storage.KitItem // otherwise than most
	kilos int               // of the rider, 0 where not given

	start time.Time // zero where it is not known
	way   raceday.Way
	count raceday.Countdown
}

func raceMorning(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	race := facts.Now.NextRace(req.Rider.Today)
	if req.Has("race") {
		found, err := b.RaceOf(ctx, req)
		if err != nil {
			return say.Reply{}, err
		}
		race = &found.Race
	}
	if race == nil {
		return say.Reply{Lines: []say.Line{say.Linef("You have no race to come. Add one: %s", desk.RaceExample(req.Rider.Today))}}, nil
	}
	kilos, err := weightOf(req.Get(optionWeight))
	if err != nil {
		return say.Reply{}, err
	}
	way, err := keepMorning(ctx, b, req, race)
	if err != nil {
		return say.Reply{}, err
	}
	packs, err := keepKit(ctx, b, req)
	if err != nil {
		return say.Reply{}, err
	}
	reply := say.Reply{Date: race.Date, Race: race.Name}
	m := morning{packs: packs, kilos: kilos, race: race, on: race.Date, way: way, week: desk.Planned(facts.Now)}
	results, err := b.DB.Results(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	_, told := results[storage.RaceID(race.ID)]
	if over := m.place(&req, told); over != nil {
		reply.Lines = []say.Line{*over}
		return reply, nil
	}
	m.plan = engine.DeriveUntil(req.Rider.Today, race.Last(), facts.All)
	m.day, _ = m.plan.Day(m.on)
	reply.Date = m.on
	if m.week {
		reply.Buttons = []say.Button{show.PlanButton(race)}
	}
	if m.day.Phase == planner.Health {
		reply.Lines = m.unwell()
		return reply, nil
	}
	m.count = raceday.Count(race, way, !m.start.IsZero() && raceday.Early(m.start))
	reply.Lines, reply.Moments = m.lines(), req.StartOf(race)
	return reply, nil
}

// weightOf reads a weight in kg, 0 for none.
func weightOf(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	number := strings.TrimSpace(strings.TrimSuffix(strings.ToLower(strings.TrimSpace(text)), "kg"))
	kilos, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || !(kilos >= show.LeastKilos && kilos <= show.MostKilos) {
		return 0, say.Refuse(optionWeight, "%s is no weight from %d to %d kg. For example 62kg", say.Shown(text), show.LeastKilos, show.MostKilos)
	}
	return int(math.Round(kilos)), nil
}

// keepMorning keeps what was entered about the way and the zone, and returns the way.
func keepMorning(ctx context.Context, b *desk.Base, req desk.Request, race *planner.Race) (raceday.Way, error) {
	rider, id := req.Rider.Athlete.ID, storage.RaceID(race.ID)
	told, err := b.DB.RaceDay(ctx, rider, id)
	if err != nil {
		return raceday.Way{}, err
	}
	if text := req.Get(optionTravel); strings.EqualFold(text, say.None) {
		told.Travel, told.Way = 0, false
	} else if text != "" {
		if told.Travel, err = typed.Minutes(text); err != nil {
			return raceday.Way{}, say.InField(optionTravel, err)
		}
		told.Way = true
	}
	if text := req.Get(optionZone); strings.EqualFold(text, say.None) {
		told.Zone = ""
	} else if text != "" {
		if told.Zone, err = desk.FindZone(text); err != nil {
			return raceday.Way{}, say.InField(optionZone, err)
		}
	}
	if req.Has(optionTravel) || req.Has(optionZone) {
		if _, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.SetRaceDay(ctx, rider, id, told) }); err != nil {
			return raceday.Way{}, err
		}
	}
	race.Zone = told.Zone
	return raceday.Way{Minutes: told.Travel, Known: told.Way}, nil
}

// place finds the day that is counted back and its start. A race that needs no
// countdown any more is answered with a line, which asks for no result that was told.
func (m *morning) place(req *desk.Request, told bool) *say.Line {
	r, today := m.race, req.Rider.Today
	started := false
	if at, ok := raceday.StartIn(r, show.ZoneOf(r, req.Rider.Zone)); ok {
		m.start, started = at, !at.After(req.Now)
	}
	var line say.Line
	switch {
	case !r.Status.Counts():
		line = say.Linef("You do not race %s on %s. Your other races: /race list", r.Name, r.Date.Long())
	case r.Last() < today, r.Status != planner.Planned:
		line = say.Linef("%s on %s is over. What comes next: /plan show", r.Name, r.Date.Long())
	case told && r.Last() == today:
		line = say.Linef("%s is over. Thank you for saying how it went! What comes next: /plan show", r.Name)
	case r.Days > 1 && (r.Date < today || started):
		m.on, m.start = max(r.Date, today), time.Time{}
		if started && r.Date == today {
			m.on = today.AddDays(1)
		}
		return nil
	case started, r.Date < today:
		line = say.Linef("%s has started. Enjoy it! Afterwards, say how your legs were from 1 to 10: /race result race:%s feeling:7", r.Name, say.Quote(show.RaceKey(r)))
	default:
		return nil
	}
	return &line
}

// unwell is the answer while the rider must not race: no times, no figures.
func (m *morning) unwell() []say.Line {
	var p say.Page
	p.Addf("No countdown for %s on %s: your plan has no training on that day.", m.race.Name, m.on.Short())
	for _, w := range words.Warnings(m.plan) {
		if strings.HasPrefix(w.Code, "health.") && (w.Race == nil || w.Race.ID == m.race.ID) {
			p.Add(show.WarningLine(&w))
		}
	}
	return p.Done()
}

// lines are the countdown, food and drink, the day before, the kit and what to mind.
func (m *morning) lines() []say.Line {
	var p say.Page
	p.Add(m.answer())
	if !m.way.Known {
		p.Addf("Tell me how long you travel to the start, and I add when to leave: /race morning race:%s travel:45min", say.Quote(show.RaceKey(m.race)))
	}
	p.Gap()
	for _, at := range m.count.Moments {
		if !m.sleepsIn(at) {
			p.Add(say.Dayf(m.lead(at), "%s", m.step(at)))
		}
	}
	p.Add(m.night()...)
	p.Gap()
	p.Add(m.before()...)
	p.Add(m.food()...)
	m.kitLines(&p)
	p.Gap()
	p.Addf("! With diabetes, in pregnancy or with an eating disorder, do not eat by these figures. Ask a doctor or dietitian first.")
	for _, c := range words.Cautions(*m.day) {
		p.Addf("! %s", c)
	}
	p.Addf("Sources: food Burke et al. 2011, last meal Wallis & Podlogar 2022, drink ACSM 2007. Plates are from food tables, times and kit common practice.")
	return p.Done()
}

// answer is the first line.
func (m *morning) answer() say.Line {
	name := m.race.Name
	if !show.NamesDay(name, m.on) {
		name += ", " + m.on.Short()
	}
	if m.race.Days > 1 {
		name = fmt.Sprintf("%s, day %d of %d, %s", m.race.Name, m.race.Date.DaysUntil(m.on)+1, m.race.Days, m.on.Short())
	}
	switch {
	case m.start.IsZero() && m.on != m.race.Date:
		return say.Linef("%s: count back from the start, which I know only for the first day.", name)
	case m.start.IsZero():
		return say.Linef("%s: I do not know the start yet. Tell me, for example: /race change race:%s start:10:30", name, say.Quote(show.RaceKey(m.race)))
	}
	var parts []string
	for _, at := range m.count.Moments {
		switch {
		case at.Step == raceday.Wake && !m.sleepsIn(at):
			parts = append(parts, "get up "+m.clock(at))
		case at.Step == raceday.Leave:
			parts = append(parts, "leave "+m.clock(at))
		case at.Step == raceday.Arrive && !m.way.Known:
			parts = append(parts, "be there "+m.clock(at))
		}
	}
	zone := ""
	if m.race.Zone != "" {
		zone = " (" + m.race.Zone + ")"
	}
	return say.Linef("%s: %s, start %s%s.", name, strings.Join(parts, ", "), m.start.Format("15:04"), zone)
}

// at is when a step begins.
func (m *morning) at(step raceday.Moment) time.Time {
	return m.start.Add(-time.Duration(step.Lead) * time.Minute)
}

// clock is the time of a step, with its weekday where that is another day.
func (m *morning) clock(step raceday.Moment) string {
	at := m.at(step)
	if day := planner.DateOf(at); day != planner.DateOf(m.start) {
		return day.Weekday().Short() + " " + at.Format("15:04")
	}
	return at.Format("15:04")
}

// lead is what stands before a step: its time, else how long before the start it is.
func (m *morning) lead(step raceday.Moment) string {
	switch {
	case m.start.IsZero() && step.Lead == 0:
		return fmt.Sprintf("%-12s", "then")
	case m.start.IsZero():
		return fmt.Sprintf("%-12s", planner.Duration(step.Lead)+" before")
	}
	width := len("10:30")
	for _, shown := range m.count.Moments {
		if !m.sleepsIn(shown) {
			width = max(width, len(m.clock(shown)))
		}
	}
	return fmt.Sprintf("%-*s", width, m.clock(step))
}

// sleepsIn reports the getting up of a rider whose start comes late in the day.
func (m *morning) sleepsIn(step raceday.Moment) bool {
	return step.Step == raceday.Wake && !m.start.IsZero() && m.count.SleepsIn(m.start)
}

func (m *morning) step(at raceday.Moment) string {
	switch at.Step {
	case raceday.Wake:
		return "Get up"
	case raceday.Meal:
		most := max(1, min(4, at.Lead/60))
		text := fmt.Sprintf("Last meal: what you eat before long rides, with little fat and fibre. The published advice is %s, %s",
			show.Grams(1, most, m.kilos, ""), show.Bowls(1, most, m.kilos))
		if m.count.Packed {
			text += ". Take it with you, and have breakfast before you leave"
		}
		return text
	case raceday.Leave:
		if m.way.Minutes == 0 {
			return "Leave: the start is next door"
		}
		return fmt.Sprintf("Leave: %s on the way", planner.Duration(m.way.Minutes))
	case raceday.Arrive:
		return "Be there: sign on, pin the number, toilet, check the bike"
	case raceday.WarmUp:
		return fmt.Sprintf("Warm up: %d min easy with a few short efforts", m.count.WarmUp)
	case raceday.LineUp:
		return "Be at the line"
	}
	return "Start"
}

// night is what to know of the night before: clocks that change, a start in the dark.
func (m *morning) night() []say.Line {
	var lines []say.Line
	if shift, ok := raceday.ShiftBefore(m.start); ok && !m.start.IsZero() {
		way, by := "forward", shift.By
		if by < 0 {
			way, by = "back", -by
		}
		lines = append(lines, say.Linef("! The clocks go %s by %s at %s on %s: set your alarm by the new time.", way, planner.Duration(int(by/time.Minute)),
			shift.At.Format("15:04"), planner.DateOf(shift.At).Short()))
	}
	if !m.start.IsZero() {
		switch twice, never := raceday.OddClock(m.race, m.start); {
		case twice:
			lines = append(lines, say.Linef("! %s comes twice in that night, as the clocks go back. These times are for the first: ask which one is meant.", m.race.Start))
		case never:
			lines = append(lines, say.Linef("! %s does not exist in that night, as the clocks go forward. These times are for %s: ask when it starts.", m.race.Start, m.start.Format("15:04")))
		}
	}
	if hour := m.start.Hour(); !m.start.IsZero() && (hour < 5 || hour >= 21) {
		lines = append(lines, say.Linef("It starts at night: sleep an hour or two in the afternoon before, and take lights."))
	}
	return lines
}

// food is what to eat and drink in the race.
func (m *morning) food() []say.Line {
	long := planner.Duration(m.race.Minutes())
	if m.race.Hours <= 0 {
		long = "counted as " + long + ", because you gave no length"
	}
	lines := []say.Line{say.Linef("In the race (%s): %s.", long, show.EatInRace(m.race.Minutes())),
		say.Linef("Drink when you are thirsty, not more: too much water is dangerous. If you weigh more after a race than before it, you drank too much."),
		say.Linef("Take caffeine only as you know it from training, and none under 18, in pregnancy, or with heart or anxiety trouble.")}
	if raceday.Loads(m.race.Minutes()) && m.on == m.race.Date && m.on > m.plan.Today {
		loads := say.Linef("The two days before: %s.", show.EatBefore(m.kilos))
		if m.kilos == 0 {
			loads = say.Linef("The two days before: %s. For your own weight, for example: /race morning weight:62kg", show.EatBefore(0))
		}
		lines = append([]say.Line{loads}, lines...)
	}
	return lines
}

// before is the day before as it is planned, and the openers where they come earlier.
func (m *morning) before() []say.Line {
	if !m.week {
		return []say.Line{say.Linef("The day before, ride short and easy with a few short efforts, or rest. I plan it once I know your week: /week share")}
	}
	var lines []say.Line
	for _, n := range []int{2, 1} {
		d, ok := m.plan.Day(m.on.AddDays(-n))
		if !ok || d.Phase == planner.RaceDay || n == 2 && !show.HasOpeners(d) {
			continue
		}
		text := show.Headline(d) + "."
		for i, s := range d.Sessions {
			if s.Kind == planner.Openers {
				text = fmt.Sprintf("%s They wake your legs. How hard: %s", words.Session(d, i), words.HowHard(s))
			}
		}
		lines = append(lines, say.Linef("%s: %s", d.Date.Short(), text))
	}
	return lines
}
