package engine

import "musette/planner"

// Room is the share of its usual riding that each day has time for without any
// race, from one date up to the day before another: less where the rider is away
// or has set a limit.
func Room(f *planner.Facts, first, end planner.Date) []float64 {
	if end <= first {
		return nil
	}
	c := layOut(first, end-1, f)
	out := make([]float64, len(c.days))
	for i := range c.days {
		d := &c.days[i]
		switch usual := rideMinutes(d.usual); {
		case d.busy:
		case d.most() < usual:
			out[i] = float64(d.most()) / float64(usual)
		default:
			out[i] = 1
		}
	}
	return out
}
