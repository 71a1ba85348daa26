package asked_test

import (
	"testing"

	"musette/planner/asked"
)

// What goes on from a question means the day that is nearest to its day. Today is Thursday 4 June 2026.
func TestTalkGoesOn(t *testing.T) {
	k := hands(t, "hand-9.tsv")[0].known
	for _, tc := range []struct{ first, then, want string }{
		{"what do i ride on sunday 21 june", "and monday?", "2026-06-22"},
		{"what do i ride on sunday 21 june", "and the saturday?", "2026-06-20"},
		{"what do i ride on sunday 21 june", "and the day after?", "2026-06-22"},
		{"what do i ride the day before hill loop", "and the day before that?", "2026-06-19"},
		{"what do i ride on saturday", "and thursday?", "2026-06-04"},
		{"what do i ride today", "and monday?", "2026-06-08"},
		{"what do i ride today", "and tuesday?", "2026-06-09"},
		{"show my plan for the week of 15 june", "and friday?", "2026-06-19"},
		{"i missed tuesday", "and monday", "2026-06-01"},
		{"do i ride the day after fox hill", "and the day before it", "2026-07-08"},
	} {
		first := asked.Read(tc.first, k)
		k := k
		k.Last = &first.Parts[0]
		m := asked.Read(tc.then, k)
		if from, to, ok := m.Parts[0].Stretch(); !ok || from != to || from.String() != tc.want {
			t.Errorf("%s %s: %v to %v", tc.first, tc.then, from, to)
		}
	}
}

// "It" is the race that the talk was about.
func TestRaceOfTalk(t *testing.T) {
	k := hands(t, "hand-9.tsv")[0].known
	first := asked.Read("when is fox hill", k)
	k.Last = &first.Parts[0]
	for text, topic := range map[string]asked.Topic{"when is it": asked.Races, "is it an a race": asked.Races, "how long is the taper for that": asked.TaperLength} {
		p := asked.Read(text, k).Parts[0]
		if p.Topic != topic || p.Race == nil || p.Race.Name != "Fox Hill Road Race" {
			t.Errorf("%s: %s %v", text, p.Topic, p.Race)
		}
	}
}

// An easier wish behind "may I" asks for leave as well, of the same day.
func TestEasierWish(t *testing.T) {
	k := hands(t, "hand-9.tsv")[0].known
	first := asked.Read("may i do the group ride on thursday?", k)
	k.Last = &first.Parts[0]
	for _, text := range []string{
		"ok and an hour easy then?", "and an hour easy then", "what about just an hour?", "ok what if i go easy", "and half an hour", "so only the first hour then?", "but easy, on the back?",
		"what if i turn back early", "maybe 45 min steady instead?", "then a short easy spin ok?", "or 30 minutes really gently", "how about an easy hour on my own, alone", "even a short one?", "fine, an hour of easy riding then?",
		"could i do a shorter one", "if i keep it easy?", "Okay and 1h easy", "just 40 mins then", "well what about a gentle hour",
	} {
		p := asked.Read(text, k).Parts[0]
		from, to, ok := p.Stretch()
		if p.Topic != asked.MayI || len(p.Offers) > 0 || !ok || from != to || from.String() != "2026-06-04" {
			t.Errorf("%s: %s %v %v", text, p.Topic, p.Offers, from)
		}
	}
	for text, topic := range map[string]asked.Topic{"and how long is my taper?": asked.TaperLength, "ok thanks": asked.Thanks, "how hard is 7 out of 10": asked.HowHard, "and when is my next race?": asked.NextRace} {
		if p := asked.Read(text, k).Parts[0]; p.Topic != topic {
			t.Errorf("%s: %s", text, p.Topic)
		}
	}
}

// Leave to start in a race is asked for in many words.
func TestMayIStart(t *testing.T) {
	k := hands(t, "hand-9.tsv")[0].known
	for _, text := range []string{
		"can I race Hill Loop?", "may I start Hill Loop?", "can i still do hill loop", "am i ok to ride hill loop then", "is it safe to race hill loop", "could i start in the hill loop at all?",
		"So can I race Hill Loop now?", "is it ok if i start hill loop", "am I fit to race hill loop?", "can i start hil loop", "may i take part in hill loop please", "am i allowed to line up at hill loop?",
	} {
		if p := asked.Read(text, k).Parts[0]; p.Topic != asked.MayI || len(p.Offers) > 0 || p.Race == nil || p.Race.Name != "Hill Loop" {
			t.Errorf("%s: %s %v", text, p.Topic, p.Offers)
		}
	}
}
