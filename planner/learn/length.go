package learn

import (
	"math"

	"musette/planner"
)

const ordinary = 1.2 // noise of a rider, for what a race would teach

// Taught is what was learned of the length of tapers, in whole per cent.
func (l *Learned) Taught() planner.Taught {
	percent := func(share float64) int {
		return min(planner.MaxTaught, max(planner.MinTaught, int(math.Round(100*share))))
	}
	return planner.Taught{Races: l.Races, Low: percent(l.Share.Low), Mid: percent(l.Share.Mid), High: percent(l.Share.High)}
}

// Length is what was learned of a race whose usual length is so many days.
func (l *Learned) Length(usual int) planner.OwnLength {
	taught := l.Taught()
	return taught.Length(usual)
}

// Sure is how much of the prior's uncertainty of the day is gone, 0 to 1.
func (l *Learned) Sure() float64 {
	return math.Max(0, 1-l.Day.SD/l.grid.none.Day.SD)
}

// teaches is how much of what is unknown of the day, as a share of its variance, the
// legs of one more race are expected to tell, by the form that its loads make.
func (l *Learned) teaches(form []float64) float64 {
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

// expects is by how many per cent performance in a race is believed to differ with one
// form from with another.
func (l *Learned) expects(form, other []float64) float64 {
	sum := 0.0
	for j := range form {
		sum += l.weights[j] * l.size[j] * (form[j] - other[j])
	}
	return sum
}
