package remind_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
	"musette/storage/storagetest"
)

// reminder is what who speaks is told on a day; due is false where that is nothing.
func reminder(k *bottest.Talk, text string) (r say.Reply, due bool) {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	d := day(k.T, text)
	return k.Reminder(d, mustDue(k.T, d, who.Athlete.Settings.Remind.At, who.Zone))
}

func mustDue(t testing.TB, d planner.Date, clock string, zone *time.Location) time.Time {
	t.Helper()
	due, ok := remind.DueAt(d, clock, zone)
	if !ok {
		t.Fatalf("%s never comes on %s in %s", clock, d, zone)
	}
	return due
}

// reminders is what who speaks has chosen about them.
func reminders(k *bottest.Talk) storage.Reminders {
	k.T.Helper()
	return k.Stored().([]any)[1].(storage.Athlete).Settings.Remind
}

const hillLoop = `/race add name:"Hill Loop" date:2026-07-05 priority:A hours:3.75 start:10:30 place:"Market Square" taper:14`

func withPlan(t *testing.T) *bottest.Talk {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", hillLoop)
	return k
}

func TestReminderWords(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:always")
	for d, want := range map[string]string{
		"2026-06-13": "",
		"2026-06-16": "Today, Tue 16 Jun: intervals 1h30, 5x3min hard.\n1h30: 15 min warm-up, then 5 x 3 min hard (3 min easy between), then 10 min cool-down. The other 38 min are easy riding, before or after.\nHow hard: 8 to 9 of 10 by feel (RPE: 10 is all-out).\nThe taper for Hill Loop begins in 5 days, on Sun 21 Jun. This day is the same as in your usual week.\n",
		"2026-06-23": "Today, Tue 23 Jun: intervals 1h15, 5x3min hard.\n1h15: 15 min warm-up, then 5 x 3 min hard (3 min easy between), then 10 min cool-down. The other 23 min are easy riding, before or after.\nHow hard: 8 to 9 of 10 by feel (RPE: 10 is all-out).\nThis is day 3 of 14 of the taper for Hill Loop, which is in 12 days. This is shorter than usual",
		"2026-07-04": "Today, Sat 4 Jul: openers 40min.\nOpeners: 40min easy with 3 x 1 min and 2 x 10 s hard but not all-out. Recover fully between them. Stop while you feel fresh.\nHow hard: the easy part about 3 of 10 by feel, the short efforts about 8 (RPE: 10 is all-out).\nThis is day 14 of 14 of the taper for Hill Loop, which is tomorrow. You ride openers the day before Hill Loop",
		"2026-07-05": "Race day: Hill Loop, start 10:30, Market Square.\nGood luck, and enjoy it!\nHill Loop, 3h45, start 10:30. Warm up",
		"2026-07-06": "Today, Mon 6 Jul: rest.\nYou recover from Hill Loop until Sun 12 Jul. You take a day off after Hill Loop.\nHow were your legs in Hill Loop?",
		"2026-07-12": "Today, Sun 12 Jul: intervals 1h40, 3x8min hard.\n1h40: 15 min warm-up, then 3 x 8 min hard (4 min easy between), then 10 min cool-down. The other 43 min are easy riding, before or after.\nHow hard: 8 to 9 of 10 by feel (RPE: 10 is all-out).\nToday is the last day of your recovery after Hill Loop. You come back from Hill Loop in steps",
		"2026-07-13": "",
	} {
		r, due := reminder(k, d)
		if due != (want != "") || !strings.HasPrefix(r.Text(), want) {
			t.Errorf("%s: due %v:\n%s", d, due, r.Text())
		}
	}
	eve, _ := reminder(k, "2026-07-04")
	bottest.Wants(t, eve, "\nTomorrow, Sun 5 Jul: Hill Loop (A race), start 10:30, Market Square.\n", "\n! Keep openers short and never go all-out.",
		"\nThis reminder comes from Marrow Vale Wheelers.\nPause reminders: /me set pause:3. Stop them: /me set remind:off")
	for _, d := range []string{"2026-07-04", "2026-07-05"} {
		if r, _ := reminder(k, d); len(r.Moments) != 1 || !r.Moments[0].At.Equal(bottest.At("2026-07-05T09:30:00Z")) || r.Race != "Hill Loop" {
			t.Errorf("%s: moments %v, race %q", d, r.Moments, r.Race)
		}
	}
	k.OK("/race change race:hill start:none")
	eve, _ = reminder(k, "2026-07-04")
	bottest.Wants(t, eve, `When does it start? Tell me, for example: /race change race:"Hill Loop 2026-07-05" start:10:30`)
	bottest.Wants(t, eve, `/race morning race:"Hill Loop 2026-07-05"`)
}

