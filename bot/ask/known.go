package ask

import (
	"regexp"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/words"
)

// meaning is what a word of plans means, in two lines.
type meaning struct {
	pattern       *regexp.Regexp
	first, second string
}

func means(pattern, first, second string) meaning {
	return meaning{regexp.MustCompile(`(?i)\b(?:` + pattern + `)\b`), first, second}
}

// meanings are told in this order: the first that fits is said. docs/answers.md has
// their sources.
var meanings = []meaning{
	means(`openers?`, "Openers are a short easy ride on the day before a race, with a few short efforts: three to five of 20 to 60 seconds, never all-out.", "They wake the legs up and cost nothing. This is common practice: we know of no study of openers before road races."),
	means(`rpe|by feel|perceived|out of (?:10|ten)`, "RPE is how hard a ride feels, from 1 (very easy) to 10 (all that you have).", "Rate the whole ride half an hour after it: easy 2 to 3, hard sessions 8 to 9. Source: Foster 1998."),
	means(`taper`, "A taper is the last days before a race: about half of your time goes, the hard parts stay hard, and you ride on nearly all your days.", "Fatigue goes faster than fitness, so you start fresh. Source: Bosquet et al. 2007."),
	means(`priority|[abc] race|races`, "You taper for an A race. A B race gets a few easier days. You ride a C race as training.", "A taper costs training, so keep A for the races that matter most."),
	means(`power|watts?|heart rate|pulse|bpm|zones?|threshold|ftp`, "Ride by feel (RPE): hard parts 8 to 9 of 10, steady 3 to 4, easy 2.", "Fixed shares of a highest pulse or power misplace many riders. If you know your own tested numbers, hard is at or above your threshold and easy well below it."),
	means(`5x\d|\d+ ?x ?\d+|sets?|reps?|repetitions|rest between|between the`, "5x3min means five hard parts of 3 minutes, with easy riding between them.", "Rest as long as a hard part of up to 3 minutes took you, and half as long after a longer one. Ride each part as hard as the last. If you fade, you began too fast."),
	means(`easy|recovery`, "Easy means that you can talk in whole sentences: 2 to 3 of 10.", "If in doubt go slower. Easy days make the hard ones possible."),
	means(`steady|endurance|tempo|base`, "Steady means below your threshold: you can talk, in short sentences. That is 3 to 4 of 10.", "Ride your long and endurance rides like that. In the last days before a race they become easy."),
	means(`hard|intervals?|all out|all-out|strong|push`, "Hard means 8 to 9 of 10: you can say a word or two, and you could ride one more part at the end.", "Never go all-out: the last part should be as fast as the first. Do not ride hard when you are ill. "+words.Emergency),
	means(`pace|effort|fast`, "Ride by feel: easy is 2 to 3 of 10, steady 3 to 4, hard 8 to 9.", "Each planned day says how hard it is."),
}

// howHard says how hard a day is, or what a word means.
func (t *talk) howHard(p *asked.Part) (say.Reply, error) {
	if _, ok := t.day(p); ok {
		return t.run("ride", t.dayOption(p))
	}
	reply := say.Reply{}
	for _, text := range asksTwo.Split(p.Text, 2) { // what is RPE, and how hard is hard?
		i := slices.IndexFunc(meanings, func(m meaning) bool { return m.pattern.MatchString(text) })
		if i < 0 {
			continue
		}
		lines := say.PlainLines(meanings[i].first, meanings[i].second)
		if more := (say.Reply{Lines: lines}); len(reply.Lines) > 0 && !saidAlready(reply, more) {
			reply.Gap()
			reply.Lines = append(reply.Lines, lines...)
		} else if len(reply.Lines) == 0 {
			reply.Lines = lines
		}
	}
	if len(reply.Lines) == 0 {
		return t.run("ride", map[string]string{})
	}
	reply.Buttons = []say.Button{{Label: "Today's session", Command: "ride"}}
	return reply, nil
}

// asksTwo is where a second word is asked about.
var asksTwo = regexp.MustCompile(`(?i)(?:[,.?!]| and) +(?:and )?(?:what|how) `)

