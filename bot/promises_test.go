package bot_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// Of a change that fails nothing stays, not even the rider who is new.
func TestFailedChangeKeepsNothing(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/me set taper:10")
	k.As("Tomas")
	torn := errors.New("torn page")
	k.With(command.Command{Name: "snap", Run: func(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
		_, err := b.Change(ctx, req, func(tx *storage.DB) error {
			if _, _, err := tx.AddRace(ctx, req.Rider.Athlete.ID, 20600, planner.Race{Name: "Secret Cup", Date: 20700, Days: 1}); err != nil {
				return err
			}
			return torn
		})
		return say.Reply{}, err
	}})
	req := k.Who
	req.Command = "snap"
	reply, err := k.Bot.Handle(t.Context(), req)
	if !errors.Is(err, torn) || strings.Contains(reply.Text(), "Your entry is stored") {
		t.Fatalf("%q, %v", reply.Text(), err)
	}
	athletes, err := k.DB.Athletes(t.Context(), k.Club().ID)
	if err != nil || len(athletes) != 1 || athletes[0].Name != "Ines" {
		t.Errorf("riders %v, %v; want Ines alone", athletes, err)
	}
	if races, err := k.DB.ClubRaces(t.Context(), k.Club().ID); err != nil || len(races) != 0 {
		t.Errorf("races %v, %v; want none", races, err)
	}
}

// After the write nobody is told that nothing was changed.
func TestBrokenAnswerSaysThatItIsStored(t *testing.T) {
	for name, fails := range map[string]func(*bottest.Talk){"reading": func(k *bottest.Talk) { k.DB.Close() }, "a panic": func(*bottest.Talk) { panic("torn page") }} {
		k := bottest.NewTalk(t)
		k.With(command.Command{Name: "snap", Run: func(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
			_, err := b.Change(ctx, req, func(tx *storage.DB) error {
				_, _, err := tx.AddRace(ctx, req.Rider.Athlete.ID, 20600, planner.Race{Name: "Secret Cup", Date: 20700, Days: 1})
				return err
			})
			if err == nil {
				fails(k)
				_, err = b.DB.Races(ctx, req.Rider.Athlete.ID)
			}
			return say.Reply{}, err
		}})
		req := k.Who
		req.Command = "snap"
		reply, err := k.Bot.Handle(t.Context(), req)
		if err == nil || reply.Err == nil || !strings.Contains(reply.Text(), "is stored") || !strings.Contains(reply.Text(), "reference") {
			t.Errorf("%s: %q, %v; want that it is stored, and a reference", name, reply.Text(), err)
		}
	}
}

// What broke is logged without names.
func TestErrorsNameNobody(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Secret Cup" date:2026-06-20 priority:A`)
	k.DB.Close()
	for _, line := range []string{`/race add name:"Secret Ring" date:2026-06-20 priority:A`, `/race change race:"Secret Cup" name:"Secret Lap"`, "/race list"} {
		req, err := command.ParseLine(bot.Commands(), line)
		if err != nil {
			t.Fatal(err)
		}
		req.Club, req.Athlete, req.Now = k.Who.Club, k.Who.Athlete, k.Who.Now
		if _, err := k.Bot.Handle(t.Context(), req); err == nil {
			t.Errorf("%s: worked on a closed database", line)
		}
	}
	for _, name := range []string{"Secret", "Ines", "Marrow"} {
		if strings.Contains(k.Log.String(), name) {
			t.Errorf("the log names %s:\n%s", name, k.Log)
		}
	}
}

// Reading stores nothing, not even who asks.
func TestReadingMakesNobody(t *testing.T) {
	k := bottest.NewTalk(t)
	for _, line := range []string{"/race list", "/help", "/me show", "/ride", "/plan show", "/plan why", "/week show", "what now?"} {
		k.Say(line)
	}
	k.Refused("/tell limit day:friday minutes:none", "day")
	k.Refused(`/race add name:X date:2026-05-01 priority:A`, "date")
	k.Refused("/race remove race:x", "race")
	k.Refused("/me set taper:3", "taper")
	k.Bot.Offer(t.Context(), k.Who, "plan show", "race", "")
	k.Bot.Offer(t.Context(), k.Who, "ride", "day", "")
	if _, err := k.DB.FindClub(t.Context(), storage.NameKey(k.Who.Club)); err == nil {
		t.Error("a club was made by reading")
	}
	k.OK("/me set taper:10")
	who, err := k.Bot.Enter(t.Context(), desk.Request{Club: "MARROW vale wheelers", Athlete: "ines", Now: k.Who.Now})
	if err != nil || who.Club != "Marrow Vale Wheelers" || who.Athlete != "Ines" || !who.Known {
		t.Errorf("the rider is %+v, %v", who, err)
	}
}

