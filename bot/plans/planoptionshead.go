package plans

import (
	"fmt"
	"math"
	"slices"

	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
)

// optionsHead is what is planned, why and what the model would choose, then what that
// does to this race and to the next one.
func optionsHead(o *season.Options, taper *engine.Taper, f *planner.Facts, today planner.Date) []string {
	name := fmt.Sprintf("%s %s: ", show.RaceName(o.Race), show.Lettered(o.Race, today))
	if taper.Length == planner.LengthTold {
		name += daysAre(o.Days) + " planned"
	} else {
		name += "keep the planned " + show.Count(o.Days, "day")
	}
	planned := plannedOption(o)
	lines := []string{fmt.Sprintf("%s, because %s%s.", name, because(taper, f), modelAside(o, taper)),
		fmt.Sprintf("Expected in this race: %s.", show.Compared(planned.Gain, "faster", "slower", "than without a taper for it"))}
	if o.Next != nil {
		lines = append(lines, nextPays(o, planned, today))
	}
	if n := o.Race.Date.AddDays(-o.Days).DaysUntil(today); n > 0 {
		lines = append(lines, fmt.Sprintf("Its first %s over and count as planned. Other lengths differ from today on.", daysAre(n)))
	}
	return append(lines, fmt.Sprintf("In the planned taper you ride %s fewer hours than usual.", removed(planned)))
}

// nextPays is what the planned taper costs the next race, and that a longer one, which
// brings more in this race, costs as much there.
func nextPays(o *season.Options, planned *season.Option, today planner.Date) string {
	without := "than without this taper"
	if o.Race.Date.AddDays(-o.Days) < today {
		without = "than without the rest of this taper"
	}
	text := fmt.Sprintf("In %s %s: %s", show.RaceName(o.Next), show.Lettered(o.Next, today), show.Compared(planned.Next, "faster", "slower", without))
	if season.Tenths(planned.Next.Mid) != "0" && planned.Next.Mid < 0 {
		text += ", because you train less in a taper"
	}
	if k := slices.IndexFunc(o.Lengths, func(l season.Option) bool {
		return l.Days > o.Days && o.Compares(&l) && l.Here.Mid >= roundsAway && l.Here.Low >= 0 && -l.There.Mid >= l.Here.Mid
	}); k >= 0 && modelChoice(o).Planned {
		text += fmt.Sprintf(". %s would help a little in this race, but cost as much or more in %s", show.Count(o.Lengths[k].Days, "day"), show.CutTo(o.Next.Name, mostRaceName))
	}
	return text + "."
}

// clearlyAhead is by how many per cent the model's choice must be ahead over all races to
// be named, as much as a change of the season is worth.
const clearlyAhead = 0.3

// modelChoice is the length that the model would choose, the planned one where that is hardly behind.
func modelChoice(o *season.Options) *season.Option {
	if best := o.Preferred(); math.Round(10*best.Ahead.Mid) >= 10*clearlyAhead {
		return best
	}
	return plannedOption(o)
}

// modelAside is what the model would choose, as the end of a sentence, and why that
// decides nothing.
func modelAside(o *season.Options, taper *engine.Taper) string {
	best, over := modelChoice(o), ""
	if o.Next != nil {
		over = " over all your races"
	}
	switch {
	case taper.Length == planner.LengthBlock:
		return afterBlock(o)
	case best.Planned && unfair(o):
		return ", and a training model cannot say if another length is better, as each one here also cuts more of your hours"
	case best.Planned:
		return ", and a training model finds no length that is clearly better" + over
	case taper.Length == planner.LengthOwn:
		return fmt.Sprintf(", and a training model, which would choose %d, does not know your results", best.Days)
	case taper.Length == planner.LengthTold:
		return fmt.Sprintf(", although a training model would choose %d", best.Days)
	}
	return fmt.Sprintf(". A training model expects a little more of %d, but it is too rough to change your plan", best.Days)
}

// afterBlock is what the model for tapers after a block would choose of those that fit.
func afterBlock(o *season.Options) string {
	var best *season.Option
	for i := range o.AfterBlock {
		if l := &o.AfterBlock[i]; !l.Planned && (best == nil || l.Gain.Mid > best.Gain.Mid) {
			best = l
		}
	}
	switch {
	case best == nil:
		return ""
	case math.Round(10*best.Gain.Mid) >= 10*clearlyAhead:
		return fmt.Sprintf(", although a training model would choose %d", best.Days)
	}
	return ", and a training model finds no length that is clearly better"
}

// unfair reports lengths that all cut more hours than the planned one, of which one is ahead by that.
func unfair(o *season.Options) bool {
	ahead := false
	for i := range o.Lengths {
		l := &o.Lengths[i]
		if !l.Planned && o.Compares(l) {
			return false
		}
		ahead = ahead || l.Days > 0 && math.Round(10*l.Ahead.Mid) >= 10*clearlyAhead
	}
	return ahead
}

// because is why a taper has its length, as the end of a sentence.
func because(t *engine.Taper, f *planner.Facts) string {
	switch t.Length {
	case planner.LengthTold:
		return "you set it so"
	case planner.LengthClose:
		return "a longer taper would leave too little training " + closeRace(t.Race, f)
	case planner.LengthBlock:
		return "a block of harder training comes before it"
	case planner.LengthLate:
		return "no more were left when you registered the race"
	case planner.LengthAfterRace:
		return "the A race before it leaves no more"
	case planner.LengthOwn:
		return fmt.Sprintf("your last %s say so", show.Count(t.Own.Races, "race"))
	case planner.LengthLost:
		return "it begins just before days on which you cannot ride"
	}
	return "that is usual for " + show.UsualFor(t.WeekHours, t.Race)
}

// closeRace is the A race nearest to another one, and how near it is.
func closeRace(race *planner.Race, f *planner.Facts) string {
	least, text := engine.CloseGap+1, fmt.Sprintf("with another A race within %d days", engine.CloseGap)
	for i := range f.Races {
		other := &f.Races[i]
		if other.Priority != planner.PriorityA || !other.Status.Counts() || other.Is(race) {
			continue
		}
		name := show.CutTo(other.Name, mostRaceName)
		if n := other.Last().DaysUntil(race.Date); 0 < n && n < least {
			least, text = n, fmt.Sprintf("in the %s since %s", show.Count(n, "day"), name)
		}
		if n := race.Last().DaysUntil(other.Date); 0 < n && n < least {
			least, text = n, fmt.Sprintf("for %s, %s later", name, show.Count(n, "day"))
		}
	}
	return text
}