// flatLegs explains heavy legs, looks at log and plan, and changes nothing.
func (t *talk) flatLegs(p *asked.Part) (say.Reply, error) {
	reply := say.Reply{Date: t.today}
	t.restOn(&reply, p)
	reply.Addf("Flat or heavy legs for a few days are common, most of all early in a taper. They say little about race day.")
	plan := t.planUntil(t.today)
	if d, ok := plan.Day(t.today); ok && desk.Planned(t.facts.Now) {
		switch {
		case d.Phase == planner.RaceDay && d.Race != nil:
			reply.Race = d.Race.Name
			reply.Addf("Today is %s. Many riders feel flat until they are warm: warm up and see. If you feel ill, do not start.", d.Race.Name)
		case d.Phase == planner.Tapering && d.Race != nil:
			reply.Race = d.Race.Name
			reply.Addf("You are %s before %s: fatigue is leaving and the body rests. Do not add hard riding to test your legs.", show.Count(t.today.DaysUntil(d.Race.Date), "day"), d.Race.Name)
		case d.Phase == planner.Recovering && d.Race != nil:
			reply.Race = d.Race.Name
			reply.Addf("You are in the days after %s. Keep them easy, it passes.", d.Race.Name)
		default:
			reply.Addf("Hard or long rides, short nights or little food are the usual reasons.")
		}
		t.logged(&reply)
		reply.Addf("Your plan for today is %s. It stays as it is.", show.Careful(d))
	}
	reply.Addf("If it lasts over a week, your sleep is bad or you feel ill: rest, and see a doctor. Source: common practice.")
	if d, ok := t.planUntil(t.today).Day(t.today); t.has("tell tired", "day") && (!ok || d.Minutes() > 0 && d.Phase != planner.RaceDay) {
		reply.Buttons = append(reply.Buttons, say.Button{Label: "An easier today", Command: "tell tired", Options: map[string]string{"day": t.today.String()}})
	}
	reply.Buttons = append(reply.Buttons, say.Button{Label: "Today's session", Command: "ride"})
	return reply, nil
}

// restOn answers whether a day with heavy legs is for rest.
func (t *talk) restOn(reply *say.Reply, p *asked.Part) {
	day, dated := t.day(p)
	if !dated {
		day = t.today
	}
	if day < t.today || !desk.Planned(t.facts.Now) || !holds(p, "should,shall,can,may,do i,ok,better") || !holds(p, "rest,skip,off,ride,train,easy,easier,session,intervals") {
		return
	}
	d, ok := t.planUntil(day).Day(day)
	if !ok || d.Phase == planner.Health || d.Phase == planner.RaceDay {
		return
	}
	reply.Date = day
	switch {
	case d.Minutes() == 0:
		reply.Addf("%s is a rest day in any case.", day.Short())
	case d.IsHard():
		reply.Addf("Warm up on %s and see: if your legs are no better after 15 minutes, ride easily and leave the hard part out (%s).", day.Short(), show.Headline(d))
	default:
		reply.Addf("You may rest on %s, or ride it easily: %s is planned, and one easy ride less does little harm.", day.Short(), show.Headline(d))
	}
}

// logged says what was ridden in the last week, beside what is usual.
func (t *talk) logged(reply *say.Reply) {
	rides := slices.DeleteFunc(slices.Clone(t.facts.Now.Done), func(r planner.Ride) bool {
		return r.Date < t.today.AddDays(-7) || r.Date >= t.today
	})
	if len(rides) == 0 {
		reply.Addf("You logged no ride in the last 7 days, so I see only what was planned.")
		return
	}
	minutes, usual, hardest := 0, 0, rides[0]
	for _, r := range rides {
		minutes += r.Minutes
		if r.RPE > hardest.RPE {
			hardest = r
		}
	}
	for _, d := range t.days(t.today.AddDays(-7), t.today.AddDays(-1)) {
		for _, s := range d.Usual {
			if s.Kind.IsRide() {
				usual += int(s.Minutes)
			}
		}
	}
	text := "In the last 7 days you logged " + planner.Duration(minutes) + ", in your usual week it is " + planner.Duration(usual) + "."
	if hardest.RPE >= hardRide {
		text += " " + hardest.Date.Short() + " was hard for you."
	}
	reply.Addf("%s", text)
}

// hardRide is from which rating on a ride was hard.
const hardRide = 7

// sleep is what is known of sleep before races.
func (t *talk) sleep(p *asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	if holds(p, "badly,bad,slept,couldn't,couldnt,can't,cant,awake,nerves,insomnia,only,crap") {
		reply.Addf("One bad night does little harm: the sleep of the whole week counts, and most riders sleep badly before a race.")
		reply.Addf("If you cannot sleep, stay in bed and rest. Ride as planned if you feel well, and easier if you do not.")
	} else {
		reply.Addf("Sleep 8 hours or more in race week, and stay in bed up to an hour longer than usual. A nap of 20 to 30 minutes is fine.")
		reply.Addf("In a small trial cyclists who slept more for three nights rode a time trial of an hour about 3 %% faster, those who slept less about 3 %% slower.")
	}
	reply.Addf("If you sleep badly for weeks, see a doctor. Sources: Roberts et al. 2019 (9 cyclists), common practice.")
	reply.Buttons = []say.Button{{Label: "Today's session", Command: "ride"}}
	return reply, nil
}

