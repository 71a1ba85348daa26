package discord

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest/rounds"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// unescaped is what a text in markup says where nothing in it is markup; ok is
// false where a character stands bare that Discord could take for some, at the
// start of a line too where asked for. It is written from what backslashes mean,
// not from escape.
func unescaped(markup string, start bool) (text string, ok bool) {
	var b strings.Builder
	behind := false // a backslash
	for i, r := range markup {
		switch {
		case behind && r < utf8.RuneSelf && strings.ContainsRune("!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~", r):
			b.WriteRune(r)
			behind = false
		case behind:
			return "", false // a backslash that is shown would need one before it
		case r == '\\':
			behind = true
		case strings.ContainsRune("*_~`|<[@", r), start && i == 0 && strings.ContainsRune("#>-+", r), strings.HasPrefix(markup[i:], "://"):
			return "", false
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), !behind
}

func TestUnescapedSeesMarkup(t *testing.T) {
	for markup, want := range map[string]string{`a\*b`: "a*b", `\\`: `\`, "a-b": "a-b", `\<\@1>`: "<@1>"} {
		if got, ok := unescaped(markup, true); !ok || got != want {
			t.Errorf("%s: got %q, %v", markup, got, ok)
		}
	}
	for _, markup := range []string{"a*b", "</ride:1>", "<@1>", "`x`", "# x", "- x", "https://x", `a\`, `a\b`, "**x**"} {
		if got, ok := unescaped(markup, true); ok {
			t.Errorf("%s is no plain text, got %q", markup, got)
		}
	}
}

// A sentence of our own around a name, and what Discord is sent before and behind
// the name. Links and bold are ours.
var aroundNames = []struct {
	line          func(name string) say.Line
	text          string // on a terminal, with %s for the name
	before, after string
	commands      int
}{
	{func(n string) say.Line { return say.Linef("%s is in your calendar.", n) }, "%s is in your calendar.", "", " is in your calendar.", 0},
	{func(n string) say.Line { return say.Linef("! %s", n) }, "! %s", "**!** ", "", 0},
	{func(n string) say.Line { return say.Linef("- %s", n) }, "- %s", "- ", "", 0},
	{func(n string) say.Line { return say.Linef("  %s", n) }, "  %s", "-# ", "", 0},
	{func(n string) say.Line { return say.Linef("  ! %s", n) }, "  ! %s", "> **!** ", "", 0},
	{func(n string) say.Line { return day("Sun 14 Jun", true, "RACE %s", n) }, "Sun 14 Jun RACE %s !", "**Sun 14 Jun** RACE ", " **!**", 0},
	{func(n string) say.Line { return say.Line{Kind: say.Heading, Spans: say.Linef("%s", n).Spans} }, "%s", "**", "**", 0},
	{func(n string) say.Line { return say.Linef("See /plan show: %s (/ride)", n) }, "See /plan show: %s (/ride)",
		"See </plan show:1200000000000000001>: ", " (</ride:1200000000000000001>)", 2},
	{func(n string) say.Line { return say.Linef("%s: %s", say.Linef("/race list"), n) }, "/race list: %s", "</race list:1200000000000000001>: ", "", 1},
}

// checkName asks that a rider's name is shown as it is by both transports, in each
// kind of line: it never becomes a command, a mention or markup.
func checkName(t *testing.T, name string) {
	t.Helper()
	w := linked.words()
	for _, tc := range aroundNames {
		line := tc.line(name)
		if got, want := line.String(), strings.ReplaceAll(tc.text, "%s", name); got != want {
			t.Fatalf("a terminal shows %q, want %q", got, want)
		}
		commands := 0
		for _, s := range line.Spans {
			if s.Kind == say.CommandSpan {
				commands++
			}
		}
		written := w.line(line, true)
		inner, before := strings.CutPrefix(written, tc.before)
		inner, after := strings.CutSuffix(inner, tc.after)
		got, ok := unescaped(inner, strings.Trim(tc.before, "*->!# ") == "")
		if !before || !after || !ok || got != name || commands != tc.commands {
			t.Fatalf("%q in %q is written %q: holds %d commands, says %q (%v)", name, tc.text, written, commands, got, ok)
		}
	}
	bold := linked.messages(say.Reply{Lines: []say.Line{say.Linef("%s is in.", name)}}, nil)[0].Content
	inner := strings.TrimSuffix(strings.TrimPrefix(bold, "**"), " is in.**")
	if got, ok := unescaped(inner, true); !ok || got != name || len(bold) != len(inner)+len("** is in.**") {
		t.Fatalf("%q is written %q, says %q (%v)", name, bold, got, ok)
	}
	command := say.Linef("/plan show race:%s", say.Quote(name))
	want, ok := code(command.String())
	if !ok {
		want = escape(command.String(), true)
	}
	if got := w.inline(command.Spans, false); got != want {
		t.Fatalf("%q in a command is written %q, want %q", name, got, want)
	}
}

// asName is a text as names can be: one line, not too long, no blanks around it.
func asName(text string) string {
	runes := []rune(strings.TrimSpace(oneLine(text)))
	return strings.TrimSpace(string(runes[:min(len(runes), planner.MaxText)]))
}

func FuzzNames(f *testing.F) {
	for _, name := range nasty {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if name := asName(text); name != "" {
			checkName(t, name)
		}
	})
}

// usualNames is how many names are tried where nobody says how many.
var usualNames = rounds.Of(1_500)

// names is how many random names are tried; .ci/long tries more.
var names = flag.Int("names", usualNames, "how many random names of riders are tried")

func TestNames(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	odd := append(slices.Clone(nasty), "\u200d", "\u200b", "\u202e", "\u0301", "/season check", "/plan show race:x", "%s", "%!", "%%", "Mon 1 Jun ", "Races", "Ride (/ride) Cup", "\n", "www.a.example")
	for range *names {
		var b strings.Builder
		for range 1 + r.IntN(6) {
			b.WriteString(odd[r.IntN(len(odd))])
		}
		if name := asName(b.String()); name != "" {
			checkName(t, name)
		}
	}
}

// markupOf is how often there is what markup in a reply.
func markupOf(lines []say.Line) string {
	notes := map[string]int{}
	for _, m := range linked.messages(say.Reply{Lines: lines}, nil) {
		texts := []string{m.Content}
		for _, e := range m.Embeds {
			texts = append(texts, e.Description)
		}
		for _, text := range texts {
			for note, n := range show(text, false).notes {
				notes[note] += n
			}
		}
	}
	return fmt.Sprint(notes)
}

// Whatever a race is called, the answers about it hold the same links and markup.
func TestNamesChangeNoMarkup(t *testing.T) {
	answers := func(name string) (out []string) {
		k := newTalker(t)
		k.who.Coach = true
		quoted := say.Quote(name)
		note := func(what string, reply say.Reply) {
			sameWords(t, reply, linked)
			out = append(out, what+" "+markupOf(reply.Lines))
			for _, m := range reply.Sent {
				out = append(out, markupOf(m.Lines))
			}
		}
		for i, line := range []string{
			`/week share week:"` + inesWeek + `"`, "/race add name:" + quoted + " date:2026-06-28 priority:A place:" + quoted,
			"/race add name:Other date:2026-07-12 priority:A", "/me set remind:06:30", "/race list", "/plan show", "/plan show race:" + quoted, "/plan why day:2026-06-28", "/plan options",
			"/season check", "/me show", "/tell limit day:2026-06-26 minutes:20", "/race change race:" + quoted + " start:10:30",
			"/race add name:" + quoted + " date:2026-06-28 priority:A", "/race result race:" + quoted + " feeling:8",
			"/ride day:2026-06-27", "/coach roster", "/coach athlete athlete:Ines", "/coach digest", "/done minutes:60 note:" + quoted,
		} {
			note(fmt.Sprint(i), k.say(line))
		}
		for _, date := range []planner.Date{planner.NewDate(2026, 6, 23), planner.NewDate(2026, 6, 27), planner.NewDate(2026, 6, 28), planner.NewDate(2026, 6, 29)} {
			note(date.String(), k.reminder(date))
		}
		note("remove", k.say("/race remove race:"+quoted))
		return out
	}
	want := answers("Hill Loop")
	for i, name := range []string{"/plan show", "Ride (/ride) Cup", "</plan show:1200000000000000001>", "<#777> @everyone", "**/help**", "! /race list", "- `/me show`"} {
		if rounds.Left(i) {
			continue
		}
		if err := storage.CheckName("name", name, "Hill Loop"); err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		if got := answers(name); !slices.Equal(got, want) {
			t.Errorf("a race called %s:\n%s\nwant\n%s", name, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}
