package life

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/care"
	"musette/planner/words"
	"musette/storage"
)

// What is offered for symptoms and injuries; other words are read too.
var (
	offeredSymptoms = []string{"fever", "cough", "sore throat", "head cold", "stomach upset", "aches all over", "headache", "unwell",
		"chest pain or fainting", "knock to the head", "told to rest by a doctor"}
	offeredInjuries = []string{"knee", "lower back", "ankle", "hip", "shoulder", "wrist", "muscle strain", "cuts and bruises", "broken bone", "knock to the head"}
)

// trouble is an illness or an injury as its rows name it.
type trouble struct {
	injury             bool
	command, option    string
	noun, state, again string
	topic              string // of questions about it
	undo               string // how the way back is called where the bot has read it by itself
}

var (
	illness = trouble{injury: false, command: "tell sick", option: "symptoms", noun: "illness", state: "ill", again: "fever", topic: "sick"}
	injury  = trouble{injury: true, command: "tell injured", option: "what", noun: "injury", state: "injured", again: "knee", topic: "injury"}
)

func tellSick(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	return illness.tell(ctx, b, req)
}

func tellInjured(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	return injury.tell(ctx, b, req)
}

// tell keeps an illness or an injury. What a doctor must see is held back instead.
func (t *trouble) tell(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	text := req.Get(t.option)
	since, err := req.PastDay("since")
	if strings.EqualFold(text, say.None) {
		if err != nil {
			return say.Reply{}, err
		}
		return t.takeBack(ctx, b, req, since)
	}
	if strings.EqualFold(text, unsaid) {
		text = ""
	}
	list := parts(text)
	atLeastRest := len(list) > 1 && slices.Contains(list, unsaid)
	list = slices.DeleteFunc(list, func(part string) bool { return part == unsaid })
	found := weighed(text, list)
	if levels[found.Level].Holds() { // unless it is a name
		found = weighed(text, list, Names(ctx, b, &req)...)
	}
	heard := &Heard{Finding: found}
	if heard.Verdict == care.Nothing { // ill, and nothing else is said
		heard.Finding = care.Finding{Verdict: care.Stop, Level: care.Rest}
	}
	if heard.headAgain(ctx, b, &req, t, list) {
		heard.Level, heard.again = care.Head, true
	}
	switch { // danger comes before a fault of the day
	case found.Level == care.Talk:
		return alarmed(&say.Page{Lines: []say.Line{say.Linef("%s", words.CareAnswer(found))}}, say.Reply{}), nil
	case levels[heard.Level].Holds(): // asking counts as found
		req.Command = "" // nothing else is kept of it
		return heard.stop(ctx, b, &req, nil), nil
	case err != nil:
		return say.Reply{}, err
	}
	ill := planner.Illness{From: since, Level: planner.LevelRest, Injury: t.injury, Symptoms: list}
	if found.Level == care.Easy && !t.injury && !atLeastRest {
		ill.Level = planner.LevelEasy
	}
	return t.keep(ctx, b, req, ill)
}

// weighed is the gravest of a text and of the parts that are listed in it.
func weighed(text string, list []string, names ...string) care.Finding {
	var h Heard
	h.add(care.Read(text, names...))
	for _, part := range list {
		f := care.Symptom(part, names...)
		if f.Verdict == care.Nothing { // what is not understood is treated like fever
			f = care.Finding{Verdict: care.Stop, Level: care.Rest}
		}
		h.add(f)
	}
	return h.Finding
}

// parts are the values of a list with commas, each once.
func parts(text string) (list []string) {
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '+' }) {
		if part = strings.TrimSpace(part); part != "" && !slices.ContainsFunc(list, func(old string) bool { return strings.EqualFold(old, part) }) {
			list = append(list, part)
		}
	}
	return list
}

// trouble is an illness or an injury with what was understood of a line: what it is, and since when.
func (h *Heard) trouble(req *desk.Request) (*trouble, map[string]string) {
	text := strings.ToLower(req.Text)
	for _, name := range h.options {
		text += " " + strings.ToLower(req.Options[name])
	}
	var list []string
	for _, s := range offeredSymptoms {
		if strings.Contains(text, s) && !levels[care.Symptom(s).Level].Holds() {
			list = append(list, s)
		}
	}
	what := &illness
	switch part := injuryIn(text); {
	case len(list) > 0:
	case h.Level == care.Easy:
		list = []string{"head cold"}
	case part != "" && illBeside(text, part):
		list = []string{"unwell", part}
	case part != "":
		what, list = &injury, []string{part}
	default:
		list = []string{"unwell"}
	}
	if what == &illness && h.Level > care.Easy && weighed("", list).Level == care.Easy {
		list = append(list, "unwell") // the words say more than what is offered does
	}
	options := map[string]string{what.option: strings.Join(list, ", ")}
	if req.Rider != nil {
		if day, ok := sinceWhen(text, req.Rider.Today); ok {
			options["since"] = day.String()
		}
	}
	return what, options
}

