package plans

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/season"
)

// shortRace is a race's name, with its day where another one is called the same.
func shortRace(f *planner.Facts, race *planner.Race) string {
	return namedWithin(f, race, show.MostName)
}

// briefRace is shortRace for the first answer, where several names share a line.
func briefRace(f *planner.Facts, race *planner.Race) string {
	return namedWithin(f, race, mostRaceName)
}

func namedWithin(f *planner.Facts, race *planner.Race, most int) string {
	name := show.CutTo(race.Name, most)
	for i := range f.Races {
		other := &f.Races[i]
		if apart := race.Date < other.Date || other.Last() < race.Date; apart && show.SameName(show.CutTo(other.Name, most), name) {
			if name != race.Name {
				name = show.CutTo(name, max(leastName, most-leastName))
			}
			return name + " (" + race.Date.Short() + ")"
		}
	}
	return name
}

// easierDays is what a B race has.
const easierDays = ", with a few easier days"

// changeText is what the best change does, as an order: it names the races that become B
// races, or those that stay A races where these are fewer.
func changeText(check *season.Check, f *planner.Facts) string {
	c, parts := check.Best, []string{}
	var names, kept []string
	for i := range check.Goals {
		r := check.Goals[i].Race
		if slices.ContainsFunc(c.ToB, r.Is) {
			names = append(names, briefRace(f, r))
		} else {
			kept = append(kept, briefRace(f, r))
		}
	}
	switch n := len(names); {
	case n == 1:
		parts = append(parts, "make "+names[0]+" a B race"+easierDays+" instead of a full taper")
	case n > mostNamed && len(kept) > 0 && len(kept) < n:
		parts = append(parts, fmt.Sprintf("keep %s as %s, and turn the other %d into B races%s each", say.AndList(kept), aRaces(len(kept)), n, easierDays))
	case n > 0:
		parts = append(parts, "turn "+say.AndList(names)+" into B races"+easierDays+" instead of full tapers")
	}
	if c.Automatic {
		parts = append(parts, "let the lengths of your tapers be automatic")
	}
	return strings.Join(parts, ", and ")
}

// fewNames lists a few names, of many two and how many more there are, of long ones
// one.
func fewNames(names []string) string {
	named := howMany(names)
	if more := len(names) - named; more > 0 {
		names = append(slices.Clone(names[:named]), show.Count(more, "other race"))
	}
	return say.AndList(names)
}

func howMany(names []string) int {
	named := len(names)
	if named > mostNamed {
		named = mostNamed - 1
	}
	for named > 1 && len(strings.Join(names[:named], "")) > mostList {
		named--
	}
	return named
}

// fewEffects is fewNames of effects; those that are not named keep their sizes.
func fewEffects(list []string, sizes []float64, terse bool) string {
	named := howMany(list)
	if len(list) <= mostEffects && len(strings.Join(list, "")) <= mostEffectList {
		named = len(list)
	}
	if terse {
		named = 1
	}
	if more := len(list) - named; more > 0 {
		list = append(slices.Clone(list[:named]), sizesText(sizes[named:])+inOthers(more))
	}
	return say.AndList(list)
}

// inOthers are the races that are not named.
func inOthers(n int) string {
	if n == 1 {
		return " in 1 other race"
	}
	return fmt.Sprintf(" in %d more races", n)
}

// sizesText are sizes of effects in per cent: 0.2 to 0.6 %.
func sizesText(sizes []float64) string {
	low, high := season.Tenths(slices.Min(sizes)), season.Tenths(slices.Max(sizes))
	if low == high {
		return low + " %"
	}
	return low + " to " + high + " %"
}

// raceEffect is by how many per cent something changes the performance in a race.
type raceEffect struct {
	name string
	mid  float64
	own  bool // of the race that is changed
}

