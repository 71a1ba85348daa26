package bot

import (
	"strings"
	"testing"

	"musette/planner"
)

func TestWeekShareEchoesSevenDays(t *testing.T) {
	k := newTalk(t)
	reply := k.ok(`/week share week:"mon recovery 40min; strength 30min; tue intervals 1:30 5x3'; thu off; sat long 3 hours"`)
	want := []string{"Mon  recovery 40min; strength 30min", "Tue  intervals 1h30 5x3min", "Wed  rest", "Thu  off", "Fri  rest", "Sat  long 3h", "Sun  rest"}
	if got := strings.Split(reply.Text, "\n"); len(got) < 8 || strings.Join(got[1:8], "|") != strings.Join(want, "|") {
		t.Errorf("echo is\n%s\nwant\n%s", reply.Text, strings.Join(want, "\n"))
	}
	if got, want := firstLine(reply), "Your week from Monday 1 June 2026: 5h10 on 3 days, 1 hard day (Tue)."; got != want {
		t.Errorf("first line %q, want %q", got, want)
	}
	wants(t, reply, "/race add")
	k.ok(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`)
	wants(t, k.ok("/week share week:\""+inesWeek+"\""), "10h10 on 6 days, 2 hard days (Tue, Sun)", "Hill Loop, A race on Sun 28 Jun:", "Taper: 14 days")
	if weeks := k.facts().Weeks; len(weeks) != 1 {
		t.Errorf("weeks from one day pile up: %d", len(weeks))
	}
	wants(t, k.ok("/week share mon: recovery 30min\ntue: off"), "30min on 1 day, no hard day")
}

func TestWeekShareFromALaterDay(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", `/week share week:"sat long 2h" from:"15 June"`)
	reply := k.ok("/week show")
	wants(t, reply, "Your week from Monday 1 June 2026: 10h10", "Your week from Monday 15 June 2026: 2h on 1 day")
	if reply.Date != planner.NewDate(2026, 6, 1) {
		t.Errorf("the week in force is from %s", reply.Date)
	}
	wants(t, k.ok("/week share week:\""+inesWeek+"\""), "From Mon 15 Jun on the week that you shared for then holds")
	wants(t, k.ok("/ride day:2026-06-14"), "intervals 2h")
	wants(t, k.ok("/ride day:2026-06-16"), "rest")
	k.who.Now = at("2026-06-16T08:00:00Z")
	if got := k.ok("/week show"); strings.Contains(got.Text, "10h10") {
		t.Errorf("a week that is over is shown:\n%s", got.Text)
	}
}

func TestWeekShareRefuses(t *testing.T) {
	k := newTalk(t)
	for line, field := range map[string]string{
		`/week share week:"mon flying 40min"`:              "week",
		`/week share week:"mon recovery 40min; mon off"`:   "week",
		`/week share week:"mon recovery 40min" from:"6/7"`: "from",
		`/week share week:"mon off" from:1999-01-01`:       "from",
		`/week share`: "week",
	} {
		k.refused(line, field)
	}
}
