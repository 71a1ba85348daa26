package discord

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"musette/bot"
	"musette/bot/bottest/rounds"
	"musette/bot/say"
)

// shown is what Discord's clients make of a text: the words that people see and
// what else is in it. It is written from how the clients read markup, for the
// worst case: all that one of them might take for markup is markup.
type shown struct {
	text  strings.Builder
	notes map[string]int
	blind bool // a client that does not see backslashes when it looks for the end of bold
}

func show(text string, blind bool) *shown {
	s := &shown{notes: map[string]int{}, blind: blind}
	s.read(text, true)
	return s
}

var (
	shownAtStart = []struct {
		what string
		re   *regexp.Regexp
	}{
		{"subtext", regexp.MustCompile(`^-#\s+`)},
		{"heading", regexp.MustCompile(`^#{1,3}\s+`)},
		{"quote", regexp.MustCompile(`^>(?:>>)?\s+`)},
		{"list", regexp.MustCompile(`^(?:[*+-]|\d+\.)(?:\s+|$)`)},
	}
	shownPings = []struct {
		what string
		re   *regexp.Regexp
	}{
		{"user", regexp.MustCompile(`^<@!?\d+>`)},
		{"role", regexp.MustCompile(`^<@&\d+>`)},
		{"channel", regexp.MustCompile(`^<#\d+>`)},
		{"everyone", regexp.MustCompile(`^@(?:everyone|here)`)},
		{"time", regexp.MustCompile(`^<t:-?\d+(?::[tTdDfFsSR])?>`)},
		{"emoji", regexp.MustCompile(`^(?:<a?:\w+:\d+>|:[\pL\pN_+-]+:)`)},
		{"guide", regexp.MustCompile(`^<id:[^>]*>`)},
		{"link", regexp.MustCompile(`^(?:<?[a-z]+://?[^\s<]+|<[^ >]+@[^ >]+>|<tel:[^>]*>)`)},
		{"masked", regexp.MustCompile(`^\[[^\]]*\]\([^)]*\)`)},
	}
	shownCommand = regexp.MustCompile(`^<(/[^:>]+):\d+>`)
	shownPairs   = []struct{ what, mark string }{
		{"bold", "**"}, {"underline", "__"}, {"italic", "*"}, {"italic", "_"}, {"struck", "~~"}, {"spoiler", "||"},
	}
)

func (s *shown) read(text string, start bool) {
	for text != "" {
		rest, ok := text, false
		if start {
			rest, ok = s.mark(text) // marks can follow each other
		}
		if !ok {
			if rest, ok = s.markup(text, start); ok {
				start = false
			}
		}
		if !ok {
			r, size := utf8.DecodeRuneInString(text)
			s.text.WriteRune(r)
			rest = text[size:]
			start = r == '\n' || r == '\u2028' || r == '\u2029' || start && r == ' '
		}
		text = rest
	}
}

func (s *shown) mark(text string) (string, bool) {
	for _, m := range shownAtStart {
		if found := m.re.FindString(text); found != "" {
			s.notes[m.what]++
			return text[len(found):], true
		}
	}
	return text, false
}

// markup reads what stands at the beginning of a text besides plain words.
func (s *shown) markup(text string, start bool) (rest string, ok bool) {
	if text[0] == '\\' && len(text) > 1 {
		r, size := utf8.DecodeRuneInString(text[1:])
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsSpace(r) {
			s.text.WriteRune(r)
			return text[1+size:], true
		}
	}
	if text[0] == '`' {
		return s.code(text)
	}
	if !strings.ContainsRune("<@:[*_~|", rune(text[0])) && !(text[0] >= 'a' && text[0] <= 'z' && strings.Contains(text, ":/")) {
		return text, false // nothing begins with it
	}
	if m := shownCommand.FindStringSubmatch(text); m != nil {
		s.notes["command"]++
		s.text.WriteString(m[1])
		return text[len(m[0]):], true
	}
	for _, m := range shownPings {
		if found := m.re.FindString(text); found != "" {
			s.notes[m.what]++
			s.text.WriteString(found)
			return text[len(found):], true
		}
	}
	for _, pair := range shownPairs {
		if !strings.HasPrefix(text, pair.mark) {
			continue
		}
		if end := s.end(text, pair.mark); end > 0 {
			s.notes[pair.what]++
			s.read(text[len(pair.mark):end], start)
			return text[end+len(pair.mark):], true
		}
	}
	return text, false
}

// end is where a mark closes, 0 where it does not.
func (s *shown) end(text, mark string) int {
	for i := len(mark) + 1; i+len(mark) <= len(text); i++ {
		if !s.blind && text[i-1] == '\\' && escaped(text[len(mark):i]) {
			continue
		}
		if strings.HasPrefix(text[i:], mark) && !strings.HasPrefix(text[i+len(mark):], mark[:1]) {
			return i
		}
	}
	return 0
}

