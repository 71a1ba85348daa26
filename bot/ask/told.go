package ask

import (
	"strconv"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/care"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/planner/words"
)

// propose offers a command for what somebody told; nothing is stored before the press.
func (t *talk) propose(line, label, command string, options map[string]string, p *asked.Part) (say.Reply, error) {
	reply := say.Reply{}
	if day, ok := t.day(p); ok {
		reply.Date = day
	}
	if p.Race != nil {
		reply.Race = p.Race.Name
	}
	var page say.Page
	page.Addf("%s", line)
	reply.Offer(&page, label, command, options)
	reply.Lines = page.Done()
	return reply, nil
}

// planned is what a day holds, in a few words.
func (t *talk) planned(day planner.Date) string {
	if d := t.plannedDay(day); d != nil {
		return show.Headline(d)
	}
	return ""
}

// plannedDay is a day as it is planned, nil where there is no plan of it.
func (t *talk) plannedDay(day planner.Date) *engine.Day {
	switch {
	case !desk.Planned(t.facts.Now):
		return nil
	case day < t.today:
		return desk.Unlogged(t.facts, day)
	}
	if d, ok := t.planUntil(day).Day(day); ok {
		return d
	}
	return nil
}

// missed is a session that was not ridden.
func (t *talk) missed(p *asked.Part) (say.Reply, error) {
	day, ok := t.day(p)
	if !ok {
		day = t.today.AddDays(-1)
		if holds(p, "this morning,today,overslept,slept in,tonight") {
			day = t.today
		}
	}
	if day > t.today {
		return t.maySkipOn(day)
	}
	reply := say.Reply{Date: day}
	var page say.Page
	page.Addf("Do not make it up: what is missed stays missed, and no day gets longer or harder for it.")
	was := t.planned(day)
	d := desk.Unlogged(t.facts, day)
	switch {
	case was == "":
		page.Addf("I mean %s. Not saved yet.", day.Long())
	case d != nil && d.Phase == planner.Tapering:
		page.Addf("%s had %s, inside your taper. The days after it stay as they are. Not saved yet.", day.Long(), was)
	default:
		page.Addf("%s had %s. One session less costs little. Not saved yet.", day.Long(), was)
	}
	if d != nil && d.Race != nil {
		reply.Race = d.Race.Name
	}
	reply.Offer(&page, "Note it as missed", "tell missed", map[string]string{"day": day.String()})
	reply.Lines = page.Done()
	reply.Buttons = append(reply.Buttons, say.Button{Label: "Today's session", Command: "ride"})
	return reply, nil
}

func (t *talk) maySkipOn(day planner.Date) (say.Reply, error) {
	if d, ok := t.planUntil(day).Day(day); ok && desk.Planned(t.facts.Now) {
		return t.maySkip(d), nil
	}
	return t.req.NeedWeek(), nil
}

// away is a day on which somebody cannot ride, or has little time.
func (t *talk) away(p *asked.Part) (say.Reply, error) {
	from, to, ok := p.Stretch()
	if day, named := t.day(p); named && !ok {
		from, to, ok = day, day, true
	}
	if !ok {
		reply := say.Reply{}
		reply.Addf("On which days can you not ride?")
		reply.Addf("For example: I am away from Thursday to Sunday. Or: only 45 min on Friday.")
		return reply, nil
	}
	if p.Minutes > 0 && from == to && !holds(p, "away,holiday,travelling,flying") {
		line := "Not saved yet. At most " + planner.Duration(p.Minutes) + " on " + from.Long() + "."
		if was := t.planned(from); was != "" {
			line += " Planned: " + was + "."
		}
		return t.propose(line, "At most "+planner.Duration(p.Minutes), "tell limit", map[string]string{"day": from.String(), "minutes": strconv.Itoa(p.Minutes)}, p)
	}
	options := map[string]string{"from": from.String()}
	days := "on " + from.Long()
	label := "Keep " + from.Short() + " free"
	if to > from {
		options["to"] = to.String()
		days = "from " + from.Long() + " to " + to.Long()
		label = "Keep these days free"
	}
	if holds(p, "travelling,traveling,flying,flight,travel") {
		options["kind"] = "travel"
	}
	line := "Not saved yet. You cannot ride " + days + "."
	if was := t.planned(from); was != "" && from == to {
		line += " Planned: " + was + "."
	}
	return t.propose(line, label, "tell away", options, p)
}

// toldRide is a ride that somebody did.
func (t *talk) toldRide(p *asked.Part) (say.Reply, error) {
	day, ok := t.day(p)
	if !ok {
		day = t.today
		if holds(p, "last night") {
			day--
		}
	}
	if day > t.today {
		reply := say.Reply{Date: day}
		reply.Addf("%s is still to come. Tell me of a ride when it is done.", day.Long())
		return reply, nil
	}
	if far, minutes, ok := typed.Distance(p.Text); ok && p.Minutes == 0 {
		reply := say.Reply{Date: day}
		reply.Addf("Not saved yet. %s is a distance, and rides count by their time: how long did it take you?", far)
		reply.Addf("For example: %s", say.CommandLine("done", map[string]string{"day": day.String(), "minutes": planner.Duration(minutes)}))
		return reply, nil
	}
	if d := t.plannedDay(day); d != nil && p.Minutes == 0 && d.Minutes() == 0 {
		reply := say.Reply{Date: day}
		reply.Addf("Not saved yet. No ride is planned on %s: how long did you ride?", day.Long())
		reply.Addf("For example: %s", say.CommandLine("done", map[string]string{"day": day.String(), "minutes": "45min"}))
		if stop, held := desk.NotTraining(t.facts.Now, t.today); held {
			reply.Lines, reply.Buttons = append(stop.Lines, reply.Lines...), stop.Buttons
		}
		return reply, nil
	}
	options := map[string]string{"day": day.String()}
	did := "as planned"
	if p.Minutes > 0 {
		options["minutes"] = strconv.Itoa(p.Minutes)
		did = planner.Duration(p.Minutes)
	} else if was := t.planned(day); was != "" {
		did = "as planned (" + was + ")"
	}
	if p.RPE > 0 {
		options["rpe"] = strconv.FormatFloat(p.RPE, 'f', -1, 64)
		did += ", effort " + options["rpe"] + " of 10"
	}
	p.Race = nil
	reply, err := t.propose("Not saved yet. You rode on "+day.Long()+": "+did+".", "Note this ride", "done", options, p)
	reply.Date = day
	if holds(p, "awful,terrible,bad,heavy,dead,horrible,rubbish") && err == nil {
		reply.Addf("One bad ride says little. If legs stay heavy for days, or you feel ill, tell me.")
	}
	return reply, err
}

