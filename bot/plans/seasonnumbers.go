package plans

import (
	"fmt"
	"math"
	"slices"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/season"
)

// Of a long season so much is shown in numbers, in 25 lines at most.
const (
	mostGoals   = 5
	mostClashes = 2
	mostEffects = 4
)

// seasonNumbers are the figures behind a verdict, with their ranges and sources.
func seasonNumbers(p *say.Page, reply *say.Reply, c *season.Check, f *planner.Facts, today planner.Date) {
	p.Gap()
	p.Add(goalRows(c, f, today)...)
	switch {
	case show.WorthIt(c):
		p.Gap()
		p.Add(effectRows(c, f)...)
		offerChange(p, reply, c.First, f)
	case len(c.Clashes) > 0:
		p.Gap()
		p.Add(clashRows(c, f)...)
	}
	p.Gap()
	p.Addf("%s The season is counted from %d weeks before its first race.", taperDays(c), season.LeadDays/7)
	p.Addf("%s %s", show.PerCent, show.Uncertain)
	p.Addf("Figures are rounded. Source: %s.", show.SourceModel)
	first := c.Goals[0]
	if told := f.RaceOf(first.Race); told != nil && first.Days > 0 && first.Race.Date > today {
		show.OfferRace(reply, p, "Taper lengths for "+briefRace(f, told), "plan options", told)
	} else if told != nil {
		p.Addf("The days: %s", show.RaceLink(f, told))
	}
}

// goalRows are the A races to come with what their tapers bring and cost.
func goalRows(c *season.Check, f *planner.Facts, today planner.Date) []say.Line {
	lines := []say.Line{say.Headingf("Expected with your plan as it is, compared with no taper at all:")}
	for i, g := range c.Goals {
		if i == mostGoals {
			lines = append(lines, say.Linef("and %d more: /race list", len(c.Goals)-mostGoals))
			break
		}
		head := fmt.Sprintf("%s, %s, ", briefRace(f, g.Race), show.Dated(g.Race.Date, today))
		switch {
		case g.Days == 0:
			lines = append(lines, say.Linef("%sno taper of its own: %s", head, show.Faster(g.Net)))
		case show.Faster(g.Net) == show.Faster(g.Gain):
			lines = append(lines, say.Linef("%s%s taper: %s", head, days(g.Days), show.Faster(g.Net)))
		default:
			lines = append(lines, say.Linef("%s%s taper: %s. %s", head, days(g.Days), show.Faster(g.Net), partsText(&g)))
		}
	}
	return append(lines, say.PlainLines(whyTaper(c, f)...)...)
}

// whyTaper says what a taper costs the races after it, and that a race which is slower
// for that reason is faster with its own taper than without it.
func whyTaper(c *season.Check, f *planner.Facts) []string {
	shown := c.Goals[:min(len(c.Goals), mostGoals)]
	if !slices.ContainsFunc(shown, func(g season.Goal) bool { return g.Days > 0 && season.Tenths(g.Net.Mid-g.Gain.Mid) != "0" }) {
		return nil
	}
	text := "Tapers cost the races after them something, because you train less in a taper."
	for _, g := range shown {
		if before := g.Net.Mid - g.Gain.Mid; g.Net.Mid < 0 && season.Tenths(g.Net.Mid) != "0" && g.Gain.Mid > 0 {
			return []string{fmt.Sprintf("%s %s is slower because of the tapers before it. Its own taper helps: without that it would be %s.", text, briefRace(f, g.Race), show.FasterBy(before))}
		}
	}
	return []string{text}
}

// days is a length before a noun: 9-day.
func days(n int) string { return fmt.Sprintf("%d-day", n) }

// partsText is what a race's own taper and earlier ones do in it.
func partsText(g *season.Goal) string {
	return fmt.Sprintf("By its own taper: %s. By the tapers of the races before it: %s", show.FasterBy(g.Gain.Mid), show.FasterBy(g.Net.Mid-g.Gain.Mid))
}

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Races close together, and what a B race in their place would change:")}
	for i, clash := range c.Clashes {
		if i == mostClashes {
			return append(lines, say.Linef("and %d more", len(c.Clashes)-mostClashes))
		}
		head := clashText(&clash, f)
		if clash.Carried {
			head += ", too close for a second taper"
		}
		lines = append(lines, say.Linef("%s", head))
		for _, choice := range clash.Choices {
			other := clash.Second
			if choice.Race == other {
				other = clash.First
			}
			lines = append(lines, say.Linef("  %s as a B race: %s in it, %s in %s, on average over all races %s", briefRace(f, choice.Race),
				show.FasterBy(choice.Own.Mid), show.FasterBy(choice.Other.Mid), briefRace(f, other), show.Faster(show.Average(choice.Total, c))))
		}
	}
	return lines
}

// effectRows are what the change does to races, the biggest first, and the tapers that it leaves.
func effectRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Expected with the change, compared with your plan as it is:"),
		say.Linef("On average over all your races (A races count most): %s", show.Faster(show.Average(c.First.Total, c)))}
	effects := bySize(c.First.Effects)
	for i, e := range effects {
		if i == mostEffects {
			lines = append(lines, say.Linef("and %s", restText(effects[mostEffects:])))
			break
		}
		lines = append(lines, say.Linef("%s: %s%s", briefRace(f, e.Race), show.Faster(e.Change), stillFaster(c, &e)))
	}
	lines = append(lines, say.Linef("Then you would have %s.", tapersText(c.First.Tapers, f)))
	if len(c.Best.ToB) > len(c.First.ToB) {
		var rest []string
		for _, r := range c.Best.ToB {
			if !slices.Contains(c.First.ToB, r) {
				rest = append(rest, briefRace(f, r))
			}
		}
		lines = append(lines, say.Linef("Then ask again: with %s as %s too, all changes together would make you %s on average over all your races.", fewNames(rest), bRaces(len(rest)), show.Faster(show.Average(c.Best.Total, c))))
	}
	return lines
}

// restText is what a change does to races that are not named, those with the smallest effects.
func restText(effects []season.Effect) string {
	races := show.Count(len(effects), "other race")
	var sizes []float64
	faster := 0
	for _, e := range effects {
		sizes = append(sizes, math.Abs(e.Change.Mid))
		if e.Change.Mid > 0 {
			faster++
		}
	}
	word := "faster or slower"
	switch faster {
	case len(effects):
		word = "faster"
	case 0:
		word = "slower"
	}
	return fmt.Sprintf("%s: %s %s", races, sizesText(sizes), word)
}

// stillFaster says of the race that becomes a B race what its easier days still bring.
func stillFaster(c *season.Check, e *season.Effect) string {
	if len(c.First.ToB) != 1 || !e.Race.Is(c.First.ToB[0]) || e.Change.Mid >= 0 {
		return ""
	}
	for _, g := range c.Goals {
		if left := (math.Round(10*g.Net.Mid) + math.Round(10*e.Change.Mid)) / 10; g.Race.Is(e.Race) && g.Days > 0 && left > 0 && season.Tenths(left) != "0" {
			return fmt.Sprintf(". It keeps a few easier days, and with these it is still %s than without any taper", show.FasterBy(left))
		}
	}
	return ""
}

func bRaces(n int) string {
	if n == 1 {
		return "a B race"
	}
	return "B races"
}
