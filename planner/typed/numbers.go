package typed

import (
	"strings"

	"musette/planner"
)

var numberWords = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14,
	"fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// ordinalWords are first to thirtieth by their number; only what a date needs.
var ordinalWords = []string{
	"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth",
	"sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth", "", "", "", "", "", "", "", "", "", "thirtieth",
}

// Whole reads a whole number of least to most: digits, a word such as three, or digits
// with a per cent sign. Signs, points and all other ways of programs are refused.
func Whole(s string, least, most int, example string) (int, error) {
	text := strings.ToLower(strings.TrimSpace(s))
	n, ok := numberWords[text]
	if !ok {
		toks := lex(strings.TrimSpace(strings.TrimSuffix(text, "%")), true)
		if len(toks) != 1 || toks[0].kind != numberToken || !toks[0].whole {
			if far, _, ok := Distance(s); ok {
				return 0, planner.BadInput("", "%s is a distance, and a whole number belongs here. For example %s", far, example)
			}
			return 0, planner.BadInput("", "%s is not a whole number. For example %s", quoted(s), example)
		}
		n = int(toks[0].value)
	}
	if n < least || n > most {
		return 0, planner.BadInput("", "%d is outside %d to %d. For example %s", n, least, most, example)
	}
	return n, nil
}

// Rating reads how hard a ride felt, from 1 to 10 in halves: 7, 7.5, 7/10, seven.
func Rating(s string) (float64, error) {
	text := strings.ToLower(strings.TrimSpace(s))
	for _, end := range []string{"/10", "/ 10", "out of 10"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, end))
	}
	value := float64(numberWords[text])
	if toks := lex(text, true); len(toks) == 1 && toks[0].kind == numberToken {
		value = toks[0].value
	}
	if value < 1 || value > 10 || value*2 != float64(int(value*2)) {
		return 0, planner.BadInput("", "%s is no rating from 1 (very easy) to 10 (all that you have) in halves. For example 7 or 7.5", quoted(s))
	}
	return value, nil
}
