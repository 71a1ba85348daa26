package post

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"musette/bot/bottest/rounds"
	"musette/bot/remind"
	"musette/planner"
	"musette/storage"
)

// randomLife is a few riders through random ticks, settings and steps of the clock.
type randomLife struct {
	*house
	room   *room
	poster *Poster
	random *rand.Rand
	riders []storage.Athlete
	last   time.Time
	seen   map[personDay]sight
	owed   int
}

var (
	lifeZones = []string{"Europe/Lisbon", "Asia/Kathmandu", "Pacific/Kiritimati", "Pacific/Pago_Pago", "Australia/Lord_Howe", "America/Santiago"}
	lifeTimes = []string{"00:00", "02:15", "06:30", "12:00", "23:50"}
)

func newLife(t *testing.T, seed uint64) *randomLife {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 7))
	start := instant("2026-03-25T00:00Z")
	if seed%2 == 0 {
		start = instant("2026-09-01T00:00Z")
	}
	l := &randomLife{house: newHouse(t, &clock{at: start}), random: random, seen: map[personDay]sight{}}
	l.room = newRoom(l.clock)
	club := l.club(t, "1", "Europe/Lisbon")
	noDigest(t, l.house, club)
	for i := range 6 {
		l.riders = append(l.riders, l.rider(t, club, fmt.Sprint(11+i), pick(random, lifeZones), pick(random, lifeTimes)))
	}
	l.poster = l.newPoster()
	return l
}

func pick[T any](r *rand.Rand, from []T) T { return from[r.IntN(len(from))] }

func (l *randomLife) newPoster() *Poster {
	return New(Config{DB: l.db, Bot: words{}, Sender: l.room, Now: l.now, Ahead: time.Duration(l.random.IntN(2)*7) * time.Minute})
}

// step does something and ticks.
func (l *randomLife) step(t *testing.T) {
	t.Helper()
	switch x := l.random.IntN(100); {
	case x < 70:
		l.pass(time.Duration(1+l.random.IntN(90)) * time.Minute)
	case x < 75:
		l.pass(time.Duration(1+l.random.IntN(40*60)) * time.Minute)
	case x < 81:
		l.pass(-time.Duration(1+l.random.IntN(3*60)) * time.Minute)
	case x < 83:
		l.pass(-time.Duration(1+l.random.IntN(72)) * time.Hour)
	case x < 88:
		l.poster = l.newPoster()
	default:
		i := l.random.IntN(len(l.riders))
		l.riders[i] = l.change(t, l.riders[i].ID, func(s *storage.Settings) {
			switch s.Zone, s.Remind.At = pick(l.random, lifeZones), pick(l.random, lifeTimes); l.random.IntN(4) {
			case 0:
				s.Remind.Mode = storage.RemindOff
			case 1:
				s.Remind.Pause = planner.DateOf(l.now()).AddDays(1)
			default:
				s.Remind.Mode, s.Remind.Pause = storage.RemindAlways, 0
			}
		})
	}
	l.tick(t, l.poster)
	l.check(t)
	l.last = l.now()
}

// check looks at what the tick sent, and whether it sent all that came due since
// the last one.
func (l *randomLife) check(t *testing.T) {
	t.Helper()
	byKey := map[storage.Key]storage.Athlete{}
	for _, a := range l.riders {
		byKey[a.Key] = a
	}
	for _, s := range l.room.take() {
		a, who := byKey[s.key], personDay{s.key, s.day}
		zone := must(time.LoadLocation(a.Zone))
		if old, twice := l.seen[who]; twice {
			t.Errorf("%s of %s: at %v and at %v", a.Name, s.day, old.at, s.at)
		}
		l.seen[who] = s
		due, _ := remind.DueAt(s.day, a.Settings.Remind.At, zone)
		switch {
		case planner.DateOf(s.at.In(zone)) != s.day:
			t.Errorf("%s of %s: sent on another day, at %v", a.Name, s.day, s.at.In(zone))
		case due.After(s.at.Add(l.poster.Ahead)):
			t.Errorf("%s of %s: sent at %v before its time %v", a.Name, s.day, s.at, due)
		case due.Before(a.Settings.Remind.Since):
			t.Errorf("%s of %s: due at %v, before the settings of %v", a.Name, s.day, due, a.Settings.Remind.Since)
		case a.Settings.Remind.Mode == storage.RemindOff || a.Settings.Remind.Pause >= s.day:
			t.Errorf("%s of %s: not asked for, %+v", a.Name, s.day, a.Settings.Remind)
		}
	}
	for _, a := range l.riders {
		zone, r := must(time.LoadLocation(a.Zone)), a.Settings.Remind
		for day := planner.DateOf(l.last.In(zone)); day <= planner.DateOf(l.now().In(zone)); day++ {
			due, ok := remind.DueAt(day, r.At, zone)
			if !ok || !due.After(l.last) || due.After(l.now()) || due.Before(r.Since) || !l.now().Before(endOfDay(day, zone)) ||
				r.Mode == storage.RemindOff || r.Pause >= day {
				continue
			}
			if l.owed++; l.seen[personDay{a.Key, day}].at.IsZero() && !l.recorded(t, a, day) {
				t.Errorf("%s of %s: due at %v, still missing at %v", a.Name, day, due, l.now())
			}
		}
	}
}

// recorded reports a day that was recorded as skipped, when a clock that was
// wrong had passed it.
func (l *randomLife) recorded(t *testing.T, a storage.Athlete, day planner.Date) bool {
	t.Helper()
	for _, post := range l.posts(t, a.Club) {
		if post.Athlete == a.ID && post.Day == day && post.State == storage.PostSkipped {
			return true
		}
	}
	return false
}

// Whatever the order of ticks, settings, restarts and steps of the clock, no
// reminder is lost or doubled, or comes on the wrong day, too early or unasked.
func TestRandomLives(t *testing.T) {
	lives, steps := rounds.Of(40), 250
	if rounds.Raced {
		steps = 150
	}
	sent, owed := 0, 0
	for seed := range uint64(lives) {
		l := newLife(t, seed)
		l.last = l.now()
		l.tick(t, l.poster)
		l.check(t)
		for range steps {
			if l.step(t); t.Failed() {
				t.Fatalf("seed %d", seed)
			}
		}
		sent, owed = sent+len(l.seen), owed+l.owed
	}
	if few := lives * steps / 20; sent < few || owed < few {
		t.Errorf("only %d reminders were sent, %d owed", sent, owed)
	}
}
