// Package care finds danger in what a rider writes: one function for symptoms,
// notes, questions and plan files. What is dangerous is data, in the files
// meaning_*.go (English) and lang_*.go (the stop words of five other languages);
// the matcher only knows how words lie next to each other.
package care

import "slices"

// Verdict is what is to be done about a text.
type Verdict uint8

// Nothing is found, the rider is asked, or the rider is stopped.
const (
	Nothing Verdict = iota
	Ask
	Stop
)

// String is the verdict's word.
func (v Verdict) String() string { return [...]string{"nothing", "ask", "stop"}[v] }

// Level is how grave a finding is, the gravest last.
type Level uint8

// The levels. None goes with Nothing alone.
const (
	None      Level = iota
	Easy            // a head cold
	Rest            // no training
	Doctor          // a doctor before riding
	Talk            // somebody to talk to
	Head            // a knock to the head
	Emergency       // the emergency number
)

// String is the level's word.
func (l Level) String() string {
	return [...]string{"none", "easy", "rest", "doctor", "talk", "head", "emergency"}[l]
}

// Lang is a language in which it was told.
type Lang uint8

// The languages of stop words.
const (
	English Lang = iota
	Portuguese
	Spanish
	French
	German
	Italian
)

// String is the language's code.
func (l Lang) String() string { return [...]string{"en", "pt", "es", "fr", "de", "it"}[l] }

// Finding is what a text says of the rider's own health today.
type Finding struct {
	Verdict Verdict
	Level   Level
	Lang    Lang
	Head    bool // a knock to the head is among it, whatever the level
	Over    bool // an illness was told that is over: nothing is found, and it still takes its time to leave
}

// Read finds danger in what a rider writes. Names are the rider's own names of
// races and places, which never stop. In doubt it asks.
func Read(text string, names ...string) Finding { return ReadIn(0, text, names...) }

// ReadIn is Read in a year: what was in that year is not long ago.
func ReadIn(year int, text string, names ...string) Finding {
	t := cut(text, year)
	t.hideNames(names)
	t.hide(&known().figures)
	f := t.judge(&known().meanings, false)
	if f.Level <= Rest && t.lang == English && t.isOver() {
		return Finding{Over: true}
	}
	return t.weighedAgain(f)
}

// Doubts reports a text in which Read finds nothing, and of which the model is not
// quite sure all the same: whoever reads it otherwise may ask.
func Doubts(text string, names ...string) bool {
	t := cut(text, 0)
	t.hideNames(names)
	t.hide(&known().figures)
	f := t.judge(&known().meanings, false)
	if f.Verdict != Nothing || t.otherwise || len(t.tokens) < fewWords {
		return false
	}
	danger, _, _ := t.likely()
	return danger >= unsureFrom && danger < askFrom
}

// Own reports a text in which somebody says something of themselves.
func Own(text string) bool {
	t := cut(text, 0)
	t.judge(&known().meanings, false)
	var in langs
	in[English], in[t.lang] = t.lang == English, true
	return slices.Contains(t.scopes(in).self, true)
}

// ReadOther is what the tables find in what somebody writes of another person, who has
// it: the model has learned from what people write of themselves.
func ReadOther(year int, text string) Finding {
	t := cut(text, year)
	t.other = true
	t.hide(&known().figures)
	return t.judge(&known().meanings, false)
}

// Symptom reads an entry of a list of symptoms: bare words count there, and what
// somebody lists there is neither history nor a figure of speech. A place's name is
// no symptom there either, nor one of the rider's own names, and what no wording names
// is asked as it is elsewhere.
func Symptom(text string, names ...string) Finding {
	t := cut(text, 0)
	t.hideNames(ofPlaces(names))
	if t.isPlace() || t.isHidden() || t.likeName() && Read(text).Verdict == Nothing {
		return Finding{}
	}
	f, alone := t.judge(&known().meanings, true), t.judge(&known().bare, true)
	if alone.Level > f.Level {
		alone.Head = alone.Head || f.Head
		return alone
	}
	if f.Verdict == Nothing && alone.Verdict == Nothing {
		return t.weighedAgain(f)
	}
	return f
}
