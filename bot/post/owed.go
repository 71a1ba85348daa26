package post

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	"musette/bot/remind"
	"musette/planner"
	"musette/storage"
)

// window is the time for which a tick is responsible: after one instant, up to
// another. todayOnly leaves days before the local day of now alone.
type window struct {
	after, until time.Time
	ahead        time.Duration
	todayOnly    bool
}

// newWindow tells what is owed after the last tick. The first tick ever owes
// what is due today, as does one after the clock was set back by a day or more;
// set back by less, a tick owes nothing, as all up to now had its tick.
func newWindow(last, now time.Time, ahead time.Duration) window {
	w := window{after: last, until: now, ahead: ahead.Truncate(time.Minute)}
	switch {
	case last.IsZero() || last.Sub(now) >= 24*time.Hour:
		w.after, w.todayOnly = now.Add(-2*24*time.Hour), true
	case now.Sub(last) > catchUp:
		w.after = now.Add(-catchUp)
	}
	return w
}

// steady reports that the tick before was a short while ago.
func (w window) steady() bool {
	step := w.until.Sub(w.after)
	return !w.todayOnly && step >= 0 && step < time.Hour
}

func (w window) holds(t time.Time) bool { return t.After(w.after) && !t.After(w.until) }

// timetable is a time of day in a zone, of a digest with the weekday.
type timetable struct {
	kind     storage.PostKind
	zone, at string
	weekday  planner.Weekday
}

// memo is the first moment of a timetable after an instant, so that a tick with
// nothing due costs no calendar work.
type memo struct{ from, due time.Time }

// moments lists when a timetable is due within the window or so long ahead of it.
func (p *Poster) moments(t timetable, zone *time.Location, w window) []moment {
	until := w.until.Add(w.ahead)
	if m, ok := p.next[t]; ok && !w.after.Before(m.from) && m.due.After(until) {
		return nil
	}
	all, from := duesBetween(t.at, zone, w.after, until), w.after
	if len(all) > 0 {
		from = all[len(all)-1].due
	}
	if m, ok := nextDue(t.at, zone, until); ok {
		p.next[t] = memo{from, m.due}
	}
	if w.todayOnly {
		today := planner.DateOf(w.until.In(zone))
		all = slices.DeleteFunc(all, func(m moment) bool { return m.day < today })
	}
	if t.kind == storage.PostDigest {
		all = slices.DeleteFunc(all, func(m moment) bool { return m.day.Weekday() != t.weekday })
	}
	return all
}

// candidate is a post that is owed if there is something to say. A person may
// ride for several clubs; of a digest there are no riders.
type candidate struct {
	post   storage.Post
	at     time.Time // when it is to be sent
	over   bool      // it makes no sense any more
	riders []storage.Athlete
	club   storage.Club   // of a digest
	chosen storage.ClubID // of which the person's direct messages speak, 0: none
}

// owed lists the candidates of a window in the order of their time, digests last:
// they take long and wait better.
func (p *Poster) owed(ctx context.Context, w window) ([]*candidate, error) {
	reminders, err := p.owedReminders(ctx, w)
	if err != nil {
		return nil, err
	}
	digests, err := p.owedDigests(ctx, w)
	if err != nil {
		return nil, err
	}
	all := append(reminders, digests...)
	slices.SortStableFunc(all, func(a, b *candidate) int {
		return cmp.Or(byKind(a.post, b.post), a.at.Compare(b.at), a.post.Due.Compare(b.post.Due), cmp.Compare(a.post.Athlete, b.post.Athlete), cmp.Compare(a.post.Club, b.post.Club))
	})
	return all, nil
}

// byKind orders reminders before digests.
func byKind(a, b storage.Post) int { return -cmp.Compare(a.Kind, b.Kind) }

// zone loads a time zone once.
func (p *Poster) zone(name string) (*time.Location, error) {
	if zone, ok := p.zones[name]; ok {
		return zone, nil
	}
	zone, err := time.LoadLocation(name)
	if err == nil {
		p.zones[name] = zone
	}
	return zone, err
}