// effectsText says effects in words: about 0.8 % faster in Third and 0.3 % in
// Second, and about 0.8 % slower in Hill Loop.
func effectsText(effects []raceEffect, terse bool) string {
	var same, parts []string
	for _, side := range []struct {
		word string
		sign float64
	}{{"faster", 1}, {"slower", -1}} {
		var list []string
		var sizes []float64
		for _, e := range effects {
			v := side.sign * e.mid
			if season.Tenths(v) == "0" || v < 0 {
				continue
			}
			text := fmt.Sprintf("%s %% in %s", season.Tenths(v), e.name)
			if len(list) == 0 {
				text = fmt.Sprintf("about %s %% %s in %s", season.Tenths(v), side.word, e.name)
			}
			list, sizes = append(list, text), append(sizes, v)
		}
		if len(list) > 0 {
			parts = append(parts, fewEffects(list, sizes, terse))
		}
	}
	for _, e := range effects {
		if season.Tenths(e.mid) == "0" {
			same = append(same, e.name)
		}
	}
	text := strings.Join(parts, ", but ")
	switch {
	case len(same) == 0:
		return text
	case text == "":
		return "about the same in " + fewNames(same)
	}
	return text + ", and about the same in " + fewNames(same)
}

// changeEffect is what a change, or its first step, brings and costs in the races that it
// touches, and in all.
func changeEffect(c *season.Check, change *season.Change, f *planner.Facts, room room) []string {
	var touched []raceEffect
	for _, e := range bySize(change.Effects) {
		own := slices.ContainsFunc(change.ToB, e.Race.Is)
		if !told(e.Change.Mid) && len(touched) > 0 && !own {
			continue // what stays about the same in other races is among the numbers
		}
		touched = append(touched, raceEffect{lettered(f, e.Race) + lessRest(change, &e), e.Change.Mid, own})
	}
	text := effectsText(touched, room > wide)
	if len(touched) > mostEffects && len(change.ToB) == 1 {
		own := briefRace(f, change.ToB[0]) + " itself"
		if room == narrowest {
			own = "that race"
		}
		text = othersAndOwn(touched, own, room)
	}
	lines := []string{"Compared with your plan now: " + text + "."}
	if len(touched) > 1 {
		mid := math.Round(10*show.Average(change.Total, c).Mid) / 10
		inAnHour := fmt.Sprintf(", or %.0f seconds in an hour", show.SecondsAnHour*mid)
		if room == narrowest {
			inAnHour = ""
		}
		lines = append(lines, fmt.Sprintf("On average over all your races: about %s %% less race time%s.", season.Tenths(mid), inAnHour))
	}
	return lines
}

// othersAndOwn says of one race made a B race what that does to many others in sum, then to itself.
func othersAndOwn(touched []raceEffect, own string, room room) string {
	var faster, slower []float64
	var parts, costs []string
	for _, e := range touched {
		switch {
		case e.own && !told(e.mid):
			costs = append(costs, "about the same in "+own)
		case e.own && e.mid < 0:
			costs = append(costs, fmt.Sprintf("about %s %% slower in %s", season.Tenths(-e.mid), own))
		case e.own:
			parts = append(parts, fmt.Sprintf("about %s %% faster in %s", season.Tenths(e.mid), own))
		case e.mid > 0:
			faster = append(faster, e.mid)
		default:
			slower = append(slower, -e.mid)
		}
	}
	if len(faster) > 0 {
		because := ", because you train more before them"
		if room == narrowest {
			because = ""
		}
		parts = append(parts, fmt.Sprintf("about %s faster in %s%s", sizesText(faster), show.Count(len(faster), "other race"), because))
	}
	if len(slower) > 0 {
		costs = append(costs, fmt.Sprintf("about %s slower in %s", sizesText(slower), show.Count(len(slower), "other race")))
	}
	if len(costs) > 0 {
		parts = append(parts, say.AndList(costs))
	}
	return strings.Join(parts, ", but ")
}

// lessRest says in brackets why a change that makes one race a B race makes the next
// one slower; "" where it does not.
func lessRest(c *season.Change, e *season.Effect) string {
	if len(c.ToB) != 1 || c.Automatic || e.Change.Mid >= 0 || season.Tenths(e.Change.Mid) == "0" {
		return ""
	}
	if after := c.ToB[0].Last().DaysUntil(e.Race.Date); 0 < after && after <= season.CarriedGap {
		return " (less rest before it)"
	}
	return ""
}

