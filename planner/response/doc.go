// Package response holds two published models of how training load turns into
// performance, what is believed of their parameters, and the exact optimum of a
// season's tapers. It knows numbers only: no rider, no calendar, no clock.
//
// Loads are in usual days: 1 is the mean load of a day of the rider's usual
// week, so that published time constants carry over to riders of 3 and 25 hours a week.
//
// Which days count: a [State] is that of an evening, today's load included. A
// race is judged on its morning, the evening before decayed by one day, so that
// its own load does not count: a load u days before the race is u days old.
package response
