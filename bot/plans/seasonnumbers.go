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
)

// seasonNumbers are the figures behind a verdict, with their ranges and sources.
func seasonNumbers(p *say.Page, reply *say.Reply, c *season.Check, f *planner.Facts, today planner.Date) {
	p.Gap()
	p.Add(goalRows(c, f, today)...)
	p.Add(ownRows(c, f)...)
	switch {
	case show.WorthIt(c):
		p.Gap()
		p.Add(say.PlainLines(averageLines(c, f)...)...)
		offerChange(p, reply, c.First, f)
	case len(c.Clashes) > 0:
		p.Gap()
		p.Add(clashRows(c, f)...)
	}
	p.Gap()
	p.Addf("%s The season is counted from %d weeks before its first race.", taperDays(c), season.LeadDays/7)
	p.Addf("%s %s", show.PerCent, show.Uncertain)
	p.Addf("Figures are rounded. Source: %s.", show.SourceModel)
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
		if !show.WorthIt(c) || !slices.ContainsFunc(c.First.ToB, c.Goals[i].Race.Is) {
			return &c.Goals[i]
		}
	}
	return &c.Goals[0]
}

// goalRows are the A races to come with what the season's tapers bring them in sum, now
// and with the change, all compared with the same: a season without any taper.
func goalRows(c *season.Check, f *planner.Facts, today planner.Date) []say.Line {
	lines := []say.Line{say.Headingf("Expected, all compared with a season without any taper:")}
	for i := range c.Goals {
		g := &c.Goals[i]
		if i == mostGoals {
			lines = append(lines, say.Linef("and %d more: /race list", len(c.Goals)-mostGoals))
			break
		}
		row := fmt.Sprintf("%s, %s: ", briefRace(f, g.Race), show.Dated(g.Race.Date, today))
		if show.WorthIt(c) {
			lines = append(lines, say.Linef("%snow %s, with the change %s%s", row, show.Faster(g.Net), show.FasterBy(changed(c, g)), newTaper(c, g)))
		} else {
			lines = append(lines, say.Linef("%s%s", row, show.Faster(g.Net)))
		}
	}
	return lines
}

// changed is what tapers bring a race with the change, as the rounded figures have it.
func changed(c *season.Check, g *season.Goal) float64 {
	for _, e := range c.First.Effects {
		if e.Race.Is(g.Race) {
			return (math.Round(10*g.Net.Mid) + math.Round(10*e.Change.Mid)) / 10
		}
	}
	return g.Net.Mid
}

// newTaper is what taper a race has with the change, in brackets, where it has another now.
func newTaper(c *season.Check, g *season.Goal) string {
	for _, t := range c.First.Tapers {
		switch {
		case !t.Race.Is(g.Race):
		case t.AsB:
			return " (only a few easier days)"
		case t.Days != g.Days:
			return fmt.Sprintf(" (%s)", show.Count(t.Days, "taper day"))
		}
	}
	return ""
}

// ownRows part what tapers bring a race into what its own does, and those before it.
func ownRows(c *season.Check, f *planner.Facts) []say.Line {
	var lines []say.Line
	for i := range c.Goals[:min(len(c.Goals), mostGoals)] {
		g := &c.Goals[i]
		own, net := math.Round(10*g.Gain.Mid)/10, math.Round(10*g.Net.Mid)/10
		before := show.FasterBy(net - own)
		switch {
		case g.Days == 0 && season.Tenths(net) == "0":
		case g.Days == 0:
			lines = append(lines, say.Linef("%s: no taper of its own, %s by the tapers before it", briefRace(f, g.Race), show.FasterBy(net)))
		case season.Tenths(net-own) == "0":
			lines = append(lines, say.Linef("%s: %s by its own %s taper", briefRace(f, g.Race), show.FasterBy(own), days(g.Days)))
		default:
			lines = append(lines, say.Linef("%s: %s by its own %s taper, %s by the tapers before it", briefRace(f, g.Race), show.FasterBy(own), days(g.Days), before))
		}
	}
	if len(lines) > 0 {
		lines = slices.Insert(lines, 0, say.Headingf("Where that comes from now (each taper helps its race, and costs later ones some training):"))
	}
	return lines
}

// days is a length before a noun: 9-day.
func days(n int) string { return fmt.Sprintf("%d-day", n) }

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Races close together. What a B race in their place would change, compared with your plan now:")}
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

// averageLines are what the change brings over all races, and what more would.
func averageLines(c *season.Check, f *planner.Facts) []string {
	lines := []string{fmt.Sprintf("On average over all your races, the change makes you %s.%s", show.Compared(show.Average(c.First.Total, c), "faster", "slower", "than your plan now"), weights(c))}
	var others []raceEffect
	for _, e := range bySize(c.First.Effects) {
		if e.Race.Priority != planner.PriorityA {
			others = append(others, raceEffect{briefRace(f, e.Race), e.Change.Mid})
		}
	}
	if len(others) > 0 {
		lines = append(lines, fmt.Sprintf("In races that are no A races, compared with your plan now: %s.", effectsText(others)))
	}
	if len(c.Best.ToB) > len(c.First.ToB) {
		var rest []string
		for _, r := range c.Best.ToB {
			if !slices.Contains(c.First.ToB, r) {
				rest = append(rest, briefRace(f, r))
			}
		}
		lines = append(lines, fmt.Sprintf("With %s made %s too, it would be %s in total. Apply the first change, then type /season check again.", fewNames(rest), bRaces(len(rest)), show.Faster(show.Average(c.Best.Total, c))))
	}
	return lines
}

// weights say how races count in an average, where they do not count alike.
func weights(c *season.Check) string {
	if c.Weight == season.WeightA*float64(len(c.Goals)) {
		return ""
	}
	return fmt.Sprintf(" In that an A race counts as much as %.1f B races.", season.WeightA/season.WeightB)
}

func bRaces(n int) string {
	if n == 1 {
		return "a B race"
	}
	return "B races"
}