// symptoms are what /tell sick can be told, as they are found in a text.
const symptoms = "fever,cough,sore throat,runny nose,headache,stomach,vomiting,flu,cold,covid,aches,shivers"

// sick is an illness: rest first, and a proposal where the command is there.
func (t *talk) sick(p *asked.Part) (say.Reply, error) {
	if t.isOver(p) {
		return t.over(p)
	}
	if holds(p, "husband,wife,partner,son,daughter,kid,kids,child,mother,father,dog,boyfriend,girlfriend,friend") && !holds(p, "i") {
		reply := say.Reply{}
		reply.Addf("I hope it passes soon. I plan for you alone, so nothing changes.")
		reply.Addf("If you cannot ride because of it, tell me the days, for example: I cannot ride tomorrow.")
		return reply, nil
	}
	line := words.CareAnswer(care.Finding{Verdict: care.Stop, Level: care.Rest})
	if care.Read(p.Text).Level == care.Easy || holds(p, "cold,sniffle,sniffles") && !holds(p, "fever,temperature,cough,chest,flu,aches,shivers,vomiting") {
		line = words.CareAnswer(care.Finding{Verdict: care.Stop, Level: care.Easy})
	}
	options := symptomsOf(p)
	return t.health(line, "I am ill", "tell sick", "since", options, p)
}

// symptomsOf is the option of the symptoms that a part names, none where it names none.
func symptomsOf(p *asked.Part) map[string]string {
	options := map[string]string{}
	var found []string
	for _, s := range strings.Split(symptoms, ",") {
		if holds(p, s) {
			found = append(found, s)
		}
	}
	if len(found) > 0 {
		options["symptoms"] = strings.Join(found, ", ")
	}
	return options
}

// redFlag answers who has said that it is about signs of danger: training is held back.
func (t *talk) redFlag(*asked.Part) (say.Reply, error) {
	if t.req.Heeded { // what to do is said already
		return say.Reply{Topic: string(asked.Sick), Date: t.today}, nil
	}
	return t.run("tell sick", map[string]string{"symptoms": "chest pain or fainting"})
}

// injury is something that hurts.
func (t *talk) injury(p *asked.Part) (say.Reply, error) {
	return t.health("If riding hurts, do not ride: rest it, and have it looked at if it is severe, gets worse or lasts.", "I am injured", "tell injured", "since", nil, p)
}

// health is an answer to what is told of health, with the command for it.
func (t *talk) health(line, label, command, dayOption string, options map[string]string, p *asked.Part) (say.Reply, error) {
	reply := say.Reply{Date: t.today}
	if t.req.Heeded {
		reply.Addf("Not saved yet. Press the button, and I change your plan.")
		return reply, nil
	}
	var page say.Page
	page.Addf("%s", line)
	page.Addf("%s", words.Emergency)
	if t.has(command, dayOption) {
		if options == nil {
			options = map[string]string{}
		}
		if day, ok := t.day(p); ok && day <= t.today {
			options[dayOption] = day.String()
		}
		page.Addf("Not saved yet. Press the button, and I change your plan.")
		reply.Offer(&page, label, command, options)
	} else {
		page.Addf("To keep today free: /tell away from:%s", t.today)
		reply.Buttons = []say.Button{{Label: "Keep today free", Command: "tell away", Options: map[string]string{"from": t.today.String()}}}
	}
	reply.Lines = page.Done()
	return reply, nil
}

// overload is a block of more training.
func (t *talk) overload(p *asked.Part) (say.Reply, error) {
	from, to, ok := p.Stretch()
	if ok && from < to && !holds(p, "should,shall,can,is,does,would,did") {
		percent := p.Percent
		if percent == 0 {
			percent = 20
		}
		line := "Not saved yet. A block from " + from.Long() + " to " + to.Long() + ", " + strconv.Itoa(percent) + " % more than usual."
		return t.propose(line, "Note the block", "tell block", map[string]string{"from": from.String(), "to": to.String(), "percent": strconv.Itoa(percent)}, p)
	}
	reply := say.Reply{Date: t.today}
	reply.Addf("A block of 2 weeks with about 20 %% more can help, if it ends in time: a taper of %d days follows it.", engine.BlockDays)
	reply.Addf("You do not have to do one. Stop it if you sleep badly, feel ill or your legs stay heavy. Source: Aubry et al. 2014, Thomas & Busso 2005.")
	reply.Addf("To plan one: /tell block from:%s to:%s percent:20", t.today.AddDays(1), t.today.AddDays(14))
	if race := t.goal(); race != nil {
		reply.Race = race.Name
		reply.Buttons = []say.Button{show.PlanButton(race)}
	}
	return reply, nil
}
