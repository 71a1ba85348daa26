package discord

import (
	"slices"
	"sort"
	"strings"

	"musette/bot/say"
)

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
