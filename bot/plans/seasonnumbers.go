package plans

import (
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/season"
)

// Of a long season so much is shown in numbers, in 25 lines at most.
const (
	mostGoals      = 5
	mostEffectRows = 4
	mostClashes    = 2
	mostTouched    = 2
)

// seasonNumbers are the figures behind a verdict, with their ranges and sources.
func seasonNumbers(p *say.Page, reply *say.Reply, c *season.Check, all desk.Ledger, today planner.Date) {
	f := all.Now
	p.Gap()
	if show.WorthIt(c) {
		p.Add(changeRows(c, f)...)
		p.Addf("%s%s", averageLine(c), stepAlone(c, f))
		p.Gap()
		p.Add(goalRows(c, f, today)...)
		p.Add(say.PlainLines(insideTapers(c, f, true)...)...)
		p.Add(say.PlainLines(notRidden(all, today)...)...)
		offerChange(p, reply, applyLabel(c), c.Best, f)
	} else {
		p.Add(goalRows(c, f, today)...)
		p.Add(say.PlainLines(insideTapers(c, f, true)...)...)
		p.Add(say.PlainLines(otherRaces(c, all, today)...)...)
		p.Add(say.PlainLines(notRidden(all, today)...)...)
		if len(c.Clashes) > 0 {
			p.Gap()
			p.Add(clashRows(c, f)...)
		}
	}
	p.Gap()
	p.Addf("%s The season is counted from %d weeks before its first race.", taperDays(c), season.LeadDays/7)
	p.Addf("%s %s %s", show.PerCent, show.Uncertain, show.SourcePerCent)
	p.Addf("Figures are rounded middles of many guesses, so they need not add up. Source: %s.", show.SourceModel)
	first := firstTapered(c)
	if told := f.RaceOf(first.Race); told != nil && first.Days > 0 && first.Race.Date > today {
		show.OfferRace(reply, p, "Taper lengths for "+briefRace(f, told), "plan options", told)
	} else if told != nil {
		p.Addf("The days: %s", show.RaceLink(f, told))
	}
}

// firstTapered is the first A race that the change leaves one, else the first.
func firstTapered(c *season.Check) *season.Goal {
	for i := range c.Goals {
		if !show.WorthIt(c) || !slices.ContainsFunc(c.Best.ToB, c.Goals[i].Race.Is) {
			return &c.Goals[i]
		}
	}
	return &c.Goals[0]
}

// goalRows are the A races to come with what the season's tapers bring them: the sum, then
// what their own brings and earlier ones cost. Then the other races that these touch.
func goalRows(c *season.Check, f *planner.Facts, today planner.Date) []say.Line {
	lines := []say.Line{say.Headingf("Expected in your A races now. It is what %s:", withTapers(c, true))}
	for i := range c.Goals {
		g := &c.Goals[i]
		if i == mostGoals {
			lines = append(lines, say.Linef("and %s: /race list", show.Count(len(c.Goals)-mostGoals, "more A race")))
			break
		}
		lines = append(lines, say.Linef("%s: %s%s", show.Named(briefRace(f, g.Race), g.Race, today), show.Faster(g.Net), ownAndBefore(g)))
	}
	lines = append(lines, touchedRows(c, f, today)...)
	if slices.ContainsFunc(c.Goals, func(g season.Goal) bool { return g.Before.Mid <= -roundsAway }) {
		lines = append(lines, say.Linef("A taper helps its own race, and costs later races something, because you train less in it."))
	}
	return lines
}

// touchedRows are the B and C races to come that tapers cost something.
func touchedRows(c *season.Check, f *planner.Facts, today planner.Date) []say.Line {
	var lines []say.Line
	for _, e := range c.Touched {
		if told(e.Change.Mid) {
			lines = append(lines, say.Linef("%s: %s, from tapers before it", show.Named(lettered(f, e.Race), e.Race, today), show.Faster(e.Change)))
		}
	}
	if more := len(lines) - mostTouched; more > 1 {
		lines = append(lines[:mostTouched], say.Linef("and %s", show.Count(more, "more B or C race")))
	}
	return lines
}

// roundsAway is less than any figure that is shown, per cent.
const roundsAway = 0.05

