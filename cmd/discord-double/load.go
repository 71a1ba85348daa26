package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"sync/atomic"
	"time"

	"musette/bot/discord/discordtest"
)

// loadCommand measures how quickly the bot answers.
type loadCommand struct {
	Rate    int `default:"200" help:"Interactions a second."`
	Seconds int `default:"30" help:"How long."`
}

// loadHeartbeat lets the double forget soon what a RESUME will not ask for.
const loadHeartbeat = 5 * time.Second

// Run implements the subcommand.
func (c *loadCommand) Run(w *world) (err error) {
	d, err := startDrill(w.ctx, discordtest.Options{KeepRequests: -1, HeartbeatInterval: loadHeartbeat}, io.Discard)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.end()) }()
	var took latencies
	var unanswered atomic.Int64
	ask := func() {
		i, err := d.act()
		if err != nil {
			unanswered.Add(1)
			return
		}
		ctx, cancel := context.WithTimeout(w.ctx, 5*time.Second)
		defer cancel()
		if _, err := i.Answer(ctx); err != nil {
			unanswered.Add(1)
			return
		}
		took.add(i.Latency())
		i.Forget()
	}
	if err := paced(w.ctx, c.Rate, 3*time.Second, ask); err != nil { // connections, caches
		return err
	}
	took.all = nil
	before := heap()
	began := time.Now()
	if err := paced(w.ctx, c.Rate, time.Duration(c.Seconds)*time.Second, ask); err != nil {
		return err
	}
	length := time.Since(began)
	all := took.sorted()
	late := 0
	for _, d := range all {
		if d > 3*time.Second {
			late++
		}
	}
	fmt.Fprintf(w.stdout, "interactions  %d in %.1f s (%.0f a second)\n", len(all), length.Seconds(), float64(len(all))/length.Seconds())
	fmt.Fprintf(w.stdout, "first answer  p50 %v, p95 %v, p99 %v, longest %v\n", quantile(all, 0.5), quantile(all, 0.95), quantile(all, 0.99), quantile(all, 1))
	fmt.Fprintf(w.stdout, "past 3 s      %d, unanswered %d\n", late, unanswered.Load())
	fmt.Fprintf(w.stdout, "heap          %.1f MB before, %.1f MB after (bot and double together)\n", float64(before)/1e6, float64(heap())/1e6)
	if late > 0 || unanswered.Load() > 0 {
		return errors.New("some answers came too late or not at all")
	}
	return nil
}
