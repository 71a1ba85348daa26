package plans_test

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/plans"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
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

var optionRow = regexp.MustCompile(`(?m)^\d+ (?:days?(?:, \d+ % less than usual)?|% less than usual): .*$`)

func TestPlanOptions(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.OK(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`, "/me set cut:40")
	reply := k.OK("/plan options")
	lines := strings.Split(reply.Text(), "\n")
	if want := "Hill Loop (A, Sun 12 Jul): 14 days are planned, because you set it so, and a training model finds no length that is clearly better over all your races."; lines[0] != want {
		t.Errorf("first line %q, want %q", lines[0], want)
	}
	bottest.Wants(t, reply, "\nExpected in this race: about ", "\nIn Autumn Cup (A, Sun 20 Sep): about ", " slower than without this taper (", "), because you train less in a taper.\nIn the planned taper you ride 40 % fewer hours than usual.\n", "\nLengths with the same 40 % fewer hours than usual. In the race you would be faster or slower than with the planned 14 days:\n",
		"Banister", "Busso", "Mujika & Padilla 2003", "the ranges in brackets should hold for 8 in 10 riders like you")
	var names []string
	for _, row := range optionRow.FindAllString(reply.Text(), -1) {
		if n := utf8.RuneCountInString(row); n > 100 || strings.Contains(row, "  ") {
			t.Errorf("%d columns, or aligned: %s", n, row)
		}
		name, _, _ := strings.Cut(row, ":")
		names = append(names, name)
	}
	if got, want := strings.Join(names, ", "), "7 days, 10 days, 4 days, 51 % less than usual, 21 days, 41 % less than usual, 30 % less than usual, 50 % less than usual, 59 % less than usual"; got != want {
		t.Errorf("rows %s, want %s\n%s", got, want, reply.Text())
	}
	onePicture(t, reply, "taper-options.png")
	if reply.Race != "Hill Loop" || !reply.Private || len(lines) > plans.MostScreen {
		t.Errorf("race %q, private %v, %d lines", reply.Race, reply.Private, len(lines))
	}
	if shown := k.Press(reply, "Show plan"); shown.Race != "Hill Loop" {
		t.Errorf("the button shows %q", shown.Race)
	}
	if text := k.OK("/plan options race:autumn").Text(); !strings.HasPrefix(text, "Autumn Cup (A, Sun 20 Sep): ") || strings.Contains(text, "than without this taper") {
		t.Errorf("the last race costs another one:\n%s", text)
	}
}

// One press takes the length that the model would choose or the nearest, and one brings the automatic one back. What to
// try to learn from it is for /taper history to say: one screen advises one thing.
func TestPlanOptionsAreTaken(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5`)
	was, plan := k.Facts(), whole(k)
	reply := k.OK("/plan options")
	bottest.Wants(t, reply, "Hill Loop (A, Sun 12 Jul): keep the planned 8 days, because that is usual for 10h10 of riding a week. A training model expects a little more of 14, but it is too rough to change your plan.\n", "\nOther lengths, which also cut more or fewer hours", "\n10 days, 38 % less than usual: ",
		"\nYou can take 14 days all the same.\n")
	if strings.Contains(reply.Text(), "try ") {
		t.Errorf("a trial beside the advice:\n%s", reply.Text())
	}
	if history := k.OK("/taper history"); len(history.Buttons) > 0 {
		t.Errorf("a trial before there is a race to compare it with:\n%s", history.Text())
	} else {
		bottest.Wants(t, history, "\nRace with the planned 8 days for Hill Loop (Sun 12 Jul) first. Later races can be compared with that.")
	}
	k.OK("/race change race:hill taper:11")
	if f := k.Facts(); f.Races[0].TaperDays != 11 {
		t.Fatalf("the race has %d days", f.Races[0].TaperDays)
	}
	reply = k.OK("/plan options")
	bottest.Wants(t, reply, "11 days are planned, because you set it so, and a training model finds no length that is clearly better.\n", "\nIf you would rather have a shorter taper, take 10 days.\nTake 10 days instead: ")
	k.OK("/race change race:hill taper:8")
	reply = k.OK("/plan options")
	bottest.Wants(t, reply, "8 days are planned, because you set it so, although a training model would choose 14.\n", "\nYou can take 14 days all the same.\n", "Take 14 days instead: /race change race:\"Hill Loop 2026-07-12\" taper:14")
	if b := reply.Buttons[1]; !reflect.DeepEqual(b, say.Button{Label: "Keep 8 days"}) {
		t.Errorf("what keeps the length is %+v", b)
	}
	k.Press(reply, "Back to automatic")
	if got := k.Facts(); !bottest.SameFacts(got, was) || whole(k) != plan {
		t.Errorf("back: %+v\nwas %+v", got, was)
	}
	k.OK("/me set taper:8", "/race change race:hill taper:14")
	k.Press(k.OK("/plan options"), "Back to your usual 8 days")
	k.Who.Now = bottest.At("2026-07-05T08:00:00Z")
	for _, b := range k.OK("/plan options").Buttons {
		if b.Label != "Show plan" {
			t.Errorf("a taper that has begun is offered %q", b.Label)
		}
	}
}

