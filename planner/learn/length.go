package learn

import (
	"math"
)

// Lengths that are ever proposed, in days: the published range with the shortest
// and the longest of the table's (Bosquet et al. 2007: 8 to 14 days).
const (
	LeastDays, MostDays = 5, 14

	ordinary   = 1.2 // noise of a rider, for what a race would teach
	leastRaces = 3   // before which the table decides, however sure the sum is
)

// Length is the rider's own length of a taper, in whole days, where the table
// gives so many; the range holds 80 %.
type Length struct {
	Days, Low, High int
	Decides         bool // the range of days leaves out the table's length, after three races at least
}

// Length is what was learned of a race for which the table gives so many days.
func (l *Learned) Length(table int) Length {
	days := func(share float64) int {
		return int(math.Round(min(MostDays, max(LeastDays, share*float64(table)))))
	}
	out := Length{Days: days(l.Share.Mid), Low: days(l.Share.Low), High: days(l.Share.High)}
	out.Decides = l.Races >= leastRaces && out.Days != table && (out.Low > table || out.High < table)
	return out
}

// Sure is how much of the prior's uncertainty of the day is gone, 0 to 1.
func (l *Learned) Sure() float64 {
	return math.Max(0, 1-l.Day.SD/l.grid.none.Day.SD)
}

// Teaches is how much of what is unknown of the day, as a share of its variance,
// the legs of one more race are expected to tell, with loads that differ from usual so.
func (l *Learned) Teaches(change []float64) float64 {
	form := l.grid.form(change)
	noise := ordinary * ordinary * (legsSlope*legsSlope*dayLuck*dayLuck + legsNoise*legsNoise)
	known := 0.0 // of the rider's habit
	if l.legs > 0 {
		known = legsHabit2 * legsHabit2 / (legsHabit2*legsHabit2 + noise/float64(l.legs))
	}
	mean, both, own := 0.0, 0.0, 0.0
	for j, w := range l.weights {
		v := legsSlope * (form[j] - known*l.meanLegs[j])
		mean += w * l.size[j] * v
		both += w * l.size[j] * v * (l.grid.day[j] - l.Day.Mean)
		own += w * l.square[j] * v * v
	}
	own -= mean * mean
	return both * both / (l.Day.SD * l.Day.SD * (own + noise + legsHabit2*legsHabit2*(1-known)))
}

// Expects is by how many per cent performance in a race is believed to differ with
// loads that differ so from others.
func (l *Learned) Expects(change, than []float64) float64 {
	form, other := l.grid.form(change), l.grid.form(than)
	sum := 0.0
	for j := range form {
		sum += l.weights[j] * l.size[j] * (form[j] - other[j])
	}
	return sum
}
