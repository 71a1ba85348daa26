package plans_test

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
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
	k.Drawn()
	reply := k.OK("/season check")
	f := k.Facts()
	check := season.NewCheck(planner.NewDate(2026, 6, 1), &f)
	mid := check.Best.Total.Mid / 5
	bottest.Wants(t, reply, "One change is worth it: turn Hill Loop and Second into B races, with a few easier days instead of full tapers.\nCompared with your plan now: about ",
		" % faster in ", " % in Third, but about ", " % slower in ", fmt.Sprintf(" %% in Second.\nOn average over all your races: about %.1f %% less race time, or %.0f seconds in an hour.\nApply it: ", mid, 3.6*math.Round(10*mid)),
		"\nWhy: fewer full tapers leave more training.\nIf Hill Loop or Second matters most to you, keep it as an A race and change only the other one.\nRough estimates. Health comes first",
		`Apply it: /season apply make-b:"Hill Loop 2026-06-28; Second 2026-07-12"`, "\nShow the numbers: /season check numbers:all")
	onePicture(t, reply, "season.png")
	if !reply.Private || reply.Race != "Hill Loop" || len(reply.Buttons) != 2 || reply.Buttons[0].Label != "Apply it" {
		t.Errorf("private %v, race %q, buttons %v", reply.Private, reply.Race, reply.Buttons)
	}
	numbers := k.Press(reply, "Show the numbers")
	days, g := check.Goals[0].Days, check.Goals[1]
	bottest.Wants(t, numbers, fmt.Sprintf("Your tapers take %d of the season's 141 days.", 5*days), "\nExpected in your A races now. It is what your tapers should bring you on race day, compared with a season without any taper:\nHill Loop, Sun 28 Jun: ", fmt.Sprintf(" %%), by its own %d-day taper\n", days),
		fmt.Sprintf("\nSecond, Sun 12 Jul: %.1f %% faster (%.1f to %.1f %%). Its own %d-day taper brings %.1f %%, and earlier tapers cost ", g.Net.Mid, g.Net.Low, g.Net.High, days, g.Gain.Mid),
		"\nA taper helps its own race, and costs later races something, because you train less in it.\n", "\nWhat the change is expected to do, compared with your plan now:\nHill Loop: ", fmt.Sprintf("\nThird: %.1f %% faster (", changeIn(check, 2)),
		fmt.Sprintf("\nOn average over all your races, the change makes you about %.1f %% faster than your plan now (", mid),
		fmt.Sprintf("\nHill Loop: %.1f %% slower (", -changeIn(check, 0)), " %), because a few easier days do only part of what its taper does\n")
	if got := k.Press(numbers, "Taper lengths for Third"); got.Race != "Third" || len(got.Files) != 1 {
		t.Errorf("lengths of %q, %d files", got.Race, len(got.Files))
	}
	k.Refused("/season check numbers:some", "numbers")
}

// changeIn is what the change brings a race, as it is shown.
func changeIn(c *season.Check, goal int) float64 {
	for _, e := range c.Best.Effects {
		if e.Race.Is(c.Goals[goal].Race) {
			return math.Round(10*e.Change.Mid) / 10
		}
	}
	return 0
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
	bottest.Wants(t, k.OK("/season apply make-b:hill;second taper:10"), "Hill Loop and Second are B races now. Your tapers take 10 days.", "What changes in your plan:",
		`Undo: /season apply back-to-a:"Hill Loop 2026-06-28; Second 2026-07-12" taper:auto`)
	bottest.Wants(t, k.OK("/season apply make-b:third; hill"), "Third is a B race now. Hill Loop is a B race already.", `Undo: /season apply back-to-a:"Third 2026-07-26"`)
	bottest.Wants(t, k.OK("/season apply back-to-a:third; hill; third taper:AUTO"), "Third and Hill Loop are A races again. Your taper lengths are automatic.")
	bottest.Wants(t, k.Refused("/season apply back-to-a:third taper:auto", "back-to-a"), "Third is an A race already and your taper lengths are automatic already, so nothing changes")
	bottest.Wants(t, k.OK("/season apply make-b:2026-06-28"), "Hill Loop is a B race now.")
}

