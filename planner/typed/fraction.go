package typed

import (
	"slices"
	"strconv"
)

// withDigits writes number words as digits: forty five is 45. One is left alone
// where no unit follows, since it also means a thing: the long one.
func withDigits(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		n, ok := numberWords[t.text]
		next := token{}
		if i+1 < len(toks) {
			next = toks[i+1]
		}
		_, unit := timeUnits[next.text]
		if unit && t.isWord("ish") && len(out) > 0 && out[len(out)-1].kind == numberToken {
			continue // 3ish hours
		}
		if !ok || t.kind != wordToken || n == 1 && !unit && !joinsFraction(next) {
			out = append(out, t)
			continue
		}
		if next.isMark("-") && i+2 < len(toks) && n >= 20 { // twenty-five
			if small := numberWords[toks[i+2].text]; small > 0 && small < 10 {
				next, i = toks[i+2], i+1
			}
		}
		if small := numberWords[next.text]; next.kind == wordToken && n >= 20 && n%10 == 0 && small > 0 && small < 10 {
			n, i = n+small, i+1
		}
		text := strconv.Itoa(n)
		out = append(out, token{kind: numberToken, text: text, value: float64(n), whole: true, digits: len(text), glued: t.glued})
	}
	return out
}

func joinsFraction(t token) bool {
	return t.isWord("and") || t.isWord("n") || t.isMark("&") || t.isWord("an")
}

// fractionAt reads a half, quarter, three quarters, 3/4 or ½ at the start of toks.
func fractionAt(toks []token) (value float64, n int) {
	if len(toks) > 0 && (toks[0].isWord("a") || toks[0].isWord("an")) {
		n = 1
	}
	rest := toks[n:]
	switch {
	case len(rest) == 0:
		return 0, 0
	case rest[0].isWord("half"), rest[0].isMark("½"):
		return 0.5, n + 1
	case rest[0].isWord("quarter"), rest[0].isMark("¼"):
		return 0.25, n + 1
	case rest[0].isMark("¾"):
		return 0.75, n + 1
	case n > 0 || len(rest) < 2 || rest[0].kind != numberToken:
		return 0, 0
	case rest[0].value == 1 && len(rest) > 2 && rest[1].isMark("/") && (rest[2].text == "2" || rest[2].text == "4"):
		return 1 / rest[2].value, 3
	case rest[0].value != 3:
		return 0, 0
	case rest[1].isWord("quarters"), rest[1].isWord("quarter"):
		return 0.75, 2
	case len(rest) > 2 && rest[1].isMark("/") && rest[2].text == "4":
		return 0.75, 3
	}
	return 0, 0
}

// andFraction reads what may follow a number: and a half, n a quarter, ½.
func andFraction(toks []token) (value float64, n int) {
	if len(toks) == 0 {
		return 0, 0
	}
	if slices.ContainsFunc([]string{"½", "¼", "¾"}, toks[0].isMark) || toks[0].kind == numberToken && len(toks) > 1 && toks[1].isMark("/") {
		return fractionAt(toks)
	}
	if !joinsFraction(toks[0]) {
		return 0, 0
	}
	if value, n = fractionAt(toks[1:]); n > 0 {
		n++
	}
	return value, n
}

// fractionOfHour reads half an hour, three quarters of an hour and 3/4 hr.
func fractionOfHour(toks []token) (sp span, n int) {
	value, n := fractionAt(toks)
	if n == 0 {
		return span{}, 0
	}
	for n < len(toks) && slices.ContainsFunc([]string{"a", "an", "of", "the"}, toks[n].isWord) {
		n++
	}
	if u, ok := unitAt(toks, n); !ok || u != hourUnit {
		return span{}, 0
	}
	return span{value * 3600, minuteUnit, true}, n + 1
}

// oneHour reads an hour, the hour and hour: the number is left out.
func oneHour(toks []token) int {
	n := 0
	if len(toks) > 0 && slices.ContainsFunc([]string{"a", "an", "the"}, toks[0].isWord) {
		n = 1
	}
	if n < len(toks) && slices.ContainsFunc([]string{"hour", "hr"}, toks[n].isWord) {
		return n + 1
	}
	return 0
}
