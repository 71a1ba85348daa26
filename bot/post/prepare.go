package post

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"runtime/debug"
	"slices"
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
	read, err := p.read(ctx, candidates)
	if err != nil {
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
				m, err := p.compose(ctx, candidates[i], read, now)
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

// reading is what is known of the riders of a batch; nil where somebody cannot be
// read, so that each is read alone.
type reading map[storage.AthleteID]*storage.Known

// read reads what is known of the riders of candidates, in as many parts at once as there are makers.
func (p *Poster) read(ctx context.Context, candidates []*candidate) (reading, error) {
	var ids []storage.AthleteID
	from := candidates[0].post.Day
	for _, c := range candidates {
		from = min(from, c.post.Day)
		for _, a := range c.riders {
			ids = append(ids, a.ID)
		}
	}
	parts := slices.Collect(slices.Chunk(ids, len(ids)/makers+1))
	known, faults := make([]reading, len(parts)), make([]error, len(parts))
	var work sync.WaitGroup
	for i, part := range parts {
		work.Go(func() { known[i], faults[i] = p.DB.Known(ctx, from, part...) })
	}
	work.Wait()
	if err := errors.Join(faults...); err != nil {
		p.Log.Warn("the riders of a batch are read one by one", "error", err)
		return nil, ctx.Err()
	}
	all := reading{}
	for _, part := range known {
		maps.Copy(all, part)
	}
	return all, nil
}

// of is what is known of a rider of a batch.
func (p *Poster) of(ctx context.Context, all reading, id storage.AthleteID, day planner.Date) (*storage.Known, error) {
	if all == nil {
		return p.DB.KnownOf(ctx, day, id)
	}
	if all[id] == nil {
		return nil, storage.ErrNotFound // erased meanwhile
	}
	return all[id], nil
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
func (p *Poster) compose(ctx context.Context, c *candidate, read reading, now time.Time) (*Message, error) {
	m := &Message{Post: c.post, Club: c.club}
	due, err := p.word(ctx, c, m, read, now)
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
func (p *Poster) word(ctx context.Context, c *candidate, m *Message, read reading, now time.Time) (due bool, err error) {
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
	for _, a := range c.riders {
		who, err := p.of(ctx, read, a.ID, c.post.Day)
		if errors.Is(err, storage.ErrNotFound) {
			continue
		}
		m.Post.Athlete, m.Post.Club = a.ID, a.Club
		if err != nil {
			return true, err
		}
		if m.Reply, due, err = p.reminder(ctx, who, c.post.Day, now); due || err != nil {
			m.Athlete, m.Club, m.state = who.Athlete, who.Club, who.State
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
	zone, err := desk.LoadZone(a.Zone)
	if err != nil || r.Pause >= c.post.Day {
		return false, nil
	}
	if due, ok := remind.DueAt(c.post.Day, r.At, zone); !ok || !due.After(now) || due.Before(r.Since) {
		return false, nil
	}
	clubs, err := p.DB.ClubsOf(ctx, key)
	if err != nil || !slices.ContainsFunc(clubs, func(club storage.Club) bool { return club.ID == c.chosen }) {
		return false, err
	}
	who, err := p.DB.KnownOf(ctx, c.post.Day, a.ID)
	if err != nil {
		return false, err
	}
	_, due, err := p.reminder(ctx, who, c.post.Day, now)
	return due, err
}

// reminder asks for the words of a reminder, which is due to no one who pauses or
// has left; a panic becomes an error.
func (p *Poster) reminder(ctx context.Context, who *storage.Known, day planner.Date, now time.Time) (reply say.Reply, due bool, err error) {
	defer recovered(&err)
	reply, due, err = p.Bot.Reminder(ctx, who, day, now)
	return reply, due && who.Athlete.Settings.Remind.Pause < day && who.Athlete.Left.IsZero(), err
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
