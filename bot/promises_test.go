package bot

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

func sameFacts(a, b planner.Facts) bool { return reflect.DeepEqual(a, b) }

// After the write nobody is told that nothing was changed.
func TestBrokenAnswerSaysThatItIsStored(t *testing.T) {
	for name, fails := range map[string]func(*talk){"reading": func(k *talk) { k.db.Close() }, "a panic": func(*talk) { panic("torn page") }} {
		k := newTalk(t)
		k.with(Command{Name: "snap", run: func(b *Base, ctx context.Context, req Request) (Reply, error) {
			_, err := b.change(ctx, req, func() error {
				_, _, err := b.db.AddRace(ctx, req.rider.athlete.ID, 20600, planner.Race{Name: "Secret Cup", Date: 20700, Days: 1})
				if name == "reading" {
					fails(k)
				}
				return err
			})
			if err == nil {
				fails(k)
			}
			return Reply{}, err
		}})
		req := k.who
		req.Command = "snap"
		reply, err := k.bot.Handle(t.Context(), req)
		if err == nil || reply.Err == nil || !strings.Contains(reply.Text(), "is stored") || !strings.Contains(reply.Text(), "reference") {
			t.Errorf("%s: %q, %v; want that it is stored, and a reference", name, reply.Text(), err)
		}
	}
}

// What broke is logged without names.
func TestErrorsNameNobody(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:"Secret Cup" date:2026-06-20 priority:A`)
	k.db.Close()
	for _, line := range []string{`/race add name:"Secret Ring" date:2026-06-20 priority:A`, `/race change race:"Secret Cup" name:"Secret Lap"`, "/race list"} {
		req, err := ParseLine(Commands(), line)
		if err != nil {
			t.Fatal(err)
		}
		req.Club, req.Athlete, req.Now = k.who.Club, k.who.Athlete, k.who.Now
		if _, err := k.bot.Handle(t.Context(), req); err == nil {
			t.Errorf("%s: worked on a closed database", line)
		}
	}
	for _, name := range []string{"Secret", "Ines", "Marrow"} {
		if strings.Contains(k.log.String(), name) {
			t.Errorf("the log names %s:\n%s", name, k.log)
		}
	}
}

// Reading stores nothing, not even who asks.
func TestReadingMakesNobody(t *testing.T) {
	k := newTalk(t)
	for _, line := range []string{"/race list", "/help", "/me show", "/ride", "/plan show", "/plan why", "/week show", "what now?"} {
		k.say(line)
	}
	k.refused("/tell limit day:friday minutes:none", "day")
	k.refused(`/race add name:X date:2026-05-01 priority:A`, "date")
	k.refused("/race remove race:x", "race")
	k.refused("/me set taper:3", "taper")
	k.bot.Offer(t.Context(), k.who, "plan show", "race", "")
	k.bot.Offer(t.Context(), k.who, "ride", "day", "")
	if _, err := k.db.FindClub(t.Context(), storage.NameKey(k.who.Club)); err == nil {
		t.Error("a club was made by reading")
	}
	k.ok("/me set taper:10")
	who, err := k.bot.Enter(t.Context(), Request{Club: "MARROW vale wheelers", Athlete: "ines", Now: k.who.Now})
	if err != nil || who.Club != "Marrow Vale Wheelers" || who.Athlete != "Ines" || !who.Known {
		t.Errorf("the rider is %+v, %v", who, err)
	}
}

func TestAfterAnARace(t *testing.T) {
	k := newTalk(t)
	k.ok("/week share week:\""+inesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:6`)
	k.who.Now = at("2026-06-29T08:00:00Z")
	for _, line := range []string{"/plan show", `/plan show race:hill`} {
		reply := k.ok(line)
		if reply.Race != "Hill Loop" || strings.Contains(reply.Text(), "No days are left") || strings.HasPrefix(reply.Text(), "No race to come") {
			t.Errorf("%s: race %q:\n%s", line, reply.Race, reply.Text())
		}
		wants(t, reply, "Recovery", "11 left, to Thu 9 Jul", "Fri 3 Jul", "Mon 29 Jun")
	}
	wants(t, k.ok("/plan show race:hill"), "Hill Loop (A) was yesterday, Sun 28 Jun.")
	k.ok(`/race add name:"Autumn Cup" date:2026-09-20 priority:A hours:3`)
	reply := k.ok("/plan show")
	if reply.Race != "Hill Loop" {
		t.Errorf("the day after is about %q", reply.Race)
	}
	wants(t, reply, `Next, Autumn Cup on Sun 20 Sep: /plan show race:"Autumn Cup"`)
	k.ok(`/race add name:"Creek" date:2026-07-01 priority:B hours:1`)
	if reply := k.ok("/plan show"); reply.Race != "Creek" {
		t.Errorf("a race in two days, and the plan is about %q", reply.Race)
	}
	k.who.Now = at("2026-07-10T08:00:00Z")
	wants(t, k.ok("/plan show race:hill"), "is over and so are the days after it", "What comes next: /plan show")
}

