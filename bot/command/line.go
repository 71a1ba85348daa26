package command

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner/typed"
)

// ParseLine reads a command as people write it, /race add name:"Hill Loop"
// date:2026-06-13, or else takes the line as a plain question. Text before the
// first option belongs to the command's first option, so /ride tomorrow works.
// Faults are *planner.InputError and name the option; the request then holds what
// was read, and in Text what was not. What the options may be, Command.Check says
// when the request is handled.
func ParseLine(commands []Command, line string) (desk.Request, error) {
	line = strings.TrimSpace(line)
	if !utf8.ValidString(line) {
		err := say.Refuse("line", "is not readable text (UTF-8). For example /ride day:tomorrow")
		return desk.Request{Fault: err}, err
	}
	if !strings.HasPrefix(line, "/") {
		return desk.Request{Text: line}, nil
	}
	cmd, rest, err := cutCommand(commands, line[1:])
	if err != nil {
		return desk.Request{Text: line, Fault: err}, err
	}
	p := lineParser{cmd: cmd, rest: rest, values: map[string]string{}}
	if err := p.run(); err != nil {
		return desk.Request{Command: cmd.Name, Options: p.values, Text: p.rest, Fault: err}, err
	}
	if p.bare {
		p.shareOut()
	}
	return desk.Request{Command: cmd.Name, Options: p.values}, nil
}

// cutCommand splits a line behind the slash into a command and its options.
func cutCommand(commands []Command, line string) (*Command, string, error) {
	first, rest := cutWord(line)
	second, after := cutWord(rest)
	one, two := strings.ToLower(first), strings.ToLower(first+" "+second)
	for i := range commands {
		switch commands[i].Name {
		case one:
			return &commands[i], rest, nil
		case two:
			return &commands[i], after, nil
		}
	}
	if near := nearestOf(commands, one, strings.ToLower(second)); near != "" {
		return nil, "", say.Refuse("command", "there is no command /%s. Did you mean %s?", say.Clip(two), say.CommandLink(near))
	}
	return nil, "", unknownCommand(commands, one, strings.TrimSpace(two))
}

// nearestOf finds the second word of a known group: /race ad is /race add.
func nearestOf(commands []Command, group, second string) string {
	var words []string
	for _, c := range commands {
		if g, word, ok := strings.Cut(c.Name, " "); ok && g == group {
			words = append(words, word)
		}
	}
	if near := typed.Nearest(second, words); near != "" {
		return group + " " + near
	}
	return ""
}

func cutWord(s string) (word, rest string) {
	s = strings.TrimLeftFunc(s, unicode.IsSpace)
	if i := strings.IndexFunc(s, unicode.IsSpace); i >= 0 {
		return s[:i], s[i:]
	}
	return s, ""
}

type lineParser struct {
	cmd    *Command
	rest   string
	last   string // the option read before
	bare   bool   // the first option was given without its name and without quotes
	values map[string]string
}

func (p *lineParser) run() error {
	for p.rest = skipSpace(p.rest); p.rest != ""; p.rest = skipSpace(p.rest) {
		name, err := p.option()
		if err != nil {
			return err
		}
		if _, twice := p.values[name]; twice {
			return say.Refuse(name, "is given twice. Write it once")
		}
		if p.values[name], err = p.value(name); err != nil {
			return err
		}
		p.last = name
	}
	return nil
}

// option reads "name:"; other text is the value of the first option when
// nothing has been read yet.
func (p *lineParser) option() (string, error) {
	name, after, ok := p.label(p.rest)
	switch {
	case ok && p.known(name):
		p.rest = after
		return name, nil
	case ok:
		return "", p.unknown(name)
	case p.last != "":
		return "", say.Refuse(p.last, `has text after its closing quote: %s. Write \" for a quote inside the text`, say.Clip(p.rest))
	case len(p.cmd.Options) == 0:
		return "", say.Refuse("command", "%s takes no options. Write it alone", p.cmd.Link())
	}
	open, _ := utf8.DecodeRuneInString(p.rest)
	p.bare = !strings.ContainsRune("\"“„", open)
	return p.cmd.Options[0].Name, nil
}

func (p *lineParser) known(name string) bool {
	_, ok := p.cmd.Option(name)
	return ok
}

func (p *lineParser) unknown(name string) error {
	err := p.cmd.unknownOption(name)
	if len(p.cmd.Options) == 0 {
		return err
	}
	return say.Refuse(err.Field, `%s (a text with a colon needs quotes: "like: this")`, err.Line)
}

// label reads a word with a colon behind it. Weekdays are no labels, since
// weeks are written "mon: recovery 40min" and "weekend: rest" as well.
func (p *lineParser) label(s string) (name, after string, ok bool) {
	i := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' && r != '_' })
	if i <= 0 || s[i] != ':' {
		return "", "", false
	}
	name = strings.ToLower(s[:i])
	if days, err := typed.Weekdays(name); err == nil && len(days) > 0 && !p.known(name) {
		return "", "", false
	}
	return name, s[i+1:], true
}

// value reads a quoted text, or all words up to the next option.
func (p *lineParser) value(name string) (string, error) {
	p.rest = skipSpace(p.rest)
	for open, closing := range map[string]string{`"`: `"`, "“": `”“"`, "„": `”“"`} {
		if strings.HasPrefix(p.rest, open) {
			p.rest = p.rest[len(open):]
			return p.quoted(name, closing)
		}
	}
	end, between := len(p.rest), true
	for i, r := range p.rest {
		starts := between && !unicode.IsSpace(r)
		if between = unicode.IsSpace(r); !starts {
			continue
		}
		label, _, ok := p.label(p.rest[i:])
		if ok && p.known(label) {
			end = i
			break
		}
		if ok {
			return "", p.unknown(label)
		}
	}
	value := p.rest[:end]
	p.rest = p.rest[end:]
	return strings.TrimSpace(value), nil
}

// quoted reads a text up to its closing quote.
func (p *lineParser) quoted(name, closing string) (string, error) {
	var b strings.Builder
	escaped := false
	for i, r := range p.rest {
		switch {
		case escaped:
			if r != '"' && r != '\\' {
				b.WriteByte('\\')
			}
			b.WriteRune(r)
			escaped = false
		case r == '\\':
			escaped = true
		case strings.ContainsRune(closing, r):
			p.rest = p.rest[i+utf8.RuneLen(r):]
			return b.String(), p.afterQuote(name)
		default:
			b.WriteRune(r)
		}
	}
	return "", say.Refuse(name, `lacks its closing quote. For example %s:"%s"`, name, p.example(name))
}

// afterQuote refuses text glued to a closing quote, as in name:"Hill"Loop.
func (p *lineParser) afterQuote(name string) error {
	if r, _ := utf8.DecodeRuneInString(p.rest); p.rest != "" && !unicode.IsSpace(r) {
		return say.Refuse(name, `has text after its closing quote: %s. Write \" for a quote inside the text`, say.Clip(p.rest))
	}
	return nil
}

func (p *lineParser) example(name string) string {
	o, _ := p.cmd.Option(name)
	return o.Example
}

func skipSpace(s string) string { return strings.TrimLeftFunc(s, unicode.IsSpace) }

// FormatLine writes a command so that ParseLine reads it back.
func (c *Command) FormatLine(options map[string]string) string {
	return say.FormatLine(c.Name, c.OptionNames(), options)
}
