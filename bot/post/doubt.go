package post

import (
	"time"

	"musette/storage"
)

// isClear reports that a post may be sent without looking whether it is there:
// it never left, or so short a while ago that the Sender sends it once. Of a post
// that an earlier run claimed nothing is known; and where the database was put back,
// it may not know the thread or channel in which the post was sent.
func (p *Poster) isClear(post storage.Post) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	since, known := p.doubt[post.ID]
	if known && since.IsZero() {
		return true
	}
	if !known && p.maySent(post) {
		return false
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

// noteDoubt keeps that a post may have arrived since an instant.
func (p *Poster) noteDoubt(id storage.PostID, began time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if since, known := p.doubt[id]; known && since.IsZero() {
		p.doubt[id] = began
	}
}

// putBack is when a backup was put back, and up to when it knows what was sent.
type putBack struct{ from, at time.Time }

// maySent tells that a post may have been sent before the backup that is the
// database now was put back. It is read back as after a crash, at the next tick.
func (p *Poster) maySent(post storage.Post) bool {
	return !p.putBack.at.IsZero() && post.Due.Add(-p.Ahead).Before(p.putBack.at)
}

// decision is what happened to a post where that could not be stored.
func (p *Poster) decision(id storage.PostID) (post storage.Post, known bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	post, known = p.decided[id]
	return post, known
}