// What a reminder says of a race that is near stands in /ride, too.
func TestRideSaysWhatReminderSays(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:06:30")
	for _, d := range []string{"2026-07-04", "2026-07-05", "2026-07-06"} {
		k.Who.Now = bottest.At(d + "T05:30:00Z")
		r, _ := reminder(k, d)
		ride := k.OK("/ride")
		for _, line := range strings.Split(r.Text(), "\n") {
			if strings.HasPrefix(line, "Tomorrow") || strings.HasPrefix(line, "Good luck") || strings.HasPrefix(line, "How were") {
				bottest.Wants(t, ride, line)
			}
		}
		if len(ride.Moments) != len(r.Moments) || ride.Race != r.Race {
			t.Errorf("%s: /ride has %v of %q, the reminder %v of %q", d, ride.Moments, ride.Race, r.Moments, r.Race)
		}
	}
	k.Press(k.OK("/ride"), "Good")
	for _, r := range []say.Reply{k.OK("/ride"), first(reminder(k, "2026-07-06"))} {
		if strings.Contains(r.Text(), "How were") {
			t.Errorf("asks again:\n%s", r.Text())
		}
	}
}

func first(r say.Reply, _ bool) say.Reply { return r }

func TestNoReminder(t *testing.T) {
	k := bottest.NewTalk(t)
	quiet := func(why string) {
		t.Helper()
		if r, due := reminder(k, "2026-07-04"); due {
			t.Errorf("%s: due:\n%s", why, r.Text())
		}
	}
	k.OK("/me set remind:always")
	quiet("no week, no race")
	k.OK(hillLoop)
	quiet("no week")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	if _, due := reminder(k, "2026-07-04"); !due {
		t.Error("the eve of a race is not due")
	}
	k.OK("/me set remind-by:ride")
	quiet("only in /ride")
	k.OK("/me set remind-by:direct remind:off")
	quiet("off")
	k.OK("/me set remind:changed", `/race remove race:"Hill Loop"`)
	quiet("no race")
}

func TestRemindGrammar(t *testing.T) {
	for _, tc := range []struct {
		before, typed string
		mode          storage.Remind
		at            string
	}{
		{"", "06:30", storage.RemindChanged, "06:30"}, {"", "changed", storage.RemindChanged, "06:30"}, {"", "always", storage.RemindAlways, "06:30"},
		{"", "always 7:05", storage.RemindAlways, "07:05"}, {"", "7:05 Always", storage.RemindAlways, "07:05"}, {"", "CHANGED 21:00", storage.RemindChanged, "21:00"},
		{"", "6.30 pm", storage.RemindChanged, "18:30"}, {"", "off", storage.RemindOff, "06:30"}, {"always 05:00", "06:30", storage.RemindAlways, "06:30"},
		{"always 05:00", "off", storage.RemindOff, "05:00"}, {"always 05:00", "changed", storage.RemindChanged, "05:00"}, {"off", "00:00", storage.RemindChanged, "00:00"},
	} {
		k := bottest.NewTalk(t)
		if tc.before != "" {
			k.OK("/me set remind:" + say.Quote(tc.before))
		}
		k.OK("/me set remind:" + say.Quote(tc.typed))
		if got := reminders(k); got.Mode != tc.mode || got.At != tc.at {
			t.Errorf("%q after %q: %+v", tc.typed, tc.before, got)
		}
	}
	k := bottest.NewTalk(t)
	for _, typed := range []string{"on off", "06:30 06:31", "changed always", "off 06:30", "24:00", "6", "allways", "always at six", "06:30 daily", "always always"} {
		bottest.Wants(t, k.Refused("/me set remind:"+say.Quote(typed), "remind"), "06:30, changed 06:30, always 06:30 or off")
	}
	for _, typed := range []string{"61", "-1", "thre", "2.5"} {
		bottest.Wants(t, k.Refused("/me set pause:"+typed, "pause"), "For example 3, or 0 to end a pause")
	}
	bottest.Wants(t, k.Refused("/me set remind-by:email", "remind-by"), "direct, thread or ride")
	bottest.Wants(t, k.OK("/me show"), "I send you no reminders.")
	k.OK(`/me set remind:"always 7:05" pause:2`)
	bottest.Wants(t, k.OK("/me show"), "at 07:05 of every day, by direct message. You get none until Wed 3 Jun.")
}

