// Package season says what tapers are expected to bring and to cost: of one
// taper, of other lengths and cuts for a race, and of a whole season. It takes the
// days from plans of the engine, real ones or trials, and their worth from the
// models of response. It only advises: no length and no cut is decided here.
//
// What a taper does is told by the loads that its days leave out, in usual days;
// which days and sessions count is in docs/model.md.
package season

import "musette/planner"

// Weights of a race's performance in a sum over races, by priority.
const (
	WeightA = 1.0
	WeightB = 0.4
	WeightC = 0.1
)

// A season and its choices.
const (
	GapDays     = 120  // more days between races part two seasons
	LeadDays    = 84   // before its first race a season begins
	WindowShare = 0.30 // of a season's days at most are taper days
	HalfDays    = 4    // of a B race's half week
	CarriedGap  = 14   // up to so many days apart a second A race lives off the first one's taper

	// WorthTelling is the least expected gain on average over the races to come
	// that is advice, per cent.
	WorthTelling = 0.2
)

// Lengths are compared with the table's, in days.
var Lengths = [...]int{7, 10, 14, 21}

// Weight is how much a race counts in a sum over races.
func Weight(r *planner.Race) float64 {
	return [...]float64{planner.PriorityA: WeightA, planner.PriorityB: WeightB, planner.PriorityC: WeightC}[r.Priority]
}

// weightOf is the weight of several races together.
func weightOf(races []*planner.Race) float64 {
	total := 0.0
	for _, r := range races {
		total += Weight(r)
	}
	return total
}