// escaped reports whether what follows a text stands behind a backslash that counts.
func escaped(before string) bool {
	n := len(before) - len(strings.TrimRight(before, `\`))
	return n%2 == 1
}

func (s *shown) code(text string) (string, bool) {
	fence := text[:len(text)-len(strings.TrimLeft(text, "`"))]
	if len(fence) >= 3 && strings.Contains(text[3:], "```") {
		s.notes["block"]++
	}
	for i := len(fence) + 1; i+len(fence) <= len(text); i++ {
		after := text[i+len(fence):]
		if text[i-1] == '`' || !strings.HasPrefix(text[i:], fence) || strings.HasPrefix(after, "`") {
			continue
		}
		inner := text[len(fence):i]
		if trimmed := strings.Trim(inner, " "); strings.HasSuffix(trimmed, "`") {
			inner = strings.TrimSuffix(inner, " ")
		}
		s.notes["code"]++
		s.text.WriteString(inner)
		return after, true
	}
	return text, false
}

// What names and other texts of people may hold.
var nasty = []string{
	"*", "**", "_", "__", "~~", "|", "||", "`", "``", "```", "\\", "\\\\", "<", ">", ">>> ", "> ", "#", "# ", "### ", "-# ", "- ", "* ", "+ ", "1. ", "12.",
	"[", "]", "(", ")", "[a](b)", "[x](https://a.example)", "https://a.example/b", "http:", "//", "<https://a.example>", "steam://x", "@", "@everyone", "@here",
	"<@123>", "<@!123>", "<@&456>", "<#789>", "</plan show:1>", "<t:1>", "<t:1:R>", "<:a:1>", "<a:b:22>", ":smile:", ":", "a:b:c", "<id:browse>", "<a@b.example>",
	"/plan show", "/race add name:x", "/ride", "/", " ", "  ", "x", "Hill", "Loop", "é", "日本", "🚴", "!", "! ", "\"", "'", ".", "...", "=", "+", "%", "&", "1", "10:30",
	"¯\\_(ツ)_/¯", "\u2028", "\u00a0", "\t", "x*", "*x", "_x_", "x_", ",", ";", "?",
}

func nastyText(r *rand.Rand, most int) string {
	var b strings.Builder
	for range 1 + r.IntN(most) {
		b.WriteString(nasty[r.IntN(len(nasty))])
	}
	return b.String()
}

// seenWords are the words of a text as people see them.
func seenWords(text string) string {
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }), " ")
}

func TestEscapedTextIsSeenAsItIs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	w := renderer{}.words()
	for range rounds.Of(1500) {
		text := oneLine(nastyText(r, 8))
		spans := []say.Span{{Text: text}}
		asCode, ok := code(text)
		if !ok {
			asCode = escape(text, true)
		}
		for _, tc := range []struct{ what, written string }{
			{"escape", escape(text, true)},
			{"inline", w.inline(spans, false)},
			{"bold", w.inline(spans, true)},
			{"behind a mark", "-# " + w.inline(spans, false)},
			{"code", asCode},
		} {
			for _, blind := range []bool{false, true} {
				got := show(tc.written, blind)
				if seenWords(got.text.String()) != seenWords(text) {
					t.Fatalf("%s of %q is %q, seen as %q (blind %v)", tc.what, text, tc.written, got.text.String(), blind)
				}
				for note := range got.notes {
					if !slices.Contains([]string{"bold", "code", "subtext"}, note) {
						t.Fatalf("%s of %q is %q: holds %s", tc.what, text, tc.written, note)
					}
				}
			}
		}
	}
}

// TestCheckerSeesMarkup keeps the checker above honest.
func TestCheckerSeesMarkup(t *testing.T) {
	for _, tc := range []struct{ text, want, note string }{
		{"**a**", "a", "bold"}, {"__a__", "a", "underline"}, {"*a*", "a", "italic"}, {"_a_", "a", "italic"}, {"~~a~~", "a", "struck"},
		{"||a||", "a", "spoiler"}, {"`a*`", "a*", "code"}, {"``a` ``", "a`", "code"}, {"```a```", "a", "block"}, {"# a", "a", "heading"},
		{"x\n- a", "x\na", "list"}, {"1. a", "a", "list"}, {"> a", "a", "quote"}, {"-# a", "a", "subtext"}, {"**# a**", "a", "heading"}, {"- > a", "a", "quote"},
		{"<@1>", "<@1>", "user"}, {"<@&1>", "<@&1>", "role"}, {"<#1>", "<#1>", "channel"}, {"a @here", "a @here", "everyone"},
		{"</a b:1>", "/a b", "command"}, {"<t:1:R>", "<t:1:R>", "time"}, {":a:", ":a:", "emoji"}, {"<:a:1>", "<:a:1>", "emoji"},
		{"https://a.example", "https://a.example", "link"}, {"[a](b)", "[a](b)", "masked"}, {`\*a\*`, "*a*", ""}, {`a\b`, `a\b`, ""},
	} {
		got := show(tc.text, false)
		if got.text.String() != tc.want || tc.note != "" && got.notes[tc.note] == 0 || tc.note == "" && len(got.notes) > 0 {
			t.Errorf("%q: seen as %q with %v, want %q with %s", tc.text, got.text.String(), got.notes, tc.want, tc.note)
		}
	}
}