// personDay is a person on a day of theirs.
type personDay struct {
	key storage.Key
	day planner.Date
}

func (p *Poster) owedReminders(ctx context.Context, w window) ([]*candidate, error) {
	times, err := p.DB.RemindTimes(ctx)
	if err != nil {
		return nil, err
	}
	if len(p.next) > 4*len(times)+1000 {
		clear(p.next) // of times that nobody has any more
	}
	var all []*candidate
	persons := map[personDay]*candidate{}
	for _, t := range times {
		zone, err := p.zone(t.Zone)
		if err != nil {
			p.Log.Error("riders of a zone get no reminders", "zone", t.Zone, "error", err)
			continue
		}
		for _, m := range p.moments(timetable{kind: storage.PostReminder, zone: t.Zone, at: t.At}, zone, w) {
			riders, err := p.DB.ToRemind(ctx, t, m.day, m.due)
			if err != nil {
				return nil, err
			}
			for _, a := range riders {
				at := w.sendAt(a.ID, m, zone)
				if !w.holds(at) && !w.holds(m.due) {
					continue
				}
				who := personDay{a.PostKey(), m.day}
				c := persons[who]
				if c == nil {
					c = &candidate{over: true, post: storage.Post{Kind: storage.PostReminder, Key: who.key, Day: m.day, Athlete: a.ID, Club: a.Club, Due: m.due}, at: at}
					persons[who] = c
					all = append(all, c)
				}
				c.over = c.over && !w.until.Before(endOfDay(m.day, zone))
				c.riders = append(c.riders, a)
			}
		}
	}
	return all, nil
}

// sendAt is when a rider's reminder goes out: at its time or, each rider at a
// minute of their own, before it, but on its day.
func (w window) sendAt(id storage.AthleteID, m moment, zone *time.Location) time.Time {
	if w.ahead == 0 {
		return m.due
	}
	places := int64(w.ahead/time.Minute) + 1
	at := m.due.Add(-time.Duration(int64(id)%places) * time.Minute)
	if start := remind.StartOfDay(m.day, zone); at.Before(start) {
		return start
	}
	return at
}

func (p *Poster) owedDigests(ctx context.Context, w window) ([]*candidate, error) {
	times, err := p.DB.DigestTimes(ctx)
	if err != nil {
		return nil, err
	}
	w.ahead = 0 // they are few
	var all []*candidate
	for _, t := range times {
		zone, err := p.zone(t.Zone)
		if err != nil {
			p.Log.Error("clubs of a zone get no digest", "zone", t.Zone, "error", err)
			continue
		}
		for _, m := range p.moments(timetable{storage.PostDigest, t.Zone, t.At, t.Weekday}, zone, w) {
			clubs, err := p.DB.DigestClubs(ctx, t.Weekday)
			if err != nil {
				return nil, err
			}
			for _, club := range clubs {
				if club.Zone != t.Zone || club.Setup.DigestTime != t.At || club.Added.After(m.due) {
					continue
				}
				c := &candidate{post: storage.Post{Kind: storage.PostDigest, Key: club.Key, Day: m.day, Club: club.ID, Due: m.due},
					at: m.due, over: !w.until.Before(m.due.Add(keepFresh)), club: club}
				posted, err := p.DB.Posted(ctx, c.post)
				if err != nil {
					return nil, err
				}
				if !posted {
					all = append(all, c)
				}
			}
		}
	}
	return all, nil
}

// chosenFirst puts the rider of a club in front.
func (c *candidate) chosenFirst(club storage.ClubID) (found bool) {
	for i, a := range c.riders {
		if a.Club == club {
			c.riders[0], c.riders[i] = c.riders[i], c.riders[0]
			return true
		}
	}
	return false
}

// reasonOf is an error as it is kept with a post: one line, not too long.
func reasonOf(err error) string {
	const most = 200
	line, _, _ := strings.Cut(err.Error(), "\n")
	if runes := []rune(line); len(runes) > most {
		line = string(runes[:most])
	}
	return line
}
