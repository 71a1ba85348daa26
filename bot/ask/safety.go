package ask

import (
	"regexp"
	"slices"

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
	if f.Verdict != care.Stop || f.Level < care.Head || t.req.Heeded || !helpWanted.MatchString(text) || slices.ContainsFunc(parts, ofOwnPlan) {
		return say.Reply{}, false
	}
	reply := say.Reply{Topic: topicUnknown}
	reply.Addf("! If somebody needs help now, call the emergency number: 112 in Europe, else your local one. Stay with them until help is there.")
	if f.Head {
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
