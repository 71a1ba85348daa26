package planner

// RaceStatus is what happened to a race.
type RaceStatus uint8

// What became of a race. One that was cancelled or not started counts for nothing
// from the day on which that was entered; one that was given up ends on its Ended day.
const (
	Planned RaceStatus = iota
	Finished
	GaveUp
	NotStarted
	Cancelled
)

// String is the word of the option.
func (s RaceStatus) String() string {
	return [...]string{"planned", "finished", "gave-up", "not-started", "cancelled"}[s]
}

// Counts reports whether such a race is planned for.
func (s RaceStatus) Counts() bool { return s < NotStarted }

// Postpone moves a race to another day, to be ridden as planned.
func (r *Race) Postpone(to Date) { r.Date, r.Status, r.Ended = to, Planned, 0 }

// Became says what happened to a race, told on a day: one that is given up ends on
// the race day that is nearest to it.
func (r *Race) Became(s RaceStatus, on Date) {
	if r.Status, r.Ended = s, 0; s == GaveUp {
		r.Ended = max(r.Date, min(on, r.Last()))
	}
}

// checkStatus refuses a race that was given up on no day of its own.
func (r *Race) checkStatus() error {
	given := r.Status == GaveUp
	if given != !r.Ended.IsZero() || given && (r.Ended < r.Date || r.Ended > r.Last()) {
		return BadInput("day", "%s is no day of %s. For example %s", r.Ended, r.Name, r.Date)
	}
	return nil
}

// thatCount are the races that are planned for, the list itself where all are;
// those that were given up end on that day.
func thatCount(races []Race) []Race {
	kept := make([]Race, 0, len(races))
	changed := false
	for _, r := range races {
		if !r.Status.Counts() {
			changed = true
			continue
		}
		if days := r.Date.DaysUntil(r.Ended) + 1; r.Status == GaveUp && r.Days > days {
			r.Days, changed = days, true
		}
		kept = append(kept, r)
	}
	if !changed {
		return races
	}
	return kept
}
