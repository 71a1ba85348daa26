package say

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// composer fills the verbs of a template, one after the other.
type composer struct {
	line *Line
	args []any
}

// nextVerb finds the first verb of a template from a place on: %s, %.1f, %-10s or %%.
// Without one both places are the template's end.
func nextVerb(text string, from int) (at, to int) {
	for at = from; at < len(text); at++ {
		if text[at] != '%' {
			continue
		}
		rest := strings.TrimLeft(text[at+1:], "-+#0")
		rest = strings.TrimLeft(rest, "0123456789")
		if after, ok := strings.CutPrefix(rest, "."); ok {
			rest = strings.TrimLeft(after, "0123456789")
		}
		if rest != "" && (rest[0] == '%' || isLetter(rest[0])) {
			return at, len(text) - len(rest) + 1
		}
	}
	return at, at
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }

// words puts in a part of a template that holds no command.
func (c *composer) words(part string) {
	for from := 0; from < len(part); {
		at, to := nextVerb(part, from)
		c.line.put(Span{Text: part[from:at]})
		from = to
		if at == to || c.spans(part[to-1]) {
			continue
		}
		c.line.put(Span{Text: c.format(part[at:to])})
	}
}

// spans puts in the next argument where that is more than words, for a verb s.
func (c *composer) spans(verb byte) bool {
	if len(c.args) == 0 || verb != 's' {
		return false
	}
	switch arg := c.args[0].(type) {
	case Span:
		c.line.put(arg)
	case Line:
		for _, s := range arg.Spans {
			c.line.put(s)
		}
	default:
		return false
	}
	c.args = c.args[1:]
	return true
}

// format fills the verbs of a part with the arguments that come next.
func (c *composer) format(part string) string {
	n := 0
	for at, to := nextVerb(part, 0); at < to; at, to = nextVerb(part, to) {
		if part[at:to] != "%%" {
			n++
		}
	}
	n = min(n, len(c.args))
	args := c.args[:n]
	c.args = c.args[n:]
	return fmt.Sprintf(part, args...)
}

// nextCommand finds the first command of a template from a place on: where it
// begins and where it ends. Without one both are the template's end. A command is a
// slash and a word or two, as far as no option begins: so a sentence may only go on
// behind one word with a sign, as in "/ride, then rest".
func nextCommand(text string, from int) (at, to int, command string) {
	for at = from; at < len(text); at++ {
		if text[at] != '/' || at > 0 && !strings.ContainsAny(text[at-1:at], ` ("`) {
			continue
		}
		name, rest := leadingWord(text[at+1:])
		if name == "" {
			continue
		}
		if next, ok := strings.CutPrefix(rest, " "); ok && optionLength(rest) == 0 {
			if second, behind := leadingWord(next); second != "" {
				name, rest = name+" "+second, behind
			}
		}
		return at, len(text) - len(rest) + optionsLength(rest), name
	}
	return at, at, ""
}

// leadingWord cuts off the word of small letters that a text begins with. There is
// none where other letters, numbers or a path go on behind it.
func leadingWord(text string) (word, rest string) {
	rest = strings.TrimLeft(text, "abcdefghijklmnopqrstuvwxyz")
	if wordGoesOn(rest) {
		return "", text
	}
	return text[:len(text)-len(rest)], rest
}

// wordGoesOn reports that the word before a text does not end there.
func wordGoesOn(text string) bool {
	r, size := utf8.DecodeRuneInString(text)
	return size > 0 && (unicode.IsLetter(r) || unicode.IsNumber(r) || strings.ContainsRune("_/-", r))
}

// bareValue may stand behind a command without its option's name.
const bareValue = " %s"

// optionsLength is how many bytes of a template are options. The punctuation of a
// sentence that goes on behind them is none of theirs.
func optionsLength(text string) int {
	n := 0
	if strings.HasPrefix(text, bareValue) {
		n = len(bareValue)
	}
	for last := ""; ; {
		length := optionLength(text[n:])
		if length == 0 {
			if !strings.HasSuffix(last, `"`) {
				n -= len(last) - len(strings.TrimRight(last, ".,;:"))
			}
			return n
		}
		last = text[n : n+length]
		n += length
	}
}

// optionLength is the length of the option that a text begins with, behind a blank, 0
// for none. Its value is quoted as Quote does it, else it ends before the next blank.
func optionLength(text string) int {
	rest, ok := strings.CutPrefix(text, " ")
	name, value, named := strings.Cut(rest, ":")
	if !ok || !named || name == "" || strings.Trim(name, "abcdefghijklmnopqrstuvwxyz-") != "" {
		return 0
	}
	if n := quotedLength(value); n > 0 {
		return len(text) - len(value) + n
	}
	n := strings.IndexFunc(value, func(r rune) bool { return unicode.IsSpace(r) || r == '"' })
	if n < 0 {
		n = len(value)
	}
	if n == 0 {
		return 0
	}
	return len(text) - len(value) + n
}

// quotedLength is the length of the quoted value that a text begins with, 0 for none.
func quotedLength(text string) int {
	if !strings.HasPrefix(text, `"`) {
		return 0
	}
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return 0
}