// A longer taper that would bring the race as much as it costs the next one is named.
func TestTheNextRacePays(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3`, `/race add name:"Second" date:2026-08-10 priority:A hours:3`)
	bottest.Wants(t, k.OK("/plan options"), ", because you train less in a taper. 14 days would help a little in this race, but cost as much or more in Second.\n")
}

// A length that the model would choose but hardly a rider is not offered: the nearest is.
func TestLongTapersAreNotOffered(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Stone date:2026-08-30 priority:A hours:5 taper:8")
	facts, today := k.Facts(), planner.NewDate(2026, 6, 1)
	o, ok := season.NewOptions(today, &facts, &facts.Races[0])
	if !ok {
		t.Fatal("no options")
	}
	for i := range o.Lengths {
		if l := &o.Lengths[i]; l.Days == 21 {
			l.Ahead, l.Removed = response.Range{Low: 1, Mid: 2, High: 3}, 0
		}
	}
	plan := engine.Derive(today, &facts)
	reply := plans.OptionsReply(o, &plan.Tapers[0], &facts, &facts.Races[0], &facts, today)
	bottest.Wants(t, reply, "8 days are planned, because you set it so, although a training model would choose 21.\n",
		"\nIf you would rather have a shorter taper, take 7 days.\nTake 7 days instead: /race change race:\"Stone 2026-08-30\" taper:7")
}

// The cut is one number wherever it stands.
func TestTheCutIsOneNumber(t *testing.T) {
	tried := 0
	for _, week := range []string{bottest.InesWeek, "tue intervals 1h15 4x4min; thu endurance 1h; sat long 3h; sun endurance 2h", "mon recovery 50min; tue group 2h; wed endurance 2h20; fri intervals 1h30 4x8min; sat long 4h30; sun endurance 3h"} {
		for _, cut := range []string{"auto", "44", "52"} {
			if tried++; rounds.Left(tried) {
				continue
			}
			k := bottest.NewTalk(t)
			k.OK("/week share week:\""+week+"\"", `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5`, "/me set cut:"+cut)
			_, shown, _ := strings.Cut(k.OK("/plan show").Text(), ", ")
			shown = regexp.MustCompile(`(\d+ %) less riding than on the same days of your usual week`).FindStringSubmatch(shown)[1]
			bottest.Wants(t, k.OK("/plan options"), "In the planned taper you ride "+shown+" fewer hours than usual.")
			f, said := k.Facts(), 0
			for d := planner.NewDate(2026, 7, 1); d < f.Races[0].Date; d++ {
				if text := k.OK("/plan why day:" + d.String()).Text(); strings.Contains(text, "your taper cuts about ") {
					said++
					if !strings.Contains(text, "your taper cuts about "+shown+" of your time") {
						t.Errorf("%s: the plan says %s, %s\n%s", cut, shown, d, text)
					}
				}
			}
			if said == 0 {
				t.Errorf("%s: no day says its cut", cut)
			}
		}
	}
}

// A length that the rows call slower is offered as a wish, never as advice.
func TestWhatIsOfferedIsNoAdvice(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5`,
		`/race add name:"Lake Day" date:2026-07-19 priority:A hours:3.5`, `/race add name:"Moor Ride" date:2026-08-09 priority:A hours:3.5`)
	bottest.Wants(t, k.OK(`/plan options race:"Hill Loop"`), "keep the planned 8 days", "7 days, 44 % less than usual: 0.1 % slower", "\nI would keep the 8 days. If you would rather have a shorter taper, take 7 days.\n")
}

