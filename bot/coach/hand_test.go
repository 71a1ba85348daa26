package coach_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// coached is a rider with a week and an A race, and a coach who speaks.
func coached(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OK("/week share week:"+say.Quote(bottest.InesWeek), `/race add name:"Gran One" date:2026-06-21 priority:A hours:5 start:10:00`)
	k.As("Rui")
	k.Who.Coach = true
	return k
}

// as goes on as a rider who is no coach.
func as(k *bottest.Talk, name string) {
	k.As(name)
	k.Who.Coach = false
}

func TestAdjustSetsADay(t *testing.T) {
	k := coached(t)
	reply := k.OK(`/coach adjust athlete:Ines day:tomorrow session:"endurance 1h"`)
	bottest.Wants(t, reply, "Ines, Tue 2 Jun: you set endurance 1h (it was intervals 1h30 5x3min).", "Ines gets a private message about it now.")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "Ines" || reply.Sent[0].Rider == 0 || !strings.Contains(reply.Sent[0].Text(), "Tomorrow, Tue 2 Jun: your coach set endurance 1h") {
		t.Errorf("sent %+v", reply.Sent)
	}
	bottest.Wants(t, k.OK(`/coach adjust athlete:Ines day:tomorrow session:"endurance 1h"`), "set already")
	for _, show := range []string{"", " show:all"} {
		bottest.Wants(t, k.OK("/coach athlete Ines"+show), "Tue 2 Jun  endurance 1h (usually intervals 1h30 5x3min), set by a coach")
	}
	k.OK(`/coach note athlete:Ines day:tomorrow text:"Legs turning, no more"`)
	as(k, "Ines")
	bottest.Wants(t, k.OK("/ride tomorrow"), "Tomorrow, Tue 2 Jun: endurance 1h.", "Your coach set this session.", "Your coach: Legs turning, no more")
	k.Press(k.OK("/ride tomorrow"), "Let go of it")
	if pins := k.Facts().Pins; len(pins) != 0 {
		t.Errorf("the rider let go, and left are %+v", pins)
	}
	bottest.Wants(t, k.OK("/ride tomorrow"), "intervals 1h30")
	bottest.Wants(t, k.Refused("/coach release athlete:Ines day:tomorrow", "day"), "nothing is set")
	k.As("Tomas")
	k.OK("/week share week:" + say.Quote(bottest.InesWeek))
	k.Refused("/coach release athlete:Ines day:tomorrow", "athlete")
	k.Refused("/coach adjust athlete:Ines day:tomorrow session:rest", "command")
}

// A day that is over is read as that of the next year, and says so.
func TestAdjustSaysTheYear(t *testing.T) {
	k := coached(t)
	bottest.Wants(t, k.OK(`/coach adjust athlete:Ines day:"31 may" session:"endurance 20min"`), "Ines, Mon 31 May 2027: you set endurance 20min")
	bottest.Wants(t, k.OK(`/coach note athlete:Ines day:"31 may" text:"Easy now"`), "Noted for Ines on Mon 31 May 2027: Easy now")
	bottest.Wants(t, k.Refused("/coach release athlete:Ines day:tomorrow", "day"), "Days that are: Mon 31 May 2027")
	bottest.Wants(t, k.OK(`/coach release athlete:Ines day:2027-05-31`), "Ines, Mon 31 May 2027: the plan holds again")
}

// What a swap may not do, a coach may not either.
func TestAdjustRefuses(t *testing.T) {
	k := coached(t)
	for line, field := range map[string]string{
		`/coach adjust athlete:Ines day:2026-06-20 session:"intervals 1h 5x3min"`: "day",     // the eve
		`/coach adjust athlete:Ines day:2026-06-21 session:rest`:                  "day",     // race day
		`/coach adjust athlete:Ines day:wednesday session:"intervals 1h 5x3min"`:  "day",     // after a hard day
		`/coach adjust athlete:Ines day:yesterday session:rest`:                   "day",     // over
		`/coach adjust athlete:Ines day:tomorrow session:"race 1h"`:               "session", // no training
		`/coach adjust athlete:Rui day:tomorrow session:rest`:                     "athlete", // no rider
	} {
		k.Refused(line, field)
	}
}

