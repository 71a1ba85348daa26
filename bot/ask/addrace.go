package ask

import (
	"regexp"
	"strconv"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/typed"
)

var (
	letterBehind = regexp.MustCompile(`(?i)\b(?:priority|prio)\s*:?\s*([abc])\b`)
	letterBefore = regexp.MustCompile(`\b([BCbc])[ -](?:race|event|priority|goal)\b|(?:\s|^[Mm]y )(A)[ -](?:[Rr]ace|[Ee]vent|[Pp]riority|[Gg]oal)\b|^(A)[ -](?:[Rr]ace|[Ee]vent|[Gg]oal)\s*[,:]|\b[Aa]n ([Aa])\b|\b(?:as|is|it's|its|be|as a|is a|be a|it's a|its a|a) ([bcBC])\b|,\s*([abcABC])\s*(?:[,.]|$)|\s([BC])(?:[\s,.]|$)|\s(A)(?:[,.?!]|$|\s+\d)`)
)

// longestRace is how many days a stage race goes on at most, where somebody tells of one.
const longestRace = 21

// startsAt finds when a race starts.
var startsAt = regexp.MustCompile(`(?i)\b(?:start|starts|starting|start is|off|gun)(?: time)?(?: is)?(?: at)? (\d{1,2}(?:[:.]\d{2})? ?(?:am|pm)?|\d{1,2}h\d{0,2})\b`)

// lettersTold are words for a priority.
var lettersTold = []struct{ letter, words string }{
	{"C", "training race|just for training|as training|not important|not so important|not very important|unimportant|only for fun|for fun"},
	{"A", "most important|importan|my goal is|big one|big un|main thing|principal race|principal goal|main goal|main race|target race|goal of the|goal race|big goal|really important"},
}

// priorityIn is the letter of a priority that a text names, "" where it names none.
func priorityIn(text string) string {
	if m := letterBehind.FindStringSubmatch(text); m != nil {
		return strings.ToUpper(m[1])
	}
	if m := letterBefore.FindStringSubmatch(text); m != nil {
		return strings.ToUpper(strings.Join(m[1:], ""))
	}
	return letterOf(text)
}

// letterOf is the priority that words say: my big one is an A race.
func letterOf(text string) string {
	low := strings.ToLower(text)
	for _, told := range lettersTold { // in this order: not important holds important
		for _, w := range strings.Split(told.words, "|") {
			if strings.Contains(low, w) {
				return told.letter
			}
		}
	}
	return ""
}

var raceWord = regexp.MustCompile(`(?i)\b(?:crit(?:erium)?|time trial|tt|road race|fondo|sportive|hill climb|race)\b`)

// unknownRace is the race for which somebody asks who has entered none: I want to taper for a crit on 27 June.
func (t *talk) unknownRace(p *asked.Part) string {
	day, ok := t.day(p)
	if !ok || day <= t.today || p.Race != nil || len(t.ahead()) > 0 || !ofOneRace[p.Topic] && p.Topic != asked.Plan && p.Topic != asked.Overload {
		return ""
	}
	if word := raceWord.FindString(p.Text); word != "" {
		return say.UpperFirst(word)
	}
	return ""
}

// addRace makes a race of what was entered. What is lacking is asked for.
func (t *talk) addRace(p *asked.Part) (say.Reply, error) {
	name, letter := p.NewRace, or(priorityIn(p.Text), letterOf(p.Mended()))
	day, end, dated := p.Stretch()
	if end > day && (day.DaysUntil(end) > longestRace || holds(p, "weekend,month")) {
		day, end, dated = 0, 0, false // some time in July, at the weekend
	}
	reply := say.Reply{Date: day, Race: name}
	switch {
	case name == "" && p.Race != nil && !dated:
		return t.nextRace(p)
	case name == "" && p.Race != nil:
		name = p.Race.Name
	}
	var page say.Page
	if !dated || name == "" {
		return t.lacking(name, day, dated), nil
	}
	reply.Race = name
	for _, r := range t.ahead() {
		if show.SameName(r.Name, name) && r.Date == day {
			page.Addf("%s on %s is in your calendar already (%s).", r.Name, r.Date.Long(), r.Priority)
			reply.Lines, reply.Buttons = page.Done(), []say.Button{show.PlanButton(r)}
			return reply, nil
		}
	}
	options, told := raceTold(p, name, day, end)
	if letter != "" {
		options["priority"] = letter
		page.Addf("Not saved yet. I would add %s, %s race.", told, article(letter))
		reply.Offer(&page, "Add "+show.CutTo(name, show.MostName), "race add", options)
		reply.Lines = page.Done()
		return reply, nil
	}
	page.Addf("Not saved yet. %s: how much does it matter to you?", told)
	page.Addf("A: you taper for it. B: a few easier days. C: you ride it as training.")
	for _, l := range []string{"A", "B", "C"} {
		with := map[string]string{"priority": l}
		for k, v := range options {
			with[k] = v
		}
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Add as " + l, Command: "race add", Options: with})
	}
	reply.Lines = page.Done()
	return reply, nil
}

// raceTold is what was told of a race: the options that enter it, and the words that say it back.
func raceTold(p *asked.Part, name string, day, end planner.Date) (options map[string]string, told string) {
	options = map[string]string{"name": name, "date": day.String()}
	told = name + " on " + day.Long()
	if p.Minutes > 0 && p.Minutes <= planner.MaxRaceHours*60 {
		options["hours"] = strconv.FormatFloat(float64(p.Minutes)/60, 'f', -1, 64)
		if _, err := typed.Hours(options["hours"], 1); err != nil {
			delete(options, "hours")
		} else {
			told += ", " + planner.Duration(p.Minutes)
		}
	}
	if end > day {
		options["end"] = end.String()
		told += " to " + end.Long()
	}
	if m := startsAt.FindStringSubmatch(p.Text); m != nil {
		if start, err := typed.Start(m[1]); err == nil {
			options["start"] = start
			told += ", start " + start
		}
	}
	if kind, mended := typed.RaceKindIn(p.Text); kind != "" {
		options["kind"] = kind
		if mended {
			told += ", " + kind + " as I read it"
		}
	}
	return options, told
}

// lacking asks for what a new race lacks: its name, its day or both.
func (t *talk) lacking(name string, day planner.Date, dated bool) say.Reply {
	lacking := "which day it is"
	if name == "" {
		lacking = "what it is called"
		if !dated {
			lacking = "what it is called and which day it is"
		}
	}
	var page say.Page
	page.Addf("To add a race, I need to know %s.", lacking)
	page.Addf("For example: I race Canal Loop on %s, it is an A race, 3 hours.", dayMonth(t.today.AddDays(28)))
	page.Addf("Or as a command: /race add name:%s date:%s priority:A", say.Quote(or(name, "Canal Loop")), or(dayText(day), t.today.AddDays(28).String()))
	return say.Reply{Date: day, Lines: page.Done(), Race: name}
}

func article(letter string) string {
	if letter == "A" {
		return "an A"
	}
	return "a " + letter
}

func or(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}

func dayText(d planner.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

func dayMonth(d planner.Date) string {
	_, month, day := d.Civil()
	return strconv.Itoa(day) + " " + month.String()
}