// The figures of the answer are the planner's.
func TestPlanOptionsTellThePlannersFigures(t *testing.T) {
	k := bottest.WithRaces(t)
	facts := k.Facts()
	o, ok := season.NewOptions(planner.NewDate(2026, 6, 1), &facts, facts.NextRace(planner.NewDate(2026, 7, 12)))
	if !ok {
		t.Fatal("no options")
	}
	text := k.OK("/plan options").Text()
	for _, l := range o.Lengths {
		name := fmt.Sprintf("\n%d days", l.Days)
		if !o.SameCut(&l) {
			name += fmt.Sprintf(", %.0f %% less than usual", l.Removed)
		}
		row := fmt.Sprintf("%s: %s %% slower (%s to %s %%)", name, season.Tenths(-l.Here.Mid), season.Tenths(-l.Here.High), season.Tenths(-l.Here.Low))
		if (l.Days == 4 || l.Days == 7 || l.Days == 10) && !strings.Contains(text, row) {
			t.Errorf("%+v is not told:\n%s", l, text)
		}
	}
}

// Rows of the cuts tell what would really go; cuts that come to about the same as another one or as the planned have none.
func TestCutRows(t *testing.T) {
	o := &season.Options{Days: 14, Cut: 70}
	cut := func(cut int, removed, mid float64) season.Option {
		return season.Option{Cut: cut, Removed: removed, Planned: cut == 45, Kept: 0.86, Shed: 0.32, Gain: rangeOf(mid-0.5, mid, mid+0.5)}
	}
	rows := func() string { return say.TextOf(plans.CutRows(o)) }
	o.Cuts = []season.Option{cut(30, 30, -0.9), cut(40, 42, 0.2), cut(45, 45.5, 0), cut(50, 48, 0.1), cut(60, 59, 0.1), cut(70, 66.2, 0), cut(80, 66.2, 0)}
	want := "The same 14 days with more or fewer hours of riding. In the race you would be faster or slower than with the planned 46 % less:\n30 % less than usual: 0.9 % slower (0.4 to 1.4 %)\n59 % less than usual: unclear, 0.4 % slower to 0.6 % faster\n66 % less than usual: unclear, 0.5 % slower to 0.5 % faster"
	if got := rows(); got != want {
		t.Errorf("rows\n%s\nwant\n%s", got, want)
	}
	o.Cuts = []season.Option{cut(45, 45.5, 0), cut(50, 48, 0.1)}
	if got, want := rows(), "Your rides leave no room for another cut of your hours than the planned 46 %."; got != want {
		t.Errorf("rows\n%s\nwant\n%s", got, want)
	}
}

func TestPlanOptionsInsideTheTaper(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.OK(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`)
	bottest.Wants(t, k.OK("/plan options"), " than without this taper (")
	k.Who.Now = bottest.At("2026-07-02T08:00:00Z")
	reply := k.OK("/plan options")
	bottest.Wants(t, reply, " than without the rest of this taper (")
	bottest.Wants(t, reply, "Its first 4 days are over and count as planned", "21 days are too long now: their first days are over.")
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
	reply, next := k.OK("/plan options"), "Next time leave 14 days at least between a block and a race: after a block the best taper is longer. Source: Thomas & Busso 2005."
	bottest.Wants(t, reply, "keep the planned 14 days, because a block of harder training comes before it, and a training model finds no length that is clearly better.", "\nAfter your training block. In the race you would be faster or slower than with the planned 14 days:\n7 days: ", "\n14 days: planned\nAfter a block the taper takes all days up to the race, 14 at most, so no other length can be taken here. To change it, end the block on another day.\n")
	if strings.Contains(reply.Text(), next) {
		t.Errorf("14 days are no longer taper than 14:\n%s", reply.Text())
	}
	k = bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5`, "/tell block from:2026-06-18 to:2026-07-02 percent:25")
	bottest.Wants(t, k.OK("/plan options"), "keep the planned 9 days, because a block of harder training comes before it", "\n9 days: planned\nAfter a block the taper", "\n"+next)
}

