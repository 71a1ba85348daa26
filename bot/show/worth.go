package show

import (
	"math"
	"slices"

	"musette/planner/response"
	"musette/planner/season"
)

// leastWorth is what a change of a season brings at least to be worth it, in tenths of a
// per cent on average over all races, as it is shown.
const leastWorth = 3

// Average is what a sum over the season's races to come makes a race.
func Average(sum response.Range, c *season.Check) response.Range {
	if c.Weight <= 0 {
		return sum
	}
	return response.Range{Low: sum.Low / c.Weight, Mid: sum.Mid / c.Weight, High: sum.High / c.Weight}
}

// Worth reports a sum that is worth the trouble of a change.
func Worth(sum response.Range, c *season.Check) bool {
	return math.Round(10*Average(sum, c).Mid) >= leastWorth
}

// WorthIt reports a change of the season that is worth its trouble.
func WorthIt(c *season.Check) bool {
	return c.Best != nil && Worth(c.Best.Total, c) && !HelpsItselfAlone(c)
}

// HelpsItselfAlone reports a best change of which only the races gain that lose their tapers. The
// linear model wants rest before a race and does not see what a taper keeps hard minutes for:
// that is no reason to race without one.
func HelpsItselfAlone(c *season.Check) bool {
	if c.Best == nil || c.Best.Automatic {
		return false
	}
	own, others := gains(c.Best)
	if step := c.Best.Step; step != nil {
		_, more := gains(step)
		others = max(others, more)
	}
	return own > 0 && (others <= 0 || season.Tenths(others/c.Weight) == "0")
}

// gains are what a change brings the races that it makes B races, and the others.
func gains(change *season.Change) (own, others float64) {
	for _, e := range change.Effects {
		if v := season.Weight(e.Race) * e.Change.Mid; slices.ContainsFunc(change.ToB, e.Race.Is) {
			own += v
		} else {
			others += v
		}
	}
	return own, others
}