// besides parts a line: dizzy since the ride, also my knee is sore.
var besides = regexp.MustCompile(`[,.;]|\b(and|also|but|plus)\b`)

// illBeside reports a line that tells of an illness beside the part that hurts.
func illBeside(text, part string) bool {
	return slices.ContainsFunc(besides.Split(text, -1), func(clause string) bool {
		return !strings.Contains(clause, part) && care.Read(clause).Verdict == care.Stop && injuryIn(clause) == ""
	})
}

// open is the illness or injury that has not ended, nil where there is none.
func (t *trouble) open(all []storage.Illness) *storage.Illness {
	for i := range all {
		if all[i].Injury == t.injury && all[i].To.IsZero() {
			return &all[i]
		}
	}
	return nil
}

// over is the illness or injury that began on a day and has ended, nil where there is none.
func (t *trouble) over(all []storage.Illness, from planner.Date) *storage.Illness {
	for i := range all {
		if all[i].Injury == t.injury && all[i].From == from && !all[i].To.IsZero() {
			return &all[i]
		}
	}
	return nil
}

// reopens reports that what is entered is an illness that was over, which goes on then.
func reopens(req *desk.Request, option string, ill, over *planner.Illness) bool {
	if !req.Has(option) {
		ill.Level, ill.Symptoms = over.Level, over.Symptoms
	}
	return ill.Level == over.Level && slices.Equal(ill.Symptoms, over.Symptoms)
}

