package post

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"musette/bot/desk"
	"musette/bot/remind"
	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// What is kept with posts that did not go out.
const (
	reasonMissed  = "its day was over before it could go out: musette was not running, or nothing could be sent"
	reasonGivenUp = "given up when its day was over, after: "
	reasonUnknown = "it is not known whether it arrived, and it was not sent again"
	reasonNothing = "there was nothing to say any more"
	reasonBroken  = "it could not be made"
	reasonAgain   = "sent twice perhaps; "
)

// makers is how many messages are made at once.
const makers = 4

// prepare makes the messages of candidates that have something to say. Those
// that are over or could not be made come with the state in which to keep them.
// With an error it returns the messages of those that it does not concern.
func (p *Poster) prepare(ctx context.Context, candidates []*candidate, now time.Time) ([]Message, error) {
	if err := p.noteChosen(ctx, candidates); err != nil {
		return nil, err
	}
	made := make([]*Message, len(candidates))
	var mu sync.Mutex
	var broken error
	next := make(chan int)
	var work sync.WaitGroup
	for range min(makers, len(candidates)) {
		work.Go(func() {
			for i := range next {
				m, err := p.compose(ctx, candidates[i], now)
				if err != nil {
					mu.Lock()
					broken = cmp.Or(broken, err)
					mu.Unlock()
				}
				made[i] = m
			}
		})
	}
	for i := range candidates {
		next <- i
	}
	close(next)
	work.Wait()
	var messages []Message
	for _, m := range made {
		if m != nil {
			messages = append(messages, *m)
		}
	}
	return messages, broken
}

// isFinal reports that a message will not be made at a later try either: by a
// panic or of what cannot be read. All else may have passed by then.
func isFinal(err error) bool { return errors.Is(err, errPanic) || storage.Unreadable(err) }

// noteChosen finds out which clubs the candidates chose.
func (p *Poster) noteChosen(ctx context.Context, candidates []*candidate) error {
	var keys []storage.Key
	for _, c := range candidates {
		if len(c.riders) > 0 {
			keys = append(keys, c.riders[0].Key)
		}
	}
	if len(keys) == 0 {
		return nil
	}
	chosen, err := p.DB.ChosenClubs(ctx, keys)
	if err != nil {
		return err
	}
	for _, c := range candidates {
		if len(c.riders) > 0 {
			c.chosen = chosen[c.riders[0].Key]
		}
	}
	return nil
}

// compose makes the message of a candidate, nil where there is nothing to say.
// What can never be made, or not until its day was over, is kept as failed; after
// an error it is left to the next tick.
func (p *Poster) compose(ctx context.Context, c *candidate, now time.Time) (*Message, error) {
	m := &Message{Post: c.post, Club: c.clubs[0]}
	due, err := p.word(ctx, c, m, now)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil && !c.over && !isFinal(err):
		return nil, fmt.Errorf("make a %s of club %d: %w", m.Post.Kind, m.Post.Club, err)
	case err != nil:
		p.Log.Error("a message could not be made", "kind", m.Post.Kind, "club", m.Post.Club, "rider", m.Post.Athlete, "error", err)
		m.Post.State, m.Post.Reason = storage.PostFailed, reasonBroken
	case !due:
		return nil, nil
	case c.over:
		m.Post.State, m.Post.Reason = storage.PostSkipped, reasonMissed
	}
	return m, nil
}

// word fills a message with what a candidate has to say.
func (p *Poster) word(ctx context.Context, c *candidate, m *Message, now time.Time) (due bool, err error) {
	if c.post.Kind == storage.PostDigest {
		if c.over {
			return true, nil
		}
		m.Reply, err = p.digest(ctx, m.Club, now)
		return true, err
	}
	if waits, err := p.leftToChosen(ctx, c, now); waits || err != nil {
		return false, err
	}
	for i, a := range c.riders {
		reply, due, err := p.reminder(ctx, a, c.clubs[i], c.post.Day, now)
		if due || err != nil {
			m.Post.Athlete, m.Post.Club = a.ID, a.Club
			m.Athlete, m.Club, m.Reply = a, c.clubs[i], reply
			return true, err
		}
	}
	return false, nil
}

// leftToChosen puts the rider of the club that a person chose in front. It
// reports true where that rider is reminded later on the same day.
func (p *Poster) leftToChosen(ctx context.Context, c *candidate, now time.Time) (bool, error) {
	if c.chosen == 0 || c.chosenFirst(c.chosen) {
		return false, nil
	}
	key := c.riders[0].Key
	a, err := p.DB.FindAthlete(ctx, c.chosen, key)
	if errors.Is(err, storage.ErrNotFound) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	r := a.Settings.Remind
	zone, err := time.LoadLocation(a.Zone)
	if err != nil || r.Pause >= c.post.Day {
		return false, nil
	}
	if due, ok := remind.DueAt(c.post.Day, r.At, zone); !ok || !due.After(now) || due.Before(r.Since) {
		return false, nil
	}
	clubs, err := p.DB.ClubsOf(ctx, key)
	if err != nil {
		return false, err
	}
	for _, club := range clubs {
		if club.ID == c.chosen {
			_, due, err := p.reminder(ctx, a, club, c.post.Day, now)
			return due, err
		}
	}
	return false, nil
}

// reminder asks for the words of a reminder; a panic becomes an error.
func (p *Poster) reminder(ctx context.Context, a storage.Athlete, club storage.Club, day planner.Date, now time.Time) (reply say.Reply, due bool, err error) {
	defer recovered(&err)
	return p.Bot.Reminder(ctx, a, club, day, now)
}

// digest asks for the words of a digest; a panic becomes an error.
func (p *Poster) digest(ctx context.Context, club storage.Club, now time.Time) (reply say.Reply, err error) {
	defer recovered(&err)
	return p.Bot.Digest(ctx, club, now)
}

// errPanic marks what broke by a panic.
var errPanic = errors.New("panic")

// recovered turns a panic into an error that quotes nothing of what people wrote.
func recovered(err *error) {
	if broke := recover(); broke != nil {
		*err = fmt.Errorf("%w: %s\n%s", errPanic, desk.PanicText(broke), debug.Stack())
	}
}
