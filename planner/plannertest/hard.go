package plannertest

import (
	"regexp"
	"strconv"

	"musette/planner"
	"musette/planner/typed"
)

// hardChecks are about days that are hard, or must not be.
var hardChecks = []check{
	{rule: "hard.eve", plan: checkEves, faults: []fault{
		{"", sets("2026-06-12", "intervals 60 hard 3x3min")},
		{"", sets("2026-07-02", "intervals 60 hard 3x3min")},
	}},
	{rule: "hard.row", plan: checkRows, faults: []fault{
		{"", func(out *outFile) {
			set(out, "2026-06-09", "intervals 60 hard 2x3min")
			set(out, "2026-06-10", "intervals 60 hard 2x3min")
		}},
	}},
	{rule: "hard.after", plan: checkAfter, faults: []fault{
		{"", sets("2026-06-15", "intervals 60 hard 3x3min")},
		{"", sets("2026-07-05", "intervals 60 hard 3x3min")},
	}},
	{rule: "hard.work", taper: checkWork, faults: []fault{
		{"", sets("2026-06-09", "intervals 90 hard 40x3min")},
	}},
	{rule: "hard.count", taper: checkCount, faults: []fault{
		{"", func(out *outFile) {
			for _, d := range []string{"04", "06", "08", "10"} {
				set(out, "2026-06-"+d, "intervals 45 hard 2x1min")
			}
		}},
		{`"taper":{"days":14,"pattern":"second"}`, func(out *outFile) {
			for _, d := range []string{"02", "04", "06", "08"} {
				set(out, "2026-06-"+d, "intervals 45 hard 2x1min")
			}
		}},
	}},
	{rule: "hard.week", day: checkWeekWithout},
	{rule: "taper.openers", day: checkOpeners, faults: []fault{
		{"", sets("2026-06-10", "openers 30 openers")},
	}},
}

// checkEves: nothing hard on the two days before A and B races but other races.
func checkEves(v *view) {
	for _, r := range v.races {
		for k := 1; k <= 2 && r.Priority != planner.PriorityC; k++ {
			if d := r.Date.AddDays(-k); v.hardOn(d) && v.raceOn(d) == nil && !v.logged(d) {
				v.fail(d, "%s on D-%d of %s", keys(v.days[d].Sessions), k, r.Name)
			}
		}
	}
}

// checkRows: never two hard days in a row that the plan chose. Two usual ones may
// stay outside A races' windows. Beside races of others checkAfter and checkEves ask.
func checkRows(v *view) {
	for d := v.today; d < v.last; d++ {
		if !v.hardOn(d) || !v.hardOn(d+1) {
			continue
		}
		first, second := v.chosen(d), v.chosen(d+1)
		usual := v.usual(d).IsHard() && v.usual(d+1).IsHard()
		switch {
		case first && second && (!usual || v.inTaper(d) || v.inTaper(d+1)):
			v.fail(d+1, "a second hard day in a row")
		case first && v.inTaper(d) && v.raceOn(d+1) != nil, second && v.inTaper(d+1) && v.raceOn(d) != nil:
			v.fail(d, "hard beside a race inside a taper")
		}
	}
}

// quietDays is how many days after an A race nothing is hard.
func (v *view) quietDays(r *planner.Race) int {
	first := 8
	switch m := r.Minutes(); {
	case r.Days > 1:
	case m < 90:
		first = 3
	case m < 180:
		first = 4
	case m < 240:
		first = 5
	case m <= 330:
		first = 6
	case m <= 400:
		first = 7
	}
	return first - 1
}

// checkAfter: races are recovered from before the next hard day.
func checkAfter(v *view) {
	for _, r := range v.races {
		quiet := 1
		switch {
		case r.Priority == planner.PriorityA:
			quiet = v.quietDays(r)
		case r.Priority == planner.PriorityC && r.Minutes() < 180:
			continue
		case r.Priority == planner.PriorityB && r.Minutes() >= 120 && (r.Emphasis != planner.TrainThrough || r.Minutes() >= 180):
			quiet = 2 // trained through, a smaller set follows a shorter race on D+2
		}
		for k := 1; k <= quiet; k++ {
			if d := r.Last().AddDays(k); v.hardOn(d) && v.raceOn(d) == nil && !v.logged(d) {
				v.fail(d, "%s on D+%d of %s", keys(v.days[d].Sessions), k, r.Name)
			}
		}
	}
}

