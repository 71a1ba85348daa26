package post

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"musette/bot/desk"
	"musette/storage"
)

const (
	batch      = 128             // posts claimed at once
	oneSend    = time.Minute     // the longest a Sender may take for a message
	outageAt   = 16              // so many temporary failures in a row end a tick
	probes     = 3               // as many end the next one
	nonceKeeps = 3 * time.Minute // a Sender sends a message once however often it is told to
)

// errOutage ends a tick in which nothing gets through; the next one goes on.
var errOutage = errors.New("nothing gets through at the moment. What is owed is sent later")

// deliver claims and sends what candidates have to say, batch by batch.
func (p *Poster) deliver(ctx, sending context.Context, candidates []*candidate, now time.Time) error {
	var broken error
	for chunk := range slices.Chunk(candidates, batch) {
		messages, err := p.prepare(ctx, chunk, now)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		broken = cmp.Or(broken, err)
		for len(messages) > 0 {
			n := len(messages)
			if p.streak.Load() > 0 {
				n = 1 // as long as nothing gets through, no more is claimed than is tried
			}
			claimed, err := p.claim(sending, messages[:n])
			if err != nil {
				return err
			}
			err = p.each(sending, len(claimed), func(i int) storage.Post { return p.sendAsIs(sending, claimed[i], now) })
			if err != nil {
				return err
			}
			messages = messages[n:]
		}
	}
	return cmp.Or(ctx.Err(), broken)
}

// claim stores messages as claimed, or as what they are, and returns those that
// are to be sent and that nobody had claimed before.
func (p *Poster) claim(ctx context.Context, messages []Message) ([]Message, error) {
	if len(messages) == 0 {
		return nil, nil
	}
	type postKey struct {
		kind storage.PostKind
		personDay
	}
	byKey := map[postKey]*Message{}
	posts := make([]storage.Post, len(messages))
	for i := range messages {
		posts[i] = messages[i].Post
		if p.maySent(posts[i]) {
			posts[i].Claimed = p.putBack.from
		}
		byKey[postKey{posts[i].Kind, personDay{posts[i].Key, posts[i].Day}}] = &messages[i]
	}
	claimed, err := p.DB.Claim(ctx, posts)
	if err != nil {
		return nil, err
	}
	var out []Message
	for _, post := range claimed {
		p.Meter.Due(string(post.Kind), 1)
		p.count(post)
		if post.State == storage.PostClaimed && !p.maySent(post) {
			m := byKey[postKey{post.Kind, personDay{post.Key, post.Day}}]
			m.Post = post
			out = append(out, *m)
			p.setClear(post.ID)
		}
	}
	return out, nil
}

// count counts what happened to a post.
func (p *Poster) count(post storage.Post) {
	if post.State != storage.PostClaimed {
		p.Meter.Post(string(post.Kind), string(post.State), post.Due, p.Now())
	}
}

// settleOpen goes on with posts that were claimed and of which nothing more is
// known: it was tried in vain, or musette was stopped in between.
func (p *Poster) settleOpen(ctx, sending context.Context, now time.Time) error {
	open, err := p.DB.OpenPosts(ctx)
	if err != nil {
		return err
	}
	open = slices.DeleteFunc(open, func(post storage.Post) bool { return now.Before(nextTry(post)) })
	slices.SortStableFunc(open, byKind)
	return p.each(sending, len(open), func(i int) storage.Post {
		if ctx.Err() != nil {
			return storage.Post{}
		}
		return p.sendAgain(sending, open[i], now)
	})
}

// nextTry is when a post may be tried again: after 1 minute, 2, 4, 8 and then
// every 15. Ticks come by the minute, so half of one is let off.
func nextTry(post storage.Post) time.Time {
	if post.Tries == 0 {
		return time.Time{}
	}
	wait := min(time.Minute<<min(post.Tries-1, 4), 15*time.Minute)
	return post.Changed.Add(wait - 30*time.Second)
}