// A coach's way back is exact, and so is the way back from it.
func TestUndoOfTheCoach(t *testing.T) {
	k := coached(t)
	pins := func() string {
		who, me := k.Who.Athlete, k.Who.Coach
		defer func() { k.As(who); k.Who.Coach = me }()
		as(k, "Ines")
		text := ""
		for _, p := range k.Facts().Pins {
			text += p.Date.String() + " " + p.Session.Label() + "; "
		}
		return text
	}
	for _, tc := range []struct{ before, line string }{
		{"", `/coach adjust athlete:Ines day:2026-06-10 session:"long 3h"`},
		{`/coach adjust athlete:Ines day:2026-06-10 session:"long 3h"`, `/coach adjust athlete:Ines day:2026-06-10 session:"long 2h"`},
		{`/coach adjust athlete:Ines day:2026-06-10 session:"long 2h"`, `/coach release athlete:Ines day:2026-06-10`},
	} {
		if tc.before != "" && pins() == "" {
			k.OK(tc.before)
		}
		was := pins()
		reply := k.OK(tc.line)
		is := pins()
		if was == is {
			t.Errorf("%s: nothing changed: %s", tc.line, is)
		}
		back := k.Undo(reply)
		if got := pins(); got != was {
			t.Errorf("%s, undone: %q, want %q", tc.line, got, was)
		}
		k.Undo(back)
		if got := pins(); got != is {
			t.Errorf("%s, undone twice: %q, want %q", tc.line, got, is)
		}
	}
}

// A change of a later day comes with the next reminder; a note makes its day due.
func TestReminderTellsOfTheCoach(t *testing.T) {
	k := coached(t)
	k.DB.Now = func() time.Time { return k.Who.Now }
	as(k, "Ines")
	k.OK("/me set remind:06:30")
	k.As("Rui")
	k.Who.Coach = true
	for _, line := range []string{`/coach adjust athlete:Ines day:2026-06-05 session:"endurance 1h"`, `/coach note athlete:Ines day:2026-06-06 text:"Bring a spare"`} {
		if reply := k.OK(line); len(reply.Sent) != 0 || !strings.Contains(reply.Text(), "next reminder") {
			t.Errorf("%s: sent %+v\n%s", line, reply.Sent, reply.Text())
		}
	}
	as(k, "Ines")
	for day, want := range map[int]string{5: "Your coach, for Sat 6 Jun: Bring a spare", 6: "Your coach: Bring a spare", 2: ""} {
		date := planner.NewDate(2026, 6, day)
		reply, due := k.Reminder(date, bottest.At(date.String()+"T07:00:00Z"))
		if due != (want != "") || due && !strings.Contains(reply.Text(), want) {
			t.Errorf("%s: due %v:\n%s", date, due, reply.Text())
		}
	}
}

// A day that no longer fits falls away, with a word to the rider and the coach;
// where that is for health, the coach reads no more than that.
func TestPinFallsAway(t *testing.T) {
	k := coached(t)
	k.OK(`/coach adjust athlete:Ines day:2026-06-09 session:"endurance 1h"`)
	as(k, "Ines")
	bottest.Wants(t, k.OK("/tell away from:2026-06-09"), "What your coach set for Tue 9 Jun no longer fits")
	k.As("Rui")
	k.Who.Coach = true
	k.Who.Now = bottest.At("2026-06-05T08:00:00Z")
	bottest.Wants(t, k.OK("/coach digest"), "Ines: what you set for Tue 9 Jun no longer fits")
}

func TestCoachEntersForARider(t *testing.T) {
	k := coached(t)
	reply := k.OK(`/coach race athlete:Ines name:"Mill Race" date:2026-07-04 priority:B hours:2h`)
	bottest.Wants(t, reply, "Mill Race is in the calendar of Ines")
	if len(reply.Sent) != 1 || reply.Sent[0].To != "Ines" || reply.Sent[0].Kind != "coach" {
		t.Errorf("sent %+v", reply.Sent)
	}
	k.Refused(`/coach race athlete:Ines name:"Mill Race" date:2026-07-04 priority:B`, "name")
	k.Refused(`/coach race athlete:Ines name:"Mill Race" date:2026-05-04 priority:B`, "date")
	reply = k.OK(`/coach week athlete:Ines week:"tue intervals 1h; sat long 3h"`)
	bottest.Wants(t, reply, "The week of Ines from Monday 1 June 2026: 4h on 2 days")
	if len(reply.Sent) != 1 || !strings.Contains(reply.Sent[0].Text(), "Your coach shared your typical week") {
		t.Errorf("sent %+v", reply.Sent)
	}
	k.Undo(reply)
	as(k, "Ines")
	if got := k.Facts(); len(got.Races) != 2 || got.Weeks[len(got.Weeks)-1].Week.String() != "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu rest; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min" {
		t.Errorf("%d races, week %s", len(got.Races), got.Weeks[len(got.Weeks)-1].Week.String())
	}
}

