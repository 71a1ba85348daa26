package plannertest

import (
	"math"
	"slices"

	"musette/planner"
)

// minuteChecks are about how long rides and tapers are.
var minuteChecks = []check{
	{rule: "day.off", day: checkOff, held: true, faults: []fault{
		{"", sets("2026-06-08", "recovery 30 easy")},
		{`"away":[{"from":"2026-06-09","to":"2026-06-10"}]`, sets("2026-06-09", "recovery 30 easy")},
	}},
	{rule: "contract.tapers", plan: checkTapers, faults: []fault{
		{"", func(out *outFile) { out.Tapers[0].PlannedMinutes += 5 }},
		{"", func(out *outFile) { out.Tapers[0].Days++ }},
	}},
	{rule: "contract.tapers", taper: checkSums},
	{rule: "taper.length", taper: checkLength, faults: []fault{
		{"", func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 15, "2026-05-29" }},
		{"", func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 5, "2026-06-08" }},
		{`"taper":{"days":10}`, func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 9, "2026-06-04" }},
		{`"learned":[{"races":6,"low":120,"mid":140,"high":160}]`, func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 15, "2026-05-29" }},
		{`"taper":{"days":"usual"},"learned":[{"races":6,"low":120,"mid":140,"high":160}]`, func(out *outFile) { out.Tapers[0].Days, out.Tapers[0].From = 13, "2026-05-31" }},
	}},
	{rule: "taper.cut", taper: checkCut, faults: []fault{
		{`"taper":{"cut":50}`, func(out *outFile) {
			out.Warnings = nil
			out.Tapers[0].CutPercent = 30
		}},
	}},
	{rule: "taper.strength", taper: checkStrength, faults: []fault{
		{"", sets("2026-06-11", "strength 30 steady")},
	}},
	{rule: "minutes.usual", day: checkLonger, faults: []fault{
		{"", sets("2026-06-10", "endurance 95 easy")},
		{"", sets("2026-06-07", "recovery 30 easy")},
	}},
	{rule: "day.limit", day: checkLimits, faults: []fault{
		{`"limits":[{"date":"2026-06-10","minutes":40}]`, sets("2026-06-10", "endurance 45 easy")},
	}},
	{rule: "day.travel", day: checkTravel, faults: []fault{
		{`"away":[{"from":"2026-05-27","to":"2026-05-28","kind":"travel"}]`, sets("2026-05-27", "recovery 30 easy")},
		{`"limits":[{"date":"2026-05-27","minutes":90}],"away":[{"from":"2026-05-27","to":"2026-05-28","kind":"travel"}]`, sets("2026-05-27", "recovery 50 easy")},
	}},
	{rule: "block.after", taper: checkAfterBlock, faults: []fault{
		{`"blocks":[{"from":"2026-05-25","to":"2026-05-31","percent":20}]`, sets("2026-06-03", "intervals 60 hard 3x3min")},
	}},
}

// The longest rides on usually free days, minutes: a hard one, and an easy one after lost days.
const (
	touch = 60
	spin  = 60
)

// checkLonger: no day is longer than its usual rides together.
func checkLonger(v *view, d planner.Date, day *outDay) {
	if !v.chosen(d) || v.inBlock(d) || has(day.Sessions, "openers") {
		return
	}
	got, usual := minutes(day.Sessions), minutes(day.Usual)
	if got > usual && !(usual == 0 && hard(day.Sessions) && got <= touch) && !(usual == 0 && got <= spin && v.afterLost(d)) {
		v.fail(d, "%s, usually %s", keys(day.Sessions), keys(day.Usual))
	}
}

// afterLost reports a day up to three days after two or more on which riding was impossible.
func (v *view) afterLost(d planner.Date) bool {
	lost := 0
	for e := d - 5; e < d; e++ {
		if v.usual(e).Busy || v.away(e, false) || v.away(e, true) || v.limit(e) < 20 {
			lost++
		} else if lost < 2 {
			lost = 0
		}
	}
	return lost >= 2
}

// lost reports a day on which riding is impossible.
func (v *view) lost(d planner.Date) bool {
	return v.usual(d).Busy || v.away(d, false) || v.away(d, true) || v.limit(d) < 40
}

func (v *view) inBlock(d planner.Date) bool {
	return slices.ContainsFunc(v.f.Blocks, func(b planner.Block) bool { return b.From <= d && d <= b.To })
}

// checkOff: nothing is ridden on a day off but a race.
func checkOff(v *view, d planner.Date, day *outDay) {
	off := v.usual(d).Busy || v.away(d, false) || v.limit(d) < 20
	if off && minutes(day.Sessions) > 0 && v.raceOn(d) == nil && !v.logged(d) {
		v.fail(d, "%s on a day off", keys(day.Sessions))
	}
}

func checkLimits(v *view, d planner.Date, day *outDay) {
	total := 0
	for _, s := range day.Sessions {
		total += s.Minutes
	}
	if total > v.limit(d) && v.raceOn(d) == nil && !v.logged(d) {
		v.fail(d, "%s, limited to %d min", keys(day.Sessions), v.limit(d))
	}
}

