package plans_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/plans"
)

// In each of these situations the first message of /plan show fits a phone, has its
// picture where there is a plan to draw, and the buttons that lead on.
func TestPlanShowFitsAPhone(t *testing.T) {
	hill := `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5 start:10:30 taper:14`
	crowded := []string{hill, `/race add name:"Heron Valley" date:2026-06-14 priority:B hours:2`, `/race add name:"Quarry Crit" date:2026-06-17 priority:C hours:1`,
		`/race add name:"Mill Time Trial" date:2026-06-21 priority:B hours:45min`, `/race add name:"Late Tour" date:2026-07-19 priority:A hours:3 days:3`}
	ill := []string{"/tell sick symptoms:fever since:2026-06-14"}
	const morning = "2026-06-16T06:00:00Z" // a Tuesday, in the taper for Hill Loop
	whole, lengths, today, well := "Whole plan", "Other lengths", "How to ride today", "I am well"
	for _, c := range []struct {
		name, now     string
		told, coached []string // by the rider that morning, by the coach after them
		wants         []string
		pictures      int
		buttons       []string
	}{
		{"A race ahead", "2026-06-01T06:00:00Z", []string{hill}, nil, []string{"Hill Loop"}, 1, []string{whole, lengths}},
		{"A race, in its taper", morning, []string{hill}, nil, []string{"Today is day 3 of 14."}, 1, []string{whole, "Why Tue 16 Jun?", today, lengths}},
		{"B race", morning, []string{`/race add name:"Heron Valley" date:2026-06-21 priority:B hours:2`}, nil, []string{"RACE Heron Valley"}, 1, []string{"Why Tue 23 Jun?", "How to ride tomorrow"}},
		{"C race", morning, []string{`/race add name:"Quarry Crit" date:2026-06-18 priority:C hours:1`}, nil, []string{"RACE Quarry Crit"}, 1, []string{today}},
		{"ill", morning, append([]string{hill}, ill...), nil, []string{"The plan for Hill Loop on Sun 28 Jun comes back"}, 0, []string{well}},
		{"away", morning, []string{hill, "/tell away from:2026-06-18 to:2026-06-23"}, nil, []string{"You said that you are away."}, 1, []string{whole, "Why Fri 19 Jun?", today, lengths}},
		{"away at the race", morning, []string{hill, "/tell away from:2026-06-26 to:2026-06-29"}, nil, []string{"Hill Loop"}, 1, []string{whole}},
		{"no race", morning, nil, nil, []string{"No race is to come", "Sun 21 Jun intervals"}, 0, []string{today}},
		{"pins and notes of a coach", morning, []string{hill}, []string{`/coach adjust athlete:Ines day:2026-06-17 session:"intervals 1h 4x3min"`, "/coach adjust athlete:Ines day:2026-06-19 session:rest",
			`/coach adjust athlete:Ines day:2026-06-20 session:"endurance 50min"`, `/coach note athlete:Ines day:2026-06-17 text:"Ride these by feel and stop at four"`,
			`/coach note athlete:Ines day:2026-06-19 text:"Pack your bag today"`, `/coach note athlete:all day:2026-06-20 text:"We meet at the mill at nine"`}, []string{"Your coach: Ride these by feel", "Your coach set this session.", "Your coach: Pack", "Your coach: We meet"}, 1, []string{whole}},
		{"several races", morning, crowded, nil, []string{"Taper for Hill Loop", "RACE Quarry Crit", "RACE Mill Time Trial"}, 1, []string{whole}},
		{"several races, away and limited", morning, append(append([]string{}, crowded...), "/tell limit day:2026-06-18 minutes:30", "/tell limit day:2026-06-19 minutes:40", "/tell away from:2026-06-23 to:2026-06-24 kind:travel"), nil,
			[]string{"Taper for Hill Loop"}, 1, []string{whole, today}},
		{"block", morning, []string{hill, "/tell block from:2026-06-01 to:2026-06-13 percent:25"}, nil, []string{"after your overload block"}, 1, []string{whole}},
		{"stage race of several days", morning, []string{`/race add name:"Long Tour" date:2026-06-19 priority:A hours:4 days:8`}, nil, []string{"Today is day 8 of 10.", "Mon 22 Jun RACE Long Tour"}, 1, []string{whole, today, lengths}},
		{"in a stage race", "2026-06-21T06:00:00Z", []string{`/race add name:"Long Tour" date:2026-06-19 priority:A hours:4 days:8`}, nil, []string{"Fri 26 Jun RACE Long Tour"}, 1, []string{whole, today}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			k := bottest.NewTalk(t)
			k.OK(`/week share week:"` + bottest.InesWeek + `"`)
			if c.now < morning {
				k.Who.Now = bottest.At(c.now)
			}
			for _, line := range c.told {
				if !strings.HasPrefix(line, "/race") && !strings.HasPrefix(line, "/tell block") {
					k.Who.Now = bottest.At(morning)
				}
				k.OK(line)
			}
			k.Who.Coach = true
			k.OK(c.coached...)
			k.Who.Coach = false
			k.Who.Now = bottest.At(c.now)
			reply := k.OK("/plan show")
			if n := strings.Count(reply.Text(), "\n") + 1; n > plans.MostScreen {
				t.Errorf("%d lines:\n%s", n, reply.Text())
			}
			bottest.Wants(t, reply, c.wants...)
			if len(reply.Files) != c.pictures {
				t.Errorf("%d pictures", len(reply.Files))
			}
			for _, label := range c.buttons {
				k.Press(reply, label)
			}
		})
	}
}
