package discord

import (
	"regexp"
	"slices"
	"sort"
	"strings"
	"unicode"

	"musette/bot/say"
)

// escape writes a text of one line so that Discord shows exactly it: no markup,
// mention, link or emoji name comes of it. A backslash before punctuation is
// not shown. Marks that mean something at the start of a line alone are escaped
// there, behind our own marks too.
func escape(text string, start bool) string {
	var b strings.Builder
	b.Grow(len(text) + len(text)/8)
	for i, r := range text {
		switch {
		case strings.ContainsRune("\\*_~`|<[@", r),
			start && strings.ContainsRune("#>-+", r),
			r == ':' && opensLinkOrEmoji.MatchString(text[i:]),
			r == '.' && (endsNumberAtStart(text, i) || opensDomain.MatchString(text[i:])):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
		start = start && r == ' '
	}
	return b.String()
}

// opensDomain is the full stop of example.org/x, which clients may take for an invitation.
var opensDomain = regexp.MustCompile(`^\.\pL+/`)

// opensLinkOrEmoji is the colon of https:// or the first one of :name:.
var opensLinkOrEmoji = regexp.MustCompile(`^:(?:/|[\pL\pN_+-]+:)`)

// endsNumberAtStart reports a full stop that would make a numbered list: "1. ".
func endsNumberAtStart(text string, stop int) bool {
	number := strings.TrimLeft(text[:stop], " ")
	return number != "" && strings.Trim(number, "0123456789") == "" &&
		(stop+1 == len(text) || text[stop+1] == ' ')
}

// code writes a text as inline code, which Discord shows as it is. It is not ok
// where the text's own backticks leave no fence that every client reads.
func code(text string) (written string, ok bool) {
	longest := 0
	for run := range strings.FieldsFuncSeq(text, func(r rune) bool { return r != '`' }) {
		longest = max(longest, len(run))
	}
	switch {
	case text == "" || longest > 1 || text[0] == '`' || strings.TrimSpace(text) != text:
		return "", false
	case longest == 0:
		return "`" + text + "`", true
	case strings.HasSuffix(text, "`"):
		text += " " // Discord takes it away
	}
	return "``" + text + "``", true
}

// oneLine makes all white space and control characters blanks: some of them
// begin a new line for Discord.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.In(r, unicode.Zl, unicode.Zp) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// words writes the lines of one reply in Discord's markup. mention is the link of
// a command by its name, "" where there is none.
type words struct {
	pressed bool // the answer has buttons: what they do is not said again
	mention func(command string) string
}

// ours is what a transport may have written itself: a channel, a role, a member.
var ours = regexp.MustCompile(`^<(?:#|@&|@)[0-9]{1,20}>$`)

func (r renderer) words() *words {
	if r.mention == nil {
		return &words{mention: func(string) string { return "" }}
	}
	return &words{mention: r.mention}
}

// inline writes spans: commands become links or code, references stay, words are
// escaped, and bold where asked for.
func (w *words) inline(spans []say.Span, bold bool) string {
	var b strings.Builder
	text := "" // words that are not written yet
	flush := func() {
		start := strings.TrimSpace(b.String()) == ""
		if bold {
			b.WriteString(embolden(text, start))
		} else {
			b.WriteString(escape(text, start))
		}
		text = ""
	}
	for _, s := range spans {
		if shown := w.markup(s); shown != "" {
			flush()
			b.WriteString(shown)
		} else {
			text += oneLine(s.Text)
		}
	}
	flush()
	return b.String()
}

// embolden writes words in bold. Where a sentence goes on behind a command its
// punctuation stays as it is.
func embolden(text string, start bool) string {
	aside := " "
	if !start {
		aside = " .,:;"
	}
	inner := strings.TrimRight(strings.TrimLeft(text, aside), " ")
	if inner == "" {
		return escape(text, start)
	}
	lead := text[:len(text)-len(strings.TrimLeft(text, aside))]
	return escape(lead, start) + "**" + escape(inner, start) + "**" + text[len(lead)+len(inner):]
}

// markup is a span that is more than words, "" for all others: a command without
// options becomes a link, any other one code, so that it can be copied.
func (w *words) markup(s say.Span) string {
	switch text := oneLine(s.Text); {
	case s.Kind == say.Reference && ours.MatchString(text):
		return text
	case s.Kind == say.CommandSpan:
		if link := w.mention(s.Command); link != "" && text == "/"+s.Command {
			return link
		}
		written, _ := code(text)
		return written
	}
	return ""
}

// within writes as much of a line as has room, up to a blank where there is
// one, and returns what is left of it, if anything is.
func (w *words) within(line say.Line, most int, bold bool) (shown string, over []say.Line) {
	if shown = w.inline(line.Spans, bold); length(shown) <= most {
		return shown, nil
	}
	runes := []rune(line.Words())
	n := sort.Search(len(runes), func(n int) bool {
		head, _ := partSpans(line.Spans, n+1)
		return length(w.inline(head, bold)) > most
	})
	head, rest := breakLine(line, n)
	return w.inline(head.Spans, bold), []say.Line{rest}
}

// fold parts lines that are too long for one embed, at blanks.
func (w *words) fold(lines []say.Line) []say.Line {
	const (
		marks = 20  // of our own at most, besides those of words
		safe  = 800 // even where every word is a link
	)
	var out []say.Line
	for _, line := range lines {
		for length(line.Words()) > safe && length(w.inline(line.Spans, false)) > maxDescription-marks-len(wholeNote) {
			var piece say.Line
			piece, line = breakLine(line, len([]rune(head(line.Words(), safe))))
			out = append(out, piece)
		}
		out = append(out, line)
	}
	return out
}

// breakLine parts a line behind so many characters, or at a blank not far before:
// before a command rather than in it. What is left of a detail is a detail.
func breakLine(line say.Line, most int) (first, rest say.Line) {
	n := most
	if at := commandAround(line.Spans, n); at > most/2 {
		n = at
	}
	runes := []rune(line.Words())
	for back := n; back > most/2 && n == most; back-- {
		if runes[back] == ' ' {
			n = back
			break
		}
	}
	first, rest = line, say.Line{}
	if line.Kind == say.Detail || line.Kind == say.Caution {
		rest.Kind = say.Detail
	}
	first.Spans, rest.Spans = partSpans(line.Spans, n)
	if len(rest.Spans) > 0 {
		rest.Spans[0].Text = strings.TrimLeft(rest.Spans[0].Text, " ")
	}
	return first, rest
}

// commandAround is where the command begins that a place is in, else the place.
func commandAround(spans []say.Span, place int) int {
	from := 0
	for _, s := range spans {
		to := from + len([]rune(s.Text))
		if from < place && place < to && s.Kind == say.CommandSpan {
			return from
		}
		from = to
	}
	return place
}

// partSpans parts spans behind so many characters. A command that is parted stays
// one in both parts: they are shown as code.
func partSpans(spans []say.Span, n int) (first, rest []say.Span) {
	for i, s := range spans {
		runes := []rune(s.Text)
		if n < len(runes) {
			before, behind := s, s
			before.Text, behind.Text = string(runes[:n]), string(runes[n:])
			if n > 0 {
				first = append(first, before)
			}
			return first, slices.Concat([]say.Span{behind}, spans[i+1:])
		}
		n -= len(runes)
		first = append(first, s)
	}
	return first, nil
}
