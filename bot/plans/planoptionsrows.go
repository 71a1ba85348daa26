package plans

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
)

// lengthRows compares lengths, a row each.
func lengthRows(o *season.Options, today planner.Date) []say.Line {
	lines := []say.Line{say.Headingf("Compared with no taper, when each length cuts your riding by %s:", removed(plannedOption(o)))}
	var others []say.Line
	over, noRoom := []string{}, []string{}
	best := o.Preferred().Days
	for n := planner.MinTaperDays; n <= max(o.Days, best, shownLengths[len(shownLengths)-1]); n++ {
		if n != o.Days && n != best && !slices.Contains(shownLengths[:], n) {
			continue
		}
		k := slices.IndexFunc(o.Lengths, func(l season.Option) bool { return l.Days == n })
		switch {
		case k >= 0 && o.SameCut(&o.Lengths[k]):
			lines = append(lines, say.Linef("%s: %s", lengthName(&o.Lengths[k]), lengthGain(o, &o.Lengths[k])))
		case k >= 0:
			others = append(others, say.Linef("%s, cut by %s: %s", lengthName(&o.Lengths[k]), removed(&o.Lengths[k]), lengthGain(o, &o.Lengths[k])))
		case n > o.Days && o.Race.Date.AddDays(-n) < today:
			over = append(over, fmt.Sprint(n))
		default:
			noRoom = append(noRoom, fmt.Sprint(n))
		}
	}
	if o.Days < planner.MinTaperDays {
		lines = slices.Insert(lines, 1, say.Linef("%s: %s", lengthName(plannedOption(o)), lengthGain(o, plannedOption(o))))
	}
	if len(others) > 0 {
		lines = append(append(lines, say.Headingf("These lengths cut your riding by another amount, so do not compare them with the ones above:")), others...)
	}
	if len(over) > 0 {
		lines = append(lines, say.Linef("%s days are too long now: their first days are over.", say.OrList(over)))
	}
	if len(noRoom) > 0 {
		lines = append(lines, say.Linef("%s days do not fit: the A race before this one is too near.", say.OrList(noRoom)))
	}
	return lines
}

func lengthName(l *season.Option) string {
	if l.Planned {
		return show.Count(l.Days, "day") + ", planned"
	}
	return show.Count(l.Days, "day")
}

// lengthGain is what a length brings and what it does to the next race.
func lengthGain(o *season.Options, l *season.Option) string {
	if o.Next == nil {
		return show.Faster(l.Gain)
	}
	return fmt.Sprintf("%s, %s: %s", show.Faster(l.Gain), show.CutTo(o.Next.Name, mostRaceName), show.FasterBy(l.Next.Mid))
}

// removed is how much a taper leaves out, the same number wherever it stands.
func removed(l *season.Option) string { return fmt.Sprintf("%.0f %%", math.Max(0, l.Removed)) }

// blockRows compares lengths where a block of harder training comes before.
func blockRows(o *season.Options) []say.Line {
	lines := []say.Line{say.Headingf("After your training block, compared with the %s planned:", show.Count(o.Days, "day"))}
	for i := range o.AfterBlock {
		l := &o.AfterBlock[i]
		row := "planned"
		if !l.Planned {
			row = show.Faster(l.Gain)
		}
		lines = append(lines, say.Linef("%s: %s", show.Count(l.Days, "day"), row))
	}
	return append(lines, say.Linef("After a block allow %d days at least: its best taper is longer (Thomas & Busso 2005).", engine.BlockDays))
}

// nearCut is how many points a cut lies off the planned one at least to be shown.
const nearCut = 5

// cutRows compares cuts, a row each, by what really goes: cuts that come to the
// same, and those next to the planned one, have no row of their own.
func cutRows(o *season.Options) []say.Line {
	planned := &o.Cuts[slices.IndexFunc(o.Cuts, func(c season.Option) bool { return c.Planned })]
	lines := []say.Line{say.Headingf("%s with more or less riding, compared with the planned cut of %s:", show.Count(o.Days, "day"), removed(planned))}
	last := -1.0
	for i := range o.Cuts {
		c := &o.Cuts[i]
		if math.Abs(c.Removed-planned.Removed) < nearCut || last >= 0 && c.Removed-last < nearCut {
			continue
		}
		last = c.Removed
		lines = append(lines, say.Linef("Cut by %s: %s", removed(c), strings.TrimPrefix(show.Compared(c.Gain, "faster", "slower", "than planned"), "about ")))
	}
	if last < 0 {
		lines = []say.Line{say.Linef("Your rides leave no room for another cut than the planned %s.", removed(planned))}
	}
	if o.Inside != nil {
		lines = append(lines, say.Linef("%s lies inside your taper and counts as riding.", show.CutTo(o.Inside.Name, mostRaceName)))
	}
	return lines
}
