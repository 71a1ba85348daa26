package bot_test

import (
	"regexp"
	"strings"
	"testing"

	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/say"
)

// printed finds the commands in a reply: a group, its word, options with values
// or a bare date.
var printed = regexp.MustCompile(`/(?:race|week|plan|season|ride|done|tell|me|help|club)\b(?: (?:add|list|change|priority|remove|share|show|why|move|options|check|apply|away|limit|block|missed|result|morning|calendar|setup|set)\b)?` +
	`(?: (?:[a-z-]+:(?:"(?:[^"\\]|\\.)*"|[^\s"(),;]+)|\d{4}-\d\d-\d\d))*`)

// Every command that a reply or a refusal prints works when it is typed as it
// stands, one after the other.
func TestPrintedCommandsWorkOneAfterTheOther(t *testing.T) {
	share := `/week share week:"` + bottest.InesWeek + `"`
	races := []string{share, `/race add name:"Quarry Crit" date:2026-06-07 priority:C hours:1`, `/race add name:"Heron: Valley" date:2026-06-14 priority:B hours:2`,
		`/race add name:"The \"Big\" One" date:2026-07-12 priority:A hours:3.75 start:10:30`}
	for i, tc := range []struct {
		before []string
		line   string
		least  int // commands that it prints
	}{
		{nil, "asdf qwer", 4}, {nil, "/help", 4}, {nil, "/race list", 1}, {nil, "/me show", 3}, {nil, "/plan show", 1}, {nil, "/ride", 1}, {nil, "/week show", 1},
		{nil, share, 1}, {nil, races[1], 1}, {nil, "/race remove race:x", 1}, {nil, "/tell limit day:tomorrow minutes:none", 1}, {nil, "/tell away from:tomorrow kind:none", 1},
		{nil, "/club show", 1}, {nil, "/club setup digest-day:off", 1}, {races, "/club show", 1},
		{races[:1], "/plan show", 2}, {races[:1], "/ride tomorrow", 1}, {races[:1], "/plan why tomorrow", 1}, {races[:1], "/race list", 1},
		{races[:1], races[3], 1}, {races[:2], share, 1}, {races, "/week show", 1}, {races, "/me show", 3},
		{nil, "/plan options", 1}, {nil, "/season check", 1}, {nil, "/season apply", 1}, {races[:1], "/plan options", 1}, {races[:1], "/season check", 1}, {races[:3], "/season check", 1}, {races[:3], "/plan options", 1},
		{races, "/plan options race:heron", 1}, {races, "/season apply make-b:big taper:10", 1}, {races, "/season apply taper:auto", 1},
		{append(races, `/race add name:"The \"Big\" One" date:2026-07-19 priority:A`, `/race add name:"Cup; Final" date:2026-07-26 priority:A`, `/race add name:Last date:2026-08-09 priority:A`), "/season check", 1},
		{races, "/plan show", 1}, {races, "/race morning", 2}, {races, "/race morning big", 1}, {nil, "/plan calendar", 1}, {nil, "/race morning", 1}, {races[1:2], "/plan calendar", 1}, {races, "/plan show race:heron", 2}, {races, "/plan show race:big", 2}, {races, "/race list", 1}, {races, "/ride 2026-07-11", 2},
		{races, races[1], 1}, {races, "/race change race:heron date:2026-06-21", 1}, {races, "/race change race:big date:2026-07-26", 2}, {races, "/race priority race:heron priority:A", 1},
		{races, "/race priority race:heron priority:B", 1}, {races, `/race remove race:"Heron: Valley"`, 1}, {races, `/race remove race:"the \"big\" one"`, 1},
		{races, "/tell limit day:2026-06-20 minutes:45", 1}, {races, "/tell limit day:2026-06-20 minutes:none", 1},
		{races, "/tell away from:2026-06-18 to:2026-06-20", 1}, {races, "/tell away from:2026-12-30 to:2027-01-02 kind:travel", 1},
		{nil, "/done minutes:55", 1}, {nil, "/done minutes:0", 1}, {nil, "/tell missed", 1}, {races[:1], "/tell missed day:sunday", 1}, {races, "/done", 1}, {races, "/done minutes:none", 0},
		{append(races, "/done 1h rpe:8"), "/done minutes:30 note:\"(short), flat\"", 1}, {append(races, "/done 1h rpe:8 note:x"), "/done minutes:none", 1}, {append(races, "/done 30"), "/tell missed", 1},
		{races, "/tell block from:2026-06-08 to:2026-06-14", 1}, {races, "/plan move from:2026-06-16 to:2026-06-17", 1},
		{append(races, "/tell away from:2026-06-18 to:2026-06-20"), "/tell away from:2026-06-19 kind:none", 1},
		{append(races, "/tell away from:2026-06-18 to:2026-06-20"), "/tell away from:2026-06-18 to:2026-06-20 kind:none", 1},
		{append(races, "/tell away from:2026-06-18 to:2026-06-20"), "/tell away from:2026-06-18 to:2026-06-20 kind:travel", 1},
		{append(races, "/tell limit day:2026-06-20 minutes:45"), "/tell limit day:2026-06-20 minutes:none", 1},
		{append(races, "/tell block from:2026-06-08 to:2026-06-14"), "/tell block from:2026-06-08 to:2026-06-12", 1},
		{append(races, "/tell block from:2026-06-08 to:2026-06-14"), "/tell block from:2026-06-08 to:2026-06-14 percent:none", 1},
		{append(races, "/plan move from:2026-06-16 to:2026-06-17"), "/plan move from:2026-06-16 to:2026-06-17", 1},
	} {
		if rounds.Left(i) {
			continue
		}
		k := bottest.NewTalk(t)
		k.Who.Coach = true
		k.OK(tc.before...)
		reply := k.Say(tc.line)
		if len(tc.before) > 0 && reply.Err == nil && len(reply.Buttons) == 0 && strings.HasPrefix(tc.line, "/tell") {
			t.Errorf("%s offers no button", tc.line)
		}
		found := printed.FindAllString(reply.Text(), -1)
		if tc.line == "/help" {
			found = printed.FindAllString(strings.Split(reply.Text(), "\n\n")[0], -1) // the list behind it names commands
		}
		if len(found)+len(reply.Buttons) < tc.least {
			t.Errorf("%s prints %q, want %d commands and buttons or more:\n%s", tc.line, found, tc.least, reply.Text())
		}
		for _, command := range found {
			if reply := k.Say(strings.TrimRight(command, ".?")); reply.Err != nil {
				t.Errorf("%s prints %q, refused: %s", tc.line, command, reply.Text())
			}
		}
	}
}

