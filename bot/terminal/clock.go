package terminal

import "time"

// Clock is the clock of a session: the machine's until a line freezes it. What is
// stored and what is owed should go by it too, so its maker gives it to the database.
type Clock struct{ frozen time.Time }

// Now is the instant that the clock shows.
func (c *Clock) Now() time.Time {
	if c.frozen.IsZero() {
		return time.Now()
	}
	return c.frozen
}
