package plans

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/response"
	"musette/planner/season"
)

// mostEffects are the races of which a change's effect is shown.
const mostEffects = 6

// mostHarm is what a change may cost on average, per cent, and still have a button.
const mostHarm = 0.5

// counted is how races count in an average.
const counted = "A counts 1, B 0.4 and C 0.1"

// average is what a sum over the season's races to come makes a race.
func average(sum response.Range, c *season.Check) response.Range { return over(sum, c.Weight) }

// over divides a sum over races by the sum of their weights.
func over(sum response.Range, weight float64) response.Range {
	if weight <= 0 {
		return sum
	}
	return response.Range{Low: sum.Low / weight, Mid: sum.Mid / weight, High: sum.High / weight}
}

// worthTelling reports a change that brings enough to be spoken of.
func worthTelling(c *season.Check) bool {
	return c.Best != nil && average(c.Best.Total, c).Mid >= season.WorthTelling
}

// seasonVerdict is what would be better, and by how much over all races.
func seasonVerdict(c *season.Check, f *planner.Facts) []string {
	if !worthTelling(c) {
		return []string{"Nothing better was found: your choice of A races and tapers is a good one."}
	}
	lead := "Better: "
	switch {
	case !c.Best.Sure:
		lead = "Perhaps better, but not clear: "
	case c.Best.Total.Low <= 0:
		lead = "Probably better: "
	}
	return []string{lead + changeText(c.Best, f) + ".",
		"Expected: " + show.Compared(average(c.Best.Total, c), "faster", "slower", "on average over your races") + ". In this average " + counted + "."}
}

// seasonMeant says what a season's days and an average are, where the verdict has not.
func seasonMeant(c *season.Check) string {
	text := "A season is counted from 12 weeks before its first race."
	if !worthTelling(c) && len(c.Goals) > 1 {
		text += " Over several races " + counted + "."
	}
	return text
}

// changeText is what a change does, as an order.
func changeText(c *season.Change, f *planner.Facts) string {
	var parts []string
	names := make([]string, len(c.ToB))
	for i, r := range c.ToB {
		names[i] = shortRace(f, r)
	}
	switch n := len(names); {
	case n == 1:
		parts = append(parts, "make "+names[0]+" a B race")
	case n > 3:
		parts = append(parts, "make "+numberWord(n)+" of them B races (named below)")
	case n > 0:
		parts = append(parts, "make "+say.AndList(names)+" B races")
	}
	if c.Automatic {
		parts = append(parts, "let the lengths be automatic")
	}
	return strings.Join(parts, " and ")
}

// addChange tells what the best change gives and does to each race, and offers
// it; one that costs much has no button.
func addChange(p *say.Page, reply *say.Reply, check *season.Check, f *planner.Facts) {
	c := check.Best
	p.Addf("Tapers then: %s.", tapersText(c.Tapers, f))
	p.Add(effectRows(c, f)...)
	options := applying(c, f)
	switch {
	case len(options[optionMakeB]) > maxRacesText:
	case average(c.Total, check).Mid < -mostHarm:
		p.Addf("If you want it all the same: %s", say.CommandLine("season apply", options))
	default:
		reply.Offer(p, "Apply it", "season apply", options)
	}
}

// effectRows are the changes that races see, the biggest first.
func effectRows(c *season.Change, f *planner.Facts) []say.Line {
	effects := slices.DeleteFunc(slices.Clone(c.Effects), func(e season.Effect) bool { return show.Difference(e.Change) == "0 %" })
	if len(effects) == 0 {
		return nil
	}
	slices.SortStableFunc(effects, func(a, b season.Effect) int {
		return cmp.Compare(math.Abs(b.Change.Mid), math.Abs(a.Change.Mid))
	})
	lines := []say.Line{say.Headingf("The change expected in each race (80 %% range):")}
	for i, e := range effects {
		if i == mostEffects {
			lines = append(lines, say.Linef("  and less in %d more", len(effects)-mostEffects))
			break
		}
		name := shortRace(f, e.Race)
		if slices.ContainsFunc(c.ToB, func(r *planner.Race) bool { return r.Name == e.Race.Name && r.Date == e.Race.Date }) {
			name += " itself"
		}
		lines = append(lines, say.Linef("  %s %s", name, show.Difference(e.Change)))
	}
	return lines
}

// tapersText tells what each A race would get, those with the same together.
func tapersText(tapers []season.Taper, f *planner.Facts) string {
	const asB = " half a week at most (B races)"
	var kinds []string
	names := map[string][]string{}
	for _, t := range tapers {
		kind := " " + show.Count(t.Days, "day")
		switch {
		case t.AsB:
			kind = asB
		case t.Days == 0:
			kind = " none"
		}
		if names[kind] == nil {
			kinds = append(kinds, kind)
		}
		names[kind] = append(names[kind], shortRace(f, t.Race))
	}
	for i, kind := range kinds {
		list := names[kind]
		if kind == asB && len(list) == 1 {
			kinds[i] = " half a week at most (B race)"
		}
		kinds[i] = say.AndList(list) + kinds[i]
	}
	return strings.Join(kinds, ", ")
}
