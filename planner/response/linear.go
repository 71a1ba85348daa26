package response

import "math"

// Linear is the linear impulse-response model: fitness g and fatigue h each
// gather the daily loads and decay exponentially, and performance is
// P0 + K1 g - K2 h (Calvert et al. 1976; Banister 1991; Morton et al. 1990).
// Tau1 and Tau2 are in days. The closed forms want Tau1 > Tau2 > 0,
// K1 > 0 and K2 > K1, and are NaN or meaningless else.
type Linear struct {
	Tau1, Tau2 float64 // time constants of fitness and fatigue, days
	K1, K2     float64 // performance per unit of fitness and of fatigue
	P0         float64 // performance without training
}

// Classic is the parameter set of Morton, Fitz-Clarke and Banister 1990 (from memory).
var Classic = Linear{Tau1: 45, Tau2: 15, K1: 1, K2: 2}

// State is fitness and fatigue in the evening of a day, in the unit of the loads.
type State struct {
	Fitness, Fatigue float64
}

// Steady is the evening state after endless days of the same load.
func (m Linear) Steady(load float64) State {
	return State{Fitness: load / -math.Expm1(-1/m.Tau1), Fatigue: load / -math.Expm1(-1/m.Tau2)}
}

// Evening is the state after one more day of the given load.
func (m Linear) Evening(before State, load float64) State {
	s := m.Morning(before)
	return State{Fitness: s.Fitness + load, Fatigue: s.Fatigue + load}
}

// Follow is the evening state after days of the given loads, oldest first.
func (m Linear) Follow(before State, loads []float64) State {
	decay1, decay2 := math.Exp(-1/m.Tau1), math.Exp(-1/m.Tau2)
	for _, load := range loads {
		before.Fitness, before.Fatigue = before.Fitness*decay1+load, before.Fatigue*decay2+load
	}
	return before
}

// Morning is what is left of an evening's state on the next morning, before any load.
func (m Linear) Morning(evening State) State {
	return State{Fitness: evening.Fitness * math.Exp(-1/m.Tau1), Fatigue: evening.Fatigue * math.Exp(-1/m.Tau2)}
}

// Performance is P0 + K1 fitness - K2 fatigue, in the unit of P0.
func (m Linear) Performance(s State) float64 { return m.P0 + m.K1*s.Fitness - m.K2*s.Fatigue }

// Influence is the performance on race morning of one unit of load u days
// before it (Fitz-Clarke et al. 1991). At 0 the load counts as ridden that day.
func (m Linear) Influence(u float64) float64 {
	return m.K1*math.Exp(-u/m.Tau1) - m.K2*math.Exp(-u/m.Tau2)
}

// span is the time in which the two exponentials part by a factor of e, days.
func (m Linear) span() float64 { return m.Tau1 * m.Tau2 / (m.Tau1 - m.Tau2) }

// TurnsHarmful is the time before a race, in days, inside which a load lowers
// its performance: t_n of Fitz-Clarke et al. 1991.
func (m Linear) TurnsHarmful() float64 { return m.span() * math.Log(m.K2/m.K1) }

// HelpsMost is the time before a race, in days, at which a load helps most: t_g.
func (m Linear) HelpsMost() float64 { return m.span() * math.Log(m.K2*m.Tau1/(m.K1*m.Tau2)) }

// TurnsHarmfulBeforeTwo is the time before the first of two races of equal
// weight, gap days apart, inside which a load lowers the sum of both performances.
func (m Linear) TurnsHarmfulBeforeTwo(gap float64) float64 {
	return m.span() * math.Log(m.K2/m.K1*(1+math.Exp(-gap/m.Tau2))/(1+math.Exp(-gap/m.Tau1)))
}

// BestRest is how long after an evening's state performance is highest if
// nothing is ridden from there on, in days, not whole ones; from a steady state
// it is a little more than TurnsHarmful. 0 where rest only costs.
func (m Linear) BestRest(s State) float64 {
	return math.Max(0, m.span()*math.Log(m.K2*s.Fatigue*m.Tau1/(m.K1*s.Fitness*m.Tau2)))
}