// A taper that cuts nothing is given without a share.
func TestTaperThatCutsNothing(t *testing.T) {
	k := newTalk(t)
	k.ok(`/week share week:"sat endurance 20min"`, "/me set taper:4", `/race add name:"Wed Cup" date:2026-07-01 priority:A hours:1`)
	for _, line := range []string{"/plan show", `/race change race:"Wed Cup" hours:1h15`} {
		if reply := k.ok(line); strings.Contains(reply.Text(), "-") && strings.Contains(reply.Text(), "% less") || strings.Contains(reply.Text(), "0 % less") {
			t.Errorf("%s:\n%s", line, reply.Text())
		}
	}
}

func TestRaceListOfStagesAndMany(t *testing.T) {
	k := newTalk(t)
	k.ok(`/race add name:"Pellow Tour" date:2026-06-02 priority:B days:3`)
	wants(t, k.ok("/race list"), "next Pellow Tour on Tue 2 Jun.", "Pellow Tour (3 days): Ines B", `Your days for Pellow Tour: /plan show race:"Pellow Tour 2026-06-02"`)
	k.as("Tomas")
	k.who.Now = at("2026-06-03T08:00:00Z")
	wants(t, k.ok("/race list"), "Pellow Tour is under way", "Pellow Tour (3 days, under way): Ines B")
	for i := range 45 {
		k.ok(fmt.Sprintf(`/race add name:"Loop %d" date:%s priority:C`, i, planner.NewDate(2026, 6, 10).AddDays(i)))
	}
	reply := k.ok("/race list")
	wants(t, reply, "under way: 46.", "and 6 more")
	if n := strings.Count(reply.Text(), ": Tomas C"); n != 39 {
		t.Errorf("%d races of Tomas, want 39", n)
	}
}

func TestSmallWords(t *testing.T) {
	k := newTalk(t)
	if reply := k.ok(`/race add name:"Creek" date:2026-06-20 priority:C`); len(reply.Buttons) != 0 {
		t.Errorf("no plan, but buttons %+v", reply.Buttons)
	}
	k.ok("/week share week:\""+inesWeek+"\"", `/me set taper:4`)
	if got := k.ok("/ride thu").Text(); strings.Count(strings.ToLower(got), "rest") != 1 || strings.Contains(got, "/plan why") {
		t.Errorf("a rest day:\n%s", got)
	}
	if got := k.refused("/week show from:2026-06-01", "from").Text(); got != "from: /week show takes no options" {
		t.Errorf("got %q", got)
	}
	k.refused("/race add name:\"A\u200bnn\" date:2026-06-20 priority:C", "name")
	reply := k.ok("/week show")
	wants(t, reply, `/week share week:"mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu rest; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min" from:2026-06-01`)
	k.who.Now = at("2026-06-27T08:00:00Z")
	wants(t, k.ok(`/race add name:"Late" date:2026-06-28 priority:A hours:3`), "Taper: 1 day, Sat 27 Jun, with ")
	wants(t, k.ok("/plan show"), ", on your usual ride day.")
}

// The table takes a week as long as the planner does, and no longer.
func TestWeekTextIsAsLongAsThePlanners(t *testing.T) {
	for n, refused := range map[int]bool{maxWeekText: false, maxWeekText + 1: true} {
		_, err := typed.Week(strings.Repeat("x", n))
		if got := strings.Contains(err.Error(), fmt.Sprintf("are more than %d", maxWeekText)); got != refused {
			t.Errorf("%d characters: %v", n, err)
		}
	}
}
