package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"runtime"
	"sync"
	"time"

	"musette/bot/discord/discordtest"
)

// chaosCommand strikes gateway and REST with faults at random and counts what
// becomes of each interaction.
type chaosCommand struct {
	Rate    int    `default:"20" help:"Interactions a second."`
	Seconds int    `default:"300" help:"How long."`
	Log     string `placeholder:"FILE" help:"Write the bot's log there."`
}

// chaosHeartbeat lets the bot notice silence within seconds.
const chaosHeartbeat = 2 * time.Second

// Run implements the subcommand.
func (c *chaosCommand) Run(w *world) (err error) {
	log := io.Discard
	if c.Log != "" {
		file, err := os.Create(c.Log)
		if err != nil {
			return err
		}
		defer file.Close()
		log = file
	}
	goroutines := runtime.NumGoroutine()
	d, err := startDrill(w.ctx, discordtest.Options{KeepRequests: -1, HeartbeatInterval: chaosHeartbeat}, log, 0)
	if err != nil {
		return err
	}
	var mu sync.Mutex
	var all []*discordtest.Interaction
	offline := 0
	struck := map[string]int{}
	faults, cancel := context.WithCancel(w.ctx)
	var side sync.WaitGroup
	side.Go(func() { strike(faults, d.double, struck) })
	err = paced(w.ctx, c.Rate, time.Duration(c.Seconds)*time.Second, func() {
		i, _, err := d.act()
		mu.Lock()
		defer mu.Unlock()
		if errors.Is(err, discordtest.ErrNoSession) {
			offline++
		} else if err == nil {
			all = append(all, i)
		}
	})
	cancel()
	side.Wait()
	if err == nil {
		err = d.settle(w.ctx, all)
	}
	counts := d.double.Counters()
	tally := count(all)
	err = errors.Join(err, d.end())
	fmt.Fprintf(w.stdout, "faults        %v\n", struck)
	fmt.Fprintf(w.stdout, "gateway       %d connections, %d IDENTIFYs, %d RESUMEs\n", counts.Connections, counts.Identifies, counts.Resumes)
	fmt.Fprintf(w.stdout, "interactions  %d delivered, %d while the bot was not connected\n", len(all), offline)
	fmt.Fprintf(w.stdout, "answered once %d\nanswered more than once %d\nreached the bot after their 3 s %d\nlost with a dead socket %d\nreached the bot in time, no answer %d\n",
		tally.once, tally.twice, tally.late, tally.lost, tally.missed)
	left := leftGoroutines(goroutines)
	fmt.Fprintf(w.stdout, "goroutines    %d before, %d after\n", goroutines, goroutines+left)
	if tally.twice > 0 || tally.missed > 0 || left > 0 {
		err = errors.Join(err, errors.New("an interaction was not answered once, or a goroutine is left"))
	}
	return err
}

// settle waits until what was delivered is answered, or can be no more.
func (d *drill) settle(ctx context.Context, all []*discordtest.Interaction) error {
	ready, cancel := context.WithTimeout(ctx, time.Minute)
	defer cancel()
	if err := d.double.WaitConnected(ready); err != nil {
		return fmt.Errorf("the bot does not come back: %w", err)
	}
	for until := time.Now().Add(10 * time.Second); time.Now().Before(until) && count(all).open(); {
		if err := sleep(ctx, 100*time.Millisecond); err != nil {
			return err
		}
	}
	return nil
}

// tally is what happened to interactions.
type tally struct{ once, twice, late, lost, missed int }

func (t tally) open() bool { return t.missed > 0 }

func count(all []*discordtest.Interaction) (t tally) {
	for _, i := range all {
		accepted := i.Callbacks() - i.Refused()
		switch {
		case accepted == 1:
			t.once++
		case accepted > 1:
			t.twice++
		case !i.Received():
			t.lost++
		case i.Refused() > 0:
			t.late++
		default:
			t.missed++
		}
	}
	return t
}

// strike lets one fault follow the other, with time between them to recover.
func strike(ctx context.Context, double *discordtest.Server, struck map[string]int) {
	post := func(path string, r discordtest.Rule) func() {
		r.Method, r.Path, r.Times = "POST", path, 1+rand.IntN(5)
		return func() { double.Fail(r) }
	}
	const callback = "/interactions/*/*/callback"
	faults := []struct {
		name string
		do   func()
	}{
		{"drop", double.Drop}, {"op 7", double.Reconnect}, {"silence", double.Silence}, {"op 9", double.InvalidateSessions},
		{"op 7 to RESUME", func() { double.ResumeReconnect(1); double.Drop() }},
		{"op 9 to RESUME", func() { double.ResumeInvalid(1, rand.IntN(2) == 0); double.Drop() }},
		{"no HELLO", func() { double.NoHello(1); double.Drop() }},
		{"no upgrade", func() { double.RefuseUpgrade(503, 2); double.Drop() }},
		{"closed", func() { double.CloseWith(4000 + rand.IntN(2)*9) }},
		{"duplicates", func() { double.DuplicateNext(10) }},
		{"REST 500", post(callback, discordtest.Rule{Status: 500})},
		{"REST 502", post(callback, discordtest.Rule{Status: 502})},
		{"REST 429", post(callback, discordtest.Rule{Status: 429, RetryAfter: 200 * time.Millisecond})},
		{"REST slow", post(callback, discordtest.Rule{Delay: 800 * time.Millisecond})},
		{"REST lost", post(callback, discordtest.Rule{DropAfterWork: true})},
	}
	for sleep(ctx, time.Duration(1000+rand.IntN(4000))*time.Millisecond) == nil {
		if double.WaitConnected(ctx) != nil { // faults that nobody meets would pile up
			return
		}
		fault := faults[rand.IntN(len(faults))]
		struck[fault.name]++
		fault.do()
	}
}

// leftGoroutines is how many more there are than before, after some time to end.
func leftGoroutines(before int) int {
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return 0
		}
		time.Sleep(50 * time.Millisecond)
	}
	return runtime.NumGoroutine() - before
}
