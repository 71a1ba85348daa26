package asked_test

import (
	"slices"
	"testing"

	"musette/bot/bottest/rounds"
	"musette/planner/asked"
)

// found are texts with what is found in them. Today is Monday 1 June 2026.
var found = []struct {
	text, from, to, race string
	minutes              int
}{
	{"what do i ride tommorow", "2026-06-02", "2026-06-02", "", 0},
	{"session for thurs pls", "2026-06-04", "2026-06-04", "", 0},
	{"what is planned on the 13th", "2026-06-13", "2026-06-13", "", 0},
	{"what do i ride in ten days", "2026-06-11", "2026-06-11", "", 0},
	{"what do i ride the day after tomorrow", "2026-06-03", "2026-06-03", "", 0},
	{"plan for next week", "2026-06-08", "2026-06-14", "", 0},
	{"ride this weekend?", "2026-06-06", "2026-06-07", "", 0},
	{"i missed thursday", "2026-05-28", "2026-05-28", "", 0},
	{"rode 2h yesterday", "2026-05-31", "2026-05-31", "", 120},
	{"rode an hour and a half on saturday", "2026-05-30", "2026-05-30", "", 90},
	{"can't ride from 4 to 6 june", "2026-06-04", "2026-06-06", "", 0},
	{"away thursday till sunday", "2026-06-04", "2026-06-07", "", 0},
	{"can't ride friday and saturday", "2026-06-05", "2026-06-06", "", 0},
	{"only 45 min on wednesday", "2026-06-03", "2026-06-03", "", 45},
	{"what do i ride on 13-06", "2026-06-13", "2026-06-13", "", 0},
	{"can't ride from 15-06 until 21-06", "2026-06-15", "2026-06-21", "", 0},
	{"plan for next week from monday to friday", "2026-06-08", "2026-06-12", "", 0},
	{"i missed thursday a week ago", "2026-05-28", "2026-05-28", "", 0},
	{"no bike on the last day of july", "2026-07-31", "2026-07-31", "", 0},
	{"may i ride with friends on the 10th, may i", "2026-06-10", "2026-06-10", "", 0},
	{"can't ride between now and sunday", "2026-06-01", "2026-06-07", "", 0},
	{"how many hours for the week", "2026-06-01", "2026-06-07", "", 0},
	{"saturday's ride is not happening, i will miss it, can i skip it", "2026-06-06", "2026-06-06", "", 0},
	{"i can't train monday", "2026-06-08", "2026-06-08", "", 0},
	{"session on 2026-06-20", "2026-06-20", "2026-06-20", "", 0},
	{"may i ride on the 5th of june", "2026-06-05", "2026-06-05", "", 0},
	{"may i ride", "", "", "", 0},
	{"what is planned for the second sunday in july", "2026-07-12", "2026-07-12", "Hill Loop", 0},
	{"away camping the second week of august (10th to 16th)", "2026-08-10", "2026-08-16", "", 0},
	{"no bike from 8 to 14", "2026-06-08", "2026-06-14", "", 0},
	{"i am away until friday without my bike", "2026-06-01", "2026-06-05", "", 0},
	{"plan from now to the 19th", "2026-06-01", "2026-06-19", "", 0},
	{"how many hours in the week 22. to 28.06.", "2026-06-22", "2026-06-28", "", 0},
	{"why did you take out my thursday session on the 11th", "2026-06-11", "2026-06-11", "", 0},
	{"what effort is 7/10", "", "", "", 0},
	{"when is hil lop", "", "", "Hill Loop", 0},
	{"when does my taper for Heron Valey start", "", "", "Heron Valley", 0},
	{"when's the crit", "", "", "Quarry Crit", 0},
	{"when is my a race", "", "", "Hill Loop", 0},
	{"plan for my b race", "", "", "Heron Valley", 0},
	{"is there a race", "", "", "", 0},
	{"plan from the 29th to 3 july", "2026-06-29", "2026-07-03", "", 0},
	{"plan from 10/6 to 18/6", "2026-06-10", "2026-06-18", "", 0},
	{"may i go swimming on 13 / 6", "2026-06-13", "2026-06-13", "", 0},
	{"what do i do", "", "", "", 0},
	{"can i come", "", "", "", 0},
}

// Days, races and lengths are found, in the direction of the topic.
func TestDaysRacesAndLengths(t *testing.T) {
	for _, tc := range found {
		m := asked.Read(tc.text, sampleKnown(t))
		if len(m.Parts) != 1 {
			t.Errorf("%s: %d parts", tc.text, len(m.Parts))
			continue
		}
		p := m.Parts[0]
		from, to := "", ""
		if a, b, ok := p.Stretch(); ok {
			from, to = a.String(), b.String()
		}
		race := ""
		if p.Race != nil {
			race = p.Race.Name
		}
		if from != tc.from || to != tc.to || race != tc.race || p.Minutes != tc.minutes {
			t.Errorf("%s: from %q to %q, race %q, %d min", tc.text, from, to, race, p.Minutes)
		}
	}
}

// Whatever is written is read without a fault, and what is forced stays so.
func FuzzRead(f *testing.F) {
	for i, l := range hands(f, "hand-*.tsv") {
		if i%rounds.Every(rounds.Every(7)) == 0 {
			f.Add(l.text)
		}
	}
	f.Add("\x00\xff🚴 4-6 june 1h30 5x3min 6/7 rpe 99 999%")
	k := sampleKnown(f)
	f.Fuzz(func(t *testing.T, text string) {
		m := asked.Read(text, k)
		for i := range m.Parts {
			p := &m.Parts[i]
			if !slices.Contains(asked.Topics, p.Topic) || len(p.Offers) > 3 || p.Minutes < 0 || p.RPE > 10 {
				t.Errorf("%q is read as %+v", text, p)
			}
			k := k
			k.Last = p
			asked.Read("and thursday?", k)
			asked.Read("why?", k)
			for _, s := range p.Dates {
				p.Written(s, "2026-06-13")
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	all := hands(b, "hand-*.tsv")
	asked.Read("hello", all[0].known)
	for i := 0; b.Loop(); i++ {
		asked.Read(all[i%len(all)].text, all[i%len(all)].known)
	}
}

// sampleKnown is what the first writers took for granted.
func sampleKnown(t testing.TB) asked.Known { return hands(t, "hand-1.tsv")[0].known }
