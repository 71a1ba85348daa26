package discord

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/rounds"
	"musette/bot/command"
	"musette/bot/desk"
	"musette/bot/discord/api"
	"musette/bot/discord/discordtest/lint"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
	"musette/storage/storagetest"
)

// linked is a renderer to which every command is known.
var linked = renderer{mention: func(name string) string { return fmt.Sprintf("</%s:1200000000000000001>", name) }}

const inesWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; " +
	"fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// talker is a conversation over a real database, as the people of a server have it.
type talker struct {
	t   *testing.T
	bot *bot.Bot
	db  *storage.DB
	who desk.Request
}

func newTalker(t *testing.T) *talker {
	t.Helper()
	db := storagetest.New(t)
	return &talker{t: t, bot: bot.New(bot.Deps{DB: db, Draw: bottest.Sketch}), db: db, who: desk.Request{
		Club: "Marrow Vale Wheelers", ClubKey: storage.PlatformKey("discord", "900"), Athlete: "Ines", AthleteKey: storage.PlatformKey("discord", "901"),
		Zone: "Europe/Lisbon", Now: time.Date(2026, 6, 12, 8, 0, 0, 0, time.UTC), Admin: true, Ask: true, Forms: true}}
}

// say answers lines and returns the last reply.
func (k *talker) say(lines ...string) (reply say.Reply) {
	k.t.Helper()
	for _, line := range lines {
		req, err := command.ParseLine(bot.Commands(), line)
		if err != nil {
			k.t.Fatalf("%s: %v", line, err)
		}
		whole := k.who
		whole.Command, whole.Options, whole.Text = req.Command, req.Options, req.Text
		if reply, err = k.bot.Handle(k.t.Context(), whole); err != nil {
			k.t.Fatalf("%s: %v", line, err)
		}
	}
	return reply
}

// posted is the club and its rider as the database has them.
func (k *talker) posted() (club storage.Club, rider storage.Athlete) {
	k.t.Helper()
	club, err := k.db.FindClub(k.t.Context(), k.who.ClubKey)
	if err == nil {
		rider, err = k.db.FindAthlete(k.t.Context(), club.ID, k.who.AthleteKey)
	}
	if err != nil {
		k.t.Fatal(err)
	}
	return club, rider
}

// reminder is the rider's of a day.
func (k *talker) reminder(day planner.Date) say.Reply {
	k.t.Helper()
	_, rider := k.posted()
	who, err := k.db.KnownOf(k.t.Context(), day, rider.ID)
	if err != nil {
		k.t.Fatal(err)
	}
	reply, due, err := k.bot.Reminder(k.t.Context(), who, day, k.who.Now)
	if err != nil || !due {
		k.t.Fatalf("reminder of %s: due %t, %v", day, due, err)
	}
	return reply
}

// digest is the club's, ten days later.
func (k *talker) digest() say.Reply {
	k.t.Helper()
	club, _ := k.posted()
	reply, err := k.bot.Digest(k.t.Context(), club, k.who.Now.AddDate(0, 0, 10))
	if err != nil {
		k.t.Fatal(err)
	}
	return reply
}

// rendered is a reply as messages with its buttons, and fails where one breaks a limit.
func rendered(t *testing.T, reply say.Reply) []api.Message {
	t.Helper()
	rows, err := buttons{store: &shelf{}}.rows(t.Context(), "901", "902", reply.Buttons)
	if err != nil {
		t.Fatal(err)
	}
	all := linked.messages(reply, rows)
	for i := range all {
		lints(t, &all[i])
		withinLimits(t, &all[i])
	}
	return all
}

// lints checks a message as the answer to an interaction.
func lints(t *testing.T, m *api.Message) {
	t.Helper()
	body, err := json.Marshal(map[string]any{"type": api.AnswerMessage, "data": m})
	if err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, f := range m.Files {
		files = append(files, f.Name)
	}
	for _, fault := range lint.Lint("POST", "/api/v10/interactions/1/token/callback", body, files) {
		t.Errorf("lint: %s", fault)
	}
}

