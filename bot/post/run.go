package post

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"github.com/robfig/cron/v3"
)

// grace is how long Run waits for what has begun; then sends are cut off.
const grace = 20 * time.Second

// Run ticks at once and then each minute until ctx ends, which is no error. What
// has begun is finished; Run returns within a minute.
func (p *Poster) Run(ctx context.Context) error {
	sending, abandon := context.WithCancel(context.WithoutCancel(ctx))
	defer abandon()
	log := cronLog{p.Log}
	var ticks sync.WaitGroup
	// Skip must be outside: a panic that passed through it would leave it closed for good.
	job := cron.NewChain(cron.SkipIfStillRunning(log), cron.Recover(log)).Then(cron.FuncJob(func() { p.minute(ctx, sending) }))
	clock := cron.New(cron.WithLocation(time.UTC), cron.WithLogger(log), cron.WithChain())
	if _, err := clock.AddJob("* * * * *", job); err != nil {
		return err
	}
	clock.Start()
	ticks.Go(job.Run)
	<-ctx.Done()
	stopped := clock.Stop()
	ticks.Go(func() { <-stopped.Done() })
	if !finished(&ticks, grace) {
		p.Log.Error("messages under way took too long to finish")
		abandon()
		finished(&ticks, grace)
	}
	return nil
}

// minute is one tick of Run.
func (p *Poster) minute(ctx, sending context.Context) {
	if ctx.Err() != nil {
		return
	}
	now := p.Now()
	if believed, err := p.believesStart(ctx, now); err != nil {
		p.Log.Error("when was last looked for what is owed", "error", err)
		return
	} else if !believed {
		return
	}
	if !p.clock.believes(now.Round(0), time.Now()) {
		p.Log.Warn("the clock has jumped; nothing is sent until it has gone on for three minutes", "clock", now)
		return
	}
	switch err := p.tick(ctx, sending, now); {
	case ctx.Err() != nil:
	case errors.Is(err, errOutage):
		p.Log.Warn("reminders and digests are held up", "error", err)
	case err != nil:
		p.Log.Error("sending what is owed", "error", err)
	}
}

// believesStart reports whether the clock that the run began with may be acted on. A doubt is
// logged once.
func (p *Poster) believesStart(ctx context.Context, now time.Time) (bool, error) {
	select {
	case <-p.believed:
		return true, nil
	default:
	}
	last, err := p.DB.LastTick(ctx)
	if err != nil {
		return false, err
	}
	why := p.start.doubts(ctx, now.Round(0), time.Now(), last)
	switch {
	case why == "" && p.doubted:
		p.Log.Info("the clock is believed now; reminders and digests are sent", "clock", now)
	case why != "" && !p.doubted:
		p.Log.Warn("the clock is doubted; reminders and digests wait until it is set right. Look at it with timedatectl", "clock", now, "why", why)
	}
	if p.doubted = why != ""; !p.doubted {
		close(p.believed)
	}
	return !p.doubted, nil
}

// Believed is closed once the clock that Run began with is believed.
func (p *Poster) Believed() <-chan struct{} { return p.believed }

// finished waits for a group, but no longer than a limit.
func finished(work *sync.WaitGroup, limit time.Duration) bool {
	done := make(chan struct{})
	go func() {
		work.Wait()
		close(done)
	}()
	timer := time.NewTimer(limit)
	defer timer.Stop()
	select {
	case <-done:
		return true
	case <-timer.C:
		return false
	}
}

// cronLog passes on what cron has to say that matters.
type cronLog struct{ log *slog.Logger }

// Info is called at each wake-up, and where a tick is skipped since the last one still runs.
func (l cronLog) Info(message string, _ ...any) {
	if message == "skip" {
		l.log.Warn("a tick was skipped: the one before still runs")
	}
}

// Error is called with a panic. What was thrown may quote what people wrote; where
// it happened does not.
func (l cronLog) Error(_ error, message string, more ...any) {
	l.log.Error("ticking", append([]any{"what", message}, more...)...)
}
