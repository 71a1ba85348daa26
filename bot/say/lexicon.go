package say

import (
	"regexp"
	"strings"
	"unicode"
)

// known is a command as sentences name it.
type known struct {
	name    string
	options []string // names, in their order
}

// lexicon are the commands that sentences may name, in the order of the table.
var lexicon []known

// Know makes sentences recognise a command. The table teaches its rows once,
// when the program starts; nothing may be said before.
func Know(command string, options []string) {
	lexicon = append(lexicon, known{command, options})
}

// CommandLine is a command of the table as a line to type.
func CommandLine(command string, options map[string]string) Span {
	for _, c := range lexicon {
		if c.name == command {
			return Span{Kind: CommandSpan, Text: FormatLine(command, c.options, options), Command: command}
		}
	}
	return Span{}
}

// CommandLink is a command of the table by its name.
func CommandLink(command string) Span { return CommandLine(command, nil) }

// FormatLine writes a command with the options that are given, in the order of names.
func FormatLine(command string, names []string, options map[string]string) string {
	var b strings.Builder
	b.WriteString("/" + command)
	for _, name := range names {
		if value, ok := options[name]; ok {
			b.WriteString(" " + name + ":" + Quote(value))
		}
	}
	return b.String()
}

// Quote writes a value so that ParseLine reads it back.
func Quote(value string) string {
	plain := strings.IndexFunc(value, func(r rune) bool {
		return unicode.IsSpace(r) || r == '"' || r == '\\' || r == '“' || r == '„'
	}) < 0
	if plain && value != "" && !optionLike.MatchString(value) {
		return value
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(value) + `"`
}

// optionLike is a value that would be read as an option's name with its colon.
var optionLike = regexp.MustCompile(`^[\p{L}_-]+:`)