// bySize are the effects that can be told, the biggest first.
func bySize(effects []season.Effect) []season.Effect {
	out := slices.DeleteFunc(slices.Clone(effects), func(e season.Effect) bool {
		return show.FasterBy(e.Change.Mid) == show.FasterBy(0) && show.Faster(e.Change) == show.FasterBy(0)
	})
	slices.SortStableFunc(out, func(a, b season.Effect) int { return cmp.Compare(math.Abs(b.Change.Mid), math.Abs(a.Change.Mid)) })
	return out
}

const (
	mostSteps = 2   // races that may change in what is called one change
	mostBrief = 575 // characters of an answer but for its last two lines
)

const (
	keepAny   = "If one of them matters most to you, keep it as an A race."
	whyFaster = "Why: a full taper (days of less riding) leaves less training for the races after it."
	whyInside = "Why: a full taper (days of less riding) takes training away from a race inside it."
	whyBrief  = "Why: fewer full tapers leave more training."
	canUndo   = "You can undo the change."
)

// noneAfter reports that a change helps no race after those that lose their tapers.
func noneAfter(change *season.Change) bool {
	return !slices.ContainsFunc(change.Effects, func(e season.Effect) bool {
		return e.Change.Mid > 0 && slices.ContainsFunc(change.ToB, func(r *planner.Race) bool { return r.Date < e.Race.Date })
	})
}

// roomLeft is how many characters may still be said of so many.
func roomLeft(p *say.Page, most int) int {
	for _, l := range p.Done() {
		most -= utf8.RuneCountInString(l.Words()) + 1
	}
	return most
}

// roomKept is how many characters an answer that offers no change has before its last lines.
func roomKept(c *season.Check, block, rough string) int {
	most := mostReply - fits(lastLine(c, rough)) - fits("Show the numbers: /season check numbers:all")
	if block != "" {
		most -= fits(block + ".")
	}
	if crowd := crowded(c); crowd != "" {
		most -= fits("! " + crowd)
	}
	return most
}

// keepForNoOther is for a change that would help no race but the ones that lose their tapers.
func keepForNoOther(c *season.Check, f *planner.Facts) string {
	var names []string
	for _, r := range c.Best.ToB {
		names = append(names, briefRace(f, r))
	}
	return fmt.Sprintf("Keep your season as it is: giving up the taper for %s would help no other race.", fewNames(names))
}

// whereRoom adds, as far as there is room, why fewer tapers make a rider faster, that the rider
// knows better than a model which races matter, and that there is a way back.
func whereRoom(p *say.Page, c *season.Check, f *planner.Facts) {
	change := c.Best
	if step := firstStep(c); step != nil {
		change = step
	}
	if len(change.ToB) == 0 {
		return
	}
	own := keepAny
	switch len(change.ToB) {
	case 1:
		own = fmt.Sprintf("If %s matters most to you, keep it as an A race.", briefRace(f, change.ToB[0]))
	case 2:
		own = fmt.Sprintf("If %s or %s matters most to you, keep it as an A race and change only the other one.", briefRace(f, change.ToB[0]), briefRace(f, change.ToB[1]))
	}
	left, why := roomLeft(p, mostBrief), whyFaster
	if noneAfter(change) {
		why = whyInside
	}
	if left < fits(own)+fits(whyFaster)+fits(canUndo) {
		why = whyBrief
	}
	said := map[string]bool{}
	for _, line := range [...]string{own, why, canUndo} { // what matters most first
		if line == why && change != c.Best || left < fits(line) {
			continue // the effects of a step say why, where there is room
		}
		left, said[line] = left-fits(line), true
	}
	for _, line := range [...]string{why, own, canUndo} {
		if said[line] {
			p.Addf("%s", line)
		}
	}
}

// fits is the room that a line takes.
func fits(line string) int { return utf8.RuneCountInString(line) + 1 }

