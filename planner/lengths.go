package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"musette/planner/response"
)

// lengthsKnown are the lengths that the model chooses from.
var lengthsKnown = [...]int{7, 10, 14, 21}

// goalRace is an A race and the lengths that its taper may have.
type goalRace struct {
	race    *Race
	stop    int   // its place in the season
	lengths []int // the default first; all fit but perhaps that one
	why     string
	options []response.Option // of lengths
	sure    []int             // indices of the default and of what is clearly better
	chosen  int               // one of lengths
	crowded bool              // the defaults take too many of the season's days
}

// chooseLengths settles the taper of every A race for which the rider has told
// no length: the evidence's default, unless the model is clear that another
// admissible length is better for this and all later races. It looks at all races
// that were ever told and never at today, so that nothing changes as days pass.
func (c *calendar) chooseLengths() {
	c.lengths, c.rules = make([]int, len(c.plan.Races)), make([]string, len(c.plan.Races))
	if c.trial != nil {
		copy(c.lengths, c.trial.lengths)
		return
	}
	for _, s := range c.seasons() {
		s.choose()
		for k := range s.goals {
			g := &s.goals[k]
			i := c.indexOf(g.race)
			c.lengths[i], c.rules[i] = g.chosen, g.rule()
		}
	}
}

// autoDays is the evidence's default length.
func autoDays(r, prev, next *Race) (int, string) {
	toNext := 0
	if next != nil {
		toNext = r.Last().DaysUntil(next.Date)
	}
	switch {
	case prev != nil && prev.Last().DaysUntil(r.Date) <= closeGap:
		return 7, "7 days, because another A race is within 28 days before it."
	case next != nil && toNext <= closeGap:
		return 7, "7 days, because another A race follows within 28 days."
	case next != nil && toNext <= spacedGap:
		return 10, "10 days, because the next A race follows within 8 weeks."
	}
	return 14, "14 days: no other A race is near, and 8-14 days help most."
}

// admissible lists the lengths that a taper may have, the default first: those
// that fit between what comes before and the race. inside tells of a race in the 21 days before.
func (c *calendar) admissible(r, prev, next *Race, inside bool) (lengths []int, why string) {
	standard, why := autoDays(r, prev, next)
	least, most := 7, 14
	room := r.Registered.DaysUntil(r.Date)
	if !inside && (prev == nil && next == nil || c.blockBefore21(r, prev)) {
		most = 21
	}
	if prev != nil {
		room = min(room, prev.Last().AddDays(prev.recoveryDays()+1).DaysUntil(r.Date))
		if prev.Last().DaysUntil(r.Date) <= closeGap {
			most = 7 // between two near goals riders need training, not more rest (common practice)
		}
	}
	if next != nil && r.Last().DaysUntil(next.Date) <= closeGap {
		most = 7
	}
	if _, ok := c.overloadBefore(r, prev, r.Date.AddDays(-standard)); ok {
		standard, least, most = 14, 14, 14
		why = "14 days, because an overload block comes right before it."
	}
	lengths = append(lengths, standard)
	for _, n := range lengthsKnown {
		if n == standard || n < least || n > most || max(n, standard) > room {
			continue
		}
		if _, ok := c.overloadBefore(r, prev, r.Date.AddDays(-n)); !ok || n == 21 && c.blockBefore21(r, prev) {
			lengths = append(lengths, n)
		}
	}
	return lengths, why
}

// blockBefore21 reports an overload block out of which a taper of 21 days would
// come, though the default of 14 would not.
func (c *calendar) blockBefore21(r, prev *Race) bool {
	end, ok := c.overloadBefore(r, prev, r.Date.AddDays(-21))
	return ok && end < r.Date.AddDays(-21)
}

// choose finds the season's optimum over the defaults and those lengths that are
// clearly better than them. A season so crowded that this takes too many of its
// days may have every admissible length; one that is too crowded even so keeps the first answer.
func (s *seasonRun) choose() {
	if len(s.goals) == 0 {
		return
	}
	stops := s.stops()
	for i := range s.goals {
		g := &s.goals[i]
		options := make([]response.Option, len(g.lengths))
		for k, n := range g.lengths {
			options[k] = s.option(g, n)
		}
		g.sure = s.sure(g, options)
		stops[g.stop].Options = pick(options, g.sure)
		g.options = options
	}
	choice, _, ok := response.Season{Budget: s.budget(), Stops: stops}.Solve()
	if !ok {
		for i := range s.goals {
			g := &s.goals[i]
			g.sure, g.crowded = everyIndex(len(g.options)), true
			stops[g.stop].Options = g.options
		}
		choice, _, ok = response.Season{Budget: s.budget(), Stops: stops}.Solve()
	}
	for i := range s.goals {
		g := &s.goals[i]
		g.chosen = g.lengths[0]
		if ok {
			g.chosen = g.lengths[g.sure[choice[g.stop]]]
		}
	}
}