func TestCommandsInText(t *testing.T) {
	r := renderer{mention: func(name string) string {
		if name == "me set" {
			return ""
		}
		return fmt.Sprintf("</%s:7>", name)
	}}
	w := r.words()
	for text, want := range map[say.Template]string{
		"Its days: /plan show":                       "Its days: </plan show:7>",
		"/plan show.":                                "</plan show:7>.",
		"see /me show or /race list, or":             "see </me show:7> or </race list:7>, or",
		"/race add: Register":                        "</race add:7>: Register",
		"/me set":                                    "`/me set`",
		"and/ride on":                                "and/ride on",
		"(/ride)":                                    "(</ride:7>)",
		`/plan show race:"Hill Loop"`:                "`/plan show race:\"Hill Loop\"`",
		`/plan show race:"a \" *b*" more`:            "`/plan show race:\"a \\\" *b*\"` more",
		"/plan show race:a`b":                        "``/plan show race:a`b``",
		"/plan show race:ab`":                        "``/plan show race:ab` ``",
		"/plan show race:a``b":                       "/plan show race:a\\`\\`b",
		"/tell away from:2026-06-04 kind:none. Then": "`/tell away from:2026-06-04 kind:none`. Then",
		"/race add name:Loop, date:2026-06-04":       "`/race add name:Loop, date:2026-06-04`",
		"/race add nothing:x":                        "`/race add nothing:x`",
		"Sunday 10:30 is fine: 1.5 h (usually 2h)":   "Sunday 10:30 is fine: 1.5 h (usually 2h)",
	} {
		if got := w.inline(say.Linef(text).Spans, false); got != want {
			t.Errorf("%s:\ngot  %s\nwant %s", text, got, want)
		}
	}
	for text, want := range map[say.Template]string{
		"See /ride, *now*": `**See** </ride:7>, **\*now\***`,
		"/ride: your day":  "</ride:7>: **your day**",
		"See /ride.":       "**See** </ride:7>.",
		". a":              "**. a**",
	} {
		if got := w.inline(say.Linef(text).Spans, true); got != want {
			t.Errorf("bold %s:\ngot  %s\nwant %s", text, got, want)
		}
	}
}

// What fills a template is code as a part of its command, and else no command.
// References stay where they can be of Discord.
func TestFilledTemplates(t *testing.T) {
	w := renderer{mention: func(name string) string { return fmt.Sprintf("</%s:7>", name) }}.words()
	ref := func(text string) say.Span { return say.Span{Kind: say.Reference, Text: text} }
	for _, tc := range []struct {
		line say.Line
		want string
	}{
		{say.Linef("Next day: /ride %s", "2026-06-14"), "Next day: `/ride 2026-06-14`"},
		{say.Linef("/plan why %s.", "2026-06-14"), "`/plan why 2026-06-14`."},
		{say.Linef("%s: /plan show race:%s.", "/plan show", `"/ride *x*"`), "/plan show: `/plan show race:\"/ride *x*\"`."},
		{say.Linef("/plan show race:%s", "a``b"), "/plan show race:a\\`\\`b"},
		{say.Linef("%s, %d %%", "/ride", 30), "/ride, 30 %"},
		{say.Linef("See %s or %s", say.Linef("/help"), "/help"), "See </help:7> or /help"},
		{say.Linef("channel: %s and %s", ref("<#42>"), "<#44>"), `channel: <#42> and \<#44>`},
		{say.Linef("role %s", ref("<@&43>")), "role <@&43>"},
		{say.Linef("all %s %s %s", ref("@everyone"), ref("<t:1>"), ref("<#1> x")), `all \@everyone \<t:1> \<#1> x`},
	} {
		if got := w.inline(tc.line.Spans, false); got != tc.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tc.line, got, tc.want)
		}
	}
}

// Every line of a command that the table or a reply can show becomes code that
// holds the whole line, so that it can be copied.
func TestCommandLinesAreCodeAsAWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	w := renderer{}.words()
	for _, c := range bot.Commands() {
		line := "/" + c.Example
		if got := w.inline(say.Linef(say.Template(line)).Spans, false); got != "`"+line+"`" {
			t.Errorf("%s: got %s", line, got)
		}
		if len(c.Options) == 0 {
			continue
		}
		for range 20 {
			options := map[string]string{}
			for _, o := range c.Options {
				if value := strings.Join(strings.Fields(oneLine(nastyText(r, 5))), " "); value != "" {
					options[o.Name] = value
				}
			}
			line := c.FormatLine(options)
			got := w.inline([]say.Span{{Kind: say.CommandSpan, Text: line, Command: c.Name}}, false)
			if want, ok := code(line); ok && got != want {
				t.Errorf("%s:\ngot  %s\nwant %s", line, got, want)
			}
		}
	}
}
