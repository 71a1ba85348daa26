package plans_test

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/plans"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/season"
)

// onePicture asks for one picture with words for those who do not see it.
func onePicture(t *testing.T, r say.Reply, name string) {
	t.Helper()
	if len(r.Files) != 1 {
		t.Fatalf("%d files, want one:\n%s", len(r.Files), r.Text())
	}
	f := r.Files[0]
	if f.Name != name || f.Type != "image/png" || !bytes.HasPrefix(f.Data, []byte("\x89PNG\r\n\x1a\n")) {
		t.Errorf("file %q of type %q begins %q", f.Name, f.Type, f.Data[:min(8, len(f.Data))])
	}
	if n := utf8.RuneCountInString(f.Alt); n == 0 || n > 1024 || !strings.Contains(f.Alt, "Hill Loop") {
		t.Errorf("%d characters tell the picture: %q", n, f.Alt)
	}
}

var optionRow = regexp.MustCompile(`(?m)^(?:none|\d+(?:-\d+)? (?:days?|%))(?:, planned)?: .* / .*$`)

func TestPlanOptions(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.OK(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`, "/me set cut:40")
	reply := k.OK("/plan options")
	lines := strings.Split(reply.Text(), "\n")
	if want := "Hill Loop (A, Sun 12 Jul): 14 days planned. Expected: about "; !strings.HasPrefix(lines[0], want) {
		t.Errorf("first line %q, want %q...", lines[0], want)
	}
	if lines[1] != "14 days, as you set it." || !strings.HasPrefix(lines[2], "What it does to Autumn Cup (A, Sun 20 Sep): about ") {
		t.Errorf("reason and cost are %q and %q", lines[1], lines[2])
	}
	bottest.Wants(t, reply, "Banister", "Busso 2003", "Mujika & Padilla 2003", "Ranges cover 8 in 10 plausible outcomes")
	var names []string
	for _, row := range optionRow.FindAllString(reply.Text(), -1) {
		if n := utf8.RuneCountInString(row); n > 62 || strings.Contains(row, "  ") {
			t.Errorf("%d columns, or aligned: %s", n, row)
		}
		name, _, _ := strings.Cut(row, ":")
		names = append(names, name)
		if planned := strings.Contains(row, "planned"); planned != (name == "14 days, planned" || name == "40 %") {
			t.Errorf("marked %v: %s", planned, row)
		}
	}
	if got, want := strings.Join(names, ", "), "none, 4 days, 7 days, 10 days, 14 days, planned, 21 days, 30 %, 40 %, 50 %, 60 %, 70-80 %"; got != want {
		t.Errorf("rows %s, want %s\n%s", got, want, reply.Text())
	}
	bottest.Wants(t, reply, "\nEach line: faster (+) or slower (-) than with the planned cut (80 % range), then fitness kept / fatigue gone. The first is of a second model, made for comparing cuts (Busso 2003). Where your week does not allow the cut, the last figure is the one that fits.\n", "\n40 %: as planned, ")
	onePicture(t, reply, "taper-options.png")
	if reply.Race != "Hill Loop" || !reply.Private || len(reply.Buttons) != 1 {
		t.Errorf("race %q, private %v, buttons %v", reply.Race, reply.Private, reply.Buttons)
	}
	if shown := k.Press(reply, "Show plan"); shown.Race != "Hill Loop" {
		t.Errorf("the button shows %q", shown.Race)
	}
	bottest.Wants(t, k.OK("/plan options race:autumn"), "Autumn Cup (A, Sun 20 Sep): ", "You have no later race, so it costs none")
}

// The figures of the answer are the planner's.
func TestPlanOptionsTellThePlannersFigures(t *testing.T) {
	k := bottest.WithRaces(t)
	facts := k.Facts()
	o, ok := season.NewOptions(planner.NewDate(2026, 6, 1), &facts, "Hill Loop", planner.NewDate(2026, 7, 12))
	if !ok {
		t.Fatal("no options")
	}
	text := k.OK("/plan options").Text()
	for _, l := range o.Lengths {
		g := l.Gain
		row := fmt.Sprintf("\n%d days: %.1f %% (%.1f to %.1f), %.0f / %.0f %%\n", l.Days, g.Mid, g.Low, g.High, 100*l.Kept, 100*l.Shed)
		if (l.Days == 7 || l.Days == 21) && !strings.Contains(text, row) {
			t.Errorf("%+v is not told:\n%s", l, text)
		}
	}
	signed := func(v float64) string {
		return strings.Replace(strings.Replace(fmt.Sprintf("%+.1f", v), "+0.0", "0", 1), "-0.0", "0", 1)
	}
	for _, c := range o.Cuts {
		row := fmt.Sprintf("\n%d %%: %s %% (%s to %s), ", c.Cut, signed(c.Gain.Mid), signed(c.Gain.Low), signed(c.Gain.High))
		if !c.Planned && c.Cut != 80 && !strings.Contains(text, strings.Replace(row, "70 %:", "70-80 %:", 1)) {
			t.Errorf("%+v is not told:\n%s", c, text)
		}
	}
}

// Rows of the cuts tell what would really go, unless that is near a cut of the row.
func TestCutRows(t *testing.T) {
	o := &season.Options{Days: 14, Cut: 70}
	cut := func(cut int, removed, mid float64) season.Option {
		return season.Option{Cut: cut, Removed: removed, Planned: cut == 70, Kept: 0.86, Shed: 0.32, Gain: rangeOf(mid-0.5, mid, mid+0.5)}
	}
	o.Cuts = []season.Option{cut(30, 30, 0.4), cut(40, 36.5, 0.2), cut(50, 47.9, -0.02), cut(60, 66, 0), cut(70, 66.1, 0), cut(80, 66.2, 0)}
	want := strings.Join([]string{"30 %: +0.4 % (-0.1 to +0.9), 86 / 32 %", "40 %: +0.2 % (-0.3 to +0.7), 86 / 32 %, fits 36 %",
		"50 %: 0 % (-0.5 to +0.5), 86 / 32 %, fits 48 %", "60-80 %: as planned, 86 / 32 %, fits 66 %", "Trials found 41 to 60 % best (Bosquet et al. 2007)."}, "\n")
	if got := say.TextOf(plans.CutRows(o)[2:]); got != want {
		t.Errorf("rows\n%s\nwant\n%s", got, want)
	}
	o.Next, o.Cuts = &planner.Race{Name: "Cup"}, []season.Option{cut(60, 66, 0.1), cut(65, 66.3, 0.1)}
	o.Cuts[0].Next = rangeOf(-2, -1, 0)
	if got, want := plans.CutRows(o)[2].String(), "60-65 %: +0.1 % (-0.4 to +0.6), 86 / 32 %, -1.0 %"; got != want {
		t.Errorf("row %q, want %q", got, want)
	}
}

func TestPlanOptionsInsideTheTaper(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.Who.Now = bottest.At("2026-07-02T08:00:00Z")
	reply := k.OK("/plan options")
	bottest.Wants(t, reply, "Its first 4 days are over and count as planned", "\n14 days, planned: ", "Left out, since their first days are over: 21 days.")
	onePicture(t, reply, "taper-options.png")
	k.Who.Now = bottest.At("2026-07-11T08:00:00Z")
	onePicture(t, k.OK("/plan options"), "taper-options.png")
}

// What has no taper to compare is told in one sentence with what to do instead.
func TestNoOptions(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, tc := range []struct{ now, line, want string }{
		{"2026-06-01", "/plan options heron", `Heron Valley is a B race and gets no taper to compare. To make it an A race: /race priority race:"Heron Valley 2026-06-14" priority:A`},
		{"2026-06-01", "/plan options quarry", "Quarry Crit is a C race"},
		{"2026-07-12", "/plan options hill", `Hill Loop is today: no taper is left to choose. Its days: /plan show race:"Hill Loop"`},
		{"2026-07-12", "/plan options", `Hill Loop is today: no taper is left to choose. Its days: /plan show race:"Hill Loop"`},
		{"2026-07-20", "/plan options", "No A race with a taper is to come. Register one: /race add"},
		{"2026-07-20", "/plan options hill", "Hill Loop on Sunday 12 July 2026 is over"},
	} {
		k.Who.Now = bottest.At(tc.now + "T08:00:00Z")
		reply := k.OK(tc.line)
		bottest.Wants(t, reply, tc.want)
		if strings.Contains(reply.Text(), "\n") || len(reply.Files) != 0 {
			t.Errorf("%s: %d files and\n%s", tc.line, len(reply.Files), reply.Text())
		}
		for _, found := range bottest.PrintedCommand.FindAllStringSubmatch(reply.Text(), -1) {
			fresh := bottest.WithRaces(t)
			fresh.Who.Now = k.Who.Now
			if again := fresh.Say("/" + found[1]); again.Err != nil {
				t.Errorf("%s prints %q, refused: %s", tc.line, found[1], again.Text())
			}
		}
	}
	k = bottest.NewTalk(t)
	k.OK("/week share mon off; tue rest", "/race add name:Tour date:2026-06-05 priority:A hours:3 days:3", "/race add name:Zeta date:2026-06-05 priority:A", "/race add name:Goal date:2026-07-19 priority:A hours:3")
	bottest.Wants(t, k.OK("/plan options goal"), "Nothing is ridden in your usual week")
	bottest.Wants(t, k.OK("/plan options zeta"), "Zeta has no taper to compare. Tour has this day")
	k.Who.Now = bottest.At("2026-06-06T08:00:00Z")
	bottest.Wants(t, k.OK("/plan options tour"), "Tour is under way")
	k.Refused("/plan options zebra", "race")
	k = bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Tour date:2026-06-07 priority:A hours:5 days:3")
	k.Who.Now = bottest.At("2026-06-09T08:00:00Z")
	bottest.Wants(t, k.OK("/plan options"), "Tour is under way: no taper is left to choose. Its days: /plan show race:Tour")
	k.OK("/race add name:Soon date:2026-06-10 priority:A hours:5")
	bottest.Wants(t, k.OK("/plan options"), "Soon has no taper to compare. No days are left for a taper of its own.")
}

// Before a block the answer says which model weighs lengths, and why.
func TestPlanOptionsAfterABlock(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/tell block from:2026-06-15 to:2026-06-27 percent:25")
	bottest.Wants(t, k.OK("/plan options"), "14 days, because an overload block comes before it.", "\nLengths out of your overload block:\nEach line: faster (+) or slower (-) than with the 14 days planned (80 % range), by the same model as the cuts.\n7 days: ",
		"\n14 days: as planned\n", "After a block allow 14 days at least: its best taper is longer (Thomas & Busso 2005).")
}

// The plan of a race has its picture, whatever the race is; one without a race has none.
func TestPlanShowHasAPicture(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.OK("/race change race:hill taper:auto")
	reply := k.OK("/plan show race:hill")
	onePicture(t, reply, "plan.png")
	bottest.Wants(t, k.Press(reply, "Whole plan"), "\nExpected: about ", " % faster than without it (", " of fitness kept and ", " of fatigue gone.\n",
		", later races counted: ", " days, about ")
	if options := k.Press(reply, "Other lengths"); options.Race != "Hill Loop" || len(options.Files) != 1 {
		t.Errorf("other lengths are of %q with %d files", options.Race, len(options.Files))
	}
	for _, line := range []string{"/plan show race:heron days:all", "/plan show race:quarry days:all"} {
		if reply := k.OK(line); len(reply.Files) != 1 || reply.Files[0].Alt == "" || strings.Contains(reply.Text(), "Expected:") {
			t.Errorf("%s: %d files\n%s", line, len(reply.Files), reply.Text())
		}
	}
	k.OK("/me set taper:10")
	if reply := k.OK("/plan show race:hill days:all"); strings.Contains(reply.Text(), "weighed") || strings.Contains(reply.Text(), "Next best") {
		t.Errorf("a told length has rivals:\n%s", reply.Text())
	}
	k.Who.Now = bottest.At("2026-08-01T08:00:00Z")
	if reply := k.OK("/plan show"); len(reply.Files) != 0 {
		t.Errorf("no race, %d files", len(reply.Files))
	}
}

// A later race is part of what the runners-up are measured by.
func TestRunnersUpOverLaterRaces(t *testing.T) {
	k := bottest.WithRaces(t)
	k.OK("/race change race:hill taper:auto")
	alone := weighed(k)
	k.OK(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`)
	if got := weighed(k); got == alone || alone == "" {
		t.Errorf("a later race leaves it at %q, were %q", got, alone)
	}
}

