package plans_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/plans"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/typed"
)

// Whatever a rider tells, what the models say of it is whole: figures are
// figures, lines are short enough, and what a button would do is taken.
func TestModelsOfAnybody(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 11))
	compared, checked, suggested := 0, 0, 0
	lives := max(37, rounds.Of(150))
	for range lives {
		today, f := bottest.AnyFacts(t, r)
		known := f.KnownOn(today)
		if !desk.Planned(known) {
			continue
		}
		plan := engine.Derive(today, f)
		for i := range known.Races {
			race := &known.Races[i]
			o, ok := season.NewOptions(today, f, race)
			if !ok {
				readable(t, plans.NoOptions(plan, known, race).Text())
				continue
			}
			compared++
			role := show.RoleOf(plan, known, race)
			options := plans.OptionsReply(o, show.TaperOf(plan, role), f, race, known, today)
			readable(t, options.Text())
			if n := strings.Count(options.Text(), "\n") + 1; n > plans.MostScreen {
				t.Errorf("%d lines:\n%s", n, options.Text())
			}
			readable(t, strings.Join(show.PlanHead(plan, f, role, race), "\n"))
			if compared%20 == 0 {
				if drawn, err := picture.TradeOff(plans.TradeOf(o)); err != nil || drawn.Alt == "" {
					t.Errorf("%v for %+v", err, o)
				}
			}
		}
		reply := plans.SeasonReply(desk.Ledger{Now: known, All: f}, today, false)
		readable(t, reply.Text())
		brief(t, reply)
		numbers := plans.SeasonReply(desk.Ledger{Now: known, All: f}, today, true)
		readable(t, numbers.Text())
		if n := strings.Count(numbers.Text(), "\n") + 1; n > plans.MostScreen {
			t.Errorf("%d lines:\n%s", n, numbers.Text())
		}
		readable(t, plans.NoTaperToCome(plan, known).Text())
		checked++
		for _, button := range reply.Buttons {
			if button.Command == "season apply" {
				suggested++
			}
			if cmd, err := command.Find(bot.Commands(), button.Command); err != nil {
				t.Error(err)
			} else if _, err := cmd.Check(button.Options); err != nil {
				t.Errorf("%s %v: %v", button.Command, button.Options, err)
			}
		}
	}
	if compared < lives/3 || checked < lives/3 || suggested == 0 {
		t.Errorf("only %d tapers compared, %d seasons checked, %d changes suggested", compared, checked, suggested)
	}
}

// brief checks that the first answer is read in ten seconds, with the lines to type.
func brief(t *testing.T, reply say.Reply) {
	t.Helper()
	if n := utf8.RuneCountInString(reply.Text()); n > 700 || len(reply.Lines) > 12 {
		t.Errorf("%d lines of %d characters:\n%s", len(reply.Lines), n, reply.Text())
	}
}

func readable(t *testing.T, text string) {
	t.Helper()
	for _, bad := range []string{"NaN", "Inf", "%!", "-0 ", "-0.0", "  %", "( to"} {
		if strings.Contains(text, bad) {
			t.Errorf("holds %q:\n%s", bad, text)
		}
	}
	for line := range strings.Lines(text) {
		if len(line) > 900 {
			t.Errorf("a line of %d bytes: %s", len(line), line)
		}
	}
	if strings.TrimSpace(text) == "" {
		t.Error("nothing is said")
	}
}

// A race that has begun is not offered as a B race any more.
func TestClashesWithARaceUnderWay(t *testing.T) {
	k := withGoals(t, "Second")
	k.OK(`/race add name:"Hill Tour" date:2026-06-12 priority:A hours:3 days:4`)
	bottest.Wants(t, k.OK("/season check"), "because you train less in a taper. The figures above count that. Keep Hill Tour and Second as A races.")
	bottest.Wants(t, k.OK("/season check numbers:all"), "Hill Tour and Second are 13 days apart, with little training between the two\n  Hill Tour as a B race: ", "\n  Second as a B race: ")
	k.Who.Now = bottest.At("2026-06-13T08:00:00Z") // its taper is over, so what it costs Second cannot be changed any more
	bottest.Wants(t, k.OK("/season check"), "Hill Tour and Second are 13 days apart. That is close, but no change would help: keep both as A races.")
	reply := k.OK("/season check numbers:all")
	bottest.Wants(t, reply, "\n  Second as a B race: ")
	if strings.Contains(reply.Text(), "Hill Tour as a B") {
		t.Errorf("too late:\n%s", reply.Text())
	}
}

// Crowded seasons, with names of all lengths, are answered as briefly, whether a change is offered or not.
func TestCrowdedSeasonsAreBrief(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 14))
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	rider, today, many := k.Facts(), planner.DateOf(k.Who.Now), 0
	for range rounds.Of(120) {
		f, day := rider, today.AddDays(10)
		f.Races = nil
		for i := range 2 + r.IntN(13) {
			name := strings.Repeat("Vale ", 1+r.IntN(8)) + fmt.Sprint(i)
			f.Races = append(f.Races, planner.Race{Name: name, Date: day, Days: 1, Hours: 1 + 4*r.Float64(), Priority: []planner.Priority{planner.PriorityA, planner.PriorityA, planner.PriorityB, planner.PriorityC}[r.IntN(4)]})
			day = day.AddDays(7 * (1 + r.IntN(3)))
		}
		reply := plans.SeasonReply(desk.Ledger{Now: f.KnownOn(today), All: &f}, today, false)
		brief(t, reply)
		readable(t, reply.Text())
		if strings.HasPrefix(reply.Text(), "Too many full tapers") {
			many++
		}
	}
	if many == 0 {
		t.Error("no season had too many tapers")
	}
}

// The verdict on a season is short with any number of races, however long their names are, with
// blocks, in a crowded season and on the way back from an illness.
func TestSeasonCheckIsShort(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 700))
	today := planner.NewDate(2027, 3, 1)
	week, err := typed.Week(bottest.InesWeek)
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]int{}
	for range max(40, rounds.Of(150)) {
		f := &planner.Facts{Weeks: []planner.DatedWeek{{From: today.AddDays(-300), Week: week}}}
		date := today.AddDays(3 + r.IntN(30))
		for i := range []int{1, 4, 9, 14}[r.IntN(4)] {
			race := planner.Race{ID: int64(i + 1), Name: fmt.Sprintf("The very long name of race number %d around the lake and up the hill", i), Date: date,
				Days: 1, Hours: float64(1 + r.IntN(8)), Priority: planner.Priority(r.IntN(4) / 2)}
			f.Races = append(f.Races, race)
			date = date.AddDays(1 + r.IntN(24))
		}
		if r.IntN(2) == 0 {
			from := today.AddDays(r.IntN(30))
			f.Blocks = append(f.Blocks, planner.Block{From: from, To: from.AddDays(6 + r.IntN(10)), Percent: 20, Told: planner.Told{On: today}})
		}
		if r.IntN(3) == 0 {
			f.Ill = append(f.Ill, planner.Illness{From: today.AddDays(-6), To: today.AddDays(-2), Symptoms: []string{"fever"}, Told: planner.Told{On: today.AddDays(-6)}})
		}
		reply := plans.SeasonReply(desk.Ledger{Now: f, All: f}, today, false)
		brief(t, reply)
		for _, part := range []string{"because of your training block", "Without your training block I would say something else", "Keep your season", "If you made all the changes", "coming back"} {
			if strings.Contains(reply.Text(), part) {
				said[part]++
			}
		}
	}
	if len(said) < 5 {
		t.Errorf("not all was said: %v", said)
	}
}
