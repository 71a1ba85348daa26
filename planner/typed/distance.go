package typed

import (
	"regexp"
	"strings"

	"musette/planner"
)

// distances are units of length on the road.
var distances = wordSet("k km kms kilometre kilometres kilometer kilometers mile miles mi")

// Distance finds a distance in a text, such as 120 km, and the minutes that it may take.
func Distance(text string) (far string, minutes int, ok bool) {
	toks := lex(strings.ToLower(text), true)
	for i := 0; i+1 < len(toks); i++ {
		if toks[i].kind == numberToken && toks[i+1].kind == wordToken && distances[toks[i+1].text] {
			return toks[i].text + " " + toks[i+1].text, minutesFor(toks[i], toks[i+1]), true
		}
	}
	return "", 0, false
}

// far finds distances: 120 km, 80k, 40 miles.
var far = regexp.MustCompile(`(?i)(^|[^\w.,])(\d+(?:[.,]\d+)?) ?(km|kms|kilometres?|kilometers?|k|miles?|mi)\b`)

// Timed is a text with the time that each distance may take in its place.
func Timed(text string) string {
	return far.ReplaceAllStringFunc(text, func(found string) string {
		_, minutes, ok := Distance(found)
		if !ok {
			return found
		}
		return far.FindStringSubmatch(found)[1] + planner.Duration(minutes)
	})
}

// minutesFor are the minutes that a distance may take, in quarters of an hour.
func minutesFor(number, unit token) int {
	km := number.value
	if strings.HasPrefix(unit.text, "mi") {
		km *= 1.6
	}
	minutes := int(km/kmAnHour*4+0.5) * 15
	if minutes < 15 || minutes > minutesPerDay {
		return 180
	}
	return minutes
}

// isFar refuses a distance where a length of time belongs, nil where the text has none.
func isFar(text string) error {
	far, minutes, ok := Distance(text)
	if !ok {
		return nil
	}
	return planner.BadInput("", "%s is a distance. Write the time that it takes you, for example %s", far, planner.Duration(minutes))
}