// saidPart finds how much of a session without a set is hard, which only its text says.
var saidPart = regexp.MustCompile(`about (\d+) min (?:of it|as hard)`)

// work is the time of a hard session's repetitions in seconds, of one without a
// set what its text says; -1 where it cannot be read.
func work(s outSession) int {
	if m := saidPart.FindStringSubmatch(s.Text); m != nil && s.Sets == nil {
		n, _ := strconv.Atoi(m[1])
		return 60 * n
	}
	sets, ok := setsOf(s)
	if !ok {
		return -1
	}
	return sets.WorkSeconds()
}

// setsOf reads the repetitions of a session.
func setsOf(s outSession) (planner.Sets, bool) {
	if s.Sets == nil {
		return planner.Sets{}, false
	}
	read, err := typed.Session("intervals 3h " + *s.Sets)
	return read.Sets, err == nil && !read.Sets.IsZero()
}

func hardWork(list []outSession) int {
	total := 0
	for _, s := range list {
		if s.Effort == "hard" {
			total += work(s)
		}
	}
	return total
}

// usualWork is the usual hard work of a day in seconds.
func (v *view) usualWork(d planner.Date) int {
	total := 0
	day := v.usual(d)
	for _, s := range day.Sessions {
		switch {
		case day.Busy || !s.IsHard():
		case s.Sets.IsZero():
			total += s.HardMinutes() * 60
		default:
			total += s.Sets.WorkSeconds()
		}
	}
	return total
}

// checkWork: the window's hard work is never above that of the usual hard days
// from D-n to D.
func checkWork(v *view, t taper) {
	if !v.whole(t) {
		return
	}
	planned, usual := 0, v.usualWork(t.race.Date)
	for d := t.from; d < t.race.Date; d++ {
		usual += v.usualWork(d)
		planned += hardWork(v.days[d].Sessions)
	}
	if planned > usual {
		v.fail(t.from, "%s: %d s of hard work, usually %d s", t.Race, planned, usual)
	}
}

// checkCount: without a pattern at most one hard day more than usual from D-n to
// D; with one at most one more than usual in 7 days, and at most four.
func checkCount(v *view, t taper) {
	if !v.whole(t) {
		return
	}
	planned, usual := 0, 0
	for d := t.from; d <= t.race.Date; d++ {
		if v.hardOn(d) && d < t.race.Date {
			planned++
		}
		if v.usual(d).IsHard() {
			usual++
		}
	}
	if v.f.Taper.Pattern == planner.UsualDays && planned > usual+1 {
		v.fail(t.from, "%s: %d hard days, usually %d", t.Race, planned, usual)
	}
	week := v.f.WeekOn(t.race.Date - 1).HardDays()
	for d := max(t.from, t.race.Date-14); d+6 < t.race.Date && v.f.Taper.Pattern != planner.UsualDays; d++ {
		n := 0
		for k := range 7 {
			if v.hardOn(d.AddDays(k)) {
				n++
			}
		}
		if n > min(week+1, 4) {
			v.fail(d, "%s: %d hard days in 7, usually %d a week", t.Race, n, week)
		}
	}
}

// checkWeekWithout: who never rides hard gets no hard day.
func checkWeekWithout(v *view, d planner.Date, day *outDay) {
	usually := false
	for i := range v.f.Weeks {
		usually = usually || v.f.Weeks[i].Week.HardDays() > 0
	}
	if v.hardOn(d) && v.chosen(d) && !usually {
		v.fail(d, "%s, and no usual day is hard", keys(day.Sessions))
	}
}

// checkOpeners: openers that no usual day has are short and on D-2 or D-1, on D-3 where both are lost.
func checkOpeners(v *view, d planner.Date, day *outDay) {
	if !has(day.Sessions, "openers") || has(day.Usual, "openers") || !v.chosen(d) {
		return
	}
	near := false
	for k := 1; k <= 2; k++ {
		r := v.raceOn(d.AddDays(k))
		near = near || r != nil && r.Date == d.AddDays(k) && (k == 1 || r.Priority != planner.PriorityC)
	}
	if r := v.raceOn(d + 3); r != nil && r.Date == d+3 && r.Priority == planner.PriorityB && v.lost(d+1) && v.lost(d+2) {
		near = true
	}
	if !near || minutes(day.Sessions) > 75 {
		v.fail(d, "%s: openers are at most 75 min, one or two days before a race, before a C race one", keys(day.Sessions))
	}
}
