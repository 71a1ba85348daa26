package show

import (
	"math"

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
func WorthIt(c *season.Check) bool { return c.Best != nil && Worth(c.Best.Total, c) }
