package command

import (
	"errors"
	"slices"
	"strings"

	"musette/planner/typed"
)

// free are types of options that any words fit.
var free = []string{"text", TypeWeek, "race", "races", "rider", TypeChannel, TypeRole, TypeMember, "zone", "session", "sessions"}

// shareOut gives words that were typed without option names to their options. Words after
// the name of an option belong to it, as in 55 rpe 8. Words at the end belong to options
// that are required, as in fri 30. Words that fit nowhere stay where they were.
func (p *lineParser) shareOut() {
	first := p.cmd.Options[0]
	words := strings.Fields(p.values[first.Name])
	if !slices.Contains(free, first.Type) {
		words = p.named(words)
	}
	found := map[string]string{}
	for _, o := range slices.Backward(p.cmd.Options[1:]) {
		if _, given := p.values[o.Name]; given || !o.Required {
			continue
		}
		n := len(words)
		for i := 1; i < len(words) && n == len(words); i++ {
			if fits(&o, strings.Join(words[i:], " ")) {
				n = i
			}
		}
		if n == len(words) {
			return
		}
		found[o.Name], words = strings.Join(words[n:], " "), words[:n]
	}
	if len(found) == 0 || !slices.Contains(free, first.Type) && !fits(&first, strings.Join(words, " ")) {
		return
	}
	for name, value := range found {
		p.values[name] = value
	}
	p.values[first.Name] = strings.Join(words, " ")
}

// named gives each option whose name is among the words the words after it, and
// returns the words before the first such name.
func (p *lineParser) named(words []string) []string {
	before, name := words, ""
	var value []string
	keep := func() {
		if name != "" && len(value) > 0 {
			p.values[name] = strings.Join(value, " ")
		}
	}
	for i, w := range words {
		_, given := p.values[strings.ToLower(w)]
		if i == 0 || i == len(words)-1 || given || !p.known(strings.ToLower(w)) {
			value = append(value, w)
			continue
		}
		if name == "" {
			before = words[:i]
		}
		keep()
		name, value = strings.ToLower(w), nil
	}
	keep()
	p.values[p.cmd.Options[0].Name] = strings.Join(before, " ")
	return before
}

// anyDay is today for texts that are tried as days. Whether they can be read depends on no date.
const anyDay = 20000

// fits reports whether a text can be read as an option.
func fits(o *Option, text string) bool {
	var err error
	switch o.Type {
	case "choice":
		_, err = o.Clean(text)
	case "day":
		_, err = typed.DateFrom(text, anyDay)
	case "minutes":
		_, err = typed.Minutes(text)
	case "hours":
		_, err = typed.Hours(text, 1)
	case "weekday":
		_, err = typed.Weekdays(text)
	case "sessions":
		if _, _, far := typed.Distance(text); far {
			return true // it is refused with what to write instead
		}
		_, err = typed.Day(text)
	default:
		return false
	}
	return err == nil || errors.As(err, new(*typed.Ambiguous))
}
