package desk

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// MaxOfferText is how long labels and values of offers are, in units of UTF-16.
const MaxOfferText = 100

// FindRace finds the race that a text means: its name, the beginnings of its
// words, its date, or a name that is close. Of several with one name those to
// come are meant. Faults name the option race.
func FindRace(races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	return RaceIn("race", races, text, today)
}

// RaceIn is FindRace for a race that was written in another option.
func RaceIn(option string, races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	if len(races) == 0 {
		return storage.Race{}, say.Refuse(option, "you have no race yet. Add one: %s", RaceExample(today))
	}
	if _, is := show.RefID(text); is {
		return byRef(option, races, text, today)
	}
	sure := SureMatches(races, text, today)
	if len(sure) == 0 {
		sure = OnDate(races, text, today)
	}
	if ahead := ToCome(sure, today); len(ahead) > 0 {
		sure = ahead
	}
	switch len(sure) {
	case 1:
		return sure[0], nil
	case 0:
		return CloseRace(option, races, text, today)
	}
	return storage.Race{}, Ambiguous(option, text, sure)
}

// byRef finds the race that a button means, also under another name or date.
func byRef(option string, races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	if found := SureMatches(races, text, today); len(found) > 0 {
		return found[0], nil
	}
	pool := ToCome(races, today)
	if len(pool) == 0 {
		return storage.Race{}, say.Refuse(option, "this race is not in your calendar any more. Add one: %s", RaceExample(today))
	}
	return storage.Race{}, say.Refuse(option, "this race is not in your calendar any more. You have %s", raceList(pool))
}

// CutDate parts "Hill Loop 2026-06-13" into name and date.
func CutDate(text string) (string, planner.Date) {
	if i := strings.LastIndexByte(text, ' '); i > 0 {
		if date, err := planner.ParseISODate(text[i+1:]); err == nil {
			return strings.TrimSpace(text[:i]), date
		}
	}
	return text, 0
}

// Ambiguous is the fault of a text that several races fit.
func Ambiguous(option, text string, races []storage.Race) error {
	return say.Refuse(option, "%s can be %s. Write name and date, for example %s:%s",
		say.Shown(text), raceList(races), option, say.Quote(races[0].Name+" "+races[0].Date.String()))
}

// SureMatches are the races whose name is the text, to the letter or else by
// its words, or else those whose words begin like the text's.
func SureMatches(races []storage.Race, text string, today planner.Date) []storage.Race {
	if id, is := show.RefID(text); is {
		return slices.DeleteFunc(slices.Clone(races), func(r storage.Race) bool { return r.Race.ID != id })
	}
	name, on := CutDate(text)
	want := WordsOf(name)
	var levels [3][]storage.Race
	for _, r := range races {
		have := WordsOf(r.Name)
		dated := on.IsZero() || r.Date == on
		switch {
		case show.SameName(r.Name, text), dated && show.SameName(r.Name, name):
			levels[0] = append(levels[0], r)
		case !dated:
		case !on.IsZero() && strings.HasPrefix(storage.Fold(r.Name), storage.Fold(name)): // as Offer cuts long names
			levels[2] = append(levels[2], r)
		case len(want) == 0:
		case strings.Join(have, " ") == strings.Join(want, " "):
			levels[1] = append(levels[1], r)
		case EachBegins(want, have):
			levels[2] = append(levels[2], r)
		}
	}
	if ahead := ToCome(races, today); len(levels[0]) == 0 && strings.EqualFold(text, "next") && len(ahead) > 0 {
		return ahead[:1]
	}
	for _, found := range levels {
		if len(found) > 0 {
			return found
		}
	}
	return nil
}