// Each label of a way back is the command of its button.
func TestUndoIsPrintedAsItsButton(t *testing.T) {
	k := bottest.WithRaces(t)
	for _, line := range []string{`/race remove race:"Hill Loop"`, "/tell away from:2026-06-18 to:2026-06-20 kind:travel", "/tell away from:2026-06-18 to:2026-06-20",
		"/tell limit day:2026-06-20 minutes:90", "/tell limit day:2026-06-20 minutes:60", "/tell block from:2026-06-08 to:2026-06-14 percent:15", "/tell block from:2026-06-08 to:2026-06-14",
		"/plan move from:2026-06-23 to:2026-06-24", "/done minutes:30 rpe:2.5 note:\"a: b\"", "/done rpe:9", "/done day:sunday", "/tell missed day:sat", "/tell missed day:sat note:x",
		"/season apply make-b:hill", "/season apply make-b:hill taper:12", "/season apply back-to-a:heron taper:7"} {
		was := k.Facts()
		reply := k.OK(line)
		if len(reply.Buttons) != 1 || reply.Buttons[0].Label != "Undo" {
			t.Fatalf("%s: buttons %+v, want Undo", line, reply.Buttons)
		}
		told := k.Facts()
		_, undo, _ := strings.Cut(reply.Text(), "Undo: ")
		k.OK(undo)
		if got := k.Facts(); !bottest.SameFacts(got, was) {
			t.Errorf("%s, undone: %+v, was %+v", line, got, was)
		}
		k.OK(line)
		req := k.Who
		req.Command, req.Options = reply.Buttons[0].Command, reply.Buttons[0].Options
		if pressed, err := k.Bot.Handle(t.Context(), req); err != nil || pressed.Err != nil {
			t.Errorf("%s: the button fails: %v %s", line, err, pressed.Text())
		}
		if got := k.Facts(); !bottest.SameFacts(got, was) {
			t.Errorf("%s, undone by the button: %+v, was %+v", line, got, was)
		}
		if k.OK(line); !bottest.SameFacts(k.Facts(), told) {
			t.Errorf("%s again: %+v, was %+v", line, k.Facts(), told)
		}
		if strings.HasPrefix(line, "/race remove") {
			k.OK(undo)
		}
	}
}