// keep stores what was entered: one that goes on gets more symptoms, or the day that
// was told now.
func (t *trouble) keep(ctx context.Context, b *desk.Base, req desk.Request, ill planner.Illness) (say.Reply, error) {
	all, err := b.DB.Illnesses(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	old := t.open(all)
	if old != nil {
		goesOn(&req, t.option, &ill, &old.Illness)
	}
	over := t.over(all, ill.From)
	again := old == nil && over != nil && reopens(&req, t.option, &ill, &over.Illness)
	for _, was := range all {
		if was.Injury == t.injury && !again && was.From <= ill.From && ill.From <= was.To {
			return say.Reply{}, say.Refuse("since", "you entered your %s of %s already. Name a day after it, for example %s", t.noun, show.Span(was.From, was.To, req.Rider.Today), min(was.To+1, req.Rider.Today))
		}
	}
	e, err := b.Change(ctx, req, func(tx *storage.DB) error {
		if old != nil && old.From != ill.From {
			if err := tx.RemoveIllness(ctx, req.Rider.Athlete.ID, req.Now, old.ID); err != nil {
				return err
			}
		}
		_, err := tx.AddIllness(ctx, req.Rider.Athlete.ID, req.Now, ill)
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	n := news{from: ill.From, text: t.noted(&ill, req.Rider.Today, old), undo: t.command, values: map[string]string{t.option: say.None, "since": ill.From.String()}}
	if again {
		n.undo, n.values = "tell well", map[string]string{"day": over.To.AddDays(1).String(), "of": t.noun}
	}
	if old != nil {
		n.values = t.options(&old.Illness)
		if slices.Equal(old.Symptoms, ill.Symptoms) && old.From == ill.From && old.Level == ill.Level {
			n.values, n.label = map[string]string{t.option: say.None, "since": ill.From.String()}, say.TakeBack
		}
	}
	var p say.Page
	p.Addf("%s", n.text)
	p.Add(t.means(e, &ill, req.Rider.Today, nothingTold(e.Told.All))...)
	reply := say.Reply{Date: ill.From}
	reply.Offer(&p, cmp.Or(t.undo, n.label, "Undo"), n.undo, n.values)
	reply.Lines = p.Done()
	return reply, nil
}

// goesOn makes of what is entered the illness that goes on: without a day it keeps
// its first one and gets more symptoms, without symptoms it keeps these.
func goesOn(req *desk.Request, option string, ill, old *planner.Illness) {
	switch {
	case !req.Has(option):
		ill.Level, ill.Symptoms = old.Level, old.Symptoms
	case !req.Has("since"):
		ill.Level = max(ill.Level, old.Level)
		both := strings.Join(append(slices.Clone(old.Symptoms), ill.Symptoms...), ",")
		if utf8.RuneCountInString(both) < planner.MaxText {
			ill.Symptoms = parts(both)
		}
	}
	if !req.Has("since") {
		ill.From = old.From
	}
}

// unsaid tells that no symptoms were entered; beside others, that there was more than they say.
const unsaid = "not said"

// options tell an illness again.
func (t *trouble) options(ill *planner.Illness) map[string]string {
	out := map[string]string{"since": ill.From.String(), t.option: unsaid}
	if len(ill.Symptoms) > 0 {
		out[t.option] = strings.Join(ill.Symptoms, ", ")
		if ill.Level == planner.LevelRest && weighed("", ill.Symptoms).Level == care.Easy {
			out[t.option] += ", " + unsaid // it was graver before
		}
	}
	return out
}

// noted is what was understood: Noted: ill since Tue 2 Jun (fever).
func (t *trouble) noted(ill *planner.Illness, today planner.Date, old *storage.Illness) string {
	text := "Noted: " + t.state
	if old != nil && old.From == ill.From {
		text = "Noted: still " + t.state
	}
	if ill.From == today {
		text += " from today, " + show.Dated(ill.From, today)
	} else {
		text += " since " + show.Dated(ill.From, today)
	}
	if len(ill.Symptoms) > 0 {
		text += " (" + strings.Join(ill.Symptoms, ", ") + ")"
	}
	return text + "."
}

// means says what an illness means for training and for the next race.
func (t *trouble) means(e *desk.Effect, ill *planner.Illness, today planner.Date, first bool) []say.Line {
	if h, held := desk.Held(e.Facts); held {
		return []say.Line{say.Linef("! %s", words.StopAnswer(h.Level)), say.Linef("Your training stays held back. When a doctor has cleared you: /tell well cleared:yes")}
	}
	lines := []say.Line{say.Linef("! %s", words.TroubleAnswer(ill.Level, t.injury))}
	if race := e.Facts.NextRace(today); race != nil {
		lines = append(lines, raceOf(e, race, today))
	}
	lines = append(lines, racedIll(e.Facts, ill, today)...)
	if desk.Planned(e.Facts) {
		lines = append(lines, say.Linef("What changes: every day is rest until you tell me that you are well."))
	}
	if first {
		lines = append(lines, firstFact("the days and the symptom or injury that you named"))
	}
	return append(lines, say.Linef("When you are well: /tell well"))
}

// raceOf says what an illness that goes on means for the next race.
func raceOf(e *desk.Effect, race *planner.Race, today planner.Date) say.Line {
	for _, w := range words.Warnings(e.After) {
		if w.Race != nil && w.Race.Is(race) && w.Code == "health.easy" {
			return show.WarningLine(&w)
		}
	}
	return say.Linef("%s on %s: its plan waits and comes back when you are well.", race.Name, show.Dated(race.Date, today))
}

// racedIll asks about races that are over and fall into days of which illness is told only
// now: they count as ridden until the rider says otherwise.
func racedIll(f *planner.Facts, ill *planner.Illness, today planner.Date) (lines []say.Line) {
	for i := range f.Races {
		if r := &f.Races[i]; ill.From <= r.Date && r.Date < today && f.ResultOf(r) == nil {
			lines = append(lines, say.Linef("%s on %s counts as ridden. If you did not start: %s", r.Name, show.Dated(r.Date, today),
				say.CommandLine("race result", map[string]string{"race": show.RaceKey(r), "outcome": planner.NotStarted.String()})))
		}
	}
	return lines
}

// takeBack forgets an illness that was none. Days that were lived with it stay, and so does a hold.
func (t *trouble) takeBack(ctx context.Context, b *desk.Base, req desk.Request, since planner.Date) (say.Reply, error) {
	all, err := b.DB.Illnesses(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	for i := range all {
		ill := &all[i]
		if ill.Injury != t.injury || req.Has("since") && ill.From != since || !req.Has("since") && !ill.To.IsZero() {
			continue
		}
		e, err := b.Change(ctx, req, func(tx *storage.DB) error { return tx.RemoveIllness(ctx, req.Rider.Athlete.ID, req.Now, ill.ID) })
		if err != nil {
			return say.Reply{}, err
		}
		n := news{from: ill.From, text: fmt.Sprintf("Taken back: your %s since %s.", t.noun, show.Dated(ill.From, req.Rider.Today)), undo: t.command, values: t.options(&ill.Illness)}
		if !ill.To.IsZero() {
			n.undo = ""
		}
		if h, held := desk.Held(e.Facts); held {
			n.more = []say.Line{say.Linef("! %s", words.StopAnswer(h.Level)), say.Linef("Your training stays held back. When a doctor has cleared you: /tell well cleared:yes")}
		}
		return told(e, n), nil
	}
	if req.Has("since") {
		return say.Reply{}, say.Refuse("since", "you entered no %s since %s. See your entries: /me show", t.noun, since.Long())
	}
	return say.Reply{}, say.Refuse(t.option, "you entered no %s, so there is nothing to take back. For example %s", t.noun, t.again)
}
