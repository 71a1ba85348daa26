package ask

import (
	"context"
	"slices"
	"strings"

	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/words"
)

// talk is one message on its way to an answer.
type talk struct {
	ctx   context.Context
	base  *desk.Base
	req   desk.Request
	facts desk.Ledger
	rows  []command.Command
	last  *asked.Part
	about *planner.Race // that the answer before in the same message was about
	today planner.Date
}

// Topics of replies that no question has.
const topicUnknown = string(asked.Unknown)

func answer(ctx context.Context, b *desk.Base, req desk.Request, rows []command.Command) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	t := &talk{ctx: ctx, base: b, req: req, facts: facts, rows: rows, today: req.Rider.Today}
	if reply, ok := afterHealth(facts.Now, req.Get(Question)); ok {
		return reply, nil
	}
	t.last = b.Talks.Last(req.Rider, req.Now)
	if reply, ok := t.barely(req.Get(Question)); ok {
		return reply, nil
	}
	known := asked.Known{Today: t.today, Races: facts.Now.Races, Last: t.last, Judged: req.Heeded}
	if known.Riders, err = t.riders(); err != nil {
		return say.Reply{}, err
	}
	text := req.Get(Question)
	m := t.notIll(text, asked.Read(text, known), known)
	switch {
	case m.Long:
		return t.plainly("That is a long message. Ask me one thing in a sentence or two, please."), nil
	case m.Foreign != asked.English:
		return say.Reply{Topic: topicUnknown, Lines: say.PlainLines(inTheirWords[m.Foreign]...)}, nil
	case len(m.Parts) == 0:
		return t.plainly("I read words only. What would you like to know?"), nil
	}
	if reply, ok, err := t.raceOver(text, m.Parts); ok || err != nil {
		return reply, err
	}
	parts := t.withOver(text, m.Parts, known)
	if reply, ok := t.forSomebodyElse(text, parts); ok {
		return reply, nil
	}
	if reply, ok := t.inTheHeat(text, parts); ok {
		return reply, nil
	}
	if req.Heeded && onlyHealth(parts) {
		t.remember(&parts[len(parts)-1])
		return say.Reply{Topic: string(parts[0].Topic), Topics: []string{string(parts[0].Topic)}}, nil // who heeds it says the rest
	}
	return t.answerAll(parts)
}

// onlyHealth reports parts that tell of an illness or an injury and of nothing else.
func onlyHealth(parts []asked.Part) bool {
	return !slices.ContainsFunc(parts, func(p asked.Part) bool { return len(p.Offers) > 0 || p.Topic != asked.Sick && p.Topic != asked.Injury })
}

// healthFirst leaves only what is about health where somebody tells of an illness or
// an injury: no ride is named beside it.
func healthFirst(parts []asked.Part) []asked.Part {
	unwell := func(p asked.Part) bool { return p.Topic == asked.Sick || p.Topic == asked.Injury }
	if !slices.ContainsFunc(parts, unwell) {
		return parts
	}
	return slices.DeleteFunc(slices.Clone(parts), func(p asked.Part) bool { return !unwell(p) && p.Topic != asked.Medicine })
}

// plainly is a short answer to what is no question, with what can be asked.
func (t *talk) plainly(text string) say.Reply {
	reply := say.Reply{Topic: topicUnknown}
	reply.Addf("%s", text)
	reply.Addf("For example: what do I ride tomorrow? When does my taper start? May I do the group ride on Thursday?")
	reply.Addf("Commands work too: /ride, /plan show, /plan why. All of them: /help")
	reply.Buttons = []say.Button{{Label: "Today's session", Command: "ride"}, {Label: "Help", Command: "help"}}
	return reply
}

// answerAll answers the parts of a message in their order.
func (t *talk) answerAll(parts []asked.Part) (say.Reply, error) {
	var all say.Reply
	for i := range parts {
		p := &parts[i]
		t.sameRace(p)
		reply, err := t.part(p)
		if err != nil {
			if reply, err = t.refused(p, err); err != nil {
				return say.Reply{}, err
			}
		}
		if reply.Topic == "" {
			reply.Topic = string(p.Topic)
		}
		t.keepRace(p, reply.Race)
		if i == 0 {
			all = reply
			all.Topics = nil
		} else if !saidAlready(all, reply) {
			all.Gap()
			all.Lines = append(all.Lines, reply.Lines...)
			all.Buttons = append(all.Buttons, reply.Buttons[:min(len(reply.Buttons), 2)]...)
			all.Files = append(all.Files, reply.Files...)
			if all.Date.IsZero() {
				all.Date = reply.Date
			}
			if all.Race == "" {
				all.Race = reply.Race
			}
		}
		if !slices.Contains(all.Topics, reply.Topic) {
			all.Topics = append(all.Topics, reply.Topic)
		}
	}
	all.Buttons = apart(all.Buttons)
	t.remember(&parts[len(parts)-1])
	return all, nil
}

