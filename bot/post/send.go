package post

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

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
var errOutage = errors.New("nothing gets through at the moment; what is owed is sent later")

// deliver claims and sends what candidates have to say, batch by batch.
func (p *Poster) deliver(ctx, sending context.Context, candidates []*candidate, now time.Time) error {
	for chunk := range slices.Chunk(candidates, batch) {
		messages, err := p.prepare(ctx, chunk, now)
		if err != nil {
			return err
		}
		if messages, err = p.claim(sending, messages); err != nil {
			return err
		}
		err = p.each(sending, len(messages), func(i int) storage.Post { return p.send(sending, messages[i]) })
		if err != nil {
			return err
		}
	}
	return ctx.Err()
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
		byKey[postKey{posts[i].Kind, personDay{posts[i].Key, posts[i].Day}}] = &messages[i]
	}
	claimed, err := p.DB.Claim(ctx, posts)
	if err != nil {
		return nil, err
	}
	var out []Message
	for _, post := range claimed {
		if post.State == storage.PostClaimed {
			m := byKey[postKey{post.Kind, personDay{post.Key, post.Day}}]
			m.Post = post
			out = append(out, *m)
			p.setClear(post.ID)
		}
	}
	return out, nil
}

// settleOpen goes on with posts that were claimed and of which nothing more is
// known: it was tried in vain, or musette was stopped in between.
func (p *Poster) settleOpen(ctx, sending context.Context, now time.Time) error {
	open, err := p.DB.OpenPosts(ctx)
	if err != nil {
		return err
	}
	open = slices.DeleteFunc(open, func(post storage.Post) bool { return now.Before(nextTry(post)) })
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

// each runs try for 0 to n-1, several at once, and keeps what became of the
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
		if failed := p.DB.SettlePosts(ctx, group); failed != nil {
			err = failed // the others are tried all the same
			continue
		}
		p.mu.Lock()
		for _, post := range group {
			if post.State != storage.PostClaimed {
				delete(p.doubt, post.ID)
			}
		}
		p.mu.Unlock()
	}
	return err
}

// send tries a message for the first time since nothing of it had been sent,
// and returns the post with what became of it.
func (p *Poster) send(ctx context.Context, m Message) storage.Post {
	if p.streak.Load() >= outageAt || ctx.Err() != nil {
		return storage.Post{}
	}
	post := m.Post
	err := attempt(ctx, func(ctx context.Context) error { return p.Sender.Send(ctx, m) })
	if err == nil {
		p.streak.Store(0)
		post.State, post.Reason = storage.PostSent, ""
		return post
	}
	return p.failed(post, err)
}

// failed is a post after an error of the Sender.
func (p *Poster) failed(post storage.Post, err error) storage.Post {
	post.State, post.Reason = storage.PostClaimed, reasonOf(err)
	switch {
	case errors.Is(err, ErrRefused), errors.Is(err, ErrNoPlace):
		p.streak.Store(0)
		post.State = storage.PostFailed
	case errors.Is(err, ErrUnsent):
		p.streak.Add(1)
	default:
		p.noteDoubt(post)
		p.streak.Add(1)
	}
	p.Log.Warn("a message was not sent", "kind", post.Kind, "post", post.ID, "club", post.Club, "tries", post.Tries+1, "final", post.State == storage.PostFailed, "error", err)
	return post
}

// isClear reports that a post may be sent without looking whether it is there:
// it never left, or so short a while ago that the Sender sends it once. Of a post
// that an earlier run claimed nothing is known.
func (p *Poster) isClear(post storage.Post) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	since, known := p.doubt[post.ID]
	if known && since.IsZero() {
		return true
	}
	if !known {
		since = post.Claimed
	}
	age := p.Now().Sub(since)
	return age >= 0 && age < nonceKeeps
}

// setClear keeps that nothing has been sent of a post.
func (p *Poster) setClear(id storage.PostID) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.doubt[id] = time.Time{}
}

// noteDoubt keeps that a post may have arrived from now on.
func (p *Poster) noteDoubt(post storage.Post) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if since, known := p.doubt[post.ID]; known && since.IsZero() {
		p.doubt[post.ID] = p.Now()
	}
}

// attempt gives a Sender its time; a panic becomes an error.
func attempt(ctx context.Context, call func(context.Context) error) (err error) {
	defer recovered(&err)
	ctx, cancel := context.WithTimeout(ctx, oneSend)
	defer cancel()
	return call(ctx)
}

// sendAgain goes on with an open post and returns it with what became of it.
func (p *Poster) sendAgain(ctx context.Context, post storage.Post, now time.Time) storage.Post {
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
		return settled(post, storage.PostFailed, reasonBroken)
	}
	if !p.isClear(post) {
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
	case errors.Is(err, ErrCannotLook) && m.Post.Kind == storage.PostDigest:
		m.Again = true // it says so itself; two reminders would only confuse
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
	if m.Club, err = p.DB.Club(ctx, post.Club); err != nil {
		return m, end, false, err
	}
	if post.Kind == storage.PostDigest {
		end = post.Due.Add(keepFresh)
		m.Reply, err = p.digest(ctx, m.Club, now)
		return m, end, true, err
	}
	if m.Athlete, err = p.DB.Athlete(ctx, post.Athlete); err != nil {
		return m, end, false, err
	}
	zone, err := time.LoadLocation(m.Athlete.Zone)
	if err != nil {
		return m, end, false, err
	}
	end = endOfDay(post.Day, zone)
	m.Reply, due, err = p.reminder(ctx, m.Athlete, m.Club, post.Day, now)
	return m, end, due && m.Athlete.Settings.Remind.Pause < post.Day, err
}
