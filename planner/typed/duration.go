package typed

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"musette/planner"
)

// timeUnit is a unit of time, the smallest first.
type timeUnit uint8

const (
	secondUnit timeUnit = iota
	minuteUnit
	hourUnit
)

func (u timeUnit) seconds() float64 { return [...]float64{1, 60, 3600}[u] }

var timeUnits = map[string]timeUnit{
	"h": hourUnit, "hr": hourUnit, "hrs": hourUnit, "hour": hourUnit, "hours": hourUnit,
	"m": minuteUnit, "min": minuteUnit, "mins": minuteUnit, "minute": minuteUnit, "minutes": minuteUnit, "'": minuteUnit,
	"s": secondUnit, "sec": secondUnit, "secs": secondUnit, "second": secondUnit, "seconds": secondUnit, `"`: secondUnit,
}

// span is a length of time as it was written.
type span struct {
	seconds float64
	unit    timeUnit // of its last part
	whole   bool     // written without decimals
}

// spanStyle tells how to read what is left open: the unit of a bare number, and
// the unit left of the colon.
type spanStyle struct{ bare, clock timeUnit }

var (
	lengthStyle = spanStyle{bare: minuteUnit, clock: hourUnit}
	hoursStyle  = spanStyle{bare: hourUnit, clock: hourUnit}
	workStyle   = spanStyle{bare: minuteUnit, clock: minuteUnit}
)

// readSpan reads one length at the start of toks and says how many tokens it
// took; 0 means that there is none.
func readSpan(toks []token, style spanStyle) (span, int) {
	if len(toks) == 0 || toks[0].kind != numberToken {
		return span{}, 0
	}
	first := toks[0]
	if len(toks) > 1 && toks[1].isMark(":") {
		return readClock(toks, style.clock)
	}
	unit, named := unitAt(toks, 1)
	if !named {
		return span{first.value * style.bare.seconds(), style.bare, first.whole}, 1
	}
	sp, n := span{first.value * unit.seconds(), unit, first.whole}, 2
	for sp.whole && sp.unit > secondUnit {
		value, took := readSmaller(toks[n:], sp.unit-1)
		if took == 0 {
			break
		}
		sp.unit--
		sp.seconds += value * sp.unit.seconds()
		n += took
	}
	return sp, n
}

// readClock reads 1:30 and, where the unit fits, 1:30h.
func readClock(toks []token, clock timeUnit) (span, int) {
	if len(toks) < 3 || !toks[0].whole || !toks[1].glued {
		return span{}, 0
	}
	small := toks[2]
	if small.kind != numberToken || !small.whole || small.digits != 2 || small.value >= 60 || !small.glued {
		return span{}, 0
	}
	n := 3
	if u, ok := unitAt(toks, n); ok && u == clock {
		n++
	}
	return span{toks[0].value*clock.seconds() + small.value*(clock-1).seconds(), clock - 1, true}, n
}

// readSmaller reads the minutes after hours or the seconds after minutes. A
// number without unit counts as minutes after hours (1h30, 1h 30), and as
// seconds only where it touches the minutes (2min30).
func readSmaller(toks []token, unit timeUnit) (value float64, n int) {
	if len(toks) > 0 && toks[0].isWord("and") {
		n = 1
	}
	if len(toks) <= n || toks[n].kind != numberToken || !toks[n].whole || toks[n].value >= 60 {
		return 0, 0
	}
	t := toks[n]
	if u, ok := unitAt(toks, n+1); ok {
		if u != unit {
			return 0, 0
		}
		return t.value, n + 2
	}
	opensOther := len(toks) > n+1 && (toks[n+1].isWord("x") || toks[n+1].isMark(":"))
	if opensOther || (unit == secondUnit && !t.glued) {
		return 0, 0
	}
	return t.value, n + 1
}

func unitAt(toks []token, i int) (timeUnit, bool) {
	if i >= len(toks) || toks[i].kind != wordToken {
		return 0, false
	}
	u, ok := timeUnits[toks[i].text]
	return u, ok
}

