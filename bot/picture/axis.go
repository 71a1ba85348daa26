package picture

import "math"

// scale maps values to pixels along one axis; from is drawn at pixel a, to at b.
type scale struct {
	from, to, a, b float64
	step           float64 // between ticks, a round number
}

func (s scale) at(v float64) float64 {
	return s.a + (v-s.from)/(s.to-s.from)*(s.b-s.a)
}

// ticks are the multiples of step within the scale.
func (s scale) ticks() []float64 {
	var out []float64
	for i := math.Ceil(s.from/s.step - 1e-9); i*s.step <= s.to+1e-9*s.step; i++ {
		out = append(out, i*s.step)
	}
	return out
}

// roundScale spans low to high in at most most steps of 1, 2 or 5 times a power
// of ten, both ends on a step.
func roundScale(low, high float64, most int, a, b float64) scale {
	if high-low < 1e-6 {
		high = low + 1
	}
	for power := math.Pow(10, math.Floor(math.Log10((high-low)/float64(most)))); ; power *= 10 {
		for _, m := range [...]float64{1, 2, 5} {
			step := m * power
			from, to := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
			if to-from <= float64(most) {
				return scale{from: from * step, to: to * step, step: step, a: a, b: b}
			}
		}
	}
}

// roundMinutes is a step of a clock that reaches top minutes in less than four.
func roundMinutes(top int) int {
	if top < 60 {
		return 15
	}
	for _, step := range [...]int{30, 60, 120, 180, 240, 360, 480} {
		if top < 4*step {
			return step
		}
	}
	return (top/4/60 + 1) * 60
}
