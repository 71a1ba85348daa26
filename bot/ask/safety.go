package ask

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner/asked"
	"musette/planner/care"
	"musette/planner/words"
)

// unsure reports parts of which none is about something that is surely understood.
func unsure(parts []asked.Part) bool {
	return !slices.ContainsFunc(parts, func(p asked.Part) bool { return len(p.Offers) == 0 && p.Topic != asked.Unknown })
}

// helpWanted are words of who asks what to do for somebody, or sees it happen.
var helpWanted = regexp.MustCompile(`(?i)\b(?:what (?:do|should|can|must|shall|to)|should (?:i|we|he|she|they)|how (?:do|can|should)|can (?:he|she|they)|help|ambulance|call|collapsed|unconscious|breathing|passed out|lying|has|just|right now)\b`)

// What somebody sees of another who lies there. The tables of care know what people feel.
var (
	another = regexp.MustCompile(`(?i)\b(?:he|hes|she|shes|they|theyre|him|her|them|someone|somebody|one of (?:us|our|my|the)|(?:a|an|the|this|that|another|my|our) (?:\w+ )?(?:rider|guy|bloke|lady|woman|man|girl|boy|lad|mate|clubmate|teammate|friend|kid|cyclist|wife|husband|dad|mum|mom|son|daughter|brother|sister|partner))\b`)
	lies    = regexp.MustCompile(`(?i)\b(?:collapsed|unconscious|(?:not|isnt|isn't|isn’t|stopped) (?:moving|breathing|responding|waking)|(?:wont|won't|won’t|doesnt|doesn't|doesn’t) (?:move|wake|respond)|lying (?:in|on) the (?:road|ground|grass|ditch|floor)|bleeding (?:badly|heavily|a lot|from (?:the|his|her) (?:head|ear|ears|nose))|helmet (?:\w+ )?(?:cracked|broken|broke|split|smashed)|(?:cracked|broke|split|smashed) (?:his|her|their) helmet)\b`)
	helmet  = regexp.MustCompile(`(?i)\bhelmet\b`)
)

// takenForPlan are topics for which "a rider collapsed, what do I do" can be taken.
var takenForPlan = map[asked.Topic]bool{asked.Unknown: true, asked.Ride: true, asked.Rider: true, asked.WhoTapers: true}

// ofOwnPlan reports a part that is surely about the writer's own plan: by its topic, a day or a race.
func ofOwnPlan(p asked.Part) bool {
	return len(p.Offers) == 0 && (!takenForPlan[p.Topic] || p.Topic != asked.Unknown && (len(p.Dates) > 0 || p.Race != nil))
}

// forSomebodyElse says whom to call where somebody other than the writer is in danger.
// Nothing is kept of it.
func (t *talk) forSomebodyElse(text string, parts []asked.Part) (say.Reply, bool) {
	year, _, _ := t.today.Civil()
	f := care.ReadOther(year, text)
	heard := f.Verdict == care.Stop && f.Level >= care.Head && helpWanted.MatchString(text)
	seen := another.MatchString(text) && lies.MatchString(text)
	if !heard && !seen || t.req.Heeded || slices.ContainsFunc(parts, ofOwnPlan) {
		return say.Reply{}, false
	}
	reply := say.Reply{Topic: topicUnknown}
	reply.Addf("! If somebody needs help now, call the emergency number: 112 in Europe, else your local one. Stay with them until help is there.")
	if f.Head || helmet.MatchString(text) {
		reply.Addf("! After a knock on the head they must not ride on, even if they feel fine. A doctor must look at them.")
	}
	reply.Addf("I can only plan your own riding. Your plan stays as it is.")
	return reply, true
}

// heat are words for hot weather.
var heat = regexp.MustCompile(`(?i)\b(?:heat|heatwave|too hot|so hot|very hot|really hot|hot (?:day|weather|out|outside|race|ride|week|weekend)|(?:3[2-9]|4[0-5]) ?(?:degrees?|deg|c|celsius)\b|(?:3[2-9]|4[0-5]) ?°)`)