// minutes is the span in whole minutes; only hours may have decimals, which are rounded.
func (sp span) minutes() (int, error) {
	m := sp.seconds / 60
	if sp.unit != hourUnit && (!sp.whole || m != math.Trunc(m)) {
		return 0, planner.BadInput("", "a length is in whole minutes. Write it like 1h30, 90min or 1.5h")
	}
	if m > minutesPerDay {
		return 0, planner.BadInput("", "%.0f minutes are over 24 hours. Write for example 1h30 or 90min", m)
	}
	return int(math.Round(m)), nil
}

const minutesPerDay = 24 * 60

// Minutes reads a length such as 1h30, 1:30, 90min, 90, 1.5h, 45' or 2 hours.
// The result is within 0 to 1440 minutes; a number without unit is in minutes.
func Minutes(s string) (int, error) {
	if err := checkLength(s, "1h30"); err != nil {
		return 0, err
	}
	toks := lex(s, true)
	sp, n := readSpan(toks, lengthStyle)
	if n == 0 || n < len(toks) {
		return 0, planner.BadInput("", "%s is not a length. Write it like 1h30, 1:30, 90min or 1.5h", quoted(s))
	}
	return sp.minutes()
}

// Hours reads how long a day of a race takes: 3.5, 3h30, 3:30 or 210min. The
// result is in hours, above 0 and at most MaxRaceHours; a number without unit is in
// hours. Over 24 it is most likely meant in minutes: a race of one day needs its
// unit then, as in 30h.
func Hours(s string, days int) (float64, error) {
	if err := checkLength(s, "3h30"); err != nil {
		return 0, err
	}
	toks := lex(s, true)
	sp, n := readSpan(toks, hoursStyle)
	if n == 0 || n < len(toks) {
		return 0, planner.BadInput("", "%s is not a race length. Write it like 3.5, 3h30, 3:30 or 210min", quoted(s))
	}
	hours := sp.seconds / 3600
	if hours <= 0 || hours > planner.MaxRaceHours {
		hint := "write it like 3.5, 3h30 or 210min"
		if n == 1 && hours >= 60 && hours <= planner.MaxRaceHours*60 {
			hint = fmt.Sprintf("for minutes write %smin", toks[0].text)
		}
		return 0, planner.BadInput("", "%g hours are outside 0 to %d; %s", hours, planner.MaxRaceHours, hint)
	}
	if named := slices.ContainsFunc(toks, func(t token) bool { return t.kind == wordToken }); hours > hoursOfADay && days == 1 && !named {
		return 0, planner.BadInput("", "%s would be more than a day. Write it like %.0fmin for minutes, or like %s for hours",
			quoted(s), hours, planner.Duration(int(math.Round(hours*60))))
	}
	return hours, nil
}

// hoursOfADay is what a race of one day can take at most.
const hoursOfADay = 24

// Start reads a time of day, 10:30, 9:05, 10.30, 9am or 2:15pm, and returns
// it as HH:MM on the 24-hour clock.
func Start(s string) (string, error) {
	bad := planner.BadInput("", "%s is not a start time. Write it like 10:30 or 9:05", quoted(s))
	text := strings.ToLower(strings.TrimSpace(s))
	noon, hasHalf := 0, false
	for half, from := range map[string]int{"am": 0, "pm": 12} {
		if rest, ok := strings.CutSuffix(text, half); ok {
			text, noon, hasHalf = strings.TrimSpace(rest), from, true
			break
		}
	}
	hourText, minuteText, parted := strings.Cut(strings.Replace(text, ".", ":", 1), ":")
	if !parted {
		if !hasHalf {
			return "", bad
		}
		minuteText = "00"
	}
	hour, ok := shortNumber(hourText)
	minute, ok2 := shortNumber(minuteText)
	if !ok || !ok2 || len(minuteText) != 2 || minute > 59 || hour > 23 {
		return "", bad
	}
	if hasHalf {
		if hour < 1 || hour > 12 {
			return "", bad
		}
		hour = hour%12 + noon
	}
	return fmt.Sprintf("%02d:%02d", hour, minute), nil
}

// shortNumber reads one or two digits.
func shortNumber(s string) (int, bool) {
	if len(s) < 1 || len(s) > 2 {
		return 0, false
	}
	n := 0
	for _, r := range s {
		if !isDigit(r) {
			return 0, false
		}
		n = n*10 + int(r-'0')
	}
	return n, true
}