func TestThreadNeedsAChannel(t *testing.T) {
	k := withPlan(t)
	k.OnPlatform("9", "1")
	k.OK("/me set remind:06:30")
	bottest.Wants(t, k.Refused("/me set remind-by:thread", "remind-by"), "needs a channel", "direct or ride")
	k.Who.Admin = true
	k.OK("/club setup channel:<#12>")
	if k.OK("/me set remind-by:thread"); reminders(k).By != storage.RemindThread {
		t.Errorf("%+v", reminders(k))
	}
}

// Reminders are offered once there is something to be reminded of, and one press
// turns them on or off.
func TestRemindersByOnePress(t *testing.T) {
	k := bottest.NewTalk(t)
	has := func(r say.Reply) bool {
		return strings.Contains(fmt.Sprint(r.Buttons), "Remind me")
	}
	if r := k.OK(hillLoop); has(r) {
		t.Errorf("offered without a plan: %+v", r.Buttons)
	}
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	change := k.OK("/race change race:hill kind:gravel")
	if add := k.OK("/race add name:Quarry date:2026-06-28 priority:C"); !has(change) || !has(add) {
		t.Errorf("not offered: %+v, %+v", change.Buttons, add.Buttons)
	}
	if reminders(k).Mode != storage.RemindOff {
		t.Error("on before the press")
	}
	on := k.Press(change, "Remind me")
	if r := reminders(k); r.Mode != storage.RemindChanged || r.At != "06:30" {
		t.Errorf("after the press: %+v", r)
	}
	bottest.Wants(t, on, "Done. Near a race I remind you at 06:30 of days that differ", "Stop: /me set remind:off")
	if r := k.OK("/race change race:hill kind:road"); has(r) {
		t.Errorf("offered to who has them: %+v", r.Buttons)
	}
	r, _ := reminder(k, "2026-07-04")
	k.Who.Now = bottest.At("2026-07-04T05:30:00Z")
	bottest.Wants(t, k.Press(r, "Pause reminders for 3 days"), "You get none until Tue 7 Jul")
	if got := reminders(k).Pause.String(); got != "2026-07-07" {
		t.Errorf("paused to %s", got)
	}
	if k.Press(r, "Stop reminders"); reminders(k).Mode != storage.RemindOff {
		t.Errorf("after stop: %+v", reminders(k))
	}
}

// The buttons of a season's reminders, and the commands that these print, are
// accepted on the evening of the day.
func TestButtonsOfASeason(t *testing.T) {
	rounds.Skip(t, "that all buttons of a season's reminders work")
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-01-01T12:00:00Z")
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	f := reminded(t)
	for _, r := range f.Races[1:] {
		k.OK(fmt.Sprintf("/race add name:%s date:%s priority:%s hours:%g days:%d", say.Quote(r.Name), r.Date, r.Priority, r.Hours, r.Days))
	}
	k.OK("/me set remind:always", "/tell away from:2026-03-18 to:2026-03-19", "/tell away from:2026-05-05 to:2026-05-06 kind:travel",
		"/tell limit day:2026-04-29 minutes:40", "/tell block from:2026-06-29 to:2026-07-09 percent:25")
	pressed := map[string]int{}
	for d := day(t, "2026-03-20"); d <= day(t, "2026-08-05"); d++ {
		k.Who.Now = bottest.At(d.String() + "T20:00:00Z")
		r, due := reminder(k, d.String())
		if !due {
			continue
		}
		for _, match := range bottest.PrintedCommand.FindAllStringSubmatch(r.Text(), -1) {
			if what, _, _ := strings.Cut(match[1], ":"); pressed[what] < 5 {
				pressed[what]++
				k.OK("/" + match[1])
			}
		}
		for _, b := range r.Buttons {
			if pressed[b.Label] >= 12 {
				continue // each tells its day or its race anew
			}
			if b.Command == "plan why" {
				pressed[b.Command]++
			}
			pressed[b.Label]++
			if got := k.Press(r, b.Label); got.Err != nil {
				t.Errorf("%s: %s %v: %s", d, b.Label, b.Options, got.Text())
			}
		}
		k.OK("/me set remind:always pause:0")
	}
	for _, label := range []string{"Rode it", "Heavy legs", "Did not ride", "plan why", "Heavy", "Fair", "Good", "Flying", "Pause reminders for 3 days", "Stop reminders",
		"me set pause", "me set remind", "race change race", "race result race"} {
		if pressed[label] < 5 {
			t.Errorf("%s was pressed %d times", label, pressed[label])
		}
	}
}