// inTheHeat answers what to do in hot weather where nothing else is asked.
func (t *talk) inTheHeat(text string, parts []asked.Part) (say.Reply, bool) {
	if _, held := desk.Held(t.facts.Now); held || !heat.MatchString(text) || !unsure(parts) {
		return say.Reply{}, false
	}
	reply := say.Reply{Topic: topicUnknown}
	reply.Addf("Ride early, choose shade, and ride by feel: the same effort is slower in the heat. Move a hard session to a cooler hour, or ride it indoors with a fan.")
	reply.Addf("Whether a race goes ahead is for its organiser and local rules to say. If you are in doubt, do not start.")
	reply.Addf("! %s", words.HeatCaution)
	reply.Buttons = []say.Button{{Label: "Today's session", Command: "ride"}, {Label: "Race morning", Command: "race morning"}}
	return reply, true
}

// What is told of an illness that is long over, of cold weather, and as a figure of speech.
var (
	illness     = regexp.MustCompile(`(?i)\b(?:covid|flu|influenza|cold|bug|virus|ill|sick|fever|pneumonia|bronchitis|infection|tonsillitis|mono)\b`)
	longAgo     = regexp.MustCompile(`(?i)\b(?:(?:years?|months?) (?:ago|back)|last (?:year|season|winter|summer|autumn|fall|spring)|as a (?:kid|child)|when i was (?:young|little|a (?:kid|child)))\b`)
	pastYear    = regexp.MustCompile(`\b(?:19|20)\d\d\b`)
	goesOn      = regexp.MustCompile(`(?i)\b(?:still|since|again|now|keeps?|today|yesterday)\b`)
	coldWeather = regexp.MustCompile(`(?i)\b(?:it(?:s| is|'s|’s| will be|ll be|'ll be)|gonna be|going to be|too) (?:(?:so|very|really|bloody|quite|pretty|freezing|too) )*cold\b|\bcold (?:outside|out there|weather|wind|rain|snap|morning|day)\b`)
	haveCold    = regexp.MustCompile(`(?i)\b(?:a|my|this|bad|heavy|slight|head|caught|catch|catching|got|get|getting|have|having|had|with) cold\b`)
	figure      = regexp.MustCompile(`(?i)\b(?:sprint|climb|ride|move|attack|bike|descent|race|session|finish|effort|kit|jersey|wheels|view) (?:was|is|looks?|looked) (?:(?:so|pretty|absolutely|proper|just|totally) )*(?:sick|ill)\b|\bsick (?:bike|wheels|kit|jersey|descent|climb|sprint|of|and tired)\b`)
	clauses     = regexp.MustCompile(`[^,.;!?\n]*[,.;!?\n]*`)
)

// notIll reads a message anew that was taken for an illness without what tells of none
// that is there now. Danger has been heard before.
func (t *talk) notIll(text string, m asked.Message, known asked.Known) asked.Message {
	if !slices.ContainsFunc(m.Parts, func(p asked.Part) bool { return p.Topic == asked.Sick }) || care.Read(text).Verdict != care.Nothing {
		return m
	}
	year, _, _ := t.today.Civil()
	none := func(clause string) bool {
		outside := coldWeather.MatchString(clause) && !haveCold.MatchString(clause)
		if goesOn.MatchString(clause) {
			return outside
		}
		past := longAgo.MatchString(clause) || slices.ContainsFunc(pastYear.FindAllString(clause, -1), func(y string) bool { n, _ := strconv.Atoi(y); return n < year })
		return past && illness.MatchString(clause) || outside || figure.MatchString(clause)
	}
	var rest strings.Builder
	dropped := false
	for _, clause := range clauses.FindAllString(text, -1) {
		if none(clause) {
			dropped = true
			continue
		}
		rest.WriteString(clause)
	}
	switch {
	case !dropped:
		return m
	case len(strings.Fields(rest.String())) < 2:
		return asked.Read(asked.Unknown.With(text), known)
	}
	return asked.Read(rest.String(), known)
}
