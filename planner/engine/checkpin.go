package engine

import (
	"slices"

	"musette/planner"
)

// CheckPin tells whether a session may be pinned to its day, told today. It
// refuses with an InputError what a swap may not do either.
func CheckPin(today planner.Date, pin planner.Pin, f *planner.Facts) error {
	example := today.AddDays(1)
	switch {
	case pin.Date < today:
		return planner.BadInput("day", "%s is past; only days from today on can be set, for example %s", pin.Date.Long(), example)
	case pin.Date > today.AddDays(planner.MaxAhead):
		return planner.BadInput("day", "%s is too far ahead. For example %s", pin.Date.Long(), example)
	}
	pin.Told = planner.Told{On: today}
	with := *f
	with.Pins = slices.DeleteFunc(slices.Clone(f.Pins), func(p planner.Pin) bool { return p.Date == pin.Date && p.Withdrawn.IsZero() })
	with.Pins = append(with.Pins, pin)
	c, _ := replay(today, pin.Date+1, &with, nil)
	d := c.at(pin.Date)
	why := c.nextTo(d, []planner.Session{pin.Session}, nil)
	for _, w := range c.warns {
		if w.Code == WarnPinDropped && w.Day == pin.Date {
			why = &cause{code: w.Cause.Code, race: w.Cause.Race, day: w.Cause.Day}
		}
	}
	switch {
	case d.owner == byHealth:
		why = &cause{code: WhyIll}
	case d.logged:
		why = &cause{code: WhyToldThen}
	}
	if why == nil {
		return nil
	}
	refusal := moveError(d, *why)
	refusal.Field = "day"
	return refusal
}