// However many notes a coach writes, the plan's first message keeps to its 25 lines; the whole plan has them all.
func TestNotesLeaveThePlanOnItsScreen(t *testing.T) {
	k := coached(t)
	for note := range 28 {
		k.OK(fmt.Sprintf(`/coach note athlete:Ines day:%s text:"Easy gears, note %d"`, planner.NewDate(2026, 6, 12).AddDays(note/2), note))
	}
	as(k, "Ines")
	k.Who.Now = bottest.At("2026-06-12T08:00:00Z")
	bottest.Wants(t, k.OK("/plan show"), "Your coach: Easy gears, note 1")
	if reply := k.OK("/plan show"); len(reply.Lines) > 25 {
		t.Errorf("%d lines:\n%s", len(reply.Lines), reply.Text())
	}
	bottest.Wants(t, k.OK("/plan show days:all"), "Your coach: Easy gears, note 17")
}

func TestNoteForAll(t *testing.T) {
	k := coached(t)
	as(k, "Tomas")
	k.OK("/week share week:" + say.Quote(bottest.InesWeek))
	k.As("Rui")
	k.Who.Coach = true
	reply := k.OK(`/coach note athlete:all day:tomorrow text:"Stay in the group"`)
	if len(reply.Sent) != 2 {
		t.Errorf("sent %+v", reply.Sent)
	}
	bottest.Wants(t, k.OK("/coach athlete Ines"), "Noted: Stay in the group")
	k.Undo(reply)
	k.Refused(`/coach note athlete:all day:tomorrow text:none`, "text")
	as(k, "Tomas")
	if text := k.OK("/ride tomorrow").Text(); strings.Contains(text, "group") {
		t.Errorf("the note is deleted, and yet:\n%s", text)
	}
}

// A rider who has used the bot once only: the coach shares two weeks in turn and
// registers a race, and the rider hears of it and can take it back.
func TestCoachEntersForARiderWhoUsedItOnce(t *testing.T) {
	k := bottest.NewTalk(t)
	k.As("Ben")
	k.OK("/me set announce:off")
	k.As("Rui")
	k.Who.Coach = true
	k.Refused(`/coach week athlete:Anna week:"tue intervals 1h; sat long 3h"`, "athlete")
	reply := k.OK(`/coach week athlete:Ben week:"tue intervals 1h 4x4min; sat long 3h" second:"wed endurance 1h; sun long 2h"`)
	bottest.Wants(t, reply, "The week of Ben from Monday 1 June 2026: 4h on 2 days", "Tue  intervals 1h 4x4min", "The other week in turn, from Monday 8 June 2026: 3h on 2 days", "Sun  long 2h")
	if len(reply.Sent) != 1 || !strings.Contains(reply.Sent[0].Text(), "The other week in turn") || reply.Sent[0].To != "Ben" {
		t.Fatalf("sent %+v", reply.Sent)
	}
	race := k.OK(`/coach race athlete:Ben name:"Hill Loop" date:2026-07-12 priority:A hours:3h`)
	bottest.Wants(t, race, "Hill Loop is in the calendar of Ben", "Its taper takes ")
	bottest.Wants(t, k.OK("/coach athlete Ben"), "Ben: Hill Loop (A, Sun 12 Jul) in 41 days", "Tue 2 Jun  intervals 1h 4x4min")
	changed := k.OK(`/coach week athlete:Ben week:"mon rest; tue endurance 1h"`)
	k.Undo(changed)
	as(k, "Ben")
	bottest.Wants(t, k.OK("/ride day:2026-06-10"), "Wed 10 Jun: endurance 1h.")
	if w := k.Facts().Weeks[0]; w.Second == nil || w.Second.String() != "mon rest; tue rest; wed endurance 1h; thu rest; fri rest; sat rest; sun long 2h" {
		t.Errorf("after the undo: %+v", w)
	}
	b := changed.Sent[0].Buttons[0]
	if back := k.Ask(b.Command, b.Options, ""); back.Err != nil {
		t.Errorf("%s: %s", b.Label, back.Text())
	}
}

