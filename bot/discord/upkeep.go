package discord

import (
	"context"
	"errors"
	"sync"
	"time"

	"musette/planner"
)

// How long things are kept that nobody may ask for any more.
const (
	keepGone    = 30 * 24 * time.Hour // clubs that removed the bot
	keepButtons = 30 * 24 * time.Hour

	settleTime = time.Second // for what the first READY tells to be stored
)

// eraseOld erases what has been kept for long enough.
// A club that came back while the bot was away must not be erased: Discord tells
// at the first READY.
func (a *App) eraseOld(ctx context.Context) {
	select {
	case <-ctx.Done():
		return
	case <-a.ready:
	}
	if !pause(ctx, settleTime) {
		return
	}
	var looked planner.Date // when all riders were looked up last
	for {
		now := a.DB.Now()
		clubs, err := a.DB.EraseClubs(ctx, now.Add(-keepGone))
		err = errors.Join(err, a.DB.EraseButtons(ctx, now.Add(-keepButtons)))
		switch {
		case ctx.Err() != nil:
			return
		case err != nil:
			a.Log.Error("erasing old data", "error", err)
		case clubs > 0:
			a.Log.Info("erased clubs that removed the bot 30 days ago", "clubs", clubs)
		}
		a.eraseLeft(ctx, planner.DateOf(now.UTC()), &looked)
		if !pause(ctx, time.Hour) {
			return
		}
	}
}

// eraseLeft looks all riders up once a day, and erases those who left 30 days ago. Nobody
// is erased on a day on which Discord does not tell whether they came back.
func (a *App) eraseLeft(ctx context.Context, today planner.Date, looked *planner.Date) {
	if *looked != today {
		if err := a.lookUpAll(ctx); err != nil {
			if ctx.Err() == nil {
				a.Log.Warn("riders cannot be looked up yet", "error", err)
			}
			return
		}
		*looked = today
	}
	switch riders, err := a.DB.EraseLeft(ctx, today); {
	case ctx.Err() != nil:
	case err != nil:
		a.Log.Error("erasing riders who left", "error", err)
	case riders > 0:
		a.Log.Info("erased riders who left their club's server 30 days ago", "riders", riders)
	}
}

// keepPosting sends reminders and digests, from the first READY on, until ctx
// ends; what has begun is finished.
func (a *App) keepPosting(ctx context.Context) {
	select {
	case <-ctx.Done():
		return
	case <-a.ready:
	}
	if err := a.posts.Run(ctx); err != nil {
		a.Log.Error("reminders and digests are not sent", "error", err)
	}
}

// pause waits; false when ctx ended meanwhile.
func pause(ctx context.Context, d time.Duration) bool {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
		return true
	}
}

// finished waits for the group, at most so long.
func finished(group *sync.WaitGroup, most time.Duration) bool {
	done := make(chan struct{})
	go func() { group.Wait(); close(done) }()
	select {
	case <-done:
		return true
	case <-time.After(most):
		return false
	}
}
