package response

import "math"

// Variable is the variable-dose model: fitness gathers and decays as in Linear,
// but a day's load tires in proportion to what was ridden of late, itself
// included (Busso 2003, Med Sci Sports Exerc 35:1188). Performance is
// P0 + K1 fitness - K3 fatigue, so a steady load can be too high, and a taper can cut too
// much. The constants are above 0; Tau1 > Tau2 where a taper is to help.
type Variable struct {
	Tau1, Tau2, Tau3 float64 // time constants of fitness, fatigue and recent load, days
	K1               float64 // performance per unit of fitness
	K3               float64 // performance per unit of fatigue, a squared load
	P0               float64 // performance without training
}

// Busso2003 has the means over the six untrained men of Busso 2003, in that
// study's units of load; P0 is left at 0.
var Busso2003 = Variable{Tau1: 30.8, Tau2: 16.8, Tau3: 2.3, K1: 0.031, K3: 0.000035}

// VariableState is the state in the evening of a day. Fitness and Recent, the
// load of late, are in the unit of the loads, Fatigue is in its square.
type VariableState struct {
	Fitness, Fatigue, Recent float64
}

// Steady is the evening state after endless days of the same load.
func (m Variable) Steady(load float64) VariableState {
	recent := load / -math.Expm1(-1/m.Tau3)
	return VariableState{Fitness: load / -math.Expm1(-1/m.Tau1), Fatigue: recent * load / -math.Expm1(-1/m.Tau2), Recent: recent}
}

// Evening is the state after one more day of the given load.
func (m Variable) Evening(before VariableState, load float64) VariableState {
	s := m.Morning(before)
	s.Fitness += load
	s.Recent += load
	s.Fatigue += s.Recent * load
	return s
}

// Morning is what is left of an evening's state on the next morning, before any load.
func (m Variable) Morning(evening VariableState) VariableState {
	return VariableState{
		Fitness: evening.Fitness * math.Exp(-1/m.Tau1),
		Fatigue: evening.Fatigue * math.Exp(-1/m.Tau2),
		Recent:  evening.Recent * math.Exp(-1/m.Tau3),
	}
}

// Performance is P0 + K1 fitness - K3 fatigue, in the unit of P0.
func (m Variable) Performance(s VariableState) float64 { return m.P0 + m.K1*s.Fitness - m.K3*s.Fatigue }

// OptimalLoad is the daily load that keeps morning performance highest when
// ridden for ever: K1 S1 / (2 K3 S2 S3), where S1 = 1/(e^(1/Tau1)-1), S2 likewise,
// and S3 = 1/(1-e^(-1/Tau3)).
func (m Variable) OptimalLoad() float64 {
	one := m.Morning(m.Steady(1))
	return m.K1 * one.Fitness / (2 * m.K3 * one.Fatigue)
}

// SteadyGain is by how much endless days of the load raise morning performance
// above P0: K1 S1 load - K3 S2 S3 load^2.
func (m Variable) SteadyGain(load float64) float64 {
	one := m.Morning(m.Steady(1))
	return load * (m.K1*one.Fitness - m.K3*one.Fatigue*load)
}