// each runs try for 0 to n-1, several at once, and keeps what happened to the
// posts; one without a state stays as it is. What has been tried is kept even
// when ctx has ended.
func (p *Poster) each(ctx context.Context, n int, try func(int) storage.Post) error {
	if n == 0 {
		return nil
	}
	next, outcomes, kept := make(chan int), make(chan storage.Post, n), make(chan error)
	go func() { kept <- p.keep(context.WithoutCancel(ctx), outcomes) }()
	var work sync.WaitGroup
	workers := min(p.AtOnce, n)
	if p.streak.Load() > 0 {
		workers = 1 // careful, as long as nothing gets through
	}
	for range workers {
		work.Go(func() {
			for i := range next {
				if post := try(i); post.State != "" {
					outcomes <- post
				}
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	work.Wait()
	close(outcomes)
	err := <-kept
	if err == nil && p.streak.Load() >= outageAt {
		err = errOutage
	}
	return err
}

// keep stores outcomes as they come, as many as are there in one transaction.
func (p *Poster) keep(ctx context.Context, outcomes <-chan storage.Post) (err error) {
	var group []storage.Post
	for post := range outcomes {
		group = append(group[:0], post)
		for more := len(outcomes); more > 0; more-- {
			group = append(group, <-outcomes)
		}
		failed := p.DB.SettlePosts(ctx, group)
		if failed != nil {
			err = failed // the others are tried all the same
		}
		p.mu.Lock()
		for _, post := range group {
			switch {
			case post.State == storage.PostClaimed:
			case failed != nil:
				p.decided[post.ID] = post
			default:
				p.count(post)
				delete(p.doubt, post.ID)
				delete(p.decided, post.ID)
			}
		}
		p.mu.Unlock()
	}
	return err
}

// sendAsIs sends a reminder of a batch as it is by now. While others went out its
// rider may have stopped or paused reminders, told something or erased everything:
// so it is made once more where anything at all has changed.
func (p *Poster) sendAsIs(ctx context.Context, m Message, now time.Time) storage.Post {
	if m.Post.Kind != storage.PostReminder || p.streak.Load() >= outageAt || ctx.Err() != nil {
		return p.send(ctx, m)
	}
	if state, err := p.DB.State(ctx); err == nil && state == m.state {
		return p.send(ctx, m)
	}
	fresh, _, due, err := p.remake(ctx, m.Post, now)
	switch {
	case errors.Is(err, storage.ErrNotFound), err == nil && !due:
		return settled(m.Post, storage.PostSkipped, reasonNothing)
	case err != nil:
		p.Log.Warn("a message waits: it could not be made once more", "post", m.Post.ID, "error", err)
		return storage.Post{} // the next tick goes on with it
	}
	return p.send(ctx, fresh)
}

// send tries a message for the first time since nothing of it had been sent,
// and returns the post with what happened to it.
func (p *Poster) send(ctx context.Context, m Message) storage.Post {
	if p.streak.Load() >= outageAt || ctx.Err() != nil {
		return storage.Post{}
	}
	post, began := m.Post, p.Now()
	err := attempt(ctx, func(ctx context.Context) error { return p.Sender.Send(ctx, m) })
	if !errors.Is(err, ErrUnsent) {
		p.noteDoubt(post.ID, began)
	}
	if err == nil {
		p.streak.Store(0)
		post.State, post.Reason = storage.PostSent, ""
		return post
	}
	post = p.failed(post, err)
	if m.Again && post.State == storage.PostClaimed && !errors.Is(err, ErrUnsent) {
		post.Reason = reasonAgain + post.Reason
	}
	return post
}

// failed is a post after an error of the Sender.
func (p *Poster) failed(post storage.Post, err error) storage.Post {
	post.State, post.Reason = storage.PostClaimed, reasonOf(err)
	switch {
	case errors.Is(err, ErrRefused), errors.Is(err, ErrNoPlace):
		p.streak.Store(0)
		post.State = storage.PostFailed
	case errors.Is(err, ErrLater), errors.Is(err, errPanic): // of this message only
	default:
		p.streak.Add(1)
	}
	p.Log.Warn("a message was not sent", "kind", post.Kind, "post", post.ID, "club", post.Club, "tries", post.Tries+1, "final", post.State == storage.PostFailed, "error", err)
	return post
}

// attempt gives a Sender its time; a panic becomes an error.
func attempt(ctx context.Context, call func(context.Context) error) (err error) {
	defer recovered(&err)
	ctx, cancel := context.WithTimeout(ctx, oneSend)
	defer cancel()
	return call(ctx)
}

// sendAgain goes on with an open post and returns it with what happened to it.
func (p *Poster) sendAgain(ctx context.Context, post storage.Post, now time.Time) storage.Post {
	if decided, known := p.decision(post.ID); known {
		return decided
	}
	if p.streak.Load() >= outageAt || ctx.Err() != nil {
		return storage.Post{}
	}
	m, end, due, err := p.remake(ctx, post, now)
	switch {
	case ctx.Err() != nil:
		return storage.Post{}
	case errors.Is(err, storage.ErrNotFound):
		return settled(post, storage.PostSkipped, reasonNothing)
	case err != nil:
		p.Log.Error("a message could not be made again", "kind", post.Kind, "post", post.ID, "error", err)
		if end.IsZero() {
			end = post.Due.Add(keepFresh) // its rider or club could not be read either
		}
		if now.Before(end) && !isFinal(err) {
			return storage.Post{}
		}
		return settled(post, storage.PostFailed, reasonBroken)
	}
	if m.PutBack = p.maySent(post); !p.isClear(post) {
		if post := p.look(ctx, &m, now.Sub(end)); post.State != "" {
			return post
		}
	}
	switch {
	case !now.Before(end) && post.Tries > 0:
		return settled(post, storage.PostFailed, reasonOf(fmt.Errorf("%s%s", reasonGivenUp, post.Reason)))
	case !now.Before(end):
		return settled(post, storage.PostSkipped, reasonMissed)
	case !due:
		return settled(post, storage.PostSkipped, reasonNothing)
	}
	return p.send(ctx, m)
}

func settled(post storage.Post, state storage.PostState, reason string) storage.Post {
	post.State, post.Reason = state, reason
	return post
}

// look asks whether a message is there already. It returns the post with a state
// unless the message is to be sent now. over is for how long it has made no sense.
func (p *Poster) look(ctx context.Context, m *Message, over time.Duration) storage.Post {
	var there bool
	err := attempt(ctx, func(ctx context.Context) (err error) {
		there, err = p.Sender.Look(ctx, *m)
		return err
	})
	switch {
	case err == nil && there:
		p.streak.Store(0)
		return settled(m.Post, storage.PostSent, "")
	case err == nil:
		p.setClear(m.Post.ID)
		return storage.Post{}
	case errors.Is(err, ErrCannotLook) && m.Post.Kind == storage.PostDigest && !strings.HasPrefix(m.Post.Reason, reasonAgain):
		again := settled(m.Post, storage.PostClaimed, reasonAgain)
		if err := p.DB.SettlePosts(ctx, []storage.Post{again}); err != nil {
			p.Log.Error("a digest is not sent again, as that could not be noted", "post", m.Post.ID, "error", err)
			return m.Post // as it is
		}
		m.Post, m.Again = again, true // it says so itself; two reminders would only confuse
		return storage.Post{}
	case errors.Is(err, ErrCannotLook), over > 24*time.Hour:
		return settled(m.Post, storage.PostFailed, reasonUnknown)
	}
	return p.failed(m.Post, err)
}

// remake makes the message of an open post anew. end is when it makes no sense
// any more; due is false where there is nothing to say by now.
func (p *Poster) remake(ctx context.Context, post storage.Post, now time.Time) (m Message, end time.Time, due bool, err error) {
	m.Post = post
	if post.Kind == storage.PostDigest {
		if m.Club, err = p.DB.Club(ctx, post.Club); err != nil {
			return m, end, false, err
		}
		m.Reply, err = p.digest(ctx, m.Club, now)
		return m, post.Due.Add(keepFresh), true, err
	}
	if m.Athlete, err = p.DB.Athlete(ctx, post.Athlete); err != nil {
		return m, end, false, err
	}
	zone, err := desk.LoadZone(m.Athlete.Zone)
	if err != nil {
		return m, end, false, err
	}
	end = endOfDay(post.Day, zone)
	who, err := p.DB.KnownOf(ctx, post.Day, post.Athlete)
	if err != nil {
		return m, end, false, err
	}
	m.Athlete, m.Club = who.Athlete, who.Club
	m.Reply, due, err = p.reminder(ctx, who, post.Day, now)
	return m, end, due, err
}