func pick(options []response.Option, indices []int) []response.Option {
	out := make([]response.Option, len(indices))
	for i, k := range indices {
		out[i] = options[k]
	}
	return out
}

func everyIndex(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// rule says why the length was chosen.
func (g *goalRace) rule() string {
	switch {
	case g.chosen == g.lengths[0]:
		return g.why
	case g.crowded:
		return fmt.Sprintf("%d days, because tapers would take over 30 %% of the season's days with the usual %d.", g.chosen, g.lengths[0])
	}
	return fmt.Sprintf("%d days: over this and all later races the model expects clearly more of them than of the usual %d.", g.chosen, g.lengths[0])
}

// RunnerUp is another admissible length of a taper, and by how much the chosen
// one is expected to be better over this, the races inside it and all later races, each counted by its
// priority (A 1, B 0.4, C 0.1): per cent of performance, below 0 where it is worse.
type RunnerUp struct {
	Days   int
	Behind response.Range
}

// RunnersUp are the lengths that were weighed against a taper's automatic one,
// the nearest first; none where the rider or the calendar left no choice.
func (p *Plan) RunnersUp(t *TaperSummary) []RunnerUp {
	if p.facts == nil || p.facts.Taper.Days != 0 {
		return nil
	}
	// Asked before the longest taper could begin, so that the answer stays the same.
	c, ok := p.facts.newComparison(min(p.Today, t.Race.Date.AddDays(-MaxTaperDays-1)), t.Race.Name, t.Race.Date)
	if !ok {
		return nil
	}
	lengths := c.base.lengthsOf(c.window.race)
	if !slices.Contains(lengths, t.Days) {
		return nil // what was left decided
	}
	best := make([]float64, len(c.belief))
	if !c.total(best, t.Days) {
		return nil
	}
	var out []RunnerUp
	for _, n := range lengths {
		behind := make([]float64, len(best))
		if n == t.Days || !c.total(behind, n) {
			continue
		}
		for i := range behind {
			behind[i] = best[i] - behind[i]
		}
		out = append(out, RunnerUp{Days: n, Behind: response.RangeOf(behind)})
	}
	slices.SortStableFunc(out, func(a, b RunnerUp) int { return cmp.Compare(a.Behind.Mid, b.Behind.Mid) })
	return out
}

// lengthsOf are the lengths that were weighed for an A race.
func (c *calendar) lengthsOf(r *Race) []int {
	for _, s := range c.seasons() {
		for k := range s.goals {
			if g := &s.goals[k]; g.race == r {
				return g.lengths
			}
		}
	}
	return nil
}

// WhyLength says why a taper has its length and, where the model had a choice,
// how far behind the other admissible lengths are expected to be.
func (p *Plan) WhyLength(t *TaperSummary) Reason {
	text := t.LengthRule
	if others := p.OtherLengths(t); others != "" {
		text += " " + others
	}
	source := sources[ruleLength]
	if !t.Automatic {
		source = commonPractice
	}
	return Reason{Rule: ruleLength, Text: text, Source: source}
}

// OtherLengths is RunnersUp in a sentence, "" where there are none.
func (p *Plan) OtherLengths(t *TaperSummary) string {
	others := p.RunnersUp(t)
	if len(others) == 0 {
		return ""
	}
	parts := make([]string, len(others))
	for i, r := range others {
		parts[i] = fmt.Sprintf("%d days, %s", r.Days, behind(r.Behind))
	}
	lead := "Next best"
	if others[0].Behind.Mid < 0 {
		lead = "Also weighed"
	}
	return lead + " over this and later races: " + strings.Join(parts, "; ") + "."
}

// behind words by how much less is expected, in per cent.
func behind(r response.Range) string {
	word := "behind"
	if r.Mid < 0 {
		word, r = "ahead", response.Range{Low: -r.High, Mid: -r.Mid, High: -r.Low}
	}
	text := fmt.Sprintf("about %s %% %s (%s to %s %%)", Tenths(r.Mid), word, Tenths(r.Low), Tenths(r.High))
	if Tenths(r.Mid) == "0" {
		text = fmt.Sprintf("about the same (%s to %s %%)", Tenths(r.Low), Tenths(r.High))
	}
	switch {
	case word != "ahead":
	case r.Low <= 0:
		text += ", too close to call"
	default:
		text += ", though not clearly so in an evenly cut week"
	}
	return text
}

// Tenths is a figure with one decimal; what rounds to nothing is 0.
func Tenths(v float64) string {
	if v = math.Round(v*10) / 10; v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}