// The plan of a race has its picture, whatever the race is; one without a race has none.
func TestPlanShowHasAPicture(t *testing.T) {
	k := bottest.WithRaces(t)
	k.Drawn()
	k.OK("/race change race:hill taper:auto")
	reply := k.OK("/plan show race:hill")
	onePicture(t, reply, "plan.png")
	bottest.Wants(t, k.Press(reply, "Whole plan"), "\nExpected in the race: about ", " % faster than without a taper (", " of your fatigue goes, and ", " of your fitness stays.\n",
		" instead, with later races counted: about ")
	if options := k.Press(reply, "Other lengths"); options.Race != "Hill Loop" || len(options.Files) != 1 {
		t.Errorf("other lengths are of %q with %d files", options.Race, len(options.Files))
	}
	for _, line := range []string{"/plan show race:heron days:all", "/plan show race:quarry days:all"} {
		if reply := k.OK(line); len(reply.Files) != 1 || reply.Files[0].Alt == "" || strings.Contains(reply.Text(), "Expected in") {
			t.Errorf("%s: %d files\n%s", line, len(reply.Files), reply.Text())
		}
	}
	bottest.Wants(t, k.OK("/plan show race:hill days:all"), "\nBy a training model, ")
	k.Who.Now = bottest.At("2026-07-08T08:00:00Z")
	if reply := k.OK("/plan show race:hill days:all"); strings.Contains(reply.Text(), "instead, with later") {
		t.Errorf("a taper that has begun can have another length:\n%s", reply.Text())
	}
	k.Who.Now = bottest.At("2026-06-01T08:00:00Z")
	k.OK("/me set taper:10")
	if reply := k.OK("/plan show race:hill days:all"); strings.Contains(reply.Text(), "instead, with later") {
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
	_, text, _ := strings.Cut(k.OK("/plan show race:hill days:all").Text(), " instead, with later races counted: ")
	text, _, _ = strings.Cut(text, "\n")
	return text
}

// A picture that fails is logged and costs nobody the answer.
func TestAnswersWithoutPicture(t *testing.T) {
	k := bottest.WithRaces(t)
	const left = "\n\nThe picture is left out, since it could not be drawn."
	for _, line := range []string{"/plan options", "/plan show race:hill"} {
		want := k.OK(line)
		k.Log.Reset()
		undrawn(k)
		reply := k.OK(line)
		if reply.Text() != want.Text()+left || len(reply.Files) != 0 || len(want.Files) != 1 {
			t.Errorf("%s: %d files, %d without canvas, and\n%s", line, len(want.Files), len(reply.Files), reply.Text())
		}
		if log := k.Log.String(); !strings.Contains(log, "picture left out") || !strings.Contains(log, "torn canvas") {
			t.Errorf("the log says nothing:\n%s", log)
		}
		k.Draw = func(desk.Paint) (picture.Picture, error) { panic("no paint") }
		if reply := k.OK(line); reply.Text() != want.Text()+left || len(reply.Files) != 0 {
			t.Errorf("%s, a panic: %d files and\n%s", line, len(reply.Files), reply.Text())
		}
		k.Draw = bottest.Sketch
	}
}

// undrawn makes all pictures fail.
func undrawn(k *bottest.Talk) {
	k.Draw = func(desk.Paint) (picture.Picture, error) { return picture.Picture{}, errors.New("torn canvas") }
}
