package ask

import (
	"regexp"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/care"
	"musette/planner/words"
)

// Words of somebody who says that a doctor has cleared them, and those that take it back.
var (
	cleared    = regexp.MustCompile(`\b(cleared|all clear|signed (me )?off (as fit|fit|to ride|to train)|passed (me )?fit|fit to ride|green light|(said|says) (i can|i may|its ok|it's ok|it is ok|im ok|i'm ok|im fine|i'm fine))\b`)
	byDoctor   = regexp.MustCompile(`\b(doctor|doc|docs|gp|dr|physician|consultant|cardiologist|neurologist|surgeon|hospital|clinic|medic|nurse|specialist)\b`)
	notCleared = regexp.MustCompile(`\b(not|never|isnt|isn't|hasnt|hasn't|didnt|didn't|wont|won't|until|unless|before|when|if|without|what)\b`)
)

// clears reports a line that says that a doctor has cleared its writer.
func clears(text string) bool {
	text = strings.ReplaceAll(strings.ToLower(text), "\u2019", "'")
	return cleared.MatchString(text) && (byDoctor.MatchString(text) || strings.Contains(text, "clear")) && !notCleared.MatchString(text)
}

// wellAgain is a whole line that says no more than that its writer is well.
var wellAgain = regexp.MustCompile(`^(ok |hey |hi |good news |yes )*(i am |i'm |im |i feel |i'm feeling |im feeling |feeling |feel |all )?(much |all |fully |totally |completely )*(better|well|fine|healthy|recovered|good|back to normal)( again| now| today)*$`)

// takesBack are words of somebody who did not mean it, or not of themselves.
var takesBack = regexp.MustCompile(`\b(joke|joking|kidding|misread|misunderst\w*|false alarm|not me|wasn'?t me|isn'?t me|not about me|didn'?t mean|that was my \w+|it was my \w+|it's my \w+|its my \w+)\b`)

// isWell reports such a line.
func isWell(text string) bool {
	text = strings.ReplaceAll(strings.ToLower(text), "\u2019", "'")
	return wellAgain.MatchString(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return (r < 'a' || r > 'z') && r != '\'' }), " "))
}

// afterHealth answers somebody who does not train for their health and says that it is
// over: the command that says so is offered, nothing ends by the line.
func afterHealth(f *planner.Facts, text string) (reply say.Reply, ok bool) {
	h, held := desk.Held(f)
	switch {
	case held && clears(text):
		return show.Stopped(say.Linef("If a doctor has cleared you, say so by the button or the command below. Then your plan comes back."), h.Level), true
	case held && takesBack.MatchString(strings.ReplaceAll(strings.ToLower(text), "\u2019", "'")):
		return show.Stopped(say.Linef("If I misread you, say so by the button or the command below. Then your plan comes back."), h.Level), true
	case held && isWell(text):
		return show.Stopped(say.Linef("Good to hear. Training stays held back until a doctor has cleared you."), h.Level), true
	case desk.OpenIllness(f) == nil || !isWell(text):
		return reply, false
	}
	var p say.Page
	p.Addf("Good to hear. Start easily: an illness takes its time to leave.")
	p.Addf("%s", words.Emergency)
	p.Addf("Not saved yet. Press the button, and I change your plan.")
	reply.Offer(&p, "I am well again", "tell well", nil)
	reply.Lines = p.Done()
	reply.Topic, reply.Topics = "sick", []string{"sick"}
	return reply, true
}

// isOver reports an illness that is told and over.
func (t *talk) isOver(p *asked.Part) bool {
	return care.Read(t.req.Get(Question)).Over || holds(p, "better,well again,well now,i'm well,im well,i am well,fine now,fine again,recovered,gone,healthy") &&
		!holds(p, "not better,no better,not well,not gone,not recovered,not healthy,isn't better,isnt better,not fully")
}

// takesTime is what to do once an illness is over.
const takesTime = "Rest until you have been well for " + words.WellFor + ", then start easily: an illness takes its time to leave."

// over answers who has been ill and is well. What was never told as an illness can be told now.
func (t *talk) over(p *asked.Part) (say.Reply, error) {
	if h, held := desk.Held(t.facts.Now); held {
		return show.Stopped(say.Linef("Good to hear. Training stays held back until a doctor has cleared you."), h.Level), nil
	}
	line := "Good to hear. " + takesTime
	if cold := holds(p, "cold,cold's,sniffles,sniffle,nose,throat"); cold && !holds(p, "fever,temperature,cough,chest,flu,aches,stomach") {
		line = "Good to hear. Start easily: an illness takes its time to leave."
	}
	day, ok := t.day(p)
	if ill := desk.OpenIllness(t.facts.Now); ill != nil {
		since := *p
		if !ok || day <= ill.From || !holds(p, "since") {
			since.Dates = nil // the day is one on which they were ill
		}
		return t.health(line, "I am well again", "tell well", "day", nil, &since)
	}
	if !ok || day >= t.today {
		day = t.today.AddDays(-1)
	}
	reply := say.Reply{Date: t.today}
	var page say.Page
	page.Addf("%s", line)
	page.Addf("%s", words.Emergency)
	page.Addf("Not saved yet. To plan your days back, note that you were ill, then say that you are well: /tell well")
	options := symptomsOf(p)
	options["since"] = day.String()
	reply.Offer(&page, "I was ill", "tell sick", options)
	reply.Lines = page.Done()
	return reply, nil
}

// toldFirst are topics whose answer would be another one had the illness been told.
var toldFirst = map[asked.Topic]bool{asked.Ride: true, asked.MayI: true, asked.HowHard: true, asked.Plan: true, asked.Hours: true, asked.Missed: true, asked.Strength: true, asked.Sick: true, asked.Unknown: true}

// withOver answers an illness that is over before what is asked besides: a ride waits for what was told of it. Of other
// illnesses only what is about health is answered.
func (t *talk) withOver(text string, parts []asked.Part, known asked.Known) []asked.Part {
	if !care.Read(text).Over {
		return healthFirst(parts)
	}
	ill := asked.Read(asked.Sick.With(text), known).Parts
	if len(parts) == 1 && len(parts[0].Offers) > 0 {
		return ill
	}
	return append(ill, slices.DeleteFunc(slices.Clone(parts), func(p asked.Part) bool { return toldFirst[p.Topic] || len(p.Offers) > 0 })...)
}
