package typed

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// raceKindWords are the words of kinds of race. What is near to one of them is mended, other words stay.
var raceKindWords = wordSet("criterium crit road race time trial gravel stage endurance circuit kermesse handicap sportive cyclocross mountain bike track hill climb relay marathon randonnee audax brevet ultra fondo gran " +
	"granfondo triathlon duathlon pursuit madison omnium points eliminator enduro downhill cross country team individual evening league club championship prologue tour criteriums reliability roubaix trail century charity classic circuits night series racing")

// joinedKinds are kinds of two words that people write as one, or with another word that is near.
var joinedKinds = map[string]string{
	"roadrace": "road race", "timetrial": "time trial", "timetrail": "time trial", "stagerace": "stage race", "hillclimb": "hill climb", "gravelrace": "gravel race", "trackrace": "track race",
	"time trail": "time trial", "rode race": "road race", "rood race": "road race", "raod race": "road race", "raod": "road", "gravle": "gravel", "kriterium": "criterium", "krit": "crit",
}

// RaceKind is a kind of race as it was meant: with slips of the pen mended, else as it was written.
func RaceKind(text string) string {
	words := strings.Fields(text)
	for i := 0; i < len(words); i++ {
		low := strings.ToLower(words[i])
		if i+1 < len(words) {
			if both := joinedKinds[low+" "+strings.ToLower(words[i+1])]; both != "" {
				words[i] = both
				words = slices.Delete(words, i+1, i+2)
				continue
			}
		}
		if mended := mendedKind(low); mended != low {
			words[i] = mended
		}
	}
	return strings.Join(words, " ")
}

// Lengths of words from which on a slip is mended: one letter of a short word, two of a long one.
const (
	shortKind = 5
	longKind  = 7
)

// mendedKind is the word of a kind that a mistyped one must mean, the word itself where it means none.
func mendedKind(word string) string {
	if joined := joinedKinds[word]; joined != "" {
		return joined
	}
	n := utf8.RuneCountInString(word)
	if raceKindWords[word] || raceKindWords[strings.TrimSuffix(word, "s")] || n < shortKind {
		return word
	}
	best, least, tied := word, 3, false
	for w := range raceKindWords {
		d := editDistance([]rune(word), []rune(w))
		switch {
		case len(w) < shortKind || d > 1 && n < longKind || d == 1 && n == len(w) && n < longKind && !swapped(word, w):
			continue // state is no stage
		case d < least:
			best, least, tied = w, d, false
		case d == least:
			tied = true
		}
	}
	if tied {
		return word
	}
	return best
}

// swapped reports whether two words have the same letters.
func swapped(a, b string) bool {
	sorted := func(s string) string {
		r := []rune(s)
		slices.Sort(r)
		return string(r)
	}
	return sorted(a) == sorted(b)
}

// saidKinds are the kinds that people name when they tell of a race, and how.
var saidKinds = []struct{ word, kind string }{{"criterium", "criterium"}, {"time trial", "time trial"}, {"gravel", "gravel"}, {"stage race", "stage race"}, {"road race", "road race"}, {"crit", "criterium"}}

// RaceKindIn is the kind of race that a text names, "" where it names none, and whether a slip was mended.
func RaceKindIn(text string) (kind string, mended bool) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	said := " " + strings.Join(words, " ") + " "
	for _, k := range saidKinds {
		if strings.Contains(said, " "+k.word+" ") {
			return k.kind, false
		}
	}
	for i, w := range words {
		if utf8.RuneCountInString(w) < longKind && joinedKinds[w] == "" {
			continue
		}
		words[i] = mendedKind(w)
	}
	said = " " + strings.Join(words, " ") + " "
	for wrong, right := range joinedKinds {
		if strings.Contains(wrong, " ") {
			said = strings.ReplaceAll(said, " "+wrong+" ", " "+right+" ")
		}
	}
	for _, k := range saidKinds {
		if strings.Contains(said, " "+k.word+" ") {
			return k.kind, true
		}
	}
	return "", false
}
