package plans_test

import (
	"bytes"
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/desk"
	"musette/bot/plans"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/response"
	"musette/planner/season"
)

// withGoals is a talk of a rider with a typical week and A races two weeks apart.
func withGoals(t testing.TB, names ...string) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	for i, name := range names {
		k.OK(fmt.Sprintf("/race add name:%s date:%s priority:A hours:3", say.Quote(name), planner.NewDate(2026, 6, 28).AddDays(14*i)))
	}
	return k
}

// whole is the plan to its last figure.
func whole(k *bottest.Talk) string {
	k.T.Helper()
	var out bytes.Buffer
	f := k.Facts()
	if err := planfile.Write(&out, engine.Derive(planner.DateOf(k.Who.Now), &f)); err != nil {
		k.T.Fatal(err)
	}
	return out.String()
}

func TestSeasonCheck(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third", "Fourth", "Fifth")
	reply := k.OK("/season check")
	lines := strings.Split(reply.Text(), "\n")
	f := k.Facts()
	check := season.NewCheck(planner.NewDate(2026, 6, 1), &f)
	days := check.Goals[0].Days
	if want := fmt.Sprintf("The riding that your five %d-day tapers leave out would be about %.0f %% of your fitness at Fifth (%.0f to %.0f %%).",
		days, check.Lost.Mid, check.Lost.Low, check.Lost.High); lines[2] != want {
		t.Errorf("third line\n%s\nwant\n%s", lines[2], want)
	}
	bottest.Wants(t, reply, fmt.Sprintf("%d of the season's 141 days are taper days.", 5*days))
	total := check.Best.Total
	if want := fmt.Sprintf("Better: make Hill Loop and Second B races.\nExpected: about %.1f %% faster on average over your races (%.1f to %.1f %%). In this average A counts 1, B 0.4 and C 0.1.",
		total.Mid/5, total.Low/5, total.High/5); lines[0]+"\n"+lines[1] != want {
		t.Errorf("first lines\n%s\n%s\nwant\n%s", lines[0], lines[1], want)
	}
	sum := check.Clashes[0].Choices[0].Total.Mid
	bottest.Wants(t, reply, fmt.Sprintf(", average %+.1f %% (", sum/5), "A season is counted from 12 weeks before its first race.\n", fmt.Sprintf("Hill Loop, Sun 28 Jun: %d days\n", days), "\nHill Loop and Second, 14 days apart: there is no time for a second taper\n  Hill Loop as B: ",
		fmt.Sprintf("Tapers then: Hill Loop and Second half a week at most (B races), Third, Fourth and Fifth %d days.\nThe change expected in each race (80 %% range):\n  F", days), "\n  Hill Loop itself -",
		"Advice, not an order.", "Health comes first", `Apply it: /season apply make-b:"Hill Loop 2026-06-28; Second 2026-07-12"`)
	for _, line := range lines[3:] {
		if n := utf8.RuneCountInString(line); strings.HasPrefix(line, "  ") && n > 100 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	if !reply.Private || reply.Race != "Hill Loop" || len(reply.Files) != 0 {
		t.Errorf("private %v, race %q, %d files", reply.Private, reply.Race, len(reply.Files))
	}
	if got := k.Press(reply, "Compare lengths"); got.Race != "Hill Loop" || len(got.Files) != 1 {
		t.Errorf("lengths of %q, %d files", got.Race, len(got.Files))
	}
}

// Applying and undoing a suggestion brings the plan back to its last figure, by
// button and by the line that is printed; so does undoing the undo.
func TestSeasonIsAppliedAndUndone(t *testing.T) {
	for name, setUp := range map[string]func() *bottest.Talk{
		"races": func() *bottest.Talk { return withGoals(t, "Hill Loop", "Second", "Third", "Fourth", "Fifth") },
		"lengths": func() *bottest.Talk {
			k := withGoals(t, "Hill Loop", "Second", "Third")
			k.OK("/me set taper:28")
			return k
		},
		"hard names": func() *bottest.Talk {
			return withGoals(t, `The; "Big" One`, "a;b; c", "Second; Third", `\`, strings.Repeat("long; ", 33)+"x")
		},
		"one name": func() *bottest.Talk { return withGoals(t, "Mill", "Mill", "Mill", "Mill", "Mill") },
	} {
		k := setUp()
		k.Who.Now = bottest.At("2026-06-03T08:00:00Z") // registered on another day than today
		was, plan := k.Facts(), whole(k)
		reply := k.OK("/season check")
		_, typed, _ := strings.Cut(reply.Text(), "Apply it: ")
		typed, _, _ = strings.Cut(typed, "\n")
		applied := k.Press(reply, "Apply it")
		if applied.Err != nil {
			t.Fatalf("%s: %s", name, applied.Text())
		}
		told, changed := k.Facts(), whole(k)
		if bottest.SameFacts(told, was) || changed == plan {
			t.Errorf("%s: nothing was applied: %s", name, applied.Text())
		}
		pressedAgain(k, name, reply)
		back := k.Undo(applied)
		if got := k.Facts(); !bottest.SameFacts(got, was) || whole(k) != plan {
			t.Errorf("%s, undone: %+v\nwas %+v", name, got, was)
		}
		k.Undo(back)
		if got := k.Facts(); !bottest.SameFacts(got, told) || whole(k) != changed {
			t.Errorf("%s, undone twice: %+v\nwas %+v", name, got, told)
		}
		_, undo, _ := strings.Cut(applied.Text(), "Undo: ")
		k.OK(undo)
		if got := k.Facts(); !bottest.SameFacts(got, was) || whole(k) != plan {
			t.Errorf("%s, undone by the line: %+v\nwas %+v", name, got, was)
		}
		if k.OK(typed); !bottest.SameFacts(k.Facts(), told) {
			t.Errorf("%s, typed: %+v\nwant %+v", name, k.Facts(), told)
		}
	}
}

// pressedAgain presses a stale Apply it, which must change nothing and say so.
func pressedAgain(k *bottest.Talk, name string, check say.Reply) {
	k.T.Helper()
	before := k.Facts()
	again := k.Press(check, "Apply it")
	if again.Err == nil || !strings.HasSuffix(again.Text(), "already, so nothing changes. See /season check") || strings.Contains(again.Text(), "\n") || len(again.Buttons) != 0 || !bottest.SameFacts(k.Facts(), before) {
		k.T.Errorf("%s, pressed twice: %v %s", name, again.Err, again.Text())
	}
}

func TestSeasonApplyTyped(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	k.OK(`/race add name:Quarry date:2026-06-20 priority:C`, `/race add name:Gone date:2026-06-02 priority:A`)
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	for _, tc := range []struct{ line, field string }{
		{"/season apply", "make-b"}, {"/season apply make-b:zebra", "make-b"}, {"/season apply make-b:quarry", "make-b"}, {"/season apply back-to-a:quarry", "back-to-a"},
		{"/season apply make-b:gone", "make-b"}, {"/season apply back-to-a:gone", "back-to-a"}, {"/season apply make-b:\"hill; zebra\"", "make-b"},
		{"/season apply make-b:hill back-to-a:second; hill", "back-to-a"}, {"/season apply make-b:hill taper:3", "taper"}, {"/season apply make-b:\"Hill Loop 2026-06-29\"", "make-b"},
		{"/season apply make-b:; ;", "make-b"}, {"/season apply taper:soon", "taper"}, {"/season apply back-to-a:\"third; zebra\" make-b:hill", "back-to-a"},
	} {
		k.Refused(tc.line, tc.field)
	}
	bottest.Wants(t, k.OK("/season apply make-b:hill;second taper:10"), "Hill Loop and Second are B races now; tapers take 10 days.", "What changes:",
		`Undo: /season apply back-to-a:"Hill Loop 2026-06-28; Second 2026-07-12" taper:auto`)
	bottest.Wants(t, k.OK("/season apply make-b:third; hill"), "Third is a B race now; Hill Loop is a B race already.", `Undo: /season apply back-to-a:"Third 2026-07-26"`)
	bottest.Wants(t, k.OK("/season apply back-to-a:third; hill; third taper:AUTO"), "Third and Hill Loop are A races again; taper lengths are automatic.")
	bottest.Wants(t, k.Refused("/season apply back-to-a:third taper:auto", "back-to-a"), "Third is an A race already; taper lengths are automatic already, so nothing changes")
	bottest.Wants(t, k.OK("/season apply make-b:2026-06-28"), "Hill Loop is a B race now.")
}

// Nobody changes another rider's races, whatever they are called.
func TestSeasonOfAnother(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third", "Fourth")
	was := k.Facts()
	check := k.OK("/season check")
	k.As("Tomas")
	bottest.Wants(t, k.OK("/season check"), "do not know your typical week")
	k.Refused("/season apply make-b:hill", "make-b")
	k.Refused("/plan options hill", "race")
	if pressed := k.Press(check, "Apply it"); pressed.Err == nil {
		t.Errorf("another rider's button works: %s", pressed.Text())
	}
	k.As("Ines")
	if got := k.Facts(); !bottest.SameFacts(got, was) {
		t.Errorf("changed to %+v", got)
	}
	for _, line := range []string{"/season check", "/season apply make-b:hill"} {
		if reply := k.OK(line); !reply.Private || len(reply.Sent) != 0 {
			t.Errorf("%s: private %v, sent %v", line, reply.Private, reply.Sent)
		}
	}
}

func TestSeasonWithLittleInIt(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/season check"), "do not know your typical week")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	bottest.Wants(t, k.OK("/season check"), "No race to come", "/race add")
	k.OK("/race add name:Heron date:2026-06-14 priority:B")
	bottest.Wants(t, k.OK("/season check"), `No A race to come, so no taper takes fitness from your season. To make one: /race priority race:"Heron 2026-06-14" priority:A`)
	k.OK(`/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3`)
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Nothing better was found: your choice of A races and tapers is a good one.\nThe riding that your ", "-day taper leaves out would be about ", " of your fitness at Hill Loop (")
	if strings.Contains(reply.Text(), "Close together") {
		t.Errorf("one A race clashes:\n%s", reply.Text())
	}
	k.OK("/me set taper:28")
	bottest.Wants(t, k.OK("/season check"), "your four-week taper leaves out would be about ")
	k.OK("/week share mon off; tue-sun rest")
	bottest.Wants(t, k.OK("/season check"), "Nothing is ridden in your usual week")
}

func TestCrowdedSeasonIsTold(t *testing.T) {
	k := withGoals(t, "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve", "Thirteen")
	reply := k.OK("/season check")
	bottest.Wants(t, reply, " tapers leave out would be about ", "! More than 30 % of the season's days are taper days", "\nand 5 more: /race list", "\nand 9 more\n", "\n  and less in 7 more\n",
		" of them B races (named below).\nExpected: about ")
	if strings.Count(reply.Text(), "\n") > 55 {
		t.Errorf("too long:\n%s", reply.Text())
	}
}

// What was made a B race by the button is one for /race too, and is offered to go back.
func TestListsAreCompleted(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third")
	k.OK("/season apply make-b:second")
	for _, tc := range []struct{ option, typed, want string }{
		{"make-b", "", "Hill Loop 2026-06-28|Third 2026-07-26"}, {"back-to-a", "", "Second 2026-07-12"}, {"make-b", "hill", "Hill Loop 2026-06-28"},
		{"make-b", "Hill Loop 2026-06-28; th", "Hill Loop 2026-06-28; Third 2026-07-26"}, {"make-b", "Hill Loop 2026-06-28;", "Hill Loop 2026-06-28; Third 2026-07-26"},
		{"make-b", strings.Repeat("x", 90) + "; third", ""}, {"taper", "", ""},
	} {
		if got := strings.Join(k.Offers("season apply", tc.option, tc.typed), "|"); got != tc.want {
			t.Errorf("%s:%s offers %q, want %q", tc.option, tc.typed, got, tc.want)
		}
	}
}

// Words that no answer about the models may hold.
var promising = regexp.MustCompile(`(?i)\b(will|guarantee\w*|certain(ly)?|sure(ly)?|promise\w*|always|never|proven|optimal|form|readiness|stress)\b`)

// Expected figures are no promises, and each comes with its range.
func TestModelsPromiseNothing(t *testing.T) {
	figures := regexp.MustCompile(`about -?[\d.]+ %`)
	for name, k := range map[string]*bottest.Talk{"races": bottest.WithRaces(t), "many": withGoals(t, "One", "Two", "Three", "Four", "Five"), "two": withGoals(t, "One", "Two")} {
		for _, setting := range []string{"/me set taper:auto", "/me set taper:28", "/me set taper:4 cut:80", "/tell block from:2026-06-01 to:2026-06-14"} {
			k.OK(setting)
			for _, line := range []string{"/plan options", "/season check"} {
				reply := k.OK(line)
				text := reply.Text()
				for _, f := range reply.Files {
					text += "\n" + f.Alt
				}
				if found := promising.FindString(text); found != "" {
					t.Errorf("%s, %s, %s holds %q:\n%s", name, setting, line, found, reply.Text())
				}
				bottest.Wants(t, reply, "xpected", "range", "Mujika & Padilla 2003")
				for row := range strings.Lines(reply.Text()) {
					if figures.MatchString(row) && !strings.Contains(row, " to ") {
						t.Errorf("%s, %s, %s has no range in %q", name, setting, line, row)
					}
				}
			}
			head, _, _ := strings.Cut(k.OK("/plan show").Text(), "\n\n")
			if found := promising.FindString(head); found != "" {
				t.Errorf("%s, %s: the plan holds %q:\n%s", name, setting, found, head)
			}
		}
	}
}

func TestComparedInWords(t *testing.T) {
	for _, tc := range []struct {
		low, mid, high float64
		want           string
	}{
		{1.5, 3.3, 5.2, "about 3.3 % better than none (1.5 to 5.2 %)"}, {-5.2, -3.3, -1.5, "about 3.3 % worse than none (1.5 to 5.2 %)"},
		{-1, 0.5, 2, "about 0.5 % better than none (from 1.0 % worse to 2.0 % better)"}, {-1, -0.5, 2, "about 0.5 % worse than none (from 1.0 % worse to 2.0 % better)"},
		{-1, 0.01, 2, "about the same as none (from 1.0 % worse to 2.0 % better)"}, {0, 0, 0, "about the same as none"}, {-0.04, 0.04, 0.3, "about the same as none (0 to 0.3 %)"},
		{-0.3, -0.04, 0.02, "about the same as none (0 to 0.3 %)"},
	} {
		r := rangeOf(tc.low, tc.mid, tc.high)
		if got := show.Compared(r, "better", "worse", "than none"); got != tc.want {
			t.Errorf("%v: %q, want %q", r, got, tc.want)
		}
	}
	if got, want := show.Compared(rangeOf(-0.3, 0.04, 0.2), "better", "worse", "on average"), "about the same on average (from 0.3 % worse to 0.2 % better)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := []string{show.Figure(rangeOf(-1, 0, 0.3)), show.Figure(rangeOf(0, 0, 0)), show.Figure(rangeOf(-0.04, -0.01, 0.04))}; !reflect.DeepEqual(got, []string{"0 % (-1.0 to 0.3)", "0 %", "0 %"}) {
		t.Errorf("figures are %q", got)
	}
}

func rangeOf(low, mid, high float64) response.Range {
	return response.Range{Low: low, Mid: mid, High: high}
}

// Symptoms that need a doctor come before all figures.
func TestRedFlagsComeFirst(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second")
	f, today := k.Facts(), planner.NewDate(2026, 6, 1)
	f.Ill = []planner.Illness{{From: today, Symptoms: []string{"chest pain"}}}
	if season.NewCheck(today, &f) != nil {
		t.Fatal("a season is weighed all the same")
	}
	if _, ok := season.NewOptions(today, &f, "Hill Loop", planner.NewDate(2026, 6, 28)); ok {
		t.Fatal("tapers are compared all the same")
	}
	plan := engine.Derive(today, &f)
	for _, reply := range []say.Reply{plans.NoSeason(desk.Ledger{Now: &f, All: &f}, today), plans.NoTaperToCome(plan, &f), plans.NoOptions(plan, &f, &f.Races[0])} {
		if !strings.Contains(reply.Text(), "doctor") || strings.Contains(reply.Text(), "\n") || strings.Contains(reply.Text(), "/race add") {
			t.Errorf("got %s", reply.Text())
		}
	}
}

// A race that begins another season does not count for this one.
func TestNextSeasonsRaces(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Heron date:2026-06-14 priority:B", `/race add name:"Hill Loop" date:2027-02-28 priority:A`)
	bottest.Wants(t, k.OK("/season check"), "No A race in the season of your next race, so no taper takes fitness from it. Its days: /plan show race:Heron")
	bottest.Wants(t, k.OK("/plan options"), "Hill Loop (A, Sun 28 Feb 2027): ", " days planned.")
}
