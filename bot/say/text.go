// Package say is what the bot says: lines made of templates, replies with their
// buttons and files, refusals. It knows the names of commands, not what they do.
package say

import (
	"strings"
)

// LineKind is what a line of a reply is. Transports give each kind its look.
type LineKind uint8

// Kinds of lines.
const (
	Plain   LineKind = iota
	Gap              // empty: it parts what follows
	Heading          // names the lines below it
	Day              // a day of a list; Lead is its date
	Reason           // one of several
	Warning          // what the rider must know
	Detail           // belongs to the line above
	Caution          // a warning about the line above
	Offered          // what a button of the reply does, as a line to type
)

// marks are what lines of a kind begin with, in templates and on a terminal. The
// longer ones come first.
var marks = []struct {
	kind LineKind
	text string
}{{Caution, "  ! "}, {Detail, "  "}, {Warning, "! "}, {Reason, "- "}}

// SpanKind is what a part of a line is.
type SpanKind uint8

// Kinds of spans.
const (
	Words       SpanKind = iota // shown as they are, never looked into
	CommandSpan                 // a command to type, with its options
	Reference                   // what a transport wrote itself: a channel, a role
)

// Span is a part of a line.
type Span struct {
	Kind    SpanKind
	Text    string
	Command string // the name of a CommandSpan's command
}

func (s Span) String() string { return s.Text }

// Line is one line of a reply.
type Line struct {
	Kind  LineKind
	Lead  string // the date of a day, with the blanks that align it on a terminal
	Flag  bool   // a caution belongs to that day
	Mind  string // that caution in a few words, "" where it is elsewhere
	Spans []Span
}

// Words are the line's spans as text, without its mark.
func (l Line) Words() string {
	var b strings.Builder
	for _, s := range l.Spans {
		b.WriteString(s.Text)
	}
	return b.String()
}

// String is the line as a terminal shows it.
func (l Line) String() string {
	text := l.Words()
	if l.Kind == Day {
		if text = l.Lead + " " + text; l.Flag {
			text = strings.TrimRight(text+" ! "+l.Mind, " ")
		}
	}
	for _, m := range marks {
		if m.kind == l.Kind {
			return m.text + text
		}
	}
	return text
}

// TextOf are lines as a terminal shows them.
func TextOf(lines []Line) string {
	all := make([]string, len(lines))
	for i, l := range lines {
		all[i] = l.String()
	}
	return strings.TrimRight(strings.Join(all, "\n"), "\n")
}

// Template is a sentence of our own, with verbs as package fmt has them. Constants
// are templates by themselves and variables are not: so the compiler keeps what
// people wrote out of templates, which are searched for commands.
type Template string

// Linef makes a line of a template. The mark that the template begins with gives the
// line's kind. A command in the template, with its options, becomes a
// span of its own. Arguments become words, whatever they hold, but for spans and
// lines, which are put in.
func Linef(t Template, args ...any) Line {
	var l Line
	text := string(t)
	for _, m := range marks {
		if rest, ok := strings.CutPrefix(text, m.text); ok {
			l.Kind, text = m.kind, rest
			break
		}
	}
	c := composer{line: &l, args: args}
	for from := 0; from < len(text); {
		at, to, command := nextCommand(text, from)
		c.words(text[from:at])
		if command != "" {
			l.put(Span{Kind: CommandSpan, Text: c.format(text[at:to]), Command: command})
		}
		from = to
	}
	return l
}

// Headingf makes a line that names those below it.
func Headingf(t Template, args ...any) Line {
	l := Linef(t, args...)
	l.Kind = Heading
	return l
}

// Dayf makes a day's line of a list.
func Dayf(lead string, t Template, args ...any) Line {
	l := Linef(t, args...)
	l.Kind, l.Lead = Day, lead
	return l
}

// Offeredf makes a line that says as a command what a button of the reply does.
func Offeredf(t Template, args ...any) Line {
	l := Linef(t, args...)
	l.Kind = Offered
	return l
}

// PlainLines are sentences that name no command, each as a line.
func PlainLines(sentences ...string) []Line {
	var lines []Line
	for _, s := range sentences {
		lines = append(lines, Linef("%s", s))
	}
	return lines
}

// Joined puts lines into one, parted by words.
func Joined(lines []Line, between string) Line {
	var out Line
	for i, l := range lines {
		if i > 0 {
			out.put(Span{Text: between})
		}
		for _, s := range l.Spans {
			out.put(s)
		}
	}
	return out
}

// put adds a span; words that follow words become one span with them.
func (l *Line) put(s Span) {
	last := len(l.Spans) - 1
	switch {
	case s.Text == "":
	case s.Kind == Words && last >= 0 && l.Spans[last].Kind == Words:
		l.Spans[last].Text += s.Text
	default:
		l.Spans = append(l.Spans, s)
	}
}
