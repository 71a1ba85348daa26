package response

import (
	"math"
	"slices"
)

// Range is what is expected of an uncertain figure: its 10 %, 50 % and 90 %
// quantiles, so that Low to High holds 80 % of what is plausible.
type Range struct {
	Low, Mid, High float64
}

// RangeOf is the range of equally likely values, of which there is at least one. It sorts them.
func RangeOf(values []float64) Range {
	slices.Sort(values)
	return Range{Low: quantile(values, 0.1), Mid: quantile(values, 0.5), High: quantile(values, 0.9)}
}

// Clear reports whether the middle half of equally likely differences is above
// zero: fewer than a quarter of them are not.
func Clear(differences []float64) bool {
	not := 0
	for _, d := range differences {
		if d <= 0 {
			not++
		}
	}
	return 4*not < len(differences)
}

// quantile of ascending values, linear between them.
func quantile(sorted []float64, q float64) float64 {
	at := q * float64(len(sorted)-1)
	i := int(math.Floor(at))
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// normal is the quantile function of the standard normal distribution.
func normal(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
