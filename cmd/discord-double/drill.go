package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"time"

	"musette/bot"
	"musette/bot/desk"
	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/storage"
)

// Riders of the club; the bot has not written to the last ones yet.
const (
	drillRiders = 400
	newRiders   = 60
)

// drill is the bot at work on a double, in this process, for a club whose
// riders have weeks and races.
type drill struct {
	double *discordtest.Server
	club   discordtest.Guild
	folder string
	db     *storage.DB
	stop   context.CancelFunc
	ended  chan error
}

// startDrill starts double and bot. Besides the riders who do something there are
// some whose reminders are due at once.
func startDrill(ctx context.Context, o discordtest.Options, log io.Writer, due int) (d *drill, err error) {
	d = &drill{double: discordtest.New(o), ended: make(chan error, 1)}
	if d.folder, err = os.MkdirTemp("", "musette-drill-"); err != nil {
		return nil, err
	}
	if d.db, err = storage.Open(ctx, filepath.Join(d.folder, "musette.db")); err != nil {
		return nil, err
	}
	guild := discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "general"}}}
	for i := range drillRiders + due {
		guild.Members = append(guild.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", i)})
	}
	d.club = d.double.AddGuild(guild)
	logger := slog.New(slog.NewTextHandler(log, nil))
	b := bot.New(bot.Deps{DB: d.db, Log: slog.New(slog.DiscardHandler)})
	if err := d.enrol(ctx, b); err != nil {
		return nil, err
	}
	if err := d.enrolDue(ctx); err != nil {
		return nil, err
	}
	app, err := discord.New(discord.Config{Token: d.double.Token, URL: d.double.URL, Zone: "Europe/Lisbon", DB: d.db,
		Bot: bot.New(bot.Deps{DB: d.db, Log: logger}), Log: logger, Out: io.Discard})
	if err != nil {
		return nil, err
	}
	running, stop := context.WithCancel(ctx)
	d.stop = stop
	go func() { d.ended <- app.Run(running) }()
	ready, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	if err := d.double.WaitConnected(ready); err != nil {
		return nil, err
	}
	for len(d.double.Commands()) == 0 {
		if err := sleep(ready, 10*time.Millisecond); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// enrol gives each rider a week and a race, as they would do it themselves, and
// all but the new ones a channel of direct messages.
func (d *drill) enrol(ctx context.Context, b *bot.Bot) error {
	for i, m := range d.club.Members[:drillRiders] {
		if i < drillRiders-newRiders {
			if err := d.db.KeepChannel(ctx, storage.PlatformKey("discord", m.UserID), d.double.DM(m.UserID)); err != nil {
				return err
			}
		}
		for _, req := range []desk.Request{
			{Command: "week share", Options: map[string]string{"week": "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"}},
			{Command: "race add", Options: map[string]string{"name": "Hill Loop", "date": time.Now().AddDate(0, 0, 10+rand.IntN(20)).Format(time.DateOnly), "priority": "A", "hours": "3h30"}},
		} {
			req.Club, req.ClubKey = d.club.Name, storage.PlatformKey("discord", d.club.ID)
			req.Athlete, req.AthleteKey = m.Name, storage.PlatformKey("discord", m.UserID)
			req.Home, req.Now = "Europe/Lisbon", time.Now()
			if reply, err := b.Handle(ctx, req); err != nil || reply.Err != nil {
				return fmt.Errorf("enrol: %s: %w", reply.Text(), err)
			}
		}
	}
	return nil
}

// enrolDue stores the riders whose reminders are due.
func (d *drill) enrolDue(ctx context.Context) error {
	name, zone, err := dueZone(time.Now())
	if err != nil {
		return err
	}
	week, err := typical()
	if err != nil {
		return err
	}
	club, err := d.db.FindClub(ctx, storage.PlatformKey("discord", d.club.ID))
	if err != nil {
		return err
	}
	for _, m := range d.due() {
		key := storage.PlatformKey("discord", m.UserID)
		if err := dueRider(ctx, d.db, club.ID, key, m.Name, name, week, time.Now().In(zone).Add(-3*time.Minute)); err != nil {
			return err
		}
		if err := d.db.KeepChannel(ctx, key, d.double.DM(m.UserID)); err != nil {
			return err
		}
	}
	return nil
}

// due are the members whose reminders are due when the bot starts.
func (d *drill) due() []discordtest.Member { return d.club.Members[drillRiders:] }

// reminded is how many of them have theirs.
func (d *drill) reminded() (n int) {
	for _, m := range d.due() {
		n += len(d.double.Sent(d.double.DM(m.UserID)))
	}
	return n
}

// end stops the bot as a signal does, and reports what it leaves behind.
func (d *drill) end() error {
	d.stop()
	err := <-d.ended
	d.double.Close()
	return errors.Join(err, d.db.Close(), os.RemoveAll(d.folder))
}

// paced calls f at an even rate until the time is over, each in a goroutine of its own.
func paced(ctx context.Context, rate int, length time.Duration, f func()) error {
	var all sync.WaitGroup
	defer all.Wait()
	began := time.Now()
	for i := 0; ; i++ {
		due := time.Duration(i) * time.Second / time.Duration(rate)
		if due >= length {
			return nil
		}
		if err := sleep(ctx, time.Until(began.Add(due))); err != nil {
			return err
		}
		all.Go(f)
	}
}

func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return nil
	}
}

// quantile is the value below which so many of the sorted values lie.
func quantile(sorted []time.Duration, q float64) time.Duration {
	if len(sorted) == 0 {
		return 0
	}
	return sorted[min(len(sorted)-1, int(q*float64(len(sorted))))].Round(100 * time.Microsecond)
}

// heap is what is in use after a collection, in bytes.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// latencies gathers times from several goroutines.
type latencies struct {
	mu  sync.Mutex
	all []time.Duration
}

func (l *latencies) add(d time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, d)
}

func (l *latencies) sorted() []time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	slices.Sort(l.all)
	return l.all
}