// Coaches are told at once of days that they set and that go by the plan again, in
// their channel and of health no more than that it is health.
func TestCoachesAreToldOfPinsThatFall(t *testing.T) {
	for line, want := range map[string]string{
		"/tell away from:2026-06-05 to:2026-06-06":      "Ines: what you set for Fri 5 Jun no longer fits what the rider entered since.\nSee /coach athlete Ines",
		"/coach release athlete:Ines day:2026-06-05":    "Ines let go of what you set for Fri 5 Jun.\nSee /coach athlete Ines",
		"I fainted on the bike this morning":            "Ines: not training: health. What you set for Fri 5 Jun waits.\nSee /coach athlete Ines",
		"/tell sick symptoms:fever":                     "Ines: not training: health. What you set for Fri 5 Jun waits.\nSee /coach athlete Ines",
		"/tell away from:2026-06-08 to:2026-06-09":      "",
		"/tell limit day:2026-06-02 minutes:30":         "",
		"/done 40":                                      "",
		"/coach release athlete:Ines day:2026-06-09":    "",
		"/me set remind:06:30":                          "",
		"/race add name:Far date:2026-08-30 priority:C": "",
	} {
		k := coached(t)
		k.Who.Admin = true
		k.OK("/club setup coaches-channel:#coaches coach-role:Coach")
		set := k.OK(`/coach adjust athlete:Ines day:2026-06-05 session:"endurance 40min"`)
		k.Who.Admin = false
		as(k, "Ines")
		reply := k.Say(line)
		got := ""
		for _, m := range append(reply.Sent, set.Sent...) {
			if m.To == "#coaches" {
				got += m.Text()
			}
		}
		if got != want {
			t.Errorf("%s: the coaches are told %q, want %q", line, got, want)
		}
		again := k.Say(line)
		for _, m := range again.Sent {
			if m.To == "#coaches" {
				t.Errorf("%s: told once more: %s", line, m.Text())
			}
		}
	}
	k := coached(t) // no channel
	k.OK(`/coach adjust athlete:Ines day:2026-06-05 session:"endurance 40min"`)
	as(k, "Ines")
	if reply := k.OK("/tell away from:2026-06-05 to:2026-06-06"); len(reply.Sent) != 0 {
		t.Errorf("sent %+v", reply.Sent)
	}
	k.As("Rui")
	k.Who.Coach = true
	bottest.Wants(t, k.OK("/coach digest"), "Ines: what you set for Fri 5 Jun no longer fits")
}

// What a coach does for a rider who is ill, held back or on the way back tells no more
// than that they do not train.
func TestHandsReadNothingOfHealth(t *testing.T) {
	for _, told := range []string{"/tell sick symptoms:fever since:2026-05-30", "i have chest pain", "/tell injured what:knee since:2026-05-30", "/tell well"} {
		k := coached(t)
		as(k, "Ines")
		k.OK("/tell sick symptoms:fever since:2026-05-28")
		k.Say(told)
		as(k, "Rui")
		k.Who.Coach = true
		for _, line := range []string{
			`/coach race athlete:Ines name:"Bog" date:2026-06-09 priority:B hours:1`, `/coach race athlete:Ines name:"Fen" date:2026-07-12 priority:A hours:2`,
			`/coach week athlete:Ines week:"tue intervals 1h; sat 3h; sun 2h"`, "/coach adjust athlete:Ines day:2026-06-13 session:rest", "/coach release athlete:Ines day:2026-06-13",
		} {
			text := strings.ToLower(k.Say(line).Text())
			for _, word := range []string{"illness", "injur", "you are ill", "well", "symptom", "doctor has", "fever", "0min of riding", "as training"} {
				if strings.Contains(text, word) {
					t.Errorf("%s, then %s tells the coach %q:\n%s", told, line, word, text)
				}
			}
		}
	}
}

// What a coach sets is judged by what holds when it is stored.
func TestPinsAreJudgedWhenTheyAreStored(t *testing.T) {
	k := coached(t)
	day := planner.DateOf(k.Who.Now) + 1
	athletes, err := k.DB.Athletes(t.Context(), k.Club().ID)
	if err != nil || len(athletes) != 1 {
		t.Fatal(err, athletes)
	}
	reply := k.Meanwhile(`/coach adjust athlete:Ines day:tomorrow session:"endurance 1h"`, func(tx *storage.DB) error {
		_, err := tx.AddAbsence(t.Context(), athletes[0].ID, day-1, planner.Absence{From: day, To: day})
		return err
	})
	if reply.Err == nil || reply.Err.Field != "day" || len(reply.Sent) != 0 {
		t.Errorf("set on a day away, sent %+v:\n%s", reply.Sent, reply.Text())
	}
}