// OnDate are the races whose days the text names.
func OnDate(races []storage.Race, text string, today planner.Date) []storage.Race {
	date, err := typed.Date(text, today)
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

// ToCome are the races that are not over.
func ToCome(races []storage.Race, today planner.Date) []storage.Race {
	var out []storage.Race
	for _, r := range races {
		if r.Last() >= today {
			out = append(out, r)
		}
	}
	return out
}

// CloseRace takes a slip of the pen for the race it is nearest to.
func CloseRace(option string, races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	names := make([]string, 0, len(races))
	pool := ToCome(races, today)
	if len(pool) == 0 {
		pool = races
	}
	for _, r := range pool {
		names = append(names, r.Name)
	}
	near := typed.Nearest(text, names)
	if near == "" {
		return storage.Race{}, say.Refuse(option, "none of your races is like %s. You have %s", say.Shown(text), raceList(pool))
	}
	var hits []storage.Race
	for _, r := range pool {
		if r.Name == near {
			hits = append(hits, r)
		}
	}
	if len(hits) > 1 {
		return storage.Race{}, Ambiguous(option, text, hits)
	}
	return hits[0], nil
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
	return say.OrList(parts)
}

// WordsOf splits a text into lower-case runs of letters and digits without accents.
func WordsOf(text string) []string {
	return strings.FieldsFunc(Unaccented(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// letters are those that do not come apart into a plain one and an accent.
var letters = strings.NewReplacer("ł", "l", "ø", "o", "đ", "d", "ß", "ss", "æ", "ae", "œ", "oe")

// Unaccented is a text as people type it in a hurry: small letters, no accents.
func Unaccented(text string) string {
	apart := norm.NFD.String(strings.ToLower(text))
	return letters.Replace(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, apart))
}

// EachBegins reports whether each wanted word begins a word of the name.
func EachBegins(want, have []string) bool {
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

// Begun are the races that are over or under way.
func Begun(races []storage.Race, today planner.Date) []storage.Race {
	var out []storage.Race
	for _, r := range races {
		if r.Date <= today {
			out = append(out, r)
		}
	}
	return out
}

// RaceOf finds the rider's race that the option race means.
func (b *Base) RaceOf(ctx context.Context, req Request) (storage.Race, error) {
	races, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return storage.Race{}, err
	}
	return FindRace(races, req.Get("race"), req.Rider.Today)
}

// RaceToPlan finds the race that the option race means, as it is planned for: one
// that was given up has its days up to then, and one that does not count is refused.
func (b *Base) RaceToPlan(ctx context.Context, req Request) (storage.Race, error) {
	found, err := b.RaceOf(ctx, req)
	switch {
	case err != nil:
		return found, err
	case found.Status == planner.Cancelled:
		return found, say.Refuse("race", "%s on %s is cancelled, so there is no plan for it. If it takes place after all, write /race change race:%s status:planned",
			found.Name, found.Date.Long(), say.Quote(found.Key()))
	case !found.Status.Counts():
		return found, say.Refuse("race", "you did not start in %s on %s, so it has no days of its own. Your plan: /plan show", found.Name, found.Date.Long())
	case found.Status == planner.GaveUp:
		found.Days = found.Date.DaysUntil(found.Ended) + 1
	}
	return found, nil
}

// RaceToChange is RaceOf for a command that stores something. Less than three
// letters, a weekday or a slip of the pen are not enough: the reply has a button
// that says which race was meant.
func (b *Base) RaceToChange(ctx context.Context, req Request) (storage.Race, say.Reply, error) {
	races, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return storage.Race{}, say.Reply{}, err
	}
	found, err := FindRace(races, req.Get("race"), req.Rider.Today)
	if err == nil && !SureEnough(races, found, req.Get("race"), req.Rider.Today) {
		reply, err := AskRace(req, found)
		return found, reply, err
	}
	return found, say.Reply{}, err
}

// leastLetters of a name are enough to change a race, where they fit one alone.
const leastLetters = 3

// SureEnough reports that a text is enough to change the race for which it was
// taken: its name, an offered choice, its date, or a few letters that fit it alone.
func SureEnough(races []storage.Race, found storage.Race, text string, today planner.Date) bool {
	if NamedExactly(found, text, today) {
		return true
	}
	name, _ := CutDate(text)
	if len([]rune(strings.Join(WordsOf(name), ""))) < leastLetters || strings.EqualFold(text, "next") {
		return false
	}
	fits := SureMatches(races, text, today)
	if ahead := ToCome(fits, today); len(ahead) > 0 && found.Last() >= today {
		fits = ahead
	}
	for _, r := range fits {
		if !show.SameName(r.Name, found.Name) {
			return false
		}
	}
	return len(fits) > 0
}

// AskRace asks whether a race was meant, with a button that gives the command for it.
func AskRace(req Request, found storage.Race) (say.Reply, error) {
	options := maps.Clone(req.Options)
	options["race"] = show.RaceRef(&found.Race)
	return say.Reply{Buttons: []say.Button{{Label: found.Name + ", " + found.Date.Short(), Command: req.Command, Options: options}}},
		say.Refuse("race", "%s is not enough to be sure. Did you mean race:%s?", say.Shown(req.Get("race")), say.Quote(found.Key()))
}

// NamedExactly reports whether the text is the race's whole name or its date:
// nothing is removed on less, such as a weekday.
func NamedExactly(r storage.Race, text string, today planner.Date) bool {
	if id, is := show.RefID(text); is {
		return id == r.Race.ID
	}
	name, on := CutDate(text)
	if show.SameName(text, r.Name) || on == r.Date && (show.SameName(name, r.Name) || OfferedName(name, r.Name)) {
		return true
	}
	date, err := typed.Date(text, today)
	return err == nil && date == r.Date && strings.ContainsAny(text, "0123456789") && !strings.Contains(strings.ToLower(text), "day")
}

// OfferedName reports a long name as offers cut it.
func OfferedName(text, name string) bool {
	return text != "" && text == say.Clip16(name, MaxOfferText-len(" 2026-06-28"))
}
