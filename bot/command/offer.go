package command

import (
	"errors"
	"slices"
	"strings"
	"unicode/utf16"

	"github.com/hbollon/go-edlib"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// MaxOffers is how many offers there are at most.
const MaxOffers = 25

// Offer is a value that fits what is being typed, and how it is shown.
type Offer struct{ Label, Value string }

// UTF16Len is the length of a text in units of UTF-16.
func UTF16Len(s string) int { return len(utf16.Encode([]rune(s))) }

// Plain are values that are shown as they are.
func Plain(values []string) []Offer {
	out := make([]Offer, len(values))
	for i, v := range values {
		out[i] = Offer{v, v}
	}
	return out
}

// Fitting keeps the offers that fit the typed text: first those that begin with
// it, then those with words that begin like its words, those that hold it, and
// those with words that are close to its words.
func Fitting(all []Offer, typed string) []Offer {
	typed = desk.Unaccented(strings.TrimSpace(typed))
	want := desk.WordsOf(typed)
	var levels [4][]Offer
	for _, o := range all {
		low := desk.Unaccented(o.Label + " " + o.Value)
		have := desk.WordsOf(low)
		switch {
		case strings.HasPrefix(low, typed):
			levels[0] = append(levels[0], o)
		case len(want) > 0 && Each(want, have, begins):
			levels[1] = append(levels[1], o)
		case strings.Contains(low, typed):
			levels[2] = append(levels[2], o)
		case len(want) > 0 && Each(want, have, Near):
			levels[3] = append(levels[3], o)
		}
	}
	out := slices.Concat(levels[:]...)
	return out[:min(len(out), MaxOffers)]
}

// ListedOffers complete the last of a list of values.
func ListedOffers(values []string, typed string) []Offer {
	before, last := "", typed
	if i := strings.LastIndexByte(typed, ','); i >= 0 {
		before, last = strings.TrimSpace(typed[:i])+", ", typed[i+1:]
	}
	out := Fitting(Plain(values), last)
	for i := range out {
		if whole := before + out[i].Value; UTF16Len(whole) <= desk.MaxOfferText {
			out[i] = Offer{whole, whole}
		}
	}
	return out
}

// Words are close from this likeness on. Short ones must be the same: they are
// close to too much.
const (
	closeEnough = 0.88
	shortWord   = 2
)

// Each reports whether each typed word fits a word of the offer.
func Each(want, have []string, fits func(typed, word string) bool) bool {
	for _, w := range want {
		if !slices.ContainsFunc(have, func(h string) bool { return fits(w, h) }) {
			return false
		}
	}
	return true
}

// begins reports whether a word begins as typed; 20 is a day and no year.
func begins(typed, word string) bool {
	year := len(word) == 4 && strings.Trim(word, "0123456789") == ""
	return strings.HasPrefix(word, typed) && (len(typed) > shortWord || !year)
}

// Near reports whether the typed word is close to a word's beginning: Jaro and
// Winkler's likeness.
func Near(typed, word string) bool {
	length := len([]rune(typed))
	if length <= shortWord {
		return begins(typed, word)
	}
	start := []rune(word)
	start = start[:min(len(start), length+1)]
	return edlib.JaroWinklerSimilarity(typed, string(start)) >= closeEnough
}

// DayOffers are the day that was typed, where it is one, and today, tomorrow,
// the weekdays and the dates of two weeks.
func DayOffers(today planner.Date, text string) []Offer {
	var out []Offer
	date, err := typed.Date(text, today)
	var open *typed.Ambiguous
	switch {
	case errors.As(err, &open):
		for _, r := range open.Readings {
			out = append(out, Offer{r.Label, r.Value})
		}
	case err == nil && strings.TrimSpace(text) != "":
		out = append(out, Offer{date.Long(), date.String()})
	}
	ahead := []Offer{{"today, " + today.Short(), "today"}, {"tomorrow, " + today.AddDays(1).Short(), "tomorrow"}}
	for i := 2; i < 14; i++ {
		day := today.AddDays(i)
		value := strings.ToLower(day.Weekday().String())
		if i > 6 {
			value = day.String()
		}
		ahead = append(ahead, Offer{strings.ToLower(day.Weekday().String()) + ", " + day.Short(), value})
	}
	for _, o := range Fitting(ahead, text) {
		if date, err := typed.Date(o.Value, today); err != nil || len(out) == 0 || date.String() != out[0].Value {
			out = append(out, o)
		}
	}
	return out[:min(len(out), MaxOffers)]
}

// PastDayOffers are the day that was typed, where it is one that is over, and
// today and the two weeks before it.
func PastDayOffers(today planner.Date, text string) []Offer {
	var out []Offer
	date, err := typed.DateBack(text, today)
	if err == nil && strings.TrimSpace(text) != "" && date <= today && date >= today.AddDays(-desk.MostLogged) {
		out = append(out, Offer{date.Long(), date.String()})
	}
	var before []Offer
	for i := range 14 {
		day := today.AddDays(-i)
		label := strings.ToLower(day.Weekday().String())
		if i < 2 {
			label = [...]string{"today", "yesterday"}[i]
		}
		before = append(before, Offer{label + ", " + day.Short(), day.String()})
	}
	for _, o := range Fitting(before, text) {
		if len(out) == 0 || o.Value != out[0].Value {
			out = append(out, o)
		}
	}
	return out[:min(len(out), MaxOffers)]
}

// RaceOffers are races with priority and date. The value is the name with the
// date, of a long name as much as there is room for: desk.FindRace reads it.
func RaceOffers(races []storage.Race) []Offer {
	out := make([]Offer, len(races))
	for i, r := range races {
		date := " " + r.Date.String()
		tail := ", " + r.Priority.String() + ", " + r.Date.Short() + " " + r.Date.String()[:4]
		out[i] = Offer{say.Clip16(r.Name, desk.MaxOfferText-len(tail)) + tail, say.Clip16(r.Name, desk.MaxOfferText-len(date)) + date}
	}
	return out
}
