package bot

import (
	"context"
	"slices"
	"strings"
	"unicode/utf16"

	"github.com/hbollon/go-edlib"

	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// maxOffers is how many offers there are at most.
const maxOffers = 25

// maxOfferText is how long labels and values of offers are, in units of UTF-16.
const maxOfferText = 100

// Offer is a value that fits what is being typed, and how it is shown.
type Offer struct{ Label, Value string }

// Offer lists values that fit what has been typed of an option: its choices,
// the rider's races, days or zones. Offers help; Handle checks every value anyway.
func (b *Bot) Offer(ctx context.Context, req Request, name, option, typed string) []Offer {
	cmd, err := findCommand(b.commands, name)
	if err != nil {
		return nil
	}
	o, ok := cmd.Option(option)
	if !ok {
		return nil
	}
	switch {
	case len(o.Choices) > 0:
		return fitting(plain(o.Choices), typed)
	case o.Complete == CompleteZone:
		return fitting(plain(zones()), typed)
	case o.Complete == CompleteNothing:
		return nil
	}
	who, err := b.base.rider(ctx, req)
	if err != nil {
		return nil
	}
	if req.rider = who; cmd.allow(&req) != nil {
		return nil
	}
	switch o.Complete {
	case CompleteRider:
		return b.base.riderOffers(ctx, who, typed)
	case CompleteDay:
		return dayOffers(who.today, typed)
	case CompleteDayOver:
		return pastDayOffers(who.today, typed)
	}
	races, err := b.base.db.Races(ctx, who.athlete.ID) // none of a rider who is new
	if err != nil {
		return nil
	}
	switch o.Complete {
	case CompleteRaceOver:
		races = begun(races, who.today)
		slices.Reverse(races)
	case CompleteRaces:
		return listOffers(toCome(races, who.today), option, typed)
	default:
		races = toCome(races, who.today)
	}
	return fitting(raceOffers(races), typed)
}

// listOffers complete the last race of a list, parted by semicolons, with one that
// the option can change, as far as the whole has room.
func listOffers(races []storage.Race, option, typed string) []Offer {
	races = changeable(races, option)
	before := ""
	if i := strings.LastIndexByte(typed, ';'); i >= 0 {
		before, typed = strings.TrimSpace(typed[:i])+"; ", typed[i+1:]
	}
	for _, named := range splitRaces(before, races) {
		if found := wholeNamed(races, named); len(found) == 1 {
			races = slices.DeleteFunc(races, func(r storage.Race) bool { return r.ID == found[0].ID })
		}
	}
	var out []Offer
	for _, o := range fitting(raceOffers(races), typed) {
		whole := Offer{Label: before + o.Label, Value: before + o.Value}
		if utf16Len(whole.Label) <= maxOfferText && utf16Len(whole.Value) <= maxOfferText {
			out = append(out, whole)
		}
	}
	return out
}

func utf16Len(s string) int { return len(utf16.Encode([]rune(s))) }

// plain are values that are shown as they are.
func plain(values []string) []Offer {
	out := make([]Offer, len(values))
	for i, v := range values {
		out[i] = Offer{v, v}
	}
	return out
}

// fitting keeps the offers that fit the typed text: first those that begin with
// it, then those with words that begin like its words, those that hold it, and
// those with words that are close to its words.
func fitting(all []Offer, typed string) []Offer {
	typed = unaccented(strings.TrimSpace(typed))
	want := wordsOf(typed)
	var levels [4][]Offer
	for _, o := range all {
		low := unaccented(o.Label + " " + o.Value)
		have := wordsOf(low)
		switch {
		case strings.HasPrefix(low, typed):
			levels[0] = append(levels[0], o)
		case len(want) > 0 && each(want, have, begins):
			levels[1] = append(levels[1], o)
		case strings.Contains(low, typed):
			levels[2] = append(levels[2], o)
		case len(want) > 0 && each(want, have, near):
			levels[3] = append(levels[3], o)
		}
	}
	out := slices.Concat(levels[:]...)
	return out[:min(len(out), maxOffers)]
}

// Words are close from this likeness on. Short ones must be the same: they are
// close to too much.
const (
	closeEnough = 0.88
	shortWord   = 2
)

// each reports whether each typed word fits a word of the offer.
func each(want, have []string, fits func(typed, word string) bool) bool {
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

// near reports whether the typed word is close to a word's beginning: Jaro and
// Winkler's likeness.
func near(typed, word string) bool {
	length := len([]rune(typed))
	if length <= shortWord {
		return begins(typed, word)
	}
	start := []rune(word)
	start = start[:min(len(start), length+1)]
	return edlib.JaroWinklerSimilarity(typed, string(start)) >= closeEnough
}

// dayOffers are the day that was typed, where it is one, and today, tomorrow,
// the weekdays and the dates of two weeks.
func dayOffers(today planner.Date, text string) []Offer {
	var out []Offer
	if date, err := typed.Date(text, today); err == nil && strings.TrimSpace(text) != "" {
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
	for _, o := range fitting(ahead, text) {
		if date, err := typed.Date(o.Value, today); err != nil || len(out) == 0 || date.String() != out[0].Value {
			out = append(out, o)
		}
	}
	return out[:min(len(out), maxOffers)]
}

// pastDayOffers are the day that was typed, where it is one that is over, and
// today and the two weeks before it.
func pastDayOffers(today planner.Date, text string) []Offer {
	var out []Offer
	date, err := lastDayOf(text, today)
	if err == nil && strings.TrimSpace(text) != "" && date <= today && date >= today.AddDays(-mostLogged) {
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
	for _, o := range fitting(before, text) {
		if len(out) == 0 || o.Value != out[0].Value {
			out = append(out, o)
		}
	}
	return out[:min(len(out), maxOffers)]
}

// raceOffers are races with priority and date. The value is the name with the
// date, of a long name as much as there is room for: findRace reads it.
func raceOffers(races []storage.Race) []Offer {
	out := make([]Offer, len(races))
	for i, r := range races {
		date := " " + r.Date.String()
		tail := ", " + r.Priority.String() + ", " + r.Date.Short() + " " + r.Date.String()[:4]
		out[i] = Offer{clip16(r.Name, maxOfferText-len(tail)) + tail, clip16(r.Name, maxOfferText-len(date)) + date}
	}
	return out
}

// clip16 is the text, cut where it is longer than that many units of UTF-16, by
// which some clients count.
func clip16(s string, most int) string {
	for i, r := range s {
		if most -= utf16.RuneLen(r); most < 0 {
			return strings.TrimSpace(s[:i])
		}
	}
	return s
}
