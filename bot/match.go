package bot

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/hbollon/go-edlib"

	"musette/planner"
	"musette/storage"
)

// longestFuzzy bounds the words that are compared letter by letter.
const longestFuzzy = 60

// nearest is the candidate that a mistyped word most likely meant.
func nearest(word string, candidates []string) (string, bool) {
	best, least := "", 0
	n := utf8.RuneCountInString(word)
	if n == 0 || n > longestFuzzy {
		return "", false
	}
	for _, c := range candidates {
		d := edlib.OSADamerauLevenshteinDistance(strings.ToLower(word), strings.ToLower(c))
		if best == "" || d < least {
			best, least = c, d
		}
	}
	return best, best != "" && least <= max(1, max(n, utf8.RuneCountInString(best))/3)
}

// foundRace is a race that a text meant; sure is false where it was only close.
type foundRace struct {
	storage.Race
	sure bool
}

// findRace finds the race that a text means: its name, the beginnings of its
// words, its date, or a name that is close. Of several with one name those to
// come are meant. Faults name the option race.
func findRace(races []storage.Race, text string, today planner.Date) (foundRace, error) {
	if len(races) == 0 {
		return foundRace{}, refuse("race", `you have no race yet; add one: /race add name:"Hill Loop" date:%s priority:A hours:3`, raceDayAhead(today))
	}
	sure := sureMatches(races, text, today)
	if len(sure) == 0 {
		sure = onDate(races, text, today)
	}
	if ahead := toCome(sure, today); len(ahead) > 0 {
		sure = ahead
	}
	switch len(sure) {
	case 1:
		return foundRace{Race: sure[0], sure: true}, nil
	case 0:
		return closeRace(races, text, today)
	}
	return foundRace{}, ambiguous(text, sure)
}

// cutDate parts "Hill Loop 2026-06-13" into name and date.
func cutDate(text string) (string, planner.Date) {
	if i := strings.LastIndexByte(text, ' '); i > 0 {
		if date, err := planner.ParseISODate(text[i+1:]); err == nil {
			return strings.TrimSpace(text[:i]), date
		}
	}
	return text, 0
}

func ambiguous(text string, races []storage.Race) error {
	return refuse("race", "%q can be %s; write name and date, for example race:%s",
		clip(text), raceList(races), Quote(races[0].Name+" "+races[0].Date.String()))
}

// sureMatches are the races whose name is the text, to the letter or else by
// its words, or else those whose words begin like the text's.
func sureMatches(races []storage.Race, text string, today planner.Date) []storage.Race {
	if ahead := toCome(races, today); strings.EqualFold(text, "next") && len(ahead) > 0 {
		return ahead[:1]
	}
	name, on := cutDate(text)
	want := words(name)
	var levels [3][]storage.Race
	for _, r := range races {
		have := words(r.Name)
		dated := on.IsZero() || r.Date == on
		switch {
		case strings.EqualFold(r.Name, text), dated && strings.EqualFold(r.Name, name):
			levels[0] = append(levels[0], r)
		case !dated || len(want) == 0:
		case strings.Join(have, " ") == strings.Join(want, " "):
			levels[1] = append(levels[1], r)
		case eachBegins(want, have):
			levels[2] = append(levels[2], r)
		}
	}
	for _, found := range levels {
		if len(found) > 0 {
			return found
		}
	}
	return nil
}

// onDate are the races whose days the text names.
func onDate(races []storage.Race, text string, today planner.Date) []storage.Race {
	date, err := planner.ParseDate(text, today)
	if err != nil {
		return nil
	}
	var out []storage.Race
	for _, r := range races {
		if r.Date <= date && date <= r.Last() {
			out = append(out, r)
		}
	}
	return out
}

func toCome(races []storage.Race, today planner.Date) []storage.Race {
	var out []storage.Race
	for _, r := range races {
		if r.Last() >= today {
			out = append(out, r)
		}
	}
	return out
}

// closeRace takes a slip of the pen for the race it is nearest to.
func closeRace(races []storage.Race, text string, today planner.Date) (foundRace, error) {
	names := make([]string, 0, len(races))
	pool := toCome(races, today)
	if len(pool) == 0 {
		pool = races
	}
	for _, r := range pool {
		names = append(names, r.Name)
	}
	near, ok := nearest(text, names)
	if !ok {
		return foundRace{}, refuse("race", "none of your races is like %q; you have %s", clip(text), raceList(pool))
	}
	var hits []storage.Race
	for _, r := range pool {
		if r.Name == near {
			hits = append(hits, r)
		}
	}
	if len(hits) > 1 {
		return foundRace{}, ambiguous(text, hits)
	}
	return foundRace{Race: hits[0]}, nil
}

// raceList names up to five races with their dates.
func raceList(races []storage.Race) string {
	const most = 5
	var parts []string
	for i, r := range races {
		if i == most {
			parts = append(parts, fmt.Sprintf("%d more", len(races)-most))
			break
		}
		parts = append(parts, r.Name+" ("+r.Date.String()+")")
	}
	return orList(parts)
}

// words splits a text into lower-case runs of letters and digits.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// eachBegins reports whether each wanted word begins a word of the name.
func eachBegins(want, have []string) bool {
	for _, w := range want {
		found := false
		for _, h := range have {
			found = found || strings.HasPrefix(h, w)
		}
		if !found {
			return false
		}
	}
	return true
}
