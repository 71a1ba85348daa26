package ask

import (
	"regexp"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// tapered is the taper of the race that a part is about. Where there is none the
// reply says so.
func (t *talk) tapered(p *asked.Part) (*planner.Race, *engine.Plan, *engine.Taper, say.Reply) {
	race := t.aim(p)
	if race == nil {
		return nil, nil, nil, t.noRace()
	}
	if reply, ok := desk.NotTraining(t.facts.Now, t.today); ok {
		return nil, nil, nil, reply
	}
	if !desk.Planned(t.facts.Now) {
		return nil, nil, nil, t.req.NeedWeek()
	}
	plan, role := t.planOf(race)
	if taper := show.TaperOf(plan, role); taper != nil {
		return race, plan, taper, say.Reply{}
	}
	reply := say.Reply{Date: race.Date, Race: race.Name, Buttons: []say.Button{show.PlanButton(race)}}
	reply.Addf("%s (%s, %s) has no taper of its own. %s", race.Name, race.Priority, race.Date.Short(), show.Window(plan, role, race))
	if race.Priority != planner.PriorityA {
		reply.Addf("Only A races are tapered for: a taper costs training days.")
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Make it an A race", Command: "race priority", Options: withPriority(race, "A")})
	}
	return nil, nil, nil, reply
}

func withPriority(r *planner.Race, priority string) map[string]string {
	options := raceOption(r)
	options["priority"] = priority
	return options
}

func (t *talk) taperStart(p *asked.Part) (say.Reply, error) {
	race, plan, taper, reply := t.tapered(p)
	if taper == nil {
		return reply, nil
	}
	reply.Date, reply.Race = taper.From, race.Name
	if taper.From <= t.today {
		reply.Addf("Your taper for %s began on %s. %s", race.Name, taper.From.Long(), show.DayOfTaper(plan, taper))
	} else {
		reply.Addf("Your taper for %s starts on %s, %s.", race.Name, taper.From.Long(), inDays(t.today, taper.From))
	}
	reply.Addf("%s", words.WhyLength(taper).Text)
	reply.Buttons = []say.Button{show.PlanButton(race), {Label: "Other lengths", Command: "plan options", Options: raceOption(race)}}
	return reply, nil
}

func (t *talk) taperLength(p *asked.Part) (say.Reply, error) {
	race, _, taper, reply := t.tapered(p)
	if taper == nil {
		return reply, nil
	}
	reply.Date, reply.Race = taper.From, race.Name
	reply.Addf("Your taper for %s is %s long, %s.", race.Name, show.Count(taper.Days, "day"), show.Span(taper.From, race.Date.AddDays(-1), t.today))
	reply.Addf("%s", words.WhyLength(taper).Text)
	if holds(p, "longer,shorter,instead,want,can i,could i,may i,change,make") && t.has("race change", "taper") {
		reply.Addf("You may choose its length yourself, from %d to %d days: /race change race:%s taper:10", planner.MinTaperDays, planner.MaxTaperDays, say.Quote(show.RaceKey(race)))
	}
	reply.Buttons = []say.Button{{Label: "Compare lengths", Command: "plan options", Options: raceOption(race)}, show.PlanButton(race)}
	return reply, nil
}

// raceLegs is how fresh and fit a rider will be.
func (t *talk) raceLegs(p *asked.Part) (say.Reply, error) {
	race, plan, taper, reply := t.tapered(p)
	if taper == nil {
		return reply, nil
	}
	reply.Date, reply.Race = race.Date, race.Name
	e := season.Expect(plan, t.facts.All, taper)
	if e == nil {
		reply.Addf("I cannot tell for %s: there is too little training in your usual week.", race.Name)
		return reply, nil
	}
	reply.Addf("On the morning of %s, %s, you keep %.0f %% of your fitness and have shed %.0f %% of your fatigue.", race.Name, race.Date.Short(), 100*e.Kept, 100*e.Shed)
	reply.Addf("So I expect you to be %s.", show.Compared(e.Gain, "faster", "slower", "than without a taper"))
	reply.Addf("%s", show.Uncertain)
	reply.Buttons = []say.Button{{Label: "Compare lengths", Command: "plan options", Options: raceOption(race)}, show.PlanButton(race)}
	return reply, nil
}

// nextRace is when the next race is, or the one that is named.
func (t *talk) nextRace(p *asked.Part) (say.Reply, error) {
	race, ahead := t.race(p), t.ahead()
	if from, to, ok := p.Stretch(); ok && race == nil {
		for _, r := range ahead {
			if r.Date <= to && r.Last() >= from {
				race = r
			}
		}
		if race == nil && len(ahead) > 0 {
			reply := say.Reply{Date: from}
			reply.Addf("You have no race on %s.", show.Span(from, to, t.today))
			reply.Addf("The next one is %s on %s.", ahead[0].Name, ahead[0].Date.Long())
			reply.Buttons = []say.Button{show.PlanButton(ahead[0])}
			return reply, nil
		}
	}
	if race == nil && len(ahead) > 0 {
		race = ahead[0]
	}
	if race == nil {
		return t.noRace(), nil
	}
	reply := say.Reply{Date: race.Date, Race: race.Name}
	is := "is"
	if race.Last() < t.today {
		is = "was"
	}
	reply.Addf("%s %s on %s, %s.", race.Name, is, race.Date.Long(), inDays(t.today, race.Date))
	about := strings.TrimSuffix(strings.Replace(show.DescribeRace(race), " on "+race.Date.Long(), "", 1), ".")
	reply.Addf("It %s %s%s.", is, article(race.Priority.String()), strings.TrimPrefix(about, race.Priority.String()))
	for _, r := range ahead {
		if r != race && r.Priority == planner.PriorityA && race.Priority != planner.PriorityA {
			reply.Addf("Your next A race is %s on %s.", r.Name, r.Date.Short())
			break
		}
	}
	reply.Moments = t.req.StartOf(race)
	reply.Buttons = []say.Button{show.PlanButton(race)}
	return reply, nil
}

// asksLetter asks which priority a race has.
var asksLetter = regexp.MustCompile(`(?i)\b(?:letter|grade|graded|priority)\b|\ba? ?[abc] or (?:an? )?[abc]\b|\ban a\b`)

// letterMeans is what a race of a priority gets.
var letterMeans = map[planner.Priority]string{planner.PriorityA: "You taper for an A race.", planner.PriorityB: "A B race gets a few easier days.", planner.PriorityC: "You ride a C race as training."}

// races are the rider's races to come.
func (t *talk) races(p *asked.Part) (say.Reply, error) {
	if holds(p, "who,club,anyone,everybody,others") {
		return t.run("race list", map[string]string{})
	}
	if race := t.race(p); race != nil {
		reply, err := t.nextRace(p)
		if err == nil && asksLetter.MatchString(p.Text) {
			reply.Addf("%s", letterMeans[race.Priority])
		}
		return reply, err
	}
	ahead := t.ahead()
	if len(ahead) == 0 {
		return t.noRace(), nil
	}
	reply := say.Reply{Date: ahead[0].Date, Race: ahead[0].Name}
	reply.Addf("You have %s to come. The next is %s on %s.", show.Count(len(ahead), "race"), ahead[0].Name, ahead[0].Date.Long())
	const most = 15
	for _, r := range ahead[:min(len(ahead), most)] {
		reply.Addf("- %s %s (%s)", show.Dated(r.Date, t.today), r.Name, r.Priority)
	}
	if len(ahead) > most {
		reply.Addf("And %d more: /me show", len(ahead)-most)
	}
	reply.Buttons = []say.Button{show.PlanButton(ahead[0]), {Label: "The club's races", Command: "race list"}}
	return reply, nil
}

// season is the verdict on the season, or a new priority as a proposal.
func (t *talk) season(p *asked.Part) (say.Reply, error) {
	race := t.race(p)
	letter := priorityIn(p.Text)
	tells := holds(p, "make,change,turn,downgrade,upgrade,set") && !holds(p, "should,shall,what if,would,why")
	if race != nil && letter != "" && tells {
		return t.propose("Not saved yet. Make "+race.Name+" a race of priority "+letter+"?", "Make it "+letter, "race priority", withPriority(race, letter), p)
	}
	reply, err := t.run("season check", map[string]string{})
	if err != nil || race == nil {
		return reply, err
	}
	reply.Race, reply.Date = race.Name, race.Date
	reply.Lines = append(letterNow(race), reply.Lines...)
	for i := range reply.Buttons {
		if reply.Buttons[i].Command == "season apply" {
			reply.Buttons[i].Label = "Apply the season's change"
		}
	}
	for _, other := range []string{"A", "B"} {
		if race.Priority.String() != other {
			reply.Buttons = append(reply.Buttons, say.Button{Label: "Make " + show.RaceName(race) + " " + other, Command: "race priority", Options: withPriority(race, other)})
		}
	}
	return reply, nil
}

// letterNow says what a race is now and what another letter would bring, before the verdict on
// the whole season.
func letterNow(race *planner.Race) []say.Line {
	lines := []say.Line{say.Linef("%s is %s race now. %s", race.Name, withArticle(race.Priority), letterMeans[race.Priority])}
	var others []string
	for _, p := range []planner.Priority{planner.PriorityA, planner.PriorityB, planner.PriorityC} {
		if p != race.Priority {
			others = append(others, letterMeans[p])
		}
	}
	return append(lines, say.Linef("%s Choose by how much the race matters to you.", strings.Join(others, " ")), say.Headingf("Your season as a whole:"))
}

// withArticle is a priority with its article: an A, a B.
func withArticle(p planner.Priority) string {
	if p == planner.PriorityA {
		return "an A"
	}
	return "a " + p.String()
}

// afterRace is what comes behind a race.
func (t *talk) afterRace(p *asked.Part) (say.Reply, error) {
	race := t.race(p)
	for i := range t.facts.Now.Races {
		if r := &t.facts.Now.Races[i]; race == nil && r.Last() < t.today && r.Last().AddDays(show.AfterDays) >= t.today {
			race = r
		}
	}
	if race == nil {
		race = t.goal()
	}
	if race == nil {
		return t.noRace(), nil
	}
	if reply, ok := desk.NotTraining(t.facts.Now, t.today); ok {
		return reply, nil
	}
	if !desk.Planned(t.facts.Now) {
		return t.req.NeedWeek(), nil
	}
	from := max(race.Last().AddDays(1), t.today)
	days := t.days(from, from.AddDays(9))
	last := 0
	hard := planner.Date(0)
	for i := range days {
		if days[i].Phase == planner.Recovering {
			last = i
		}
		if hard.IsZero() && days[i].IsHard() {
			hard = days[i].Date
		}
	}
	reply := say.Reply{Date: from, Race: race.Name}
	first := &days[0]
	reply.Addf("After %s: %s on %s.", race.Name, show.SessionsLabel(first.Sessions, first.Race), first.Date.Short())
	if !hard.IsZero() {
		reply.Addf("The first hard day is %s. Until then you ride easily: the race is still in your legs.", hard.Short())
	} else {
		reply.Addf("Ride nothing hard in these days: the race is still in your legs.")
	}
	reply.Gap()
	for i := 0; i <= min(last+1, len(days)-1); i++ {
		reply.Lines = append(reply.Lines, show.DayLine(&days[i]))
	}
	reply.Buttons = []say.Button{show.WhyButton(first.Date), show.PlanButton(race)}
	return reply, nil
}

// raceMorning is how race day begins.
func (t *talk) raceMorning(p *asked.Part) (say.Reply, error) {
	race := t.race(p)
	if ahead := t.ahead(); race == nil && len(ahead) > 0 {
		race = ahead[0]
		if goal := t.goal(); p.Offset == nil && !holds(p, "next") && goal != nil {
			race = goal
		}
	}
	return t.run("race morning", raceOption(race))
}
