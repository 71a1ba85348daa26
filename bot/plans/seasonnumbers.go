package plans

import (
	"fmt"
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
	case worthIt(c):
		p.Gap()
		p.Add(effectRows(c, f)...)
		offerChange(p, reply, c.First, f)
	case len(c.Clashes) > 0:
		p.Gap()
		p.Add(clashRows(c, f)...)
	}
	p.Gap()
	p.Addf("Taper days: %d of the season's %d, which begins %d weeks before its first race.", c.TaperDays, c.SeasonDays, season.LeadDays/7)
	p.Addf("%s %s", show.PerCent, show.Uncertain)
	p.Addf("Source: %s, all races at once. Size of gains: %s. Figures are rounded.", show.SourceLengths, show.SourceSize)
	first := c.Goals[0]
	if told := f.RaceOf(first.Race); told != nil && first.Days > 0 && first.Race.Date > today {
		show.OfferRace(reply, p, "Compare lengths", "plan options", told)
	} else if told != nil {
		p.Addf("The days: %s", show.RaceLink(f, told))
	}
}

// goalRows are the A races to come with what their tapers bring and cost.
func goalRows(c *season.Check, f *planner.Facts, today planner.Date) []say.Line {
	lines := []say.Line{say.Headingf("Expected with your plan as it is, compared with no taper at all:")}
	for i, g := range c.Goals {
		if i == mostGoals {
			return append(lines, say.Linef("and %d more: /race list", len(c.Goals)-mostGoals))
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
	return lines
}

// days is a length before a noun: 9-day.
func days(n int) string { return fmt.Sprintf("%d-day", n) }

// partsText is what a race's own taper and earlier ones do in it.
func partsText(g *season.Goal) string {
	return fmt.Sprintf("Its own taper alone: %s. Earlier tapers: %s", show.FasterBy(g.Gain.Mid), show.FasterBy(g.Net.Mid-g.Gain.Mid))
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
				show.FasterBy(choice.Own.Mid), show.FasterBy(choice.Other.Mid), briefRace(f, other), show.Faster(average(choice.Total, c))))
		}
	}
	return lines
}

// effectRows are what the change does to races, the biggest first, and the tapers that it leaves.
func effectRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Expected with the change, compared with your plan as it is:"),
		say.Linef("On average over all races (an A race counts %g, a B race %g, a C race %g): %s", season.WeightA, season.WeightB, season.WeightC, show.Faster(average(c.First.Total, c)))}
	effects := bySize(c.First.Effects)
	for i, e := range effects {
		if i == mostEffects {
			lines = append(lines, say.Linef("and a smaller change in %s", show.Count(len(effects)-mostEffects, "other race")))
			break
		}
		lines = append(lines, say.Linef("%s: %s", briefRace(f, e.Race), show.Faster(e.Change)))
	}
	lines = append(lines, say.Linef("Tapers then: %s.", tapersText(c.First.Tapers, f)))
	if len(c.Best.ToB) > len(c.First.ToB) {
		var rest []string
		for _, r := range c.Best.ToB {
			if !slices.Contains(c.First.ToB, r) {
				rest = append(rest, briefRace(f, r))
			}
		}
		lines = append(lines, say.Linef("Ask again after it: with %s as %s too you would be %s on average over all races.", say.AndList(rest), bRaces(len(rest)), show.Faster(average(c.Best.Total, c))))
	}
	return lines
}

func bRaces(n int) string {
	if n == 1 {
		return "a B race"
	}
	return "B races"
}