// Nobody changes another rider's races, whatever they are called.
func TestSeasonOfAnother(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second", "Third", "Fourth", "Fifth")
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
	bottest.Wants(t, k.OK("/season check"), "You have no race to come", "/race add")
	k.OK("/race add name:Heron date:2026-06-14 priority:B")
	bottest.Wants(t, k.OK("/season check"), `You have no A race to come, so there is no taper to weigh. To make one: /race priority race:"Heron 2026-06-14" priority:A`)
	k.OK(`/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3`)
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Keep your season as it is: I found no change that makes you clearly faster.\nWhat your taper (days of less riding before an A race) should bring you on race day, compared with a season without any taper: about ", " % faster in Hill Loop.")
	if strings.Contains(reply.Text(), " apart") || len(reply.Buttons) != 1 {
		t.Errorf("one A race clashes:\n%s", reply.Text())
	}
	k.OK("/me set taper:28")
	bottest.Wants(t, k.OK("/season check numbers:all"), "\nHill Loop, ", ", by its own 28-day taper\n")
	k.OK("/week share mon off; tue-sun rest")
	bottest.Wants(t, k.OK("/season check"), "Nothing is ridden in your usual week")
}

func TestCrowdedSeasonIsTold(t *testing.T) {
	k := withGoals(t, "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve", "Thirteen")
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Too many full tapers (days of less riding before an A race). Begin with One: make it a B race, with only a few easier days.\nCompared with your plan now: about 0.1 to 0.",
		" % faster in 12 other races, because you train more before them, but about 0.", " % slower in One itself.\n", "\nIf you made all the changes (Show the numbers): full tapers for Eleven, Twelve and Thirteen only, and about 2.1 % less race time on average, this step included.\n", "Make it a B race: /season apply make-b:\"One 2026-06-28\"\n")
	numbers := k.OK("/season check numbers:all")
	bottest.Wants(t, numbers, "The whole change: One, Two, Three, Four, Five, Six, Seven, Eight, Nine and Ten become B races, with a few easier days each. Eleven, Twelve and Thirteen stay A races.\n",
		" One alone as a B race brings about 0.", "\nand 8 more A races: /race list", " of the season's 253 days.", `Make all 10 B races: /season apply make-b:"2026-06-28; 2026-07-12; `)
	twice := withGoals(t, "One", "Two")
	twice.OK("/me set taper:28", "/race change race:Two date:2026-08-30")
	bottest.Wants(t, twice.OK("/season check"), "let the lengths of your tapers be automatic.", " of the season's 148 days. Fewer A races leave more time to train.")
	twice.Who.Now = bottest.At("2026-08-20T08:00:00Z") // one A race is left, and no choice between several
	if text := twice.OK("/season check").Text(); strings.Contains(text, "Fewer A races") {
		t.Errorf("one A race is left:\n%s", text)
	}
}

// A name that holds its day has none beside it.
func TestNamesThatHoldTheirDay(t *testing.T) {
	k := withGoals(t, "Sunday Crit 28 Jun", "Mill Loop July 12", "Stage 26")
	bottest.Wants(t, k.OK("/season check numbers:all"), "\nSunday Crit 28 Jun: ", "\nMill Loop July 12: ", "\nStage 26, Sun 26 Jul: ")
	bottest.Wants(t, k.OK("/plan options"), "Sunday Crit 28 Jun (A): keep the planned ", "\nIn Mill Loop July 12 (A): about ")
	bottest.Wants(t, k.OK("/race morning"), "Sunday Crit 28 Jun: I do not know the start yet.")
}

// What earlier tapers cost a race is one figure on each screen.
func TestCostIsOneFigure(t *testing.T) {
	k := withGoals(t, "Hill Loop", "Second")
	k.OK("/tell block from:2026-06-01 to:2026-06-13")
	found := regexp.MustCompile(`In Second \(A, Sun 12 Jul\): about ([\d.]+) % slower`).FindStringSubmatch(k.OK("/plan options").Text())
	if found == nil {
		t.Fatal(k.OK("/plan options").Text())
	}
	bottest.Wants(t, k.OK("/season check"), "Tapers for earlier races cost you about "+found[1]+" % in ")
	bottest.Wants(t, k.OK("/season check numbers:all"), "earlier tapers cost "+found[1]+" %\n")
}

