// Package raceday counts back from a race's start: when to get up, to eat, to
// leave, to warm up. It also says what published consensus has on eating in a
// race of that length. It knows no rider: no mass, no age.
package raceday

import (
	"slices"
	"strings"
	"time"

	"musette/planner"
)

// Step is one of the things to do before a race.
type Step uint8

// Steps, in the order of their ends.
const (
	Wake Step = iota
	Meal
	Leave
	Arrive
	WarmUp
	LineUp
	Start
)

// Way is how long the way to the start takes, in minutes, where that is known.
type Way struct {
	Minutes int
	Known   bool
}

// Moment is a step and how many minutes before the start it begins.
type Moment struct {
	Step Step
	Lead int
}

// Countdown is the steps of a race day, the earliest first.
type Countdown struct {
	Moments []Moment
	WarmUp  int  // minutes
	Packed  bool // the last meal comes on the way
}

// Minutes before the start or between steps (common practice, but for the meal:
// one to four hours before, Wallis & Podlogar 2022).
const (
	lineUp      = 15
	lineUpAlone = 10 // where riders start one by one
	atTheStart  = 45 // sign on, pin the number, toilet, check the bike
	mealLead    = 180
	earlyMeal   = 120 // where the start is early
	longestMeal = 240
	toMeal      = 30 // from getting up to the meal, from the meal to leaving
	toLeave     = 45 // from getting up to leaving
)

// Early reports a start before which a meal three hours ahead would cost too much
// sleep. One in the first hours of a day has its meal on the evening before.
func Early(start time.Time) bool { return start.Hour() >= 3 && start.Hour() < 8 }

// Count counts back from the start of a race.
func Count(r *planner.Race, way Way, early bool) Countdown {
	c := Countdown{WarmUp: WarmUpMinutes(r.Minutes(), r.Kind)}
	line := lineUp
	if timeTrial(r.Kind) {
		line = lineUpAlone
	}
	warm := line + c.WarmUp
	arrive := warm + atTheStart
	leave := roundUp(arrive + way.Minutes)
	meal := mealLead
	if early {
		meal = earlyMeal
	}
	c.Packed = leave+toMeal > longestMeal
	if !c.Packed {
		meal = max(meal, leave+toMeal)
	}
	up := leave + toLeave
	if !c.Packed {
		up = max(up, meal+toMeal)
	}
	c.Moments = []Moment{{Wake, up}, {Meal, meal}, {Leave, leave}, {Arrive, arrive}, {WarmUp, warm}, {LineUp, line}, {Start, 0}}
	if c.Packed {
		c.Moments[1], c.Moments[2] = c.Moments[2], c.Moments[1]
	}
	if !way.Known {
		c.Moments = slices.DeleteFunc(c.Moments, func(m Moment) bool { return m.Step == Leave })
	}
	return c
}

// lateRise is the minute of the day from which on nobody must be told to get up.
const lateRise = 8*60 + 30

// SleepsIn reports a start so late in the day that nobody must be told to get up.
func (c *Countdown) SleepsIn(start time.Time) bool {
	up := start.Add(-time.Duration(c.Moments[0].Lead) * time.Minute)
	return c.Moments[0].Step == Wake && up.Hour()*60+up.Minute() >= lateRise
}

func roundUp(minutes int) int { return (minutes + 4) / 5 * 5 }

// WarmUpMinutes is longer for shorter events and for those that start flat out,
// short and easy for long ones (common practice).
func WarmUpMinutes(race int, kind string) int {
	low := strings.ToLower(kind)
	switch {
	case timeTrial(kind), strings.Contains(low, "criterium"), race < 90:
		return 25
	case strings.Contains(low, "endurance"), race >= 180:
		return 10
	}
	return 15
}

func timeTrial(kind string) bool { return strings.Contains(strings.ToLower(kind), "time trial") }

// Fuel is carbohydrate during a race, in grams an hour. Rinse: small amounts or a
// rinse of the mouth do. Mixed: the upper end needs sugars of several kinds.
type Fuel struct {
	Low, High    int
	Rinse, Mixed bool
}

// Lengths of races, in minutes, from which on more is advised (Burke et al. 2011, from memory).
const (
	fuelSome = 45
	fuelMore = 75
	fuelMost = 150
	loading  = 90
)

// Grams of carbohydrate: an hour of one kind of sugar at most, and a day for each kg of
// weight before a race that is loaded for (Burke et al. 2011, from memory).
const (
	OneSugar = 60

	LoadLow, LoadHigh = 10, 12
)

// FuelOf is what to eat in a race of so many minutes; a zero Fuel is nothing.
func FuelOf(minutes int) Fuel {
	switch {
	case minutes < fuelSome:
		return Fuel{}
	case minutes <= fuelMore:
		return Fuel{Rinse: true}
	case minutes <= fuelMost:
		return Fuel{Low: 30, High: OneSugar}
	}
	return Fuel{Low: 30, High: 90, Mixed: true}
}

// Loads reports a race for which the days before it hold more carbohydrate.
func Loads(minutes int) bool { return minutes > loading }

// StartIn is the instant at which a race starts by the clocks of a zone; ok is
// false where its start is not told. Of a time that comes twice the first is
// meant; one that the clocks jump over is as much later as they jump.
func StartIn(r *planner.Race, zone *time.Location) (start time.Time, ok bool) {
	clock, err := time.Parse("15:04", r.Start)
	if err != nil {
		return time.Time{}, false
	}
	year, month, day := r.Date.Civil()
	wall := time.Date(year, month, day, clock.Hour(), clock.Minute(), 0, 0, time.UTC)
	_, before := wall.Add(-24 * time.Hour).In(zone).Zone()
	_, after := wall.Add(24 * time.Hour).In(zone).Zone()
	first := wall.Add(-time.Duration(max(before, after)) * time.Second).In(zone)
	if _, offset := first.Zone(); offset == max(before, after) {
		return first, true
	}
	last := wall.Add(-time.Duration(min(before, after)) * time.Second).In(zone)
	return last, true
}

// OddClock tells a start that the clocks of its night show twice, or not at all.
func OddClock(r *planner.Race, start time.Time) (twice, never bool) {
	if start.Format("15:04") != r.Start {
		return false, true
	}
	shift, ok := ShiftBefore(start.Add(12 * time.Hour))
	if !ok || shift.By > 0 {
		return false, false
	}
	again := start.Add(-shift.By)
	return again.Format("15:04") == r.Start, false
}

// Shift is a change of the clocks, forward or back by By; At is when it comes by
// the clocks as they were.
type Shift struct {
	At time.Time
	By time.Duration
}

// ShiftBefore is the change of the clocks within a day before an instant, if
// there is one.
func ShiftBefore(start time.Time) (Shift, bool) {
	at, _ := start.ZoneBounds()
	if at.IsZero() || start.Sub(at) > 24*time.Hour {
		return Shift{}, false
	}
	_, now := start.Zone()
	_, was := at.Add(-time.Second).Zone()
	if now == was {
		return Shift{}, false
	}
	return Shift{At: at.In(time.FixedZone("", was)), By: time.Duration(now-was) * time.Second}, true
}
