package post

import (
	"context"
	"database/sql"
	"fmt"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/remind"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// metropolis is 100,000 riders in 2,000 clubs and 40 zones; due of them are
// reminded at 06:30 in Lisbon, the others at other times.
func metropolis(b *testing.B, due int) (*house, *Poster) {
	b.Helper()
	const riders, clubs = 100_000, 2000
	h := newHouse(b, clockAt("2026-06-10T05:29Z"))
	h.fill(b, func(tx *sql.Tx) error {
		for i := range clubs {
			if _, err := tx.Exec(`INSERT INTO club (name, key, zone, added_ms, digest_day) VALUES (?, ?, ?, 0, 'off')`, fmt.Sprint("Club ", i+1), fmt.Sprint("discord:9", i+1), yearZones[i%len(yearZones)]); err != nil {
				return err
			}
		}
		rider, err := tx.Prepare(`INSERT INTO athlete (club_id, name, key, zone, remind, remind_at, added_ms) VALUES (?, ?, ?, ?, 'always', ?, 0)`)
		if err != nil {
			return err
		}
		defer rider.Close()
		for i := range riders {
			club, at := i%clubs, fmt.Sprintf("%02d:%02d", 5+i/clubs%4, 5+20*(i/clubs%3)) // 12 times
			var own any
			if i < due {
				own, at = "Europe/Lisbon", "06:30"
			} else if i%10 == 0 {
				own = yearZones[i/10%len(yearZones)]
			}
			if _, err := rider.Exec(club+1, fmt.Sprint("Rider ", i+1), fmt.Sprint("discord:", i+1), own, at); err != nil {
				return err
			}
		}
		return nil
	})
	p := New(Config{DB: h.db, Bot: words{}, Sender: newRoom(h.clock), Now: h.now})
	h.tick(b, p) // the first one sends what was due today
	p.Sender.(*room).take()
	return h, p
}

// BenchmarkDue is a minute in which 500 of 100,000 riders are due: found, claimed,
// handed to a Sender that takes no time, settled. The disk is not waited for
// where the machine has a place in memory.
func BenchmarkDue(b *testing.B) {
	const due = 500
	h, p := metropolis(b, due)
	sent := 0
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		b.StopTimer()
		if err := h.db.NoteTick(b.Context(), h.now()); err != nil {
			b.Fatal(err)
		}
		h.pass(time.Minute)
		b.StartTimer()
		h.tick(b, p)
		b.StopTimer()
		sent += len(p.Sender.(*room).take())
		h.pass(24*time.Hour - time.Minute)
		b.StartTimer()
	}
	if sent != due*b.N {
		b.Errorf("%d sent, want %d", sent, due*b.N)
	}
	b.ReportMetric(float64(sent)/b.Elapsed().Seconds(), "reminders/s")
}

// BenchmarkQuietMinute is a minute in which none of 100,000 riders is due.
func BenchmarkQuietMinute(b *testing.B) {
	h, p := metropolis(b, 500)
	h.set(instant("2026-06-10T05:31Z"))
	h.tick(b, p)
	h.set(instant("2026-06-10T05:31Z").Add(30 * time.Second))
	p.Sender.(*room).take()
	b.ReportAllocs()
	for b.Loop() {
		h.tick(b, p) // the same minute: nothing new
	}
	if sent := p.Sender.(*room).take(); len(sent) > 0 {
		b.Errorf("%d sent in a quiet minute", len(sent))
	}
}

// BenchmarkToRemind is the question who is due, at a time of 500 riders.
func BenchmarkToRemind(b *testing.B) {
	h, _ := metropolis(b, 500)
	ctx, at := context.Background(), storage.RemindTime{Zone: "Europe/Lisbon", At: "06:30"}
	date := day(b, "2026-06-11")
	b.ReportAllocs()
	for b.Loop() {
		if riders := must(h.db.ToRemind(ctx, at, date, h.now())); len(riders) != 500 {
			b.Fatalf("%d riders", len(riders))
		}
	}
}

// BenchmarkRemindTimes is the question at which times anybody is reminded.
func BenchmarkRemindTimes(b *testing.B) {
	h, _ := metropolis(b, 500)
	b.ReportAllocs()
	for b.Loop() {
		if times := must(h.db.RemindTimes(context.Background())); len(times) < 400 {
			b.Fatalf("%d times", len(times))
		}
	}
}

// BenchmarkReminders is the whole way of 2,000 reminders but the sending: who is
// due, their facts, plans and words by the bot itself, claims and settling. Each
// rider has a season of 12 races.
func BenchmarkReminders(b *testing.B) {
	const riders = 2000
	h := newHouse(b, clockAt("2026-05-01T04:00Z"))
	club := h.club(b, "1", "Europe/Lisbon")
	noDigest(b, h, club)
	first := h.rider(b, club, "1", "", "06:30")
	week := must(typed.Week("mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"))
	today := day(b, "2026-05-01")
	if err := h.db.SetWeek(b.Context(), first.ID, today.AddDays(-60), planner.DatedWeek{From: today.AddDays(-60), Week: week}); err != nil {
		b.Fatal(err)
	}
	for i := range 12 {
		race := planner.Race{Name: fmt.Sprint("Loop ", i+1), Date: today.AddDays(10 + 21*i), Priority: []planner.Priority{planner.PriorityA, planner.PriorityC, planner.PriorityB}[i%3],
			Hours: float64(1 + i%4), Start: "10:30", Days: 1}
		if _, _, err := h.db.AddRace(b.Context(), first.ID, today.AddDays(-60), race); err != nil {
			b.Fatal(err)
		}
	}
	h.fill(b, func(tx *sql.Tx) error {
		for i := 2; i <= riders; i++ {
			for _, statement := range []string{
				`INSERT INTO athlete (id, club_id, name, key, remind, remind_at, added_ms) SELECT ?1, club_id, name || ?1, 'discord:' || ?1, remind, remind_at, 0 FROM athlete WHERE id = 1`,
				`INSERT INTO week (athlete_id, from_date, text) SELECT ?1, from_date, text FROM week WHERE athlete_id = 1`,
				`INSERT INTO race (athlete_id, name, folded, date, priority, hours, start, registered) SELECT ?1, name, folded, date, priority, hours, start, registered FROM race WHERE athlete_id = 1`,
			} {
				if _, err := tx.Exec(statement, i); err != nil {
					return err
				}
			}
		}
		return nil
	})
	p := New(Config{DB: h.db, Bot: bot.New(bot.Deps{DB: h.db}), Sender: newRoom(h.clock), Now: h.now})
	h.tick(b, p)
	sent, days := 0, 0
	for b.Loop() {
		h.set(remind.StartOfDay(today.AddDays(days%8), time.UTC).Add(5*time.Hour + 30*time.Minute)) // the days before a race
		if days++; days%8 == 0 {
			b.StopTimer()
			h.fill(b, func(tx *sql.Tx) error { _, err := tx.Exec(`DELETE FROM post`); return err })
			b.StartTimer()
		}
		h.tick(b, p)
		sent += len(p.Sender.(*room).take())
	}
	if sent != riders*days {
		b.Errorf("%d sent on %d days, want %d each", sent, days, riders)
	}
	b.ReportMetric(float64(sent)/b.Elapsed().Seconds(), "reminders/s")
}