// firstStep is the one race to begin with, of a change of several; nil where all of it is one step.
func firstStep(c *season.Check) *season.Change {
	if !show.WorthIt(c) || len(c.Best.ToB) <= mostSteps || c.Best.Automatic || c.Best.Step == nil || !told(show.Average(c.Best.Step.Total, c).Mid) {
		return nil
	}
	return c.Best.Step
}

// wholeChange names all races of a change that begins with one of them.
func wholeChange(c *season.Check, f *planner.Facts) string {
	var toB, kept []string
	for i := range c.Goals {
		if r := c.Goals[i].Race; slices.ContainsFunc(c.Best.ToB, r.Is) {
			toB = append(toB, briefRace(f, r))
		} else {
			kept = append(kept, briefRace(f, r))
		}
	}
	text := fmt.Sprintf("The whole change: %s become B races, with a few easier days each.", say.AndList(toB))
	switch len(kept) {
	case 0:
	case 1:
		text += " " + kept[0] + " stays an A race."
	default:
		text += " " + say.AndList(kept) + " stay A races."
	}
	return text
}

// allAtOnce is the whole change, told by the races that stay A races or by the others, whichever are fewer, or in a
// terse answer by how many there are. Step by step a season need not get so far: once a race counts as a B race, the
// rest may not be worth it any more.
func allAtOnce(c *season.Check, f *planner.Facts, terse bool) string {
	var kept, others []string
	for i := range c.Goals {
		switch r := c.Goals[i].Race; {
		case c.Best.Step.ToB[0].Is(r):
		case slices.ContainsFunc(c.Best.ToB, r.Is):
			others = append(others, briefRace(f, r))
		default:
			kept = append(kept, briefRace(f, r))
		}
	}
	end := fmt.Sprintf("%s as B races too", fewNames(others))
	if len(kept) > 0 && len(kept) <= len(others) {
		end = fmt.Sprintf("full tapers for %s only", fewNames(kept))
	}
	if terse {
		end = "in all " + show.Count(len(c.Best.ToB), "B race")
	}
	return fmt.Sprintf("If you made all the changes (Show the numbers): %s, and about %s %% less race time on average, this step included.", end, season.Tenths(show.Average(c.Best.Total, c).Mid))
}

// blockDecides says of blocks without which the advice would be another one: a rider who asked before
// and told of a block since is told what changed, or in brief that it did. Both are "" where there are none.
func blockDecides(c *season.Check, all desk.Ledger, today planner.Date) (whole, brief string) {
	past := today.AddDays(-blockCounts)
	var blocks []planner.Block
	for _, b := range all.Now.Blocks {
		if b.To >= past && b.From < c.Goals[len(c.Goals)-1].Race.Date {
			blocks = append(blocks, b)
		}
	}
	if len(blocks) == 0 {
		return "", ""
	}
	bare := *all.All
	bare.Blocks = slices.DeleteFunc(slices.Clone(bare.Blocks), func(b planner.Block) bool { return b.To >= past })
	without := season.NewCheck(today, &bare)
	if without == nil || len(without.Goals) == 0 {
		return "", ""
	}
	advice := advises(without, all.Now)
	if advice == advises(c, all.Now) {
		return "", ""
	}
	if len(blocks) > 1 {
		return "That is because of your training blocks. Without them I would say: " + advice, "Without your training blocks I would say something else"
	}
	return fmt.Sprintf("That is because of your training block (%s). Without it I would say: %s", show.Span(blocks[0].From, blocks[0].To, today), advice),
		"Without your training block I would say something else"
}

// blockCounts is for how many days a block that is over is spoken of.
const blockCounts = 21

// advises is the order of a verdict in a few words.
func advises(c *season.Check, f *planner.Facts) string {
	if !show.WorthIt(c) {
		return "keep your season as it is"
	}
	if step := firstStep(c); step != nil {
		return "begin with " + briefRace(f, step.ToB[0]) + " as a B race"
	}
	if n := len(c.Best.ToB); n > mostSteps {
		return fmt.Sprintf("turn %d A races into B races", n)
	}
	text, _, _ := strings.Cut(changeText(c, f), easierDays)
	return text
}
