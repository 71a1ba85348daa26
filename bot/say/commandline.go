package say

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// CommandLine is a command as a line to type, its options in the order of the alphabet.
func CommandLine(command string, options map[string]string) Span {
	line := FormatLine(command, slices.Sorted(maps.Keys(options)), options)
	return Span{Kind: CommandSpan, Text: line, Command: command}
}

// CommandLink is a command by its name.
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
