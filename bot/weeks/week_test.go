package weeks_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
)

func TestWeekShareEchoesSevenDays(t *testing.T) {
	k := bottest.NewTalk(t)
	reply := k.OK(`/week share week:"mon recovery 40min; strength 30min; tue intervals 1:30 5x3'; thu off; sat long 3 hours"`)
	want := []string{"Mon  recovery 40min; strength 30min", "Tue  intervals 1h30 5x3min", "Wed  rest", "Thu  rest", "Fri  rest", "Sat  long 3h", "Sun  rest"}
	if got := strings.Split(reply.Text(), "\n"); len(got) < 8 || strings.Join(got[1:8], "|") != strings.Join(want, "|") {
		t.Errorf("echo is\n%s\nwant\n%s", reply.Text(), strings.Join(want, "\n"))
	}
	if got, want := bottest.FirstLine(reply), "Your week from Monday 1 June 2026: 5h10 on 3 days, 1 hard day (Tue)."; got != want {
		t.Errorf("first line %q, want %q", got, want)
	}
	bottest.Wants(t, reply, "/race add")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`)
	bottest.Wants(t, k.OK("/week share week:\""+bottest.InesWeek+"\""), "10h10 on 6 days, 2 hard days (Tue, Sun)", "Hill Loop, A race on Sun 28 Jun:", "Its taper takes ")
	if weeks := k.Facts().Weeks; len(weeks) != 1 {
		t.Errorf("weeks from one day pile up: %d", len(weeks))
	}
	bottest.Wants(t, k.OK("/week share mon: recovery 30min\ntue: off\nwed-sun: off"), "30min on 1 day, no hard day")
}

func TestWeekShareFromALaterDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/week share week:"sat long 2h; sun rest; mon-fri rest" from:"15 June"`)
	reply := k.OK("/week show")
	bottest.Wants(t, reply, "Your week from Monday 1 June 2026: 10h10", "Your week from Monday 15 June 2026: 2h on 1 day")
	if reply.Date != planner.NewDate(2026, 6, 1) {
		t.Errorf("the week in force is from %s", reply.Date)
	}
	bottest.Wants(t, k.OK("/week share week:\""+bottest.InesWeek+"\""), "From Mon 15 Jun on the week that you shared for then holds")
	bottest.Wants(t, k.OK("/ride day:2026-06-14"), "intervals 2h")
	bottest.Wants(t, k.OK("/ride day:2026-06-16"), "rest")
	k.Who.Now = bottest.At("2026-06-16T08:00:00Z")
	if got := k.OK("/week show"); strings.Contains(got.Text(), "10h10") {
		t.Errorf("a week that is over is shown:\n%s", got.Text())
	}
}

func TestWeekShareRefuses(t *testing.T) {
	k := bottest.NewTalk(t)
	for line, field := range map[string]string{
		`/week share week:"mon flying 40min"`:              "week",
		`/week share week:"mon recovery 40min; mon off"`:   "week",
		`/week share week:"mon recovery 40min" from:"6/7"`: "from",
		`/week share week:"mon off" from:1999-01-01`:       "from",
		`/week share`: "week",
	} {
		k.Refused(line, field)
	}
}

// Of hard days without sets the answer says how much counts as hard.
func TestWeekShareTellsWhatCountsAsHard(t *testing.T) {
	for week, want := range map[string][]string{
		"thu group 1h30": {"Thu group 1h30: I count 30min of it as hard. If it is more or less, write for example group 1h30 1x40min."},
		"tue hard 50min; thu club ride 2h; sun 2h": {"Tue intervals 50min: I count 17min of it as hard.",
			"Thu group 2h: I count 40min of it as hard. If it is more or less, write for example group 2h 1x50min."},
		"sat group 5min": {"Sat group 5min: I count 2min of it as hard. If it is more or less, write for example group 5min 1x5min."},
		"sat group 24h":  {"I count 8h of it as hard. If it is more or less, write for example group 24h 1x180min."},
		"tue intervals 1h 5x3min; sat turbo 1h; sun 3h":  nil,
		"tue turbo 1h 2x10min; thu group 1h30 1x40min":   nil,
		"tue race 1h; wed gym 1h; thu openers 1h; fri 1": nil,
	} {
		k := bottest.NewTalk(t)
		reply := k.OK("/week share week:" + say.Quote(week))
		bottest.Wants(t, reply, want...)
		if got := strings.Count(reply.Text(), "as hard"); got != len(want) {
			t.Errorf("%s: %d lines of what counts as hard, want %d:\n%s", week, got, len(want), reply.Text())
		}
		_, example, ok := strings.Cut(reply.Text(), "for example ")
		example, _, _ = strings.Cut(example, ".\n")
		if len(want) > 0 {
			if s, err := typed.Session(example); !ok || err != nil || s.Sets.IsZero() {
				t.Errorf("%s: the example %q is %+v, %v", week, example, s, err)
			}
		}
	}
}

// A race of one day takes no number of hours that must be minutes.
func TestHoursThatAreMinutes(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.Refused("/race add name:Crit date:2026-06-13 priority:B hours:45", "hours"), "45min", "45h")
	k.Refused("/race add name:Crit date:2026-06-13 priority:B hours:45 days:1", "hours")
	k.OK("/race add name:Crit date:2026-06-13 priority:B hours:45min", "/race add name:Epic date:2026-07-13 priority:B hours:30h", "/race add name:Tour date:2026-08-13 priority:B days:3 hours:30")
	k.Refused("/race change race:Crit hours:45", "hours")
	k.OK("/race change race:Tour hours:26", "/race change race:Crit hours:26 days:2")
	if got := k.Facts().Races; got[0].Hours != 26 || got[0].Days != 2 || got[1].Hours != 30 || got[2].Hours != 26 {
		t.Errorf("stored %+v", got)
	}
}

// The line that shares two weeks in turn once more shares the same weeks.
func TestTwoWeeksAreSharedAgain(t *testing.T) {
	for _, now := range []string{"2026-06-03T08:00:00Z", "2026-06-10T08:00:00Z"} {
		k := bottest.NewTalk(t) // Monday 1 June 2026
		k.OK(`/week share week:"tue endurance 60; wed intervals 60 4x3min; sat long 2h" second:"mon intervals 60 4x3min; thu endurance 60"`)
		k.Who.Now = bottest.At(now)
		ride := func() (all string) {
			for day := range 14 {
				reply := k.OK("/ride day:" + planner.DateOf(k.Who.Now).AddDays(day).String())
				all += reply.Lines[0].String() + "\n"
			}
			return all
		}
		was := ride()
		_, line, _ := strings.Cut(k.OK("/week show").Text(), "Share two others: ")
		k.OK(line)
		if is := ride(); is != was {
			t.Errorf("%s:\n%s\nwas\n%s", line, is, was)
		}
	}
}
