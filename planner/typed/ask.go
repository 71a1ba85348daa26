package typed

import (
	"strings"

	"musette/planner"
)

// Reading is one thing that a text can mean. Value is read back as that thing,
// by the function that asked, and Label says it in words.
type Reading struct{ Label, Value string }

// Ambiguous is the error of a text that can mean more than one thing. Whoever can
// show buttons offers the readings; the message of the error asks for one of them.
type Ambiguous struct {
	Readings []Reading
	fault    *planner.InputError
}

// Error asks which reading is meant.
func (a *Ambiguous) Error() string { return a.fault.Error() }

// Unwrap is the same question as a fault of the input.
func (a *Ambiguous) Unwrap() error { return a.fault }

// ask is an Ambiguous error; its message names each reading's value.
func ask(text string, readings ...Reading) *Ambiguous {
	labels, values := make([]string, len(readings)), make([]string, len(readings))
	for i, r := range readings {
		labels[i], values[i] = r.Label, r.Value
	}
	return &Ambiguous{readings, planner.BadInput("", "%s can mean %s. Write %s", quoted(text), either(labels), either(values))}
}

// askDays asks which of some days is meant.
func askDays(text string, days ...planner.Date) *Ambiguous {
	readings := make([]Reading, len(days))
	for i, d := range days {
		readings[i] = Reading{d.Long(), d.String()}
	}
	return ask(text, readings...)
}

// either joins words as a choice: a, b or c.
func either(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
