package discord

import (
	"regexp"
	"strings"
	"unicode"

	"musette/bot"
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

// words writes the lines of one reply in Discord's markup.
type words struct {
	commands []bot.Command
	mention  func(command string) string
	verbatim []string
}

// ours is what a transport may have written itself: a channel, a role, a member.
var ours = regexp.MustCompile(`^<(?:#|@&|@)[0-9]{1,20}>$`)

func (r renderer) words(verbatim []string) *words {
	w := &words{commands: bot.Commands(), mention: r.mention}
	if w.mention == nil {
		w.mention = func(string) string { return "" }
	}
	for _, part := range verbatim {
		if ours.MatchString(part) {
			w.verbatim = append(w.verbatim, part)
		}
	}
	return w
}

// inline writes one line, or the part of a line behind a mark: commands become
// links or code, verbatim parts stay, all else is escaped, and bold where asked for.
func (w *words) inline(line string, bold bool) string {
	line = oneLine(line)
	var b strings.Builder
	from := 0
	flush := func(to int) {
		text := line[from:to]
		start := strings.TrimSpace(b.String()) == ""
		if !bold {
			b.WriteString(escape(text, start))
			return
		}
		aside := " "
		if !start {
			aside = " .,:;" // the sentence goes on behind a command
		}
		inner := strings.TrimRight(strings.TrimLeft(text, aside), " ")
		lead := text[:len(text)-len(strings.TrimLeft(text, aside))]
		if inner == "" {
			b.WriteString(escape(text, start))
			return
		}
		b.WriteString(escape(lead, start) + "**" + escape(inner, start) + "**" + text[len(lead)+len(inner):])
	}
	for i := 0; i < len(line); {
		shown, n := w.token(line, i)
		if n == 0 {
			i++
			continue
		}
		flush(i)
		b.WriteString(shown)
		i += n
		from = i
	}
	flush(len(line))
	return b.String()
}

// token is what stands at a place of a line besides text, in markup, and how
// many bytes it takes; 0 for text.
func (w *words) token(line string, i int) (string, int) {
	switch line[i] {
	case '<':
		for _, part := range w.verbatim {
			if strings.HasPrefix(line[i:], part) {
				return part, len(part)
			}
		}
	case '/':
		if i > 0 && !strings.ContainsAny(line[i-1:i], " (\"") {
			return "", 0
		}
		cmd := w.command(line[i+1:])
		if cmd == nil {
			return "", 0
		}
		bare := 1 + len(cmd.Name)
		n := bare + optionsLength(cmd, line[i+bare:])
		if link := w.mention(cmd.Name); n == bare && link != "" {
			return link, n
		}
		if written, ok := code(line[i : i+n]); ok {
			return written, n
		}
	}
	return "", 0
}

// command is the command whose name a text begins with.
func (w *words) command(text string) *bot.Command {
	for i := range w.commands {
		c := &w.commands[i]
		if rest, ok := strings.CutPrefix(text, c.Name); ok && !wordGoesOn.MatchString(rest) {
			return c
		}
	}
	return nil
}

var (
	wordGoesOn = regexp.MustCompile(`^[\pL\pN_/-]`)
	// A day may stand behind a command without its option's name.
	bareDay = regexp.MustCompile(`^ \d{4}-\d\d-\d\d\b`)
	// Quoted as bot.Quote does it, else up to the next blank.
	optionValue = regexp.MustCompile(`^ ([a-z-]+):("(?:\\.|[^"\\])*"|[^\s"]+)`)
)

// optionsLength is how many bytes of a text are options of the command. The
// punctuation of a sentence that goes on behind them is none of theirs.
func optionsLength(c *bot.Command, text string) int {
	n := len(bareDay.FindString(text))
	for {
		option := nextOption(c, text[n:])
		if option == "" {
			return n
		}
		n += len(option)
		if rest := text[n:]; rest != "" && nextOption(c, rest) == "" && !strings.HasSuffix(option, `"`) {
			return n - len(option) + len(strings.TrimRight(option, ".,;:"))
		}
	}
}

// nextOption is the option of the command that a text begins with.
func nextOption(c *bot.Command, text string) string {
	m := optionValue.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	if _, ok := c.Option(m[1]); !ok {
		return ""
	}
	return m[0]
}
