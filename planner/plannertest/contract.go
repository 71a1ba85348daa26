package plannertest

import (
	"regexp"
	"slices"
	"strings"

	"musette/planner"
)

// contractChecks are about what plan files promise.
var contractChecks = []check{
	{rule: "contract.days", plan: checkDays, held: true, faults: []fault{
		{"", func(out *outFile) { out.Days = slices.Delete(out.Days, 3, 4) }},
		{"", func(out *outFile) { out.Days[2].Weekday = "sun" }},
	}},
	{rule: "contract.end", plan: checkEnd, held: true, faults: []fault{
		{"", func(out *outFile) { out.Days = out.Days[:len(out.Days)-1] }},
	}},
	{rule: "contract.session", day: checkSessions, held: true, faults: []fault{
		{"", func(out *outFile) { out.Days[1].Sessions[0].Kind = "sprint" }},
	}},
	{rule: "contract.usual", day: checkUsual, held: true, faults: []fault{
		{"", func(out *outFile) { out.Days[2].Usual[0].Minutes++ }},
	}},
	{rule: "contract.why", day: checkWhy, held: true, faults: []fault{
		{"", func(out *outFile) { dayOf(out, "2026-06-12").Why = []outWhy{} }},
		{"", func(out *outFile) { dayOf(out, "2026-06-12").Why[0].Rule = "magic.trick" }},
		{"", func(out *outFile) { out.Days[1].Why = []outWhy{{"day.off", "It is so.", "our choice"}} }},
	}},
	{rule: "contract.why", taper: checkWhyLength, held: true},
	{rule: "contract.five", day: checkFives, held: true, faults: []fault{
		{"", sets("2026-06-10", "endurance 62 easy")},
	}},
	{rule: "contract.cautions", day: checkCautions, held: true, faults: []fault{
		{"", func(out *outFile) { dayOf(out, "2026-06-12").Cautions = []string{} }},
	}},
	{rule: "contract.phase", day: checkPhases, held: true, faults: []fault{
		{"", func(out *outFile) { out.Days[0].Phase = "peak" }},
	}},
	{rule: "contract.warnings", plan: checkWarnings, held: true, faults: []fault{
		{"", func(out *outFile) { out.Warnings = append(out.Warnings, outWarning{"taper.cut", "It is less."}) }},
	}},
	{rule: "race.day", day: checkRaceDays, faults: []fault{
		{"", sets("2026-06-13", "race 90 race")},
		{"", sets("2026-06-13", "endurance 90 easy")},
	}},
}

// ruleID is the form of a rule's id, a heading of docs/rules.md. That each id is a
// heading, a test of planner/words says.
var ruleID = regexp.MustCompile(`^(taper|race|b|c|season|block|day|health)\.[a-z-]+$`)

func checkDays(v *view) {
	if len(v.out.Days) == 0 {
		v.failPlan("no days")
	}
	for d := v.today; d <= v.last; d++ {
		if v.days[d].Date != d.String() {
			v.fail(d, "the plan has %s here", v.days[d].Date)
			return
		}
		if v.days[d].Weekday != strings.ToLower(d.Weekday().Short()) {
			v.fail(d, "weekday is %q", v.days[d].Weekday)
		}
		if len(v.days[d].Sessions) == 0 || len(v.days[d].Usual) == 0 {
			v.fail(d, "no session, not even rest")
		}
	}
}

// checkEnd wants the days after the last race, or two weeks where none is to come.
func checkEnd(v *view) {
	least, most := v.today, v.today.AddDays(13)
	toCome := false
	for _, r := range v.byRight {
		most = max(most, r.Last().AddDays(13)) // the longest return and a day
		if !slices.Contains(v.races, r) {
			most = max(most, r.Last().AddDays(14)) // it starts a day later where another has its first
		}
		if r.Last() >= v.today {
			toCome, least = true, max(least, r.Last().AddDays(2))
		}
	}
	if !toCome {
		least = v.today.AddDays(13)
	}
	if v.last < least || v.last > most {
		v.fail(v.last, "is the last day, want %s to %s", least, most)
	}
}

var effortsOf = map[string]string{
	"rest": "rest", "recovery": "easy", "endurance": "steady easy", "long": "steady easy", "intervals": "hard", "openers": "openers",
	"race": "race", "strength": "steady easy", "other": "easy", "group": "hard easy steady", "commute": "easy", "indoor": "steady easy hard",
}

// checkSessions leaves out the efforts of what was ridden or set by hand.
func checkSessions(v *view, d planner.Date, day *outDay) {
	total := 0
	list := day.Sessions
	for _, s := range list {
		total += s.Minutes
		efforts, known := effortsOf[s.Kind]
		if !known || !slices.Contains(strings.Fields(efforts), s.Effort) && !v.logged(d) && !v.pinned(d) {
			v.fail(d, "%s: no such kind or effort", s.key())
		}
		if s.Kind == "rest" && (len(list) > 1 || s.Minutes != 0) {
			v.fail(d, "rest is not alone or not 0 minutes: %s", keys(list))
		}
		if s.Kind != "rest" && s.Minutes <= 0 || s.Text == "" || s.RPE == "" {
			v.fail(d, "%s: minutes, text or rpe missing", s.key())
		}
		if s.Sets != nil && !s.isHard() || s.Effort == "hard" && work(s) <= 0 && !v.logged(d) {
			v.fail(d, "%s: sets not possible here", s.key())
		}
	}
	if total > 24*60 {
		v.fail(d, "%d minutes in a day", total)
	}
}