func TestGoldenReplies(t *testing.T) {
	k := newTalker(t)
	k.bot = bot.New(bot.Deps{DB: k.db}) // with its pictures
	week := `/week share week:"` + inesWeek + `"`
	race := `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h30 start:10:30`
	shown := func(name string, reply say.Reply) {
		t.Helper()
		var got bytes.Buffer
		for _, m := range rendered(t, reply) {
			enc := json.NewEncoder(&got)
			enc.SetEscapeHTML(false)
			enc.SetIndent("", "  ")
			if err := enc.Encode(m); err != nil {
				t.Fatal(err)
			}
		}
		file := filepath.Join("testdata", "render", name+".json")
		if *bottest.Update {
			if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(got.Bytes(), want) {
			t.Errorf("%s: %v, got\n%s\nrun go test ./bot/discord -run TestGoldenReplies -update and read what changed", name, err, got.Bytes())
		}
		sameWords(t, reply, linked)
	}
	check := func(name string, lines ...string) {
		t.Helper()
		shown(name, k.say(lines...))
	}
	check("plan-without-week", "/plan show")
	check("club-show", "/club setup channel:<#777> coach-role:<@&778> zone:Europe/Lisbon", "/club show")
	check("week-share", week)
	check("week-show", "/week show")
	check("race-add", race)
	check("plan-show", "/plan show")
	check("plan-why", "/plan why day:2026-06-24")
	check("ride", "/ride day:tomorrow")
	check("race-list", "/race list")
	check("tell-limit", "/tell limit day:2026-06-26 minutes:20")
	check("me-show", "/me show")
	check("me-set-remind", "/me set remind:06:30")
	for name, day := range map[string]planner.Date{"reminder": planner.NewDate(2026, 6, 23), "reminder-race": planner.NewDate(2026, 6, 28)} {
		shown(name, k.reminder(day))
	}
	shown("digest", k.digest())
	check("race-remove-question", `/race remove race:"Hill Loop"`)
	check("refusal", "/plan why day:someday")
	check("refusal-with-button", `/week share week:"mon flying 2h"`)
	for _, line := range []string{"/help", "/help topic:tell"} { // docs/commands.md has the words
		reply := k.say(line)
		rendered(t, reply)
		sameWords(t, reply, linked)
	}
	check("question", "what do I ride tomorrow?")
	check("plan-options", "/plan options")
	for i := range 3 {
		k.say(fmt.Sprintf(`/race add name:"Autumn %d" date:%s priority:A hours:3`, i+1, planner.NewDate(2026, 9, 6).AddDays(14*i)))
	}
	check("season-check", "/me set taper:21", "/season check")
	check("season-apply", `/season apply make-b:"Autumn 1 2026-09-06" taper:auto`)
}

// sameWords asks that people see the words of the reply's text, in their order,
// and that nothing but our own markup is in it.
func sameWords(t *testing.T, reply say.Reply, r renderer) {
	t.Helper()
	allowed := []string{"bold", "code", "subtext", "quote", "list", "command"}
	for _, l := range reply.Lines {
		if slices.ContainsFunc(l.Spans, func(s say.Span) bool { return s.Kind == say.Reference }) {
			allowed = append(allowed, "channel", "role")
		}
	}
	messages := r.messages(reply, nil)
	for _, blind := range []bool{false, true} {
		var seen strings.Builder
		for _, m := range messages {
			if m.AllowedMentions.Parse == nil || len(m.AllowedMentions.Parse)+len(m.AllowedMentions.Users) > 0 {
				t.Fatalf("somebody may be notified: %+v", m.AllowedMentions)
			}
			texts := []string{m.Content}
			for _, e := range m.Embeds {
				texts = append(texts, e.Description)
			}
			for _, text := range texts {
				text = momentLine.ReplaceAllString(text, "")
				s := show(text, blind)
				seen.WriteString(s.text.String() + "\n")
				for note := range s.notes {
					if !slices.Contains(allowed, note) {
						t.Fatalf("%q\nis written %q\nwhich holds %s (blind %v)", reply.Text(), text, note, blind)
					}
				}
			}
		}
		var want strings.Builder
		for i, l := range reply.Lines {
			line := l.String()
			if i > 0 && l.Kind == say.Reason {
				line = l.Words() // its dash is shown as a dot
			}
			want.WriteString(line + "\n")
		}
		text := want.String()
		if reply.Err != nil {
			text = reply.Err.Lead() + " " + text
		}
		if got, want := seenWords(seen.String()), seenWords(text); got != want {
			t.Fatalf("people see (blind %v)\n%s\nwant\n%s\nwritten %+v", blind, got, want, messages)
		}
	}
}

var momentLine = regexp.MustCompile(`(?m)^[A-Z][a-z]+ <t:\d+:F> \(<t:\d+:R>\)$`)

func TestPeopleSeeTheWordsOfTheText(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range rounds.Of(150) {
		name := func() string { return strings.TrimSpace(oneLine(nastyText(r, 6))) + "x" }
		reply := say.Reply{Lines: []say.Line{
			say.Linef("%s is in your calendar: A race on Sunday 28 June 2026, %s.", name(), name()),
			say.Linef("%s", name()),
			say.Linef("! %s is near.", name()),
			say.Linef("The days: /plan show race:%s", say.Quote(name())),
			{Kind: say.Gap},
			day("Sun 14 Jun", true, "intervals 1h15 (was RACE %s 3h)", name()),
			say.Linef("  ! %s", name()),
			say.Linef("  %s", name()),
			day("Mon 15 Jun", false, "%s: %s A", name(), name()),
			day("Tue", false, "%s", name()),
			say.Linef("- %s", name()),
			say.Linef("  %s", name()),
			{Kind: say.Gap},
			{Kind: say.Heading, Spans: say.Linef("Races of %s", name()).Spans},
			say.Linef("/race add: %s", name()),
			say.Linef("  %s: %s", name(), name()),
			say.Linef("What changes:"),
			say.Linef("/ride %s", name()),
		}}
		sameWords(t, reply, linked)
		sameWords(t, reply, renderer{})
		sameWords(t, say.Refusal("race", "%s is unknown. See /race list or /plan show race:%s", name(), say.Quote(name())), linked)
		sameWords(t, say.Refusal(name(), "%s", name()), linked)
		sameWords(t, say.RefusalOf(&say.Refused{Field: "date", Line: say.Linef("%s is no day. See /race list", name()),
			More: []*say.Refused{say.Refuse(name(), "%s", name()), say.Refuse("hours", "%s", strings.Repeat(name()+" ", 20)), say.Refuse("start", "%s", name())}}), linked)
	}
}

func TestReferencesStay(t *testing.T) {
	ref := func(text string) say.Span { return say.Span{Kind: say.Reference, Text: text} }
	reply := say.Reply{Lines: []say.Line{say.Linef("Marrow Vale %s.", "<#8>"), say.Linef("  channel: %s", ref("<#777>")), say.Linef("  coach-role: %s", ref("<@&778>"))}}
	all := linked.messages(reply, nil)
	if want := `**Marrow Vale \<#8>.**`; all[0].Content != want {
		t.Errorf("content %q, want %q", all[0].Content, want)
	}
	if want := "- channel: <#777>\n- coach-role: <@&778>"; all[0].Embeds[0].Description != want {
		t.Errorf("embed %q, want %q", all[0].Embeds[0].Description, want)
	}
}

func TestMomentsAreShownInEverybodysZone(t *testing.T) {
	at := time.Date(2026, 6, 28, 9, 30, 0, 0, time.UTC)
	for _, tc := range []struct {
		lines []say.Line
		want  string
	}{
		{said("It is in."), "Start <t:1782639000:F> (<t:1782639000:R>)"},
		{said("It is in.", "Why.", "Details."), "Start <t:1782639000:F> (<t:1782639000:R>)\nWhy.\nDetails."},
	} {
		all := linked.messages(say.Reply{Lines: tc.lines, Moments: []say.Moment{{Label: "Start", At: at}}}, nil)
		if len(all) != 1 || len(all[0].Embeds) != 1 || all[0].Embeds[0].Description != tc.want {
			t.Errorf("%v: got %+v, want %q", tc.lines, all, tc.want)
		}
	}
}

func TestOneLineHasNoEmbed(t *testing.T) {
	all := linked.messages(say.Reply{Lines: said("Noted.")}, nil)
	if len(all) != 1 || all[0].Content != "**Noted.**" || len(all[0].Embeds) != 0 || all[0].Embeds == nil || all[0].Components == nil {
		t.Errorf("got %+v", all)
	}
}

func TestLongFirstLineGoesOnInTheEmbed(t *testing.T) {
	for _, reply := range []say.Reply{
		{Lines: []say.Line{say.Linef("%s", strings.Repeat("*Hill* Loop, ", 300)+"end"), say.Linef("The reason.")}},
		say.Refusal("from", "%s", strings.Repeat("*Hill* Loop, ", 300)+"end"),
	} {
		all := rendered(t, reply)
		if len(all) != 1 || len(all[0].Embeds) != 1 || length(all[0].Content) < maxContent-40 {
			t.Fatalf("got %d messages, content of %d", len(all), length(all[0].Content))
		}
		sameWords(t, reply, linked)
	}
}

// said are lines, each of a template.
func said(templates ...say.Template) []say.Line {
	lines := make([]say.Line, len(templates))
	for i, t := range templates {
		lines[i] = say.Linef(t)
	}
	return lines
}

// day is a day of a list.
func day(lead string, flag bool, t say.Template, args ...any) say.Line {
	return say.Line{Kind: say.Day, Lead: lead, Flag: flag, Spans: say.Linef(t, args...).Spans}
}

// longLines have so many days, each with a detail and a caution.
func longLines(days int) []say.Line {
	lines := said("A long plan.", "The reason.")
	for i := range days {
		lines = append(lines, day(fmt.Sprintf("Mon %d Jun", i%30+1), true, "endurance 1h45 (usually *long* 3h)"),
			say.Linef("  Reason %d: %s.", i, strings.Repeat("because ", 8)), say.Linef("  ! Caution %d.", i))
	}
	return lines
}

func TestLongTextIsSplitBetweenDays(t *testing.T) {
	reply := say.Reply{Lines: longLines(60)}
	all := rendered(t, reply)
	if len(all) != 3 {
		t.Fatalf("got %d messages, want 3", len(all))
	}
	for i, m := range all {
		text := m.Embeds[0].Description
		if i > 0 && (m.Content != "" || len(m.Components) > 0 || !strings.HasPrefix(text, "**Mon ")) {
			t.Errorf("message %d begins %.60q with content %q", i, text, m.Content)
		}
		if days, cautions := strings.Count(text, "**Mon "), strings.Count(text, "> **!**"); days != cautions {
			t.Errorf("message %d has %d days and %d cautions", i, days, cautions)
		}
	}
	sameWords(t, reply, linked)
}

func TestVeryLongTextBecomesAFile(t *testing.T) {
	if all := rendered(t, say.Reply{Lines: longLines(85)}); len(all) != 1 || len(all[0].Files) != 1 {
		t.Errorf("a text for four messages: got %d messages, %d files", len(all), len(all[0].Files))
	}
	reply := say.Reply{Lines: longLines(300), Files: []say.File{{Name: "plan.ics", Type: "text/calendar", Data: []byte("x")}}}
	all := rendered(t, reply)
	if len(all) != 1 || len(all[0].Files) != 2 || len(all[0].Attachments) != 2 {
		t.Fatalf("got %d messages, files %v", len(all), all[0].Attachments)
	}
	if f := all[0].Files[0]; f.Name != "answer.txt" || f.Type != "text/plain; charset=utf-8" || string(f.Data) != reply.Text() {
		t.Errorf("got file %q of %q with %d bytes", f.Name, f.Type, len(f.Data))
	}
	if text := all[0].Embeds[0].Description; !strings.HasPrefix(text, "The reason.\n**Mon 1 Jun**") || !strings.HasSuffix(text, "\n\nThe rest is in answer.txt.") {
		t.Errorf("embed %.40q ... %q", text, text[len(text)-60:])
	}
}

func TestLongLinesAreFolded(t *testing.T) {
	for unit, n := range map[string]int{"x*_ ": 1200, "/ride ": 300, "Hill Loop ": 1000, "🚴 ": 3000} {
		reply := say.Reply{Lines: said("First.", say.Template("  "+strings.TrimSpace(strings.Repeat(unit, n))))}
		for _, m := range rendered(t, reply) {
			if len(m.Files) > 0 {
				t.Fatalf("%q became a file", unit)
			}
		}
		sameWords(t, reply, linked)
	}
	rendered(t, say.Reply{Lines: append(said("First."), say.Linef("%s", strings.Repeat("x", 20000)))})
}

// Where a line is parted a command stays whole; only one that no part can hold is
// parted itself, into code.
func TestCommandsStayWholeInLongLines(t *testing.T) {
	const command = "`/plan show race:\"Hill Loop\"`"
	for n := 760; n < 799; n++ {
		reply := say.Reply{Lines: []say.Line{say.Linef("First."), say.Linef("  %s /plan show race:%s %s", strings.Repeat("x", n), say.Quote("Hill Loop"), strings.Repeat("word ", 900))}}
		if all := rendered(t, reply); !strings.Contains(all[0].Embeds[0].Description, command) {
			t.Fatalf("behind %d letters the command is parted:\n%.1000s", n, all[0].Embeds[0].Description)
		}
		sameWords(t, reply, linked)
	}
	for n := 1970; n < 1995; n++ {
		reply := say.Reply{Lines: []say.Line{say.Linef("%s /plan show race:%s now", strings.Repeat("x", n), say.Quote("Hill Loop"))}}
		all := rendered(t, reply)
		if text := all[0].Content + all[0].Embeds[0].Description; !strings.Contains(text, command) {
			t.Fatalf("behind %d letters the command is parted:\n%s", n, text)
		}
		sameWords(t, reply, linked)
	}
	long := say.Reply{Lines: []say.Line{say.Linef("First."), say.Linef("Undo: /season apply make-b:%s", say.Quote(strings.Repeat("*Hill* Loop; ", 330)+"x"))}}
	for _, m := range rendered(t, long) {
		if text := m.Embeds[0].Description; len(m.Files) > 0 || strings.Contains(text, `\*`) {
			t.Errorf("a long command is no code:\n%s", text)
		}
	}
	sameWords(t, long, linked)
}

func TestFilesOfAReply(t *testing.T) {
	reply := say.Reply{Lines: said("Your options.")}
	for i := range 12 {
		reply.Files = append(reply.Files, say.File{Name: fmt.Sprintf("Käse %d.ICS", i), Type: "text/calendar"})
	}
	reply.Files[0] = say.File{Name: "drawing.svg", Type: "image/svg+xml"} // no client shows these
	reply.Files[1] = say.File{Name: "../Trade off.PNG", Type: "image/png", Alt: strings.Repeat("é", 2000), Data: []byte{1}}
	reply.Files[2] = say.File{Name: "trade off.png", Type: "image/png", Data: []byte{2}}
	reply.Files[3] = say.File{Name: "", Type: "text/plain"}
	m := rendered(t, reply)[0]
	var names []string
	for _, f := range m.Files {
		names = append(names, f.Name)
	}
	want := []string{"drawing.svg", "trade-off.png", "trade-off-2.png", "file", "k-se-4.ics", "k-se-5.ics", "k-se-6.ics", "k-se-7.ics", "k-se-8.ics", "k-se-9.ics"}
	if !slices.Equal(names, want) {
		t.Errorf("got %v, want %v", names, want)
	}
	if len(m.Embeds) != 1 || m.Embeds[0].Image == nil || m.Embeds[0].Image.URL != "attachment://trade-off.png" {
		t.Errorf("got embeds %+v, want the first picture", m.Embeds)
	}
	if got := length(m.Attachments[1].Description); got != maxAlt {
		t.Errorf("got alt text of %d, want %d", got, maxAlt)
	}
}
