package typed

import (
	"fmt"
	"math"
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
	"h": hourUnit, "hr": hourUnit, "hrs": hourUnit, "hour": hourUnit, "hours": hourUnit, "hous": hourUnit, "houres": hourUnit,
	"m": minuteUnit, "min": minuteUnit, "mins": minuteUnit, "minute": minuteUnit, "minutes": minuteUnit, "minuts": minuteUnit, "minuets": minuteUnit, "mintues": minuteUnit, "'": minuteUnit,
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
	if sp, n := fractionOfHour(toks); n > 0 {
		return sp, n
	}
	if n := oneHour(toks); n > 0 {
		return readRest(toks, span{3600, hourUnit, true}, n)
	}
	if len(toks) == 0 || toks[0].kind != numberToken {
		return span{}, 0
	}
	first := toks[0]
	if len(toks) > 1 && toks[1].isMark(":") {
		return readClock(toks, style.clock)
	}
	amount, n, whole := first.value, 1, first.whole
	if part, took := andFraction(toks[1:]); took > 0 && whole {
		unit, named := unitAt(toks, 1+took)
		if named && unit == hourUnit || !named && style.bare == hourUnit {
			amount, n, whole = amount+part, 1+took, false
		}
	}
	unit, named := unitAt(toks, n)
	if !named {
		return span{amount * style.bare.seconds(), style.bare, whole}, n
	}
	return readRest(toks, span{amount * unit.seconds(), unit, whole}, n+1)
}

// readRest reads what may follow a number and its unit: 30, and a half, less ten.
func readRest(toks []token, sp span, n int) (span, int) {
	if part, took := andFraction(toks[n:]); took > 0 && sp.whole && sp.unit == hourUnit {
		if _, named := unitAt(toks, n+took); !named {
			return span{sp.seconds + part*3600, minuteUnit, true}, n + took
		}
	}
	if n+1 < len(toks) && toks[n].isWord("less") && toks[n+1].kind == numberToken && toks[n+1].whole && sp.unit == hourUnit && toks[n+1].value < 60 {
		took := 2
		if u, ok := unitAt(toks, n+2); ok && u == minuteUnit {
			took++
		}
		return span{sp.seconds - toks[n+1].value*60, minuteUnit, true}, n + took
	}
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

// readClock reads 1:30, 1:30:25 and, where the unit fits, 1:30h.
func readClock(toks []token, clock timeUnit) (span, int) {
	if len(toks) < 3 || !toks[0].whole || !toks[1].glued {
		return span{}, 0
	}
	small := toks[2]
	if small.kind != numberToken || !small.whole || small.digits != 2 || small.value >= 60 || !small.glued {
		return span{}, 0
	}
	n := 3
	total := toks[0].value*clock.seconds() + small.value*(clock-1).seconds()
	if clock == hourUnit && len(toks) > 4 && toks[3].isMark(":") && toks[3].glued && toks[4].digits == 2 && toks[4].whole && toks[4].value < 60 && toks[4].glued {
		total, n = total+60*math.Round(toks[4].value/60), 5 // 1:05:42 of a bike computer
	}
	if u, ok := unitAt(toks, n); ok && u == clock {
		n++
	}
	return span{total, clock - 1, true}, n
}

// readSmaller reads the minutes after hours or the seconds after minutes. A
// number without unit counts as minutes after hours (1h30, 1h 30), and as
// seconds only where it touches the minutes (2min30).
func readSmaller(toks []token, unit timeUnit) (value float64, n int) {
	if len(toks) > 0 && (toks[0].isWord("and") || toks[0].isWord("n") || toks[0].isMark("&")) {
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

// Minutes reads a length such as 1h30, 1:30, 90min, 90, 1.5h, 45', an hour and a half
// or about 2 hours. The result is within 0 to 1440 minutes; a number without unit is in
// minutes. Two lengths, as in 1-2h, are an *Ambiguous error.
func Minutes(s string) (int, error) {
	if err := checkLength(s, "1h30"); err != nil {
		return 0, err
	}
	l := lengthReader{text: strings.TrimSpace(s), style: lengthStyle, example: "1h30, 1:30, 90min or 1.5h"}
	sp, err := l.read()
	if err != nil {
		return 0, err
	}
	return sp.minutes()
}

// Hours reads how long a day of a race takes: 3.5, 3h30, 3:30, 210min, four and a half
// hours. The result is in hours, above 0 and at most MaxRaceHours; a number without unit
// is in hours. Over 24 it is most likely meant in minutes: a race of one day needs its
// unit then, as in 30h, and is an *Ambiguous error without.
func Hours(s string, days int) (float64, error) {
	if err := checkLength(s, "3h30"); err != nil {
		return 0, err
	}
	l := lengthReader{text: strings.TrimSpace(s), style: hoursStyle, example: "3.5, 3h30, 3:30 or 210min"}
	sp, err := l.read()
	if err != nil {
		return 0, err
	}
	hours := sp.seconds / 3600
	minutes := Reading{fmt.Sprintf("%g minutes", hours), fmt.Sprintf("%gmin", hours)}
	switch {
	case hours >= 60 && hours <= planner.MaxRaceHours*60 && !l.named && hours == math.Trunc(hours):
		return 0, &Ambiguous{[]Reading{minutes}, planner.BadInput("", "%g hours are outside 0 to %d. For minutes write %s", hours, planner.MaxRaceHours, minutes.Value)}
	case hours <= 0 || hours > planner.MaxRaceHours:
		return 0, planner.BadInput("", "%g hours are outside 0 to %d. Write it like 3.5, 3h30 or 210min", hours, planner.MaxRaceHours)
	case hours > hoursOfADay && days == 1 && !l.named:
		minutes = Reading{fmt.Sprintf("%.0f minutes", hours), fmt.Sprintf("%.0fmin", hours)}
		long := planner.Duration(int(math.Round(hours * 60)))
		return 0, &Ambiguous{[]Reading{minutes, {long, long}}, planner.BadInput("", "%s would be more than a day. Write it like %s for minutes, or like %s for hours",
			quoted(s), minutes.Value, long)}
	}
	return hours, nil
}

// hoursOfADay is what a race of one day can take at most.
const hoursOfADay = 24
