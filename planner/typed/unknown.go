package typed

import (
	"fmt"
	"slices"
	"strings"

	"musette/planner"
)

// unknownWords are the words of a session that nothing is known of.
type unknownWords []string

// Error is the message of the fault.
func (u unknownWords) Error() string { return u.Unwrap().Error() }

// Unwrap is the same as a fault of the input.
func (u unknownWords) Unwrap() error {
	var all dayWords
	all.add(-1, u)
	return all.fault()
}

// dayWords are unknown words with their weekday.
type dayWords []dayWord

type dayWord struct {
	day  planner.Weekday // -1 where there is only one
	word string
}

func (d *dayWords) add(day planner.Weekday, words []string) {
	for _, w := range words {
		if !slices.Contains(*d, dayWord{day, w}) {
			*d = append(*d, dayWord{day, w})
		}
	}
}

// mostNamed bounds how many words a message names.
const mostNamed = 8

// fault names all words at once, each with the kind that is nearest.
func (d dayWords) fault() error {
	switch {
	case len(d) == 1 && d[0].day < 0:
		return unknownKind(d[0].word)
	case len(d) == 1:
		return planner.BadInput("", "%s: %s", d[0].day, unknownKind(d[0].word).Error())
	}
	var named []string
	for i, w := range d[:min(len(d), mostNamed)] {
		text := quoted(w.word)
		if w.day >= 0 && (i == 0 || d[i-1].day != w.day) {
			text = w.day.String() + " " + text
		}
		named = append(named, text+kindMeant(w.word))
	}
	if more := len(d) - mostNamed; more > 0 {
		named = append(named, fmt.Sprintf("%d more", more))
	}
	return planner.BadInput("", "I do not know these words: %s. Write the kinds as %s, for example %s", strings.Join(named, ", "), kindList, sessionExample)
}

// nearKinds are words that riders use for a kind and that may mean more than it, so that
// they are asked about. By spelling they are near to none.
var nearKinds = kindsOf(map[planner.Kind]string{
	planner.Rest:      "free ruhe ruhetag descanso descansar repos riposo folga lazy",
	planner.Recovery:  "relaxed regeneration social chatty flush",
	planner.Endurance: "aerobic miles volume fondo cruise",
	planner.Long:      "epic century sportive audax granfondo lang langa longue longa lunga",
	planner.Intervals: "surges climbs anaerobic drills pyramide intervalle tests test burst bursts velodrome",
	planner.RaceRide:  "crit criterium tt",
	planner.Indoor:    "spinning rolle home",
	planner.Strength:  "circuits circuit kettlebell kettlebells pt bodypump mobility",
	planner.Other:     "climbing bouldering surfing kayak golf horse skating martial karate judo padel cricket",
})

// busyHints are words for days on which somebody may never ride.
var busyHints = wordSet("shift shifts nightshift nightshifts lateshift earlyshift nights work working uni school kids oncall family")

// kindMeant asks whether the nearest kind was meant, by spelling or by what riders mean.
func kindMeant(word string) string {
	kind, known := nearKinds[word]
	switch {
	case busyHints[word]:
		return " (did you mean " + busyWord + "?)"
	case known:
		return " (did you mean " + kind.String() + "?)"
	}
	return didYouMean(word, kindNamesAndWords())
}

// kindNamesAndWords are what an unknown word may have meant, names of kinds first.
func kindNamesAndWords() []string {
	names := make([]string, 0, len(kindWords))
	for name := range kindWords {
		names = append(names, name)
	}
	slices.Sort(names)
	names = append(planner.KindNames(), names...)
	return append(names, weekdayNames()...)
}

func unknownKind(word string) error {
	return planner.BadInput("", "%s is not a kind of session%s. Write one of %s, for example %s",
		quoted(word), kindMeant(word), kindList, sessionExample)
}
