package terminal

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/say"
	"musette/planner"
	"musette/storage/storagetest"
)

const week = `/week share week:"mon recovery 40min; tue intervals 1h30 5x3min; thu off; sat long 3h; sun intervals 2h 4x8min"`

func newBot(t *testing.T) *bot.Bot {
	t.Helper()
	db := storagetest.New(t)
	return bot.New(bot.Deps{DB: db})
}

func newSession(t *testing.T) *Session {
	t.Helper()
	s, err := Open(t.Context(), Config{Bot: newBot(t), Club: "home", Athlete: "Ines", Home: "Europe/Lisbon", Now: "2026-06-01T08:00"})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// enter answers a line that must be answered.
func enter(t *testing.T, s *Session, line string) say.Reply {
	t.Helper()
	reply, answered := s.Line(t.Context(), line)
	if !answered {
		t.Fatalf("%q is not answered", line)
	}
	return reply
}

func TestControlLines(t *testing.T) {
	s := newSession(t)
	for _, tc := range []struct{ line, says string }{
		{week, "Your week from Monday 1 June 2026"},
		{":now 2026-06-02T23:30", "Tuesday 2 June 2026, 23:30, Europe/Lisbon"},
		{"/ride", "Today, Tue 2 Jun: intervals 1h30"},
		{":zone Asia/Tokyo", "time of Asia/Tokyo"},
		{"/ride", "Today, Wed 3 Jun: rest."},
		{":now 2026-06-05", "Friday 5 June 2026, 00:00, Asia/Tokyo"},
		{":now 2026-06-05T20:00:00Z", "Saturday 6 June 2026, 05:00, Asia/Tokyo"},
		{":as Tomas", "You are now Tomas."},
		{"/ride", "do not know your typical week"},
		{`:as "INES"`, "You are now Ines."},
		{"/ride", "long 3h"},
		{`:club "Other Club"`, "You are now in Other Club."},
		{"/ride", "do not know your typical week"},
		{":coach on", "coach of Other Club"},
		{":coach OFF", "no coach"},
		{":tick", "Nothing is due."},
		{":forget", "What is stored stays."},
		{"  :TICK  ", "Nothing is due."},
		{":quit", "Bye."},
	} {
		reply := enter(t, s, tc.line)
		if reply.Err != nil || !strings.Contains(reply.Text(), tc.says) || reply.Topic != say.TopicCommand {
			t.Errorf("%s: got %q (topic %s), want ...%s...", tc.line, reply.Text(), reply.Topic, tc.says)
		}
	}
	if !s.ended {
		t.Error(":quit does not end the session")
	}
}

func TestControlLinesRefuse(t *testing.T) {
	s := newSession(t)
	for line, field := range map[string]string{
		":as": "rider", `:as ""`: "rider", ":as a\x00b": "rider", ":as Ann\u200b": "rider", ":as \u202eAnn": "rider", ":as " + strings.Repeat("x", 201): "rider",
		":club": "club", `:club "  "`: "club", ":coach": "coach", ":coach maybe": "coach",
		":zone": "zone", ":zone Nowhere": "zone", ":now": "now", ":now soon": "now", ":now 0001-01-01": "now", ":tick twice": "tick",
		":press": "press", ":press Why": "press", ":save": "save", ":save out": "save", ":forget it": "forget", ":quit now": "quit",
		":": "line", ":dance": "line",
	} {
		reply := enter(t, s, line)
		if reply.Err == nil || reply.Err.Field != field || utf8.RuneCountInString(reply.Text()) > 200 || strings.Contains(reply.Text(), "\n") {
			t.Errorf("%q: got %+v, want one line about %s", line, reply, field)
		}
	}
	if s.who.Athlete != "Ines" || s.who.Club != "home" || s.ended {
		t.Errorf("refusals changed the session: %+v", s.who)
	}
}

func TestCommentsAndBlankLinesAreSilent(t *testing.T) {
	s := newSession(t)
	for _, line := range []string{"", "   ", "\t", "# comment", "  # comment", "\r"} {
		if reply, answered := s.Line(t.Context(), line); answered {
			t.Errorf("%q is answered: %s", line, reply.Text())
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	for field, c := range map[string]Config{
		"now": {Club: "home", Athlete: "me", Now: "soon"}, "zone": {Club: "home", Athlete: "me", Zone: "Nowhere"},
		"rider": {Club: "home"}, "club": {Athlete: "me"},
	} {
		c.Bot, c.Home = newBot(t), "UTC"
		_, err := Open(t.Context(), c)
		var in *planner.InputError
		if !errors.As(err, &in) || in.Field != field {
			t.Errorf("got %v, want a refusal of %s", err, field)
		}
	}
}

func TestZoneThatWasAskedFor(t *testing.T) {
	b := newBot(t)
	open := func(athlete, zone string) *Session {
		t.Helper()
		s, err := Open(t.Context(), Config{Bot: b, Club: "home", Athlete: athlete, Home: "Europe/Lisbon", Zone: zone, Now: "2026-06-01T08:00:00Z"})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, tc := range []struct{ athlete, zone, want string }{
		{"Ines", "", "time of Europe/Lisbon, as set for the club."}, {"Ines", "Asia/Tokyo", "time of Asia/Tokyo"}, {"Ines", "", "time of Europe/Lisbon, as set for the club."}, // nothing is stored yet
	} {
		if reply := enter(t, open(tc.athlete, tc.zone), "/me show"); !strings.Contains(reply.Text(), tc.want) {
			t.Errorf("%s asking for %q: %q, want %s", tc.athlete, tc.zone, reply.Text(), tc.want)
		}
	}
	enter(t, open("Ines", "Asia/Seoul"), week)
	enter(t, open("Rui", "Asia/Seoul"), ":zone Asia/Dubai")
	for _, tc := range []struct{ athlete, zone, want string }{
		{"Ines", "", "time of Asia/Seoul."}, {"Rui", "", "time of Asia/Dubai."}, {"Ines", "Asia/Tokyo", "time of Asia/Tokyo"}, {"Ines", "", "time of Asia/Tokyo"}, {"Tomas", "", "time of Europe/Lisbon, as set for the club."},
	} {
		if reply := enter(t, open(tc.athlete, tc.zone), "/me show"); !strings.Contains(reply.Text(), tc.want) {
			t.Errorf("%s asking for %q: %q, want %s", tc.athlete, tc.zone, reply.Text(), tc.want)
		}
	}
}

func TestPress(t *testing.T) {
	s := newSession(t)
	enter(t, s, week)
	enter(t, s, "/ride tomorrow")
	if reply := enter(t, s, ":press whatever"); reply.Err == nil || !strings.Contains(reply.Text(), "Why Tue 2 Jun?, Next day") {
		t.Errorf("a button that is not there: %q", reply.Text())
	}
	for _, tc := range []struct{ label, says string }{{"next day", "Wed 3 Jun: rest."}, {"Why", "Nothing changes it"}} {
		if reply := enter(t, s, ":press "+tc.label); !strings.Contains(reply.Text(), tc.says) {
			t.Errorf("%s: %q, want ...%s...", tc.label, reply.Text(), tc.says)
		}
	}
	enter(t, s, "/ride")
	enter(t, s, ":as Tomas")
	if reply := enter(t, s, ":press Why"); reply.Err == nil {
		t.Errorf("another rider pressed the button: %s", reply.Text())
	}
}

// A button without a command leaves all as it is, and the question with it.
func TestPressOfAButtonWithoutACommand(t *testing.T) {
	s := newSession(t)
	enter(t, s, `/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	s.last.Buttons = []say.Button{{Label: "Remove it", Command: "race remove", Options: map[string]string{"race": "Hill Loop 2026-06-14"}, Danger: true}, {Label: "Keep it"}}
	reply := enter(t, s, ":press keep it")
	if reply.Err != nil || reply.Text() != "Nothing has changed." || reply.Topic != say.TopicCommand || !slices.Equal(reply.Topics, []string{say.TopicCommand}) {
		t.Errorf("got %+v", reply)
	}
	if reply := enter(t, s, ":press Remove it"); reply.Err == nil || reply.Err.Field != "press" {
		t.Errorf("the question stays open: %s", reply.Text())
	}
	if reply := enter(t, s, "/race list"); !strings.Contains(reply.Text(), "Hill Loop: Ines (A, you)") {
		t.Errorf("the race is gone: %s", reply.Text())
	}
}

// At the terminal a coach sets up the club, nobody else, and races are removed
// without a question: the line that was typed is enough.
func TestClubAtTheTerminal(t *testing.T) {
	s := newSession(t)
	for _, tc := range []struct {
		line, says string
		ok         bool
	}{
		{"/club show", "channel: none", true}, {"/club setup channel:#races", "is for the club's coaches", false}, {":coach on", "coach of home", true},
		{"/club setup", "there is nothing to set. For example /club setup", false}, {"/club setup channel:#races digest-time:6:30", "digest: monday at 06:30", true},
		{":coach off", "no coach", true}, {"/club setup digest-day:off", "Ask one of them", false}, {"/club show", "channel: #races", true},
		{":club Other", "You are now in Other.", true}, {"/club show", "channel: none", true}, {":club home", "You are now in home.", true},
		{`/race add name:"Hill Loop" date:2026-06-14 priority:A`, "Hill Loop is in your calendar", true}, {`/race remove race:"Hill Loop"`, "is out of your calendar", true},
	} {
		if reply := enter(t, s, tc.line); (reply.Err == nil) != tc.ok || !strings.Contains(reply.Text(), tc.says) {
			t.Errorf("%s: %q, want ...%s...", tc.line, reply.Text(), tc.says)
		}
	}
	for _, b := range enter(t, s, "/ride").Buttons {
		if b.Form {
			t.Errorf("a form is offered: %+v", b)
		}
	}
}

func TestSaveWritesTheFilesOfTheLastReply(t *testing.T) {
	s := newSession(t)
	dir := filepath.Join(t.TempDir(), "out", "deep")
	s.last.Files = []say.File{{Name: "../a.ics", Type: "text/calendar", Data: []byte("one")}, {Name: "b.png", Data: []byte("two")}}
	if reply := enter(t, s, ":save "+dir); reply.Err != nil {
		t.Fatal(reply.Text())
	}
	for name, want := range map[string]string{"a.ics": "one", "b.png": "two"} {
		if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(got) != want {
			t.Errorf("%s: %q, %v; want %q", name, got, err, want)
		}
	}
}

// TestRunJSON: one line of JSON for each line of input, with all keys.
func TestRunJSON(t *testing.T) {
	s := newSession(t)
	s.json = true
	lines := []string{"# comment", "", week, `/race add name:"Hill <Loop>" date:2026-06-14 priority:A hours:3`, "/race add name:x date:soon priority:A hours:soon",
		"was soll ich morgen fahren", strings.Repeat("x", MaxLine), strings.Repeat("y", MaxLine+1), strings.Repeat("z", 3*MaxLine), "/ride \xff\xfe", "\x00\x01", ":tick\r", ":quit", "/ride"}
	var out bytes.Buffer
	if err := s.Run(t.Context(), strings.NewReader(strings.Join(lines, "\n")), &out); err != nil {
		t.Fatal(err)
	}
	want := []struct {
		ok           bool
		topic, field string
	}{{true, "command", ""}, {true, "command", ""}, {true, "command", ""}, {true, "command", ""}, {false, "command", "date"}, {true, "unknown", ""}, {true, "unknown", ""},
		{false, "command", "line"}, {false, "command", "line"}, {false, "command", "line"}, {true, "unknown", ""}, {true, "command", ""}, {true, "command", ""}}
	got := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if len(got) != len(want) {
		t.Fatalf("%d answers, want %d:\n%s", len(got), len(want), out.String())
	}
	for i, line := range got {
		var reply jsonReply
		if err := json.Unmarshal([]byte(line), &reply); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		field := ""
		if reply.Error != nil {
			field = reply.Error.Field
		}
		if reply.OK != want[i].ok || reply.Topic != want[i].topic || field != want[i].field || !slices.Equal(reply.Topics, []string{reply.Topic}) {
			t.Errorf("answer %d: %+v error %q, want %+v", i, reply, field, want[i])
		}
	}
	race := `"private":true,"error":null,"date":"2026-06-14","race":"Hill <Loop>","buttons":["Show plan","Remind me"],"files":[],"sent":[{"to":"#home","kind":"race","text":"Ines races Hill <Loop> on Sunday 14 June 2026 (A race)."}]}`
	for _, part := range []string{`"text":"date: `, `\nhours: `, `"error":{"field":"date","message":"`, `","more":[{"field":"hours","message":"\"soon\" is not a length. `} {
		if !strings.Contains(got[4], part) {
			t.Errorf("several faults: %s\nwant %s", got[4], part)
		}
	}
	if !strings.HasPrefix(got[3], `{"ok":true,"topic":"command","topics":["command"],"text":"`) || !strings.HasSuffix(got[3], race) {
		t.Errorf("shape of a reply:\n%s\nwant the end\n%s", got[3], race)
	}
	if !strings.HasSuffix(got[5], `"private":true,"error":null,"date":null,"race":null,"buttons":[],"files":[],"sent":[]}`) {
		t.Errorf("shape of an empty reply:\n%s", got[5])
	}
}

func TestRunText(t *testing.T) {
	s := newSession(t)
	var out bytes.Buffer
	err := s.Run(t.Context(), strings.NewReader(week+"\n\n# x\n/race add name:x date:2026-06-14 priority:A\n/race add name:y date:soon priority:A"), &out)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"x is in your calendar", "-> #home: Ines races x", "[Show plan]", "That did not work, and nothing was saved. date: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("output lacks %q:\n%s", want, out.String())
		}
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("pipe is gone") }

func TestRunReportsItsWriter(t *testing.T) {
	s := newSession(t)
	if err := s.Run(t.Context(), strings.NewReader("/help\n"), brokenWriter{}); err == nil {
		t.Error("a broken writer goes unnoticed")
	}
}

// inGroup are the commands of a group as they are completed.
func inGroup(group string) (names []string) {
	for _, c := range bot.Commands() {
		if c.Group() == group {
			names = append(names, "/"+c.Name+" ")
		}
	}
	return names
}

func TestComplete(t *testing.T) {
	s := newSession(t)
	enter(t, s, `/race add name:"Hill Loop" date:2026-06-14 priority:A`)
	enter(t, s, `/race add name:Quarry date:2026-06-20 priority:C`)
	for line, want := range map[string][]string{
		"/ra":                          inGroup("race"),
		"/plan w":                      {"/plan why "},
		"/race add ":                   {"/race add name:", "/race add date:", "/race add priority:", "/race add hours:", "/race add kind:", "/race add start:", "/race add days:", "/race add end:", "/race add emphasis:", "/race add place:", "/race add taper:", "/race add repeat:", "/race add until:"},
		"/race add name:x pri":         {"/race add name:x priority:"},
		"/race add name:x priority:":   {"/race add name:x priority:A ", "/race add name:x priority:B ", "/race add name:x priority:C "},
		"/race add name:x priority:b":  {"/race add name:x priority:B "},
		"/race remove race:hi":         {`/race remove race:"Hill Loop 2026-06-14" `},
		`/race remove race:"hi`:        {`/race remove race:"Hill Loop 2026-06-14" `},
		`/race remove race:"hil lop`:   {`/race remove race:"Hill Loop 2026-06-14" `},
		"/race remove hi":              {`/race remove "Hill Loop 2026-06-14" `},
		"/race remove race:20 jun":     {`/race remove race:"Quarry 2026-06-20" `},
		"/ride day:20 june":            {"/ride day:2026-06-20 "},
		`/race change race:"Quarry" s`: {`/race change race:"Quarry" start:`, `/race change race:"Quarry" status:`},
		"/club setup c":                {"/club setup channel:", "/club setup coaches-channel:", "/club setup coach-role:"},
		"/club setup zone:lisbom":      {"/club setup zone:Europe/Lisbon "},
		"/club setup digest-day:sun":   {"/club setup digest-day:sunday "},
		"/ride tom":                    {"/ride tomorrow "},
		"/tell away from:fri ki":       {"/tell away from:fri kind:"},
		":n":                           {":now "},
		":q":                           {":quit"},
		"hello":                        nil,
		"/xyz":                         nil,
	} {
		if got := s.complete(t.Context(), line); !reflect.DeepEqual(got, want) {
			t.Errorf("%s completes to %q, want %q", line, got, want)
		}
	}
}

func TestHistoryFile(t *testing.T) {
	for _, tc := range []struct{ state, home, want string }{
		{"/state", "/home/me", "/state/musette/history"}, {"", "/home/me", "/home/me/.local/state/musette/history"},
		{"relative", "/home/me", "/home/me/.local/state/musette/history"}, {"", "", ""},
	} {
		env := map[string]string{"XDG_STATE_HOME": tc.state, "HOME": tc.home}
		if got := HistoryFile(func(name string) string { return env[name] }); got != tc.want {
			t.Errorf("%q %q: got %q, want %q", tc.state, tc.home, got, tc.want)
		}
	}
}