func TestAfterAnARace(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:6`)
	k.Who.Now = bottest.At("2026-06-29T08:00:00Z")
	for _, line := range []string{"/plan show", `/plan show race:hill`} {
		reply := k.OK(line)
		if reply.Race != "Hill Loop" || strings.Contains(reply.Text(), "No days are left") || strings.HasPrefix(reply.Text(), "No race is to come") {
			t.Errorf("%s: race %q:\n%s", line, reply.Race, reply.Text())
		}
		bottest.Wants(t, reply, "You recover from Hill Loop until Tue 7 Jul.", "Fri 3 Jul", "Mon 29 Jun")
	}
	bottest.Wants(t, k.OK("/plan show race:hill"), "Hill Loop (A) was yesterday, Sun 28 Jun.")
	k.OK(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`)
	reply := k.OK("/plan show")
	if reply.Race != "Hill Loop" {
		t.Errorf("the day after is about %q", reply.Race)
	}
	bottest.Wants(t, reply, `Next, Autumn Cup on Sun 20 Sep: /plan show race:"Autumn Cup"`)
	k.OK(`/race add name:"Creek" date:2026-07-01 priority:B hours:1`)
	if reply := k.OK("/plan show"); reply.Race != "Creek" {
		t.Errorf("a race in two days, and the plan is about %q", reply.Race)
	}
	k.Who.Now = bottest.At("2026-07-10T08:00:00Z")
	bottest.Wants(t, k.OK("/plan show race:hill"), "is over and so are the days after it", "What comes next: /plan show")
}

// A taper that cuts nothing is given without a share.
func TestTaperThatCutsNothing(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/week share week:"sat endurance 20min"`, "/me set taper:4", `/race add name:"Wed Cup" date:2026-07-01 priority:A hours:1`)
	for _, line := range []string{"/plan show", `/race change race:"Wed Cup" hours:1h15`} {
		if reply := k.OK(line); strings.Contains(reply.Text(), "-") && strings.Contains(reply.Text(), "% less") || strings.Contains(reply.Text(), "0 % less") {
			t.Errorf("%s:\n%s", line, reply.Text())
		}
	}
}

func TestRaceListOfStagesAndMany(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Pellow Tour" date:2026-06-02 priority:B days:3`)
	bottest.Wants(t, k.OK("/race list"), "next Pellow Tour on Tue 2 Jun.", "Pellow Tour (3 days): Ines (B, you)", `Your days for Pellow Tour: /plan show race:"Pellow Tour 2026-06-02"`)
	k.As("Tomas")
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	bottest.Wants(t, k.OK("/race list"), "Pellow Tour is under way", "Pellow Tour (3 days, under way): Ines (B)")
	for i := range 45 {
		k.OK(fmt.Sprintf(`/race add name:"Loop %d" date:%s priority:C`, i, planner.NewDate(2026, 6, 10).AddDays(i)))
	}
	reply := k.OK("/race list")
	bottest.Wants(t, reply, "under way: 46.", "and 6 more")
	if n := strings.Count(reply.Text(), ": Tomas (C, you)"); n != 39 {
		t.Errorf("%d races of Tomas, want 39", n)
	}
}

func TestSmallWords(t *testing.T) {
	k := bottest.NewTalk(t)
	if reply := k.OK(`/race add name:"Creek" date:2026-06-20 priority:C`); len(reply.Buttons) != 0 {
		t.Errorf("no plan, but buttons %+v", reply.Buttons)
	}
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/me set taper:4`)
	if got := k.OK("/ride thu").Text(); strings.Count(strings.ToLower(got), "rest") != 1 || strings.Contains(got, "/plan why") {
		t.Errorf("a rest day:\n%s", got)
	}
	if got := k.Refused("/week show from:2026-06-01", "from").Text(); got != "from: /week show takes no options" {
		t.Errorf("got %q", got)
	}
	k.Refused("/race add name:\"A\u200bnn\" date:2026-06-20 priority:C", "name")
	reply := k.OK("/week show")
	bottest.Wants(t, reply, `/week share week:"mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu rest; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min" from:2026-06-01`)
	k.Who.Now = bottest.At("2026-06-27T08:00:00Z")
	bottest.Wants(t, k.OK(`/race add name:"Late" date:2026-06-28 priority:A hours:3`), "Its taper takes 1 day, Sat 27 Jun, with ")
	bottest.Wants(t, k.OK("/plan show"), " You ride on this day, as usual.")
}

// The table takes a week as long as the planner does, and no longer.
func TestWeekTextIsAsLongAsThePlanners(t *testing.T) {
	for n, refused := range map[int]bool{command.MaxWeekText: false, command.MaxWeekText + 1: true} {
		_, err := typed.Week(strings.Repeat("x", n))
		if got := strings.Contains(err.Error(), fmt.Sprintf("are more than %d", command.MaxWeekText)); got != refused {
			t.Errorf("%d characters: %v", n, err)
		}
	}
}