// ofOneRace are topics whose answer is about one race, named or not.
var ofOneRace = map[asked.Topic]bool{asked.TaperStart: true, asked.TaperLength: true, asked.RaceLegs: true, asked.RaceMorning: true, asked.AfterRace: true, asked.NextRace: true}

// sameRace takes the race of the question before in the same message.
func (t *talk) sameRace(p *asked.Part) {
	if t.about != nil && p.Race == nil && len(p.Dates) == 0 && len(p.Offers) == 0 && ofOneRace[p.Topic] && p.Topic != asked.NextRace && !p.OtherRace() {
		p.Race = t.about
	}
}

// keepRace remembers which race an answer was about, so that "the other race" is another one.
func (t *talk) keepRace(p *asked.Part, name string) {
	if name == "" || len(p.Offers) > 0 || !ofOneRace[p.Topic] {
		return
	}
	for _, r := range t.ahead() {
		if r.Name == name {
			t.about = r
			if p.Race == nil {
				p.Race = r
			}
			return
		}
	}
}

// saidAlready reports whether an answer holds all lines of another: the ride of a day
// and how hard it is are one.
func saidAlready(all, reply say.Reply) bool { return strings.Contains(all.Text(), reply.Text()) }

// mostAgain is how many buttons of an answer may ask again.
const mostAgain = 3

// apart leaves out buttons that come twice, and those that ask again once there are enough.
func apart(buttons []say.Button) []say.Button {
	var out []say.Button
	again := 0
	for _, b := range buttons {
		if slices.ContainsFunc(out, func(o say.Button) bool { return o.Label == b.Label }) {
			continue
		}
		if b.Command == Name {
			if again++; again > mostAgain {
				continue
			}
		}
		out = append(out, b)
	}
	return out
}

// refused words the fault of a command that was given for a question.
func (t *talk) refused(p *asked.Part, err error) (say.Reply, error) {
	fault, ref := say.UserError(err, "", false)
	if ref != "" {
		return say.Reply{}, err
	}
	if len(fault.Line.Spans) > 0 && fault.Line.Spans[0].Kind == say.Words {
		fault.Line.Spans[0].Text = say.UpperFirst(fault.Line.Spans[0].Text)
	}
	return say.Reply{Topic: string(p.Topic), Lines: []say.Line{fault.Line}}, nil
}

// remember keeps what the talk is about now.
func (t *talk) remember(p *asked.Part) {
	if p.Topic == asked.Thanks || p.Topic == asked.Unknown || len(p.Offers) > 0 {
		return
	}
	kept := *p
	if p.Topic == asked.Why && t.last != nil && p.Follow {
		kept.Topic = t.last.Topic
	}
	t.base.Talks.Keep(t.req.Rider, kept, t.req.Now)
}

// handlers answer a part by its topic.
func handlers() map[asked.Topic]func(*talk, *asked.Part) (say.Reply, error) {
	return map[asked.Topic]func(*talk, *asked.Part) (say.Reply, error){
		asked.Ride: (*talk).ride, asked.Plan: (*talk).plan, asked.Hours: (*talk).hours, asked.Why: (*talk).why, asked.HowHard: (*talk).howHard,
		asked.TaperStart: (*talk).taperStart, asked.TaperLength: (*talk).taperLength, asked.RaceLegs: (*talk).raceLegs, asked.AfterRace: (*talk).afterRace,
		asked.NextRace: (*talk).nextRace, asked.Races: (*talk).races, asked.Season: (*talk).season, asked.RaceMorning: (*talk).raceMorning,
		asked.MayI: (*talk).mayI, asked.Missed: (*talk).missed, asked.Away: (*talk).away, asked.TellRide: (*talk).toldRide, asked.AddRace: (*talk).addRace,
		asked.Sick: (*talk).sick, asked.Injury: (*talk).injury, asked.Overload: (*talk).overload, asked.Week: (*talk).week,
		asked.FlatLegs: (*talk).flatLegs, asked.Strength: (*talk).strength, asked.Sleep: (*talk).sleep, asked.Food: (*talk).food, asked.Medicine: (*talk).medicine,
		asked.RedFlag: (*talk).redFlag, asked.WhoTapers: (*talk).whoTapers, asked.Rider: (*talk).rider, asked.Calendar: (*talk).calendar, asked.Thanks: (*talk).thanks, asked.Help: (*talk).help,
	}
}