// BenchmarkReminder reads, plans and words one reminder of a season with 12 races.
func BenchmarkReminder(b *testing.B) {
	ctx := b.Context()
	db := storagetest.Open(b, filepath.Join(b.TempDir(), "bench.db"))
	club, err := db.EnsureClub(ctx, storage.NameKey("home"), "home", "Europe/Lisbon")
	if err != nil {
		b.Fatal(err)
	}
	rider, err := db.EnsureAthlete(ctx, club.ID, storage.NameKey("me"), "me")
	if err != nil {
		b.Fatal(err)
	}
	week, err := typed.Week(bottest.InesWeek)
	if err != nil {
		b.Fatal(err)
	}
	today := day(b, "2026-03-02")
	if err := db.SetWeek(ctx, rider.ID, today.AddDays(-60), planner.DatedWeek{From: today.AddDays(-60), Week: week}); err != nil {
		b.Fatal(err)
	}
	priorities := []planner.Priority{planner.PriorityC, planner.PriorityB, planner.PriorityC, planner.PriorityA}
	for i := range 12 {
		race := planner.Race{Name: fmt.Sprintf("Race %d", i+1), Date: today.AddDays(20 + 21*i), Priority: priorities[i%4], Hours: float64(1 + i%4), Start: "10:30", Days: 1}
		if _, _, err := db.AddRace(ctx, rider.ID, today.AddDays(-60), race); err != nil {
			b.Fatal(err)
		}
	}
	bot, from := bot.New(bot.Deps{DB: db}), today.AddDays(69)
	b.ReportAllocs()
	b.RunParallel(func(pb *testing.PB) {
		for i := 0; pb.Next(); i++ {
			d := from.AddDays(i % 14) // the days of a taper
			who, err := db.KnownOf(ctx, d, rider.ID)
			if err != nil {
				b.Error(err)
				return
			}
			who.Athlete.Settings.Remind.Mode = storage.RemindAlways
			if _, due, err := bot.Reminder(ctx, who, d, mustDue(b, d, "06:30", time.UTC)); err != nil || !due {
				b.Errorf("%s: due %v, %v", d, due, err)
				return
			}
		}
	})
}

// The eve counts the morning back from the start, by the clocks at the start, and with the way once it is entered.
func TestEveCountsBack(t *testing.T) {
	k := withPlan(t)
	k.OK("/me set remind:always")
	const eve = "2026-07-04"
	for _, tc := range []struct{ line, want string }{
		{"", "\nGet up 07:00, last meal 07:30, be there 09:20, warm up 10:05, at the line 10:15, start 10:30. Leave in time to be there.\nWhat to eat and to pack: /race morning"},
		{"/race morning race:hill travel:45min", "\nGet up 07:00, last meal 07:30, leave 08:35, be there 09:20, warm up 10:05, at the line 10:15, start 10:30.\n"},
		{"/race morning race:hill zone:Asia/Tokyo", "\nGet up 07:00, "},
		{"/race change race:hill start:00:30", "\nLast meal Sat 21:30, leave Sat 22:35, be there Sat 23:20, warm up 00:05, at the line 00:15, start 00:30.\n"},
		{"/race change race:hill start:05:00", "\nGet up 02:05, last meal 02:35, leave 03:05, "},
	} {
		if tc.line != "" {
			k.OK(tc.line)
		}
		r, _ := reminder(k, eve)
		bottest.Wants(t, r, tc.want)
	}
	k.OK("/race change race:hill start:none")
	r, _ := reminder(k, eve)
	bottest.Wants(t, r, "\nWhen to get up, eat and leave, and what to pack: /race morning")
}