// checkTravel: rest, or easy up to 45 min where a limit gives minutes.
func checkTravel(v *view, d planner.Date, day *outDay) {
	if !v.away(d, true) || v.raceOn(d) != nil || v.logged(d) {
		return
	}
	most := 0
	if v.limit(d) < noLimit {
		most = 45
	}
	if minutes(day.Sessions) > most || !day.easy() {
		v.fail(d, "%s on a travel day", keys(day.Sessions))
	}
}

// checkCut: a told cut is met within 5 points, or a warning names why not.
func checkCut(v *view, t taper) {
	cut := v.f.Taper.Cut
	if cut == 0 || math.Abs(t.CutPercent-float64(cut)) <= 5 || v.warned(t.race, "taper.cut", "taper.minutes") {
		return
	}
	v.fail(t.from, "%s: cut by %v %%, told %d, and no warning says why", t.Race, t.CutPercent, cut)
}

// checkTapers: one for each A race to come at most, up to its eve.
func checkTapers(v *view) {
	all := v.tapers()
	if len(all) != len(v.out.Tapers) {
		v.failPlan("a taper without its race, or whose days do not end on the eve")
	}
	for _, t := range all {
		if t.Priority != "A" || t.race.Priority != planner.PriorityA || t.race.Last() < v.today {
			v.fail(t.from, "%s is no A race to come", t.Race)
		}
	}
}

// checkSums recomputes the figures of tapers whose days are all in the plan.
func checkSums(v *view, t taper) {
	if t.from < v.today {
		return
	}
	planned, rides, usual := 0, 0, 0
	for d := t.from; d < t.race.Date; d++ {
		m := minutes(v.days[d].Sessions)
		planned += m
		if m > 0 {
			rides++
		}
		usual += v.usual(d).RideMinutes()
	}
	if t.PlannedMinutes != planned || t.PlannedRides != rides {
		v.fail(t.from, "%s: %d min in %d rides, the days have %d in %d", t.Race, t.PlannedMinutes, t.PlannedRides, planned, rides)
	}
	if t.UsualMinutes > usual && len(v.f.Blocks) == 0 {
		v.fail(t.from, "%s: usually %d min, the week says %d", t.Race, t.UsualMinutes, usual)
	}
	if u := float64(t.UsualMinutes); u > 0 && math.Abs(100*(1-float64(t.PlannedMinutes)/u)-t.CutPercent) > 0.051 {
		v.fail(t.from, "%s: a cut of %v %% of %d to %d min", t.Race, t.CutPercent, t.UsualMinutes, t.PlannedMinutes)
	}
}

// checkLength: told lengths are taken at their word, others are 6 to 12 days, 5 to 14
// where the rider's races say so, but not where the rider wants the usual length,
// fewer where registration, a block or a race leaves fewer, 14 after a block.
func checkLength(v *view, t taper) {
	told, most := v.f.Taper.Days, 12
	if t.race.TaperDays > 0 {
		told = t.race.TaperDays
	}
	if told > 0 {
		most = told
	}
	owns := told == 0 && !v.f.Taper.Usual && len(v.f.Taught) > 0
	if owns {
		most = 14
	}
	if len(v.f.Blocks)+len(v.f.Done) > 0 || told == 0 && len(v.f.Absences)+len(v.f.Limits) > 0 {
		most = max(most, 14) // after a block, or from the day before lost ones
	}
	if t.from < v.today {
		return // it keeps the length that it began with
	}
	if t.Days > most || t.from < t.race.Registered {
		v.fail(t.from, "%s: %d days from %s, at most %d", t.Race, t.Days, t.From, most)
	}
	least, alone := 6, t.from > t.race.Registered
	if told > 0 {
		least = told
	} else if owns {
		least = 5
	}
	for _, r := range v.byRight {
		alone = alone && (r == t.race || r.Priority != planner.PriorityA || r.Last()+1 != t.from)
	}
	if t.Days < least && alone && len(v.f.Blocks)+len(v.f.Done) == 0 {
		v.fail(t.from, "%s: %d days, want %d", t.Race, t.Days, least)
	}
}

// checkStrength: none from D-7 on.
func checkStrength(v *view, t taper) {
	for d := max(t.from, t.race.Date-7); d < t.race.Date; d++ {
		if day := v.days[d]; day != nil && has(day.Sessions, "strength") && v.chosen(d) {
			v.fail(d, "strength on D-%d of %s", d.DaysUntil(t.race.Date), t.Race)
		}
	}
}

// checkAfterBlock: the day after a block that leads up to an A race is free, the
// next two are not hard.
func checkAfterBlock(v *view, t taper) {
	for _, b := range v.f.Blocks {
		end := b.To
		for _, r := range v.races {
			if r.Priority == planner.PriorityA && r.Date > b.From {
				end = min(end, r.Date-8) // a block yields from D-7 on
			}
		}
		if b.Percent < 10 || b.From.DaysUntil(end) < 6 || end < t.race.Date-21 {
			continue
		}
		for d := end + 1; d <= end+3; d++ {
			day := v.days[d]
			if day != nil && v.chosen(d) && (hard(day.Sessions) || d == end+1 && minutes(day.Sessions) > 0) {
				v.fail(d, "%s on day %d after the block", keys(day.Sessions), end.DaysUntil(d))
			}
		}
	}
}