// part answers one part, or asks what it means.
func (t *talk) part(p *asked.Part) (say.Reply, error) {
	if reply, ok, err := t.changesRace(p); ok || err != nil {
		return reply, err
	}
	if len(p.Offers) > 0 {
		return t.which(p), nil
	}
	for _, s := range p.Dates {
		if s.Ask != nil {
			return t.whichDay(p, s), nil
		}
	}
	if len(p.Others) > 0 {
		return t.whichRace(p), nil
	}
	if reply, held := t.heldBack(p); held {
		return reply, nil
	}
	if name := t.unknownRace(p); name != "" {
		p.NewRace = name
		return t.addRace(p)
	}
	if handle := handlers()[p.Topic]; handle != nil {
		return handle(t, p)
	}
	return t.plainly("I am not sure what you mean, and I do not guess."), nil
}

// ofTraining are topics whose answers name rides to come.
var ofTraining = []asked.Topic{asked.Ride, asked.Plan, asked.Hours, asked.Why, asked.HowHard, asked.TaperStart, asked.TaperLength, asked.RaceLegs, asked.AfterRace, asked.RaceMorning,
	asked.Season, asked.MayI, asked.Overload, asked.FlatLegs, asked.Strength, asked.Unknown}

// heldBack answers for all that is about riding while training is held back: days that
// are over may be asked about.
func (t *talk) heldBack(p *asked.Part) (say.Reply, bool) {
	if _, held := desk.Held(t.facts.Now); !held || !slices.Contains(ofTraining, p.Topic) {
		return say.Reply{}, false
	}
	if _, to, ok := p.Stretch(); ok && to < t.today && p.Topic != asked.Why {
		return say.Reply{}, false
	}
	return desk.NotTraining(t.facts.Now, t.today)
}

// which asks what a part is about, with at most three buttons.
func (t *talk) which(p *asked.Part) say.Reply {
	reply := say.Reply{Topic: topicUnknown}
	reply.Addf("I am not sure that I understand. Which is it?")
	for _, topic := range p.Offers {
		reply.Addf("- %s", asks[topic])
		reply.Buttons = append(reply.Buttons, say.Button{Label: asks[topic], Command: Name, Options: map[string]string{Question: topic.With(p.Text)}})
	}
	if slices.Contains(p.Offers, asked.RedFlag) {
		reply.Addf("! %s", words.Emergency)
	}
	reply.Addf("None of these? Say it in other words, or see /ride, /plan show, /help")
	return reply
}

// whichDay asks which day is meant.
func (t *talk) whichDay(p *asked.Part, s asked.Span) say.Reply {
	reply := say.Reply{Topic: string(p.Topic)}
	reply.Addf("Which day do you mean?")
	for _, r := range s.Ask[:min(len(s.Ask), 3)] {
		reply.Addf("- %s", r.Label)
		reply.Buttons = append(reply.Buttons, say.Button{Label: r.Label, Command: Name, Options: map[string]string{Question: p.Topic.With(p.Written(s, r.Value))}})
	}
	return reply
}

// whichRace asks which race is meant.
func (t *talk) whichRace(p *asked.Part) say.Reply {
	reply := say.Reply{Topic: string(p.Topic)}
	reply.Addf("Which race do you mean?")
	races := []*planner.Race{p.Race}
	for _, i := range p.Others[:min(len(p.Others), 2)] {
		races = append(races, &t.facts.Now.Races[i])
	}
	for _, r := range races {
		label := r.Name + ", " + r.Date.Long()
		reply.Addf("- %s", label)
		reply.Buttons = append(reply.Buttons, say.Button{Label: label, Command: "plan show", Options: show.ByRace(r)})
	}
	return reply
}

// asks are the topics as a person would ask about them.
var asks = map[asked.Topic]string{
	asked.Ride: "What you ride on a day", asked.Plan: "Your plan", asked.TaperStart: "When your taper starts", asked.TaperLength: "How long your taper is", asked.Hours: "How many hours you ride",
	asked.MayI: "Whether you may do something", asked.Why: "Why a day is as it is", asked.HowHard: "How hard to ride, or what a word means", asked.NextRace: "When your next race is", asked.Races: "Your races",
	asked.Missed: "A session that you missed", asked.Sick: "You are ill", asked.Injury: "Something hurts", asked.RedFlag: "Chest pain, fainting or another sign of danger", asked.Away: "A day on which you cannot ride", asked.Season: "Your season and its priorities",
	asked.Overload: "A big block before the taper", asked.FlatLegs: "Your legs feel flat", asked.AfterRace: "The days after a race", asked.RaceMorning: "Race morning", asked.Strength: "Strength work",
	asked.Sleep: "Sleep", asked.Food: "Food and drink", asked.RaceLegs: "How fresh you will be", asked.AddRace: "A new race", asked.WhoTapers: "Who tapers", asked.Rider: "One of your riders",
	asked.Unknown:  "Something else",
	asked.Calendar: "A calendar file", asked.Medicine: "Medicine", asked.Help: "What I can do", asked.TellRide: "A ride that you did", asked.Week: "Your usual week",
}
