package bot_test

import (
	"context"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/say"
)

func TestPanicBecomesAReference(t *testing.T) {
	k := bottest.NewTalk(t)
	k.With(command.Command{Name: "burst", Run: func(context.Context, *desk.Base, desk.Request) (say.Reply, error) {
		panic("no such thing")
	}})
	req := k.Who
	req.Command = "burst"
	reply, err := k.Bot.Handle(t.Context(), req)
	if err == nil || reply.Err == nil || !reply.Private {
		t.Fatalf("got %+v, %v; want a private refusal and an error", reply, err)
	}
	_, after, ok := strings.Cut(reply.Text(), "the reference ")
	ref := strings.TrimSuffix(after, ".")
	if !ok || len(ref) != 5 || !strings.Contains(k.Log.String(), "ref="+ref) {
		t.Errorf("reference of %q is not in the log:\n%s", reply.Text(), k.Log)
	}
	if strings.Contains(reply.Text(), "no such thing") {
		t.Errorf("reply shows the inner fault: %s", reply.Text())
	}
}

func TestBrokenDatabaseIsNotTheRidersFault(t *testing.T) {
	k := bottest.NewTalk(t)
	k.DB.Close()
	req := k.Who
	req.Command = "ride"
	reply, err := k.Bot.Handle(t.Context(), req)
	if err == nil || reply.Err == nil || reply.Err.Field != "" || !strings.Contains(reply.Text(), "reference") {
		t.Errorf("got %+v, %v; want a reference and an error", reply, err)
	}
}

func TestLogHoldsNoTexts(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK(`/race add name:"Secret Cup" date:2026-06-20 priority:A`)
	k.Say("is my knee all right?")
	k.Refused(`/race add name:"Secret Cup" date:soon priority:A`, "date")
	log := k.Log.String()
	for _, text := range []string{"Secret", "knee", "soon", "Ines"} {
		if strings.Contains(log, text) {
			t.Errorf("log holds %q:\n%s", text, log)
		}
	}
	if got := strings.Count(log, "\n"); got != 3 {
		t.Errorf("got %d log lines, want one for each of 3 requests:\n%s", got, log)
	}
}

func TestCoachCommandsAreForCoaches(t *testing.T) {
	k := bottest.NewTalk(t)
	k.With(command.Command{Name: "whistle", Coach: true,
		Run: func(context.Context, *desk.Base, desk.Request) (say.Reply, error) {
			return say.Reply{Lines: []say.Line{say.Linef("heard")}}, nil
		}})
	for _, coach := range []bool{false, true} {
		req := k.Who
		req.Command, req.Coach = "whistle", coach
		reply, err := k.Bot.Handle(t.Context(), req)
		if err != nil || (reply.Err == nil) != coach {
			t.Errorf("coach %v: got %+v, %v", coach, reply, err)
		}
	}
}

func TestPlainQuestionIsNeverGuessed(t *testing.T) {
	k := bottest.NewTalk(t)
	for _, text := range []string{"asdf qwer", "tell me a joke", "?", "🚴"} {
		reply := k.Say(text)
		if reply.Topic != say.TopicUnknown || !reply.Private || reply.Err != nil {
			t.Errorf("%q: got topic %q private %v error %v", text, reply.Topic, reply.Private, reply.Err)
		}
		bottest.Wants(t, reply, "/ride", "/plan show", "/help")
	}
}

func TestHandleChecksOptionsFromAnyTransport(t *testing.T) {
	k := bottest.NewTalk(t)
	for _, tc := range []struct {
		command string
		options map[string]string
		field   string
	}{
		{"race add", map[string]string{"name": "X", "date": "2026-06-20"}, "priority"},
		{"race add", map[string]string{"name": "X", "date": "2026-06-20", "priority": "D"}, "priority"},
		{"race add", map[string]string{"name": "a\x00b", "date": "2026-06-20", "priority": "A"}, "name"},
		{"race add", map[string]string{"name": "a\xff", "date": "2026-06-20", "priority": "A"}, "name"},
		{"ride", map[string]string{"when": "today"}, "when"},
		{"race list", map[string]string{"all": "yes"}, "all"},
		{"race fly", nil, "command"},
		{"week share", map[string]string{"week": strings.Repeat("mon off;", 300)}, "week"},
	} {
		req := k.Who
		req.Command, req.Options = tc.command, tc.options
		reply, err := k.Bot.Handle(t.Context(), req)
		if err != nil || reply.Err == nil || reply.Err.Field != tc.field {
			t.Errorf("%s %v: got %+v, %v; want a refusal of %s", tc.command, tc.options, reply.Err, err, tc.field)
		}
	}
}

func TestClubsNeverSeeEachOther(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Barley Ring" date:2026-06-14 priority:A hours:3.5`)
	k.Who.Club = "Other Club"
	k.As("Ines")
	if got := k.OK("/race list"); strings.Contains(got.Text(), "Barley Ring") {
		t.Errorf("another club's race is listed:\n%s", got.Text())
	}
	k.Refused(`/race remove race:"Barley Ring"`, "race")
	bottest.Wants(t, k.OK("/ride"), "do not know your typical week")
	bottest.Wants(t, k.OK("/me show"), "Races to come: 0")
	k.Who.Club = "Marrow Vale Wheelers"
	k.As("Tomas")
	bottest.Wants(t, k.OK("/race list"), "Barley Ring: Ines (A)")
	k.Refused(`/race change race:"Barley Ring" start:9:00`, "race")
}

func TestTheRidersOwnDay(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\"" + bottest.InesWeek + "\"")
	k.Who.Now = bottest.At("2026-06-02T23:30:00Z")
	for zone, want := range map[string]string{"Europe/Lisbon": "2026-06-03", "America/New_York": "2026-06-02", "Pacific/Kiritimati": "2026-06-03"} {
		k.OK("/me set zone:" + zone)
		if got := k.OK("/ride").Date.String(); got != want {
			t.Errorf("%s: today is %s, want %s", zone, got, want)
		}
	}
}