// food is what is known of food and drink.
func (t *talk) food(p *asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	race := t.aim(p)
	if race != nil {
		reply.Date, reply.Race = race.Date, race.Name
	}
	switch {
	case holds(p, "coffee,caffeine"):
		reply.Addf("A coffee or two about an hour before the start is fine if you are used to it. More helps no more.")
		reply.Addf("If you are under 18 or pregnant, or have heart trouble or anxiety, leave it out and ask a doctor.")
	case holds(p, "beer,alcohol,wine"):
		reply.Addf("Better not in the last days: alcohol costs you sleep and water. One glass some days before does little harm.")
		reply.Addf("Drink none on the eve of the race.")
	case holds(p, "weight,diet,lose,less,calories,gain"):
		reply.Addf("Do not diet in a taper. Eat to hunger: what you store now you ride with.")
		reply.Addf("A little more on the scales before a race is mostly stored carbohydrate and water.")
	case holds(p, "drink,water,hydrate,hydration,bottles,bottle,sodium,salt"):
		reply.Addf("Drink to thirst, before and in the race, and take a bottle more when it is hot.")
		reply.Addf("More than thirst asks for is no help and can be dangerous.")
	case holds(p, "after,afterwards,recover,recovery") && !holds(p, "before,eve"):
		reply.Addf("After a race eat a normal meal with plenty of carbohydrate and some protein within two hours, and drink to thirst.")
		reply.Addf("Only who races again within a day needs more: about 1 g of carbohydrate per kilo of body weight in each of the first four hours.")
	case holds(p, "during,gels,gel,per hour,on the bike,in the race"):
		if race != nil {
			reply.Addf("In %s (%s): %s.", race.Name, planner.Duration(race.Minutes()), show.EatInRace(race.Minutes()))
		} else {
			reply.Addf("In a race of three hours: %s.", show.EatInRace(180))
			reply.Addf("In one of an hour: %s.", show.EatInRace(60))
		}
	case race != nil && race.Date == t.today && race.Minutes() > 90:
		reply.Addf("Today is %s: eat a meal you know 1 to 4 hours before the start, and nothing new.", race.Name)
		reply.Addf("In the race (%s): %s.", planner.Duration(race.Minutes()), show.EatInRace(race.Minutes()))
	case race != nil && race.Minutes() <= 90:
		reply.Addf("For %s (%s) your normal food is enough, with a meal you know 1 to 4 hours before the start.", race.Name, planner.Duration(race.Minutes()))
		reply.Addf("Loading up on carbohydrate helps only where a race lasts over 90 minutes.")
	default:
		reply.Addf("Until the last two days eat as usual. Then, before a race of over 90 minutes, %s.", show.EatBefore(0))
		reply.Addf("Eat a meal you know 1 to 4 hours before the start, and nothing new on race day.")
	}
	reply.Addf("If you are ill, have diabetes or allergies, or worry about eating, ask a doctor. Sources: docs/answers.md, consensus figures on sports nutrition.")
	if race != nil {
		reply.Buttons = []say.Button{show.PlanButton(race)}
	}
	return reply, nil
}

// medicine goes to who knows.
func (t *talk) medicine(*asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	reply.Addf("Please ask a doctor or a pharmacist: I do not advise on medicine or supplements.")
	reply.Addf("Tell them that you race, since some are banned in competition. Do not ride hard when you are ill or in pain.")
	reply.Buttons = []say.Button{{Label: "Today's session", Command: "ride"}}
	return reply, nil
}

func (t *talk) calendar(p *asked.Part) (say.Reply, error) {
	return t.run("plan calendar", raceOption(t.race(p)))
}

func (t *talk) thanks(*asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	reply.Addf("You are welcome. Ride well.")
	return reply, nil
}

// help is what the bot can do, or the command for what somebody wants to do.
func (t *talk) help(p *asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	switch {
	case holds(p, "delete,erase,data,forget me") && t.has("me erase"):
		reply.Addf("What I keep of you: /me show")
		reply.Addf("A copy of it: /me export")
		reply.Addf("To delete it all: /me erase")
		return reply, nil
	case holds(p, "reminder,reminders,remind"):
		reply.Addf("Set when I remind you, for example: /me set remind:06:30")
		reply.Addf("To stop: /me set remind:off")
		return reply, nil
	case holds(p, "my week,set week,change week"):
		reply.Addf("Tell me your week, for example: my week is tue intervals 1h, thu group 1h30, sat long 3h.")
		reply.Addf("Or as a command: /week share week:%s", say.Quote(desk.ExampleWeek))
		reply.Buttons = t.req.WeekForm()
		return reply, nil
	}
	return t.run("help", map[string]string{})
}