// Every command that a reply prints, refusals too, works when it is typed as it
// stands, each in a conversation that has come as far as the reply.
func TestPrintedCommandsWork(t *testing.T) {
	for i, session := range [][]string{
		{"/ride"}, {"/ride tomorrow"}, {"/ride day:2026-07-08"}, {"/plan show"}, {"/plan show race:heron"}, {"/plan show race:hill"}, {"/plan why"},
		{"/plan why tomorrow"}, {"/race list"}, {"/week show"}, {"/me show"}, {"/me set cut:80"}, {"/week share mon: long 2h"},
		{`/race remove race:"quarry crit"`}, {"/race priority race:hill priority:C"}, {"/race change race:quarry kind:criterium"},
		{`/race add name:"Cup:Final" date:2026-08-02 priority:A`}, {`/race add name:"Cup:Final" date:2026-08-02 priority:A`, "/race priority race:cup priority:B"},
		{"/plan move from:2026-06-03 to:2026-06-06"}, {"/plan move from:2026-06-03 to:2026-06-06", "/plan move from:2026-06-06 to:2026-06-03"},
		{"/plan options race:heron"}, {"/season apply make-b:hill taper:9"}, {"/season apply taper:auto"}, {"/me set taper:28", "/season check"},
		{"/race add name:Cup date:2026-07-26 priority:A", "/race add name:Last date:2026-08-09 priority:A", "/race add name:End date:2026-08-23 priority:A", "/season check"},
		{"/done"}, {"/done 30 rpe:8"}, {"/done minutes:0"}, {"/done", "/done minutes:none"}, {"/tell missed"}, {"/tell missed day:sunday"}, {"/done 30", "/tell missed"},
		{"/tell limit day:2026-06-20 minutes:45"}, {"/tell limit day:2026-06-20 minutes:45", "/tell limit day:2026-06-20 minutes:none"}, {"/tell limit day:2026-06-20 minutes:none"},
		{"/tell away from:2026-06-22"}, {"/tell away from:2026-12-30 to:2027-01-02"}, {"/tell away from:2026-06-22 to:2026-06-24", "/tell away from:2026-06-23 kind:none"},
		{"/tell away from:2026-06-22 to:2026-06-24", "/tell away from:2026-06-22 to:2026-06-24 kind:none"}, {"/tell away from:2026-06-22 kind:none"},
		{"/tell block from:2026-06-01 to:2026-06-05"}, {"/tell block from:2026-06-01 to:2026-06-05", "/tell block from:2026-06-03 to:2026-06-09"},
		{"/tell block from:2026-06-01 to:2026-06-05", "/tell block from:2026-06-08 to:2026-06-09", "/tell block from:2026-06-03 to:2026-06-08 percent:none"},
	} {
		if rounds.Left(i) {
			continue
		}
		var reply say.Reply
		run := func() *bottest.Talk {
			k := bottest.WithRaces(t)
			for _, line := range session {
				reply = k.Say(line)
			}
			return k
		}
		run()
		last := session[len(session)-1]
		found := bottest.PrintedCommand.FindAllStringSubmatch(reply.Text(), -1)
		if len(found)+len(reply.Buttons) == 0 && reply.Topic == say.TopicCommand && last != "/race list" {
			t.Errorf("%s offers no next step:\n%s", last, reply.Text())
		}
		for _, match := range found {
			if again := run().Say("/" + match[1]); again.Err != nil {
				t.Errorf("%s prints %q, refused: %s", last, "/"+match[1], again.Text())
			}
		}
	}
}

// Before anything is told the replies print commands that work as well.
func TestFirstCommandsWork(t *testing.T) {
	for _, line := range []string{"/ride", "/plan show", "/plan why", "/week show", "/me show", "/race list", "/race remove race:x"} {
		found := bottest.PrintedCommand.FindAllStringSubmatch(bottest.NewTalk(t).Say(line).Text(), -1)
		if len(found) == 0 {
			t.Errorf("%s offers no next step", line)
		}
		for _, match := range found {
			bottest.NewTalk(t).OK("/" + match[1])
		}
	}
}
