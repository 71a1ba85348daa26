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