func checkUsual(v *view, d planner.Date, day *outDay) {
	want := v.usual(d)
	var list []outSession
	for _, s := range want.Sessions {
		u := outSession{Kind: s.Kind.String(), Minutes: int(s.Minutes), Effort: s.Effort.String()}
		if sets := s.Sets.String(); sets != "" {
			u.Sets = &sets
		}
		list = append(list, u)
	}
	if want.Busy || len(list) == 0 {
		list = []outSession{{Kind: "rest", Effort: "rest"}}
	}
	if got := keys(day.Usual); got != keys(list) {
		v.fail(d, "usual is %s, the week says %s", got, keys(list))
	}
}

// checkWhy wants reasons on changed days and on no other. The part of a session
// without a set is in its text alone.
func checkWhy(v *view, d planner.Date, day *outDay) {
	changed := keys(day.Usual) != keys(day.Sessions) || hard(day.Usual) && hardWork(day.Sessions) != v.usualWork(d)
	switch {
	case changed && len(day.Why) == 0:
		v.fail(d, "no reason for %s, usually %s", keys(day.Sessions), keys(day.Usual))
	case !changed && len(day.Why) > 0:
		v.fail(d, "nothing is changed, yet a reason names %s", day.Why[0].Rule)
	}
	v.checkReasons(d, day.Why)
}

func checkWhyLength(v *view, t taper) {
	if len(t.Why) == 0 {
		v.fail(t.from, "%s: no reason for the length", t.Race)
	}
	v.checkReasons(t.from, t.Why)
}

func (v *view) checkReasons(d planner.Date, why []outWhy) {
	for _, w := range why {
		if !ruleID.MatchString(w.Rule) || blank(w.Text) || blank(w.Source) {
			v.fail(d, "a reason with an unknown rule or an empty part: %+v", w)
		}
	}
}

func blank(s string) bool { return strings.TrimSpace(s) == "" }

// checkFives leaves out what the planner did not choose: races, logged and pinned
// rides, and lengths taken from the week or a limit.
func checkFives(v *view, d planner.Date, day *outDay) {
	if !v.chosen(d) {
		return
	}
	for _, s := range day.Sessions {
		if s.Minutes%5 != 0 && s.Minutes != v.limit(d) && !v.ofWeek(d, s.Minutes) {
			v.fail(d, "%s is no multiple of 5", s.key())
		}
	}
}

// ofWeek tells that a day of the week has so many minutes, all its rides or one.
func (v *view) ofWeek(d planner.Date, m int) bool {
	for _, day := range v.f.WeekOn(d) {
		if day.RideMinutes() == m || slices.ContainsFunc(day.Sessions, func(s planner.Session) bool { return int(s.Minutes) == m }) {
			return true
		}
	}
	return false
}

func checkCautions(v *view, d planner.Date, day *outDay) {
	if (hard(day.Sessions) || has(day.Sessions, "openers")) && len(day.Cautions) == 0 {
		v.fail(d, "no caution beside %s", keys(day.Sessions))
	}
	if slices.ContainsFunc(day.Cautions, blank) {
		v.fail(d, "empty caution")
	}
}

func checkWarnings(v *view) {
	for _, w := range v.out.Warnings {
		if !ruleID.MatchString(w.Code) || blank(w.Text) {
			v.failPlan("warning %q with text %q", w.Code, w.Text)
		}
		theme, _, _ := strings.Cut(w.Code, ".")
		named := slices.ContainsFunc(v.f.Races, func(r planner.Race) bool { return strings.Contains(w.Text, r.Name) })
		if !named && slices.Contains([]string{"taper", "race", "b", "c", "season", "block"}, theme) {
			v.failPlan("warning %s names no race: %s", w.Code, w.Text)
		}
	}
}

func checkPhases(v *view, d planner.Date, day *outDay) {
	if !slices.Contains([]string{"normal", "overload", "taper", "race", "recovery", "health"}, day.Phase) {
		v.fail(d, "phase %q", day.Phase)
	}
	if day.Race != nil && !slices.ContainsFunc(v.f.Races, func(r planner.Race) bool { return r.Name == *day.Race }) {
		v.fail(d, "belongs to an unknown race %q", *day.Race)
	}
}

// checkRaceDays: a race is ridden on its days, unless an illness keeps from it.
func checkRaceDays(v *view, d planner.Date, day *outDay) {
	r := v.raceOn(d)
	if r == nil {
		if day.Phase == "race" {
			v.fail(d, "phase race without a race")
		}
		return
	}
	if day.Phase == "health" {
		return
	}
	if !has(day.Sessions, "race") || minutes(day.Sessions) != r.MinutesOn(d) || day.Race == nil || *day.Race != r.Name {
		v.fail(d, "%s on race day of %s of %d min", keys(day.Sessions), r.Name, r.MinutesOn(d))
	}
}