// A change is worth it from 0.3 % on, as it is shown.
func TestSmallChangesAreNotWorthIt(t *testing.T) {
	race := &planner.Race{Name: "Hill Loop", Date: planner.NewDate(2026, 6, 28)}
	change := func(mid float64) *season.Change {
		return &season.Change{ToB: []*planner.Race{race}, Total: response.Range{Low: mid, Mid: mid, High: mid}}
	}
	for _, c := range []struct {
		brings float64
		want   string
	}{{1.2, "Keep your season as it is: the best change would make you only 0.2 % faster on average."}, {1.5, "One change is worth it: make Hill Loop a B race"}} {
		check := &season.Check{Weight: 5, Goals: []season.Goal{{Race: race}}, Best: change(c.brings)}
		if got := plans.SeasonVerdict(check, &planner.Facts{}, 0); !strings.HasPrefix(got, c.want) {
			t.Errorf("%+v: %s", c, got)
		}
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
		for i, setting := range []string{"/me set taper:auto", "/me set taper:28", "/me set taper:4 cut:80", "/tell block from:2026-06-01 to:2026-06-14"} {
			if rounds.Left(i) {
				continue
			}
			k.OK(setting)
			for _, line := range []string{"/plan options", "/season check numbers:all"} {
				reply := k.OK(line)
				text := reply.Text()
				for _, f := range reply.Files {
					text += "\n" + f.Alt
				}
				if found := promising.FindString(text); found != "" {
					t.Errorf("%s, %s, %s holds %q:\n%s", name, setting, line, found, reply.Text())
				}
				bottest.Wants(t, reply, "xpected", "the ranges in brackets", "Mujika & Padilla 2003")
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
	if _, ok := season.NewOptions(today, &f, &f.Races[0]); ok {
		t.Fatal("tapers are compared all the same")
	}
	plan := engine.Derive(today, &f)
	for _, reply := range []say.Reply{plans.NoSeason(desk.Ledger{Now: &f, All: &f}, today), plans.NoTaperToCome(plan, &f), plans.NoOptions(plan, &f, &f.Races[0])} {
		if !strings.Contains(reply.Text(), "doctor") || strings.Contains(reply.Text(), "\n") || strings.Contains(reply.Text(), "/race add") {
			t.Errorf("got %s", reply.Text())
		}
	}
}

// While health holds training back, and on the way back from it, that is the first line, whatever else is said.
func TestHealthIsTheFirstLine(t *testing.T) {
	first := func(reply say.Reply) string { return reply.Lines[0].String() }
	k := withGoals(t, "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine")
	k.OK("/tell sick symptoms:\"head cold\"")
	for _, line := range []string{"/season check", "/season check numbers:all", "/plan options", "/plan show"} {
		reply := k.OK(line)
		if got := first(reply); got != "! Your health comes first. You have been ill since Mon 1 Jun, so your plan has rest every day until you are well." {
			t.Errorf("%s: %s", line, got)
		}
		bottest.Wants(t, reply, "With a head cold only, you may ride easily instead of resting, if you feel like it.")
	}
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	k.OK("/tell well")
	for _, line := range []string{"/season check", "/season check numbers:all"} {
		reply := k.OK(line)
		if got := first(reply); !strings.HasPrefix(got, "! Your health comes first") || !strings.Contains(got, "until Sun 7 Jun") {
			t.Errorf("%s: %s", line, got)
		}
		if n := len(reply.Lines); n > plans.MostScreen {
			t.Errorf("%s: %d lines", line, n)
		}
	}
	brief(t, k.OK("/season check"))
	k.OK("/tell injured what:knee")
	bottest.Wants(t, k.OK("/season check"), "! Your health comes first. You have been injured since Wed 3 Jun, so your plan has rest every day until you are well.\n! No training with an injury that hurts")
	k.Say(`/tell sick symptoms:"chest pain"`)
	if got := first(k.OK("/season check")); !strings.HasPrefix(got, "! Stop riding now and call the emergency number") {
		t.Errorf("held: %s", got)
	}
	calendar := k.OK("/plan calendar")
	if got := first(calendar); !strings.HasPrefix(got, "! Stop riding now") || len(calendar.Files) != 1 || strings.Contains(string(calendar.Files[0].Data), "Stop riding") {
		t.Errorf("held, a calendar: %s", got)
	}
}

// What the rider called important is not offered as a B race.
func TestImportantRacesStay(t *testing.T) {
	k := withGoals(t, "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine")
	bottest.Wants(t, k.OK("/season check"), "Begin with One: ")
	k.OK("/race change race:One emphasis:important")
	bottest.Wants(t, k.OK("/season check"), "Begin with Two: ")
	if text := k.OK("/season check numbers:all").Text(); !strings.Contains(text, "One") || strings.Contains(text, "One, Two") {
		t.Errorf("an important race becomes a B race:\n%s", text)
	}
}

// A race that begins another season does not count for this one.
func TestNextSeasonsRaces(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Heron date:2026-06-14 priority:B", `/race add name:"Hill Loop" date:2027-02-28 priority:A`)
	bottest.Wants(t, k.OK("/season check"), "The season of your next race has no A race, so there is no taper to weigh. Its days: /plan show race:Heron")
	bottest.Wants(t, k.OK("/plan options"), "Hill Loop (A, Sun 28 Feb 2027): ", "keep the planned ")
}

// A race that has lost its days is said to count for nothing, and no change is offered that gives it days of another one.
func TestOverlapsAreTold(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Spring Tour" date:2026-06-26 priority:A hours:4 days:3`,
		`/race add name:"Inner Crit" date:2026-06-27 priority:A hours:1`, "/race add name:Later date:2026-07-05 priority:A hours:3")
	reply := k.OK("/season check")
	bottest.Wants(t, reply, "Keep your season as it is: I found no change that makes you clearly faster.", " faster in Spring Tour, and about the same in Later.",
		"\nInner Crit is on the same days as Spring Tour, so ride only one of them. These sums are for Spring Tour.\n")
	if len(reply.Buttons) != 1 || strings.Contains(k.OK("/season check numbers:all").Text(), "Spring Tour as a B") {
		t.Errorf("making the tour a B race is spoken of:\n%s", reply.Text())
	}
	k.OK("/race priority race:\"Inner Crit\" priority:B", `/race add name:"A Race whose Name is Long" date:2026-07-26 priority:B hours:3`)
	for _, line := range []string{"/season check", "/season check numbers:all"} { // the first answer has little room now
		text := k.OK(line).Text()
		if bottest.Wants(t, k.OK(line), "Inner Crit is on the same days as Spring Tour, so ride only one of them. These sums are for Spring Tour."); strings.Contains(text, "Inner Crit (B)") {
			t.Errorf("%s: a race that is not ridden is spoken of as if it were:\n%s", line, text)
		}
	}
	k.OK(`/race priority race:"Inner Crit" priority:A`, `/race priority race:"Spring Tour" priority:B`)
	bottest.Wants(t, k.OK(`/plan options race:"Inner Crit"`), "Spring Tour lies inside your taper and counts as riding.")
}

// The first answer is short and tells races apart, however many and however they are called.
func TestSeasonOfLongNames(t *testing.T) {
	var names []string
	for _, n := range []string{"One", "Two", "Six", "Ten"} {
		for _, part := range []string{"Upper", "Lower"} {
			names = append(names, fmt.Sprintf("The Northern Autumn Gravel Classic over the %s Marrow Vale %s", part, n))
		}
	}
	for most := 1; most <= len(names); most++ {
		reply := withGoals(t, names[:most]...).OK("/season check")
		brief(t, reply)
		if most > 1 && strings.Contains(reply.Text(), "0.7 %") {
			bottest.Wants(t, reply, " (Sun 28 Jun)")
		}
	}
}

// With B and C races of long names between them too.
func TestMixedSeasonOfLongNames(t *testing.T) {
	var names []string
	for i := range 8 {
		names = append(names, fmt.Sprintf("The Northern Autumn Gravel Classic number %d", i))
	}
	for _, most := range []int{2, 5, 7, 8} {
		k := withGoals(t, names[:most]...)
		for i := range most {
			k.OK(fmt.Sprintf("/race add name:%s date:%s priority:%c hours:2", say.Quote(fmt.Sprintf("The Northern Autumn Gravel Evening Crit number %d", i)), planner.NewDate(2026, 7, 3).AddDays(14*i), "BC"[i%2]))
		}
		brief(t, k.OK("/season check"))
		k.Who.Now = bottest.At("2026-07-06T08:00:00Z")
		brief(t, k.OK("/season check"))
	}
}

// Who told of a block since the last verdict reads that it is why the advice is another one.
func TestSeasonCheckSaysWhatABlockChanges(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"mon recovery 45; tue intervals 1h15 5x4min; wed endurance 1h30; thu intervals 1h15 2x15min; fri off; sat long 3h; sun endurance 2h"`)
	for i, race := range []string{"2026-07-19 hours:1", "2026-08-10 hours:1", "2026-09-08 hours:5"} {
		k.OK(fmt.Sprintf("/race add name:\"Race %d\" priority:A date:%s", i+1, race))
	}
	bottest.Wants(t, k.OK("/season check"), "Keep your season as it is")
	k.OK("/tell block from:2026-06-20 to:2026-06-30 percent:15")
	const why = "That is because of your training block (Sat 20 Jun to Tue 30 Jun). Without it I would say: keep your season as it is."
	bottest.Wants(t, k.OK("/season check"), "One change is worth it: make Race 1 a B race", why)
	k.OK("/season apply make-b:\"Race 1\"")
	k.OK("/tell block from:2026-06-20 to:2026-06-30 percent:none")
	if text := k.OK("/season check").Text(); strings.Contains(text, "block") {
		t.Errorf("a block that was taken back is spoken of:\n%s", text)
	}
}