// weighed is what is said of the other lengths for Hill Loop.
func weighed(k *bottest.Talk) string {
	_, text, _ := strings.Cut(k.OK("/plan show race:hill days:all").Text(), ", later races counted: ")
	text, _, _ = strings.Cut(text, "\n")
	return text
}

// A picture that fails is logged and costs nobody the answer.
func TestAnswersWithoutPicture(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, line := range []string{"/plan options", "/plan show race:hill"} {
		want := k.OK(line)
		k.Log.Reset()
		undrawn(k)
		reply := k.OK(line)
		if reply.Text() != want.Text() || len(reply.Files) != 0 || len(want.Files) != 1 {
			t.Errorf("%s: %d files, %d without canvas, and\n%s", line, len(want.Files), len(reply.Files), reply.Text())
		}
		if log := k.Log.String(); !strings.Contains(log, "picture left out") || !strings.Contains(log, "torn canvas") {
			t.Errorf("the log says nothing:\n%s", log)
		}
		k.Draw = func(desk.Paint) (picture.Picture, error) { panic("no paint") }
		if reply := k.OK(line); reply.Text() != want.Text() || len(reply.Files) != 0 {
			t.Errorf("%s, a panic: %d files and\n%s", line, len(reply.Files), reply.Text())
		}
		k.Draw = bottest.Sketch
	}
}

// undrawn makes all pictures fail.
func undrawn(k *bottest.Talk) {
	k.Draw = func(desk.Paint) (picture.Picture, error) { return picture.Picture{}, errors.New("torn canvas") }
}
