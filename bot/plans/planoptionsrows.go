package plans

import (
	"fmt"
	"math"
	"slices"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
	"musette/planner/season"
)

// lengthRows compares lengths with the planned one, a row each, also that which is offered.
func lengthRows(o *season.Options, offered *season.Option, today planner.Date) []say.Line {
	var same, others []say.Line
	over, noRoom := []string{}, []string{}
	best, other := modelChoice(o).Days, 0
	if offered != nil {
		other = offered.Days
	}
	for n := planner.MinTaperDays; n <= max(o.Days, best, shownLengths[len(shownLengths)-1]); n++ {
		if n == o.Days || n != best && n != other && !slices.Contains(shownLengths[:], n) {
			continue
		}
		k := slices.IndexFunc(o.Lengths, func(l season.Option) bool { return l.Days == n })
		switch {
		case k >= 0 && o.SameCut(&o.Lengths[k]):
			same = append(same, say.Linef("%s: %s", show.Count(n, "day"), lengthGain(o, &o.Lengths[k])))
		case k >= 0:
			others = append(others, say.Linef("%s, %s less than usual: %s", show.Count(n, "day"), removed(&o.Lengths[k]), lengthGain(o, &o.Lengths[k])))
		case n > o.Days && o.Race.Date.AddDays(-n) < today:
			over = append(over, fmt.Sprint(n))
		default:
			noRoom = append(noRoom, fmt.Sprint(n))
		}
	}
	var lines []say.Line
	with := "the planned " + show.Count(o.Days, "day")
	if len(same) > 0 {
		lines = append(append(lines, say.Headingf("Lengths with the same %s fewer hours than usual. In the race you would be faster or slower than with %s:", removed(plannedOption(o)), with)), same...)
	}
	if len(others) > 0 {
		lines = append(append(lines, say.Headingf("Other lengths, which also cut more or fewer hours. In the race you would be faster or slower than with %s and their %s fewer hours:", with, removed(plannedOption(o)))), others...)
	}
	if len(over) > 0 {
		lines = append(lines, say.Linef("%s days are too long now: their first days are over.", say.OrList(over)))
	}
	if len(noRoom) > 0 {
		lines = append(lines, say.Linef("There is no room for %s days: the A race before this one is too near.", say.OrList(noRoom)))
	}
	return lines
}

// lengthGain is what a length changes in this race and in the next one.
func lengthGain(o *season.Options, l *season.Option) string {
	if o.Next == nil {
		return differs(l.Here)
	}
	return fmt.Sprintf("%s, in %s %s", differs(l.Here), show.CutTo(o.Next.Name, mostRaceName), show.FasterBy(l.There.Mid))
}

// differs is by how much something is faster or slower, and of what may be either only that.
func differs(r response.Range) string {
	low, high := season.Tenths(-r.Low), season.Tenths(r.High)
	switch {
	case low == "0" && high == "0":
		return "no difference"
	case r.Low < 0 && r.High > 0 && low != "0" && high != "0":
		return fmt.Sprintf("unclear, %s %% slower to %s %% faster", low, high)
	}
	return show.Faster(r)
}

// removed is how much a taper leaves out, the same number everywhere.
func removed(l *season.Option) string { return fmt.Sprintf("%.0f %%", math.Max(0, l.Removed)) }

// blockRows compares lengths where a block of harder training comes before.
func blockRows(o *season.Options) []say.Line {
	lines := []say.Line{say.Headingf("After your training block. In the race you would be faster or slower than with the planned %s:", show.Count(o.Days, "day"))}
	for i := range o.AfterBlock {
		l := &o.AfterBlock[i]
		row := "planned"
		if !l.Planned {
			row = show.Faster(l.Gain)
		}
		lines = append(lines, say.Linef("%s: %s", show.Count(l.Days, "day"), row))
	}
	lines = append(lines, say.Linef("After a block the taper takes all days up to the race, %d at most, so no other length can be taken here. To change it, end the block on another day.", engine.BlockDays))
	if o.Days < engine.BlockDays {
		lines = append(lines, say.Linef("Next time leave %d days at least between a block and a race: after a block the best taper is longer. Source: Thomas & Busso 2005.", engine.BlockDays))
	}
	return lines
}

// nearCut is how many points a cut lies off the planned one at least to be shown.
const nearCut = 5

// cutRows compares cuts, a row each, by what really goes: cuts that come to the
// same, and those next to the planned one, have no row of their own.
func cutRows(o *season.Options) []say.Line {
	planned := &o.Cuts[slices.IndexFunc(o.Cuts, func(c season.Option) bool { return c.Planned })]
	lines := []say.Line{say.Headingf("The same %s with more or fewer hours of riding. In the race you would be faster or slower than with the planned %s less:", show.Count(o.Days, "day"), removed(planned))}
	last := -1.0
	for i := range o.Cuts {
		c := &o.Cuts[i]
		if math.Abs(c.Removed-planned.Removed) < nearCut || last >= 0 && c.Removed-last < nearCut {
			continue
		}
		last = c.Removed
		lines = append(lines, say.Linef("%s less than usual: %s", removed(c), differs(c.Gain)))
	}
	if last < 0 {
		lines = []say.Line{say.Linef("Your rides leave no room for another cut of your hours than the planned %s.", removed(planned))}
	}
	for i := range o.Inside {
		text := fmt.Sprintf("%s lies inside your taper and counts as riding.", show.CutTo(o.Inside[i].Race.Name, mostRaceName))
		if cost := show.InsideCost(&o.Inside[i]); cost != "" {
			text += fmt.Sprintf(" It makes you %s. The other figures do not count that.", cost)
		}
		lines = append(lines, say.Linef("%s", text))
	}
	return lines
}
