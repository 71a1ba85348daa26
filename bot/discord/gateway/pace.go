package gateway

import (
	"context"
	"math/rand/v2"
	"time"
)

// Pace holds every time that the gateway waits; a zero field means the production value.
type Pace struct {
	Hello         time.Duration // from dialling to HELLO: 20 s
	Ready         time.Duration // from HELLO to READY or RESUMED: 30 s
	AckMax        time.Duration // the longest wait for a heartbeat's acknowledgement: 75 s
	Write         time.Duration // for one write: 10 s
	Info          time.Duration // for one answer to GET /gateway/bot: 30 s
	IdentifyGap   time.Duration // between two IDENTIFYs of one lane; Discord asks for 5 s: 5.5 s
	IdentifyEvery time.Duration // between two IDENTIFYs after the first hundred: 100 s
	InvalidMin    time.Duration // after an invalid session Discord asks for 1 s ...
	InvalidMax    time.Duration // ... to 5 s before the IDENTIFY
	RetryMin      time.Duration // before the first try after an end: 500 ms; it doubles ...
	RetryMax      time.Duration // ... up to 1 min
	Goodbye       time.Duration // for the server to close first at the end: 1 s
	Settle        time.Duration // for discordgo to finish at the end: 5 s
	Turn          time.Duration // that other processes get to answer a direct message: 700 ms
}

// Filled has the production value for each zero field.
func (p Pace) Filled() Pace {
	set := func(d *time.Duration, to time.Duration) {
		if *d == 0 {
			*d = to
		}
	}
	set(&p.Hello, 20*time.Second)
	set(&p.Ready, 30*time.Second)
	set(&p.AckMax, 75*time.Second)
	set(&p.Write, 10*time.Second)
	set(&p.Info, 30*time.Second)
	set(&p.IdentifyGap, 5500*time.Millisecond)
	set(&p.IdentifyEvery, 100*time.Second)
	set(&p.InvalidMin, time.Second)
	set(&p.InvalidMax, 5*time.Second)
	set(&p.RetryMin, 500*time.Millisecond)
	set(&p.RetryMax, time.Minute)
	set(&p.Goodbye, time.Second)
	set(&p.Settle, 5*time.Second)
	set(&p.Turn, 700*time.Millisecond)
	return p
}

// open bounds one opening in case that discordgo hangs where the wire cannot see it.
func (p Pace) open() time.Duration { return p.Hello + p.Ready + 2*p.Write }

// retry is the wait after so many failures in a row, the last half of it at random.
func (p Pace) retry(failures int) time.Duration {
	d := p.RetryMin
	for i := 1; i < failures && d < p.RetryMax; i++ {
		d *= 2
	}
	d = min(d, p.RetryMax)
	return between(d/2, d)
}

func (p Pace) invalid() time.Duration { return between(p.InvalidMin, p.InvalidMax) }

// between is a random time from low on, below high.
func between(low, high time.Duration) time.Duration {
	if high <= low {
		return low
	}
	return low + rand.N(high-low)
}

// wait is false when ctx ended before d had passed.
func wait(ctx context.Context, d time.Duration) bool {
	if d <= 0 {
		return ctx.Err() == nil
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-ctx.Done():
		return false
	}
}