// ownAndBefore is what a race's own taper and those before it do to it.
func ownAndBefore(g *season.Goal) string {
	own, earlier := season.Tenths(g.Gain.Mid), g.Before.Mid
	switch cost := season.Tenths(earlier); {
	case g.Days == 0 && cost == "0":
		return ". It has no taper of its own"
	case g.Days == 0 && earlier < 0:
		return fmt.Sprintf(". It has no taper of its own, and earlier tapers cost it %s %%", season.Tenths(-earlier))
	case g.Days == 0:
		return fmt.Sprintf(". It has no taper of its own, and earlier tapers bring it %s %%", cost)
	case cost == "0":
		return ", by its own " + days(g.Days) + " taper"
	case earlier < 0:
		return fmt.Sprintf(". Its own %s taper brings %s %%, and earlier tapers cost %s %%", days(g.Days), own, season.Tenths(-earlier))
	default:
		return fmt.Sprintf(". Its own %s taper brings %s %%, and earlier tapers bring %s %%", days(g.Days), own, cost)
	}
}

// changeRows are the races that the change touches, compared with the plan now.
func changeRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("What %s is expected to do, compared with your plan now:", theChange(c))}
	touched := bySize(c.Best.Effects)
	slices.SortStableFunc(touched, func(a, b season.Effect) int { return int(a.Race.Date - b.Race.Date) })
	for i, e := range touched {
		if i == mostEffectRows {
			return append(lines, say.Linef("and %s", show.Count(len(touched)-mostEffectRows, "more race")))
		}
		lines = append(lines, say.Linef("%s: %s%s", lettered(f, e.Race), show.Faster(e.Change), newTaper(c, e.Race, e.Change.Mid)))
	}
	return lines
}

// newTaper is what taper a race has with the change, where it has another now.
func newTaper(c *season.Check, race *planner.Race, change float64) string {
	for _, t := range c.Best.Tapers {
		k := slices.IndexFunc(c.Goals, func(g season.Goal) bool { return g.Race.Is(race) })
		switch {
		case !t.Race.Is(race) || k < 0:
		case t.AsB && change < 0:
			return ", because a few easier days do only part of what its taper does"
		case t.AsB:
			return ", although it loses its full taper"
		case t.Days != c.Goals[k].Days:
			return fmt.Sprintf(", with %s before it", show.Count(t.Days, "taper day"))
		}
	}
	return ""
}

// days is a length before a noun: 9-day.
func days(n int) string { return fmt.Sprintf("%d-day", n) }

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Races close together, and what changes if one of them becomes a B race with a few easier days, compared with your plan now:")}
	for i, clash := range c.Clashes {
		if i == mostClashes {
			return append(lines, say.Linef("and %d more", len(c.Clashes)-mostClashes))
		}
		head := clashText(&clash, f)
		if clash.Carried {
			head += ", with little training between the two"
		}
		lines = append(lines, say.Linef("%s", head))
		for _, choice := range clash.Choices {
			other := clash.Second
			if choice.Race == other {
				other = clash.First
			}
			lines = append(lines, say.Linef("  %s as a B race: %s in it, %s in %s, on average over all your races %s", briefRace(f, choice.Race),
				show.FasterBy(choice.Own.Mid), show.FasterBy(choice.Other.Mid), briefRace(f, other), show.Faster(show.Average(choice.Total, c))))
		}
	}
	return lines
}

// averageLine is what the change brings over all races.
func averageLine(c *season.Check) string {
	return fmt.Sprintf("On average over all your races, %s makes you %s.%s", theChange(c), show.Compared(show.Average(c.Best.Total, c), "faster", "slower", "than your plan now"), weights(c))
}

// stepAlone says of a change of several races what the first one does by itself.
func stepAlone(c *season.Check, f *planner.Facts) string {
	step := firstStep(c)
	if step == nil {
		return ""
	}
	return fmt.Sprintf(" %s alone as a B race brings about %s %%.", briefRace(f, step.ToB[0]), season.Tenths(show.Average(step.Total, c).Mid))
}

// weights say how races count in an average, where they do not count alike.
func weights(c *season.Check) string {
	if c.Weight == season.WeightA*float64(len(c.Goals)) {
		return ""
	}
	return fmt.Sprintf(" In this average an A race counts as much as %.1f B races (each race by its letter now).", season.WeightA/season.WeightB)
}

func aRaces(n int) string {
	if n == 1 {
		return "an A race"
	}
	return "A races"
}

// theChange is how the figures call it.
func theChange(c *season.Check) string {
	if firstStep(c) != nil {
		return "the whole change"
	}
	return "the change"
}
