package weeks_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
)

// form is the form of the week for who speaks.
func form(k *bottest.Talk, options map[string]string) command.Form {
	k.T.Helper()
	req := k.Who
	req.Command, req.Options = "week share", options
	form, err := k.Bot.Form(k.T.Context(), req)
	if err != nil {
		k.T.Fatal(err)
	}
	if form.Option != "week" || form.Title == "" || form.Label == "" || form.MaxLen != command.MaxWeekText {
		k.T.Errorf("form %+v", form)
	}
	return form
}

func mustWeek(t *testing.T, text string) planner.Week {
	t.Helper()
	week, err := typed.Week(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return week
}

func TestFormOfTheWeek(t *testing.T) {
	k := bottest.NewTalk(t)
	if got, want := form(k, nil).Text, "mon recovery 40min\ntue intervals 1h30 5x3min\nwed rest\nthu rest\nfri rest\nsat long 3h\nsun rest"; got != want {
		t.Errorf("of a new rider:\n%s\nwant\n%s", got, want)
	}
	k.OK(`/week share week:"sat long 2h" from:2026-06-15`)
	if got := form(k, nil).Text; !strings.Contains(got, "sat long 2h") {
		t.Errorf("the only week, which starts later, is not shown:\n%s", got)
	}
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	if got, want := mustWeek(t, form(k, nil).Text), mustWeek(t, bottest.InesWeek); got.String() != want.String() {
		t.Errorf("the week in force is %s, want %s", got.String(), want.String())
	}
	k.Who.Now = bottest.At("2026-06-15T08:00:00Z")
	if got := form(k, nil).Text; !strings.Contains(got, "sat long 2h\n") || strings.Contains(got, "sun intervals") {
		t.Errorf("the later week is in force, shown is\n%s", got)
	}
	k.As("Tomas")
	if got := form(k, nil).Text; strings.Contains(got, "long 2h") {
		t.Errorf("another rider's week is shown:\n%s", got)
	}
	k.DB.Close()
	if _, err := k.Bot.Form(t.Context(), k.Who); err == nil {
		t.Error("a broken database gives a form")
	}
}

// What was refused stands in the form again, to the letter, and mended it is taken.
func TestRefusedWeekComesBackInTheForm(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Forms = true
	typed := "mon recovery 40min\ntue flying 1h\n\nsat long 3h"
	reply := k.Ask("week share", map[string]string{"week": typed, "from": "2026-06-08"}, "")
	if reply.Err == nil || reply.Err.Field != "week" || len(reply.Buttons) != 1 || !reply.Buttons[0].Form || reply.Buttons[0].Command != "week share" {
		t.Fatalf("got %+v", reply)
	}
	again := reply.Buttons[0].Options
	if got := form(k, again).Text; got != typed || again["from"] != "2026-06-08" {
		t.Errorf("the form holds %q, from %s; want %q", got, again["from"], typed)
	}
	again["week"] = strings.Replace(typed, "flying", "endurance", 1)
	if reply := k.Ask("week share", again, ""); reply.Err != nil || reply.Date.String() != "2026-06-08" {
		t.Errorf("mended: %s", reply.Text())
	}
	k.Who.Forms = false
	if reply := k.Ask("week share", map[string]string{"week": typed}, ""); reply.Err == nil || len(reply.Buttons) != 0 {
		t.Errorf("without forms: %+v", reply)
	}
}

// Forms are offered where the week is lacking, and only where there are forms.
func TestFormButtons(t *testing.T) {
	for _, forms := range []bool{false, true} {
		k := bottest.NewTalk(t)
		k.Who.Forms = forms
		for _, line := range []string{"/ride", "/plan show", "/plan why", "/plan move from:tuesday to:wednesday",
			"/race add name:Loop date:2026-06-28 priority:A", "/race change race:loop hours:3", "/race priority race:loop priority:B"} {
			reply := k.OK(line)
			reply.Buttons = slices.DeleteFunc(reply.Buttons, func(b say.Button) bool { return b.Label == "Undo" })
			if got := len(reply.Buttons); got != map[bool]int{true: 1}[forms] {
				t.Errorf("forms %v: %s offers %+v", forms, line, reply.Buttons)
			} else if forms && (!reply.Buttons[0].Form || reply.Buttons[0].Command != "week share" || len(reply.Buttons[0].Options) != 0) {
				t.Errorf("%s offers %+v", line, reply.Buttons)
			}
		}
		k.OK("/week share week:\"" + bottest.InesWeek + "\"")
		for _, line := range []string{"/ride", "/plan show", "/race change race:loop hours:4"} {
			for _, b := range k.OK(line).Buttons {
				if b.Form {
					t.Errorf("the week is known, %s offers %+v", line, b)
				}
			}
		}
	}
	for _, c := range bot.Commands() {
		if _, ok := c.Option(c.Form); c.Form != "" && !ok {
			t.Errorf("/%s: a form for %q, which is no option", c.Name, c.Form)
		}
	}
}

// randomWeek writes a week that people might: any kinds, lengths and sets.
func randomWeek(r *rand.Rand) string {
	var days []string
	for i := range 7 {
		var sessions []string
		for range r.IntN(5) {
			s := []string{"recovery", "endurance", "long", "intervals", "openers", "race", "strength", "other"}[r.IntN(8)]
			s += fmt.Sprintf(" %dmin", 15+r.IntN(300))
			if r.IntN(2) == 0 {
				s += fmt.Sprintf(" %dx%ds/%ds", 1+r.IntN(9), 10+r.IntN(290), 5+r.IntN(200))
			}
			sessions = append(sessions, s)
		}
		day := strings.Join(sessions, "; ")
		if day == "" {
			day = []string{"off", "rest"}[r.IntN(2)]
		}
		days = append(days, planner.Weekday(i).Short()+" "+day)
	}
	return strings.Join(days, "; ")
}

// Every form can be sent as it stands, whole or line by line, and means the week that it shows.
func TestFormParsesBack(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/me set zone:Europe/Lisbon")
	who, err := k.Base.Rider(t.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	random, taken := rand.New(rand.NewPCG(7, 7)), 0
	for range rounds.Of(150) {
		text := randomWeek(random)
		week, err := typed.Week(text)
		if err != nil {
			continue // sets that do not fit their length, say
		}
		taken++
		if err := k.DB.SetWeek(context.Background(), who.Athlete.ID, who.Today, planner.DatedWeek{From: who.Today, Week: week}); err != nil {
			t.Fatal(err)
		}
		form := form(k, nil)
		lines := strings.Split(form.Text, "\n")
		if len(lines) != 7 || utf8.RuneCountInString(form.Text) > form.MaxLen {
			t.Fatalf("%d lines of %d characters:\n%s", len(lines), utf8.RuneCountInString(form.Text), form.Text)
		}
		if got := mustWeek(t, form.Text); got.String() != week.String() {
			t.Errorf("%s\nparses as %s\nwant      %s", form.Text, got.String(), week.String())
		}
		for i, line := range lines {
			if got := mustWeek(t, line); got[i].String() != week[i].String() {
				t.Errorf("%q is %s, want %s", line, got[i], week[i])
			}
		}
		if reply := k.Ask("week share", map[string]string{form.Option: form.Text}, ""); reply.Err != nil {
			t.Errorf("refused: %s\n%s", reply.Text(), form.Text)
		}
	}
	if taken < rounds.Of(20) {
		t.Errorf("only %d weeks were tried", taken)
	}
}
