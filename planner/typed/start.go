package typed

import (
	"fmt"
	"strings"

	"musette/planner"
)

// startFillers are words next to a time of day that do not change it.
var startFillers = wordSet(`sharp start starts starting at in the of its it is an a crit league race on about around approx roughly prompt bang for time ish off oclock o clock gun rolls
	sign first rider me my wave and day depart departs departure local dot i think reckon kick prob probably h hrs`)

// halves of a day by their words: the hours to add.
var dayHalves = map[string]int{"am": 0, "pm": 12, "morning": 0, "mornin": 0, "afternoon": 12, "evening": 12, "eve": 12, "night": 12, "tonight": 12, "nite": 12}

// startReader reads one time of day among words that change nothing.
type startReader struct {
	toks   []token
	hour   int
	minute int
	found  bool
	open   bool // morning or afternoon is left open by the form
	half   int  // hours to add, -1 where none was entered
}

// Start reads a time of day, 10:30, 9.05, 0830, 8, 9h30, 9am, 2:15pm, noon or half past
// nine, and returns it as HH:MM on the 24-hour clock. Half nine is 09:30. Where morning
// and afternoon are both likely the error is *Ambiguous.
func Start(s string) (string, error) {
	if err := checkLength(s, "10:30"); err != nil {
		return "", err
	}
	text := strings.NewReplacer("a.m.", "am", "p.m.", "pm", "a.m", "am", "p.m", "pm", "o'clock", "oclock", "o’clock", "oclock", "uhr", "oclock", "qtr", "quarter").Replace(strings.ToLower(s))
	r := startReader{toks: withDigits(lex(text, false)), half: -1}
	if !r.read() {
		return "", planner.BadInput("", "%s is not a start time. Write it like 10:30 or 9:05", quoted(s))
	}
	switch {
	case r.half == 0 && r.hour == 12, r.half == 12 && r.hour < 12:
		r.hour = (r.hour + 12) % 24
	case r.half == -1 && r.open && r.hour >= 1 && r.hour < 7:
		morning, afternoon := clock(r.hour, r.minute), clock(r.hour+12, r.minute)
		return "", ask(strings.TrimSpace(s), Reading{morning, morning}, Reading{afternoon, afternoon})
	}
	return clock(r.hour, r.minute), nil
}

func clock(hour, minute int) string { return fmt.Sprintf("%02d:%02d", hour, minute) }

func (r *startReader) read() bool {
	for len(r.toks) > 0 {
		t := r.toks[0]
		n := 0
		if half, ok := dayHalves[t.text]; ok && t.kind == wordToken {
			if r.half >= 0 && r.half != half {
				return false
			}
			r.half, n = half, 1
		} else if n = r.time(); n > 0 {
			if r.found {
				return false
			}
			r.found = true
		} else if t.kind == wordToken && startFillers[t.text] || t.kind == markToken && strings.Contains(",.!~", t.text) && !t.glued || t.isMark(",") {
			n = 1
		}
		if n == 0 {
			return false
		}
		r.toks = r.toks[n:]
	}
	fits := r.half < 0 || r.hour >= 1 && (r.hour <= 12 || r.half == 12)
	return r.found && fits && r.hour < 24 && r.minute < 60
}

// at is the i-th token, or a mark that nothing accepts past the end.
func (r *startReader) at(i int) token {
	if i < 0 || i >= len(r.toks) {
		return token{kind: markToken}
	}
	return r.toks[i]
}

// time reads a time of day at the start and says how many tokens it took.
func (r *startReader) time() int {
	t := r.at(0)
	switch {
	case t.isWord("noon"), t.isWord("midday"):
		r.hour, r.minute = 12, 0
		return 1
	case t.isWord("midnight"):
		r.hour, r.minute = 0, 0
		return 1
	case t.isWord("half"), t.isWord("quarter"):
		return r.spoken(map[string]int{"half": 30, "quarter": 15}[t.text], 1)
	case t.isWord("a") && r.at(1).isWord("quarter"):
		return r.spoken(15, 2)
	case t.kind != numberToken:
		return 0
	}
	next, after := r.at(1), r.at(2)
	switch {
	case (next.isWord("past") || next.isWord("to")) && t.value < 60:
		return r.spoken(int(t.value), 1)
	case next.isWord("minutes") && (after.isWord("past") || after.isWord("to")) && t.value < 60:
		return r.spoken(int(t.value), 2)
	case t.digits > 4:
		return 0
	case t.digits > 2:
		r.hour, r.minute = int(t.value)/100, int(t.value)%100
		return 1
	}
	return r.numbers(int(t.value), next, after)
}

// minutesAt reports whether the number after an hour is its minutes: 9 30, nine thirty.
func (r *startReader) minutesAt(next, after token) bool {
	if next.isWord("h") {
		next = after
	}
	return next.digits == 2 && next.value < 60 && !next.glued
}

// spoken reads half nine, half past nine and quarter to nine; from is where the words
// after the minutes begin.
func (r *startReader) spoken(minute, from int) int {
	to := r.at(from).isWord("to")
	if to || r.at(from).isWord("past") {
		from++
	} else if minute != 30 || !r.at(0).isWord("half") {
		return 0
	}
	hour := r.at(from)
	switch {
	case hour.isWord("noon"), hour.isWord("midday"):
		r.hour = 12
	case hour.isWord("midnight") && to:
		r.hour = 24
	case hour.kind == numberToken && hour.digits <= 2 && hour.value >= 1 && hour.value <= 12:
		r.hour = int(hour.value)
		r.open = true
	default:
		return 0
	}
	if r.minute = minute; to {
		r.hour, r.minute = r.hour-1, 60-minute
		if r.hour == 0 {
			r.hour = 12
		}
	}
	return from + 1
}

// numbers reads 10:30, 9.05, 9h30, 9h, 10 30 before am, and an hour alone.
func (r *startReader) numbers(hour int, next, after token) int {
	r.hour, r.minute = hour, 0
	short := r.at(0).digits == 1
	parted := next.isMark(":") || next.isMark(".") || next.isWord("h") || next.isWord("u") || next.isWord("hrs")
	switch {
	case parted && after.kind == numberToken && after.glued && after.digits == 2 && !r.at(3).isMark(":"):
		r.minute = int(after.value)
		r.open = short && hour < 5
		return 3
	case next.isMark(":"), next.isMark(".") && after.kind == numberToken && after.glued:
		return 0
	case (next.kind == numberToken || next.isWord("h") && after.kind == numberToken) && r.minutesAt(next, after):
		r.open = true
		if next.kind == numberToken {
			r.minute = int(next.value)
			return 2
		}
		r.minute = int(after.value)
		return 3
	case next.isWord("h"), next.isWord("hrs"):
		r.open = true
		return 2
	case next.isWord("and") && after.isWord("half"):
		r.minute, r.open = 30, true
		return 3
	case next.isWord("and") && after.isWord("a") && r.at(3).isWord("half"):
		r.minute, r.open = 30, true
		return 4
	}
	r.open = true
	return 1
}
