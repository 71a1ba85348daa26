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
	"strings"
	"sync/atomic"
	"time"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/bot/post"
	"musette/planner"
	"musette/storage"
)

// soakCommand lives a season: riders race, fall ill, travel, miss and move
// sessions, and each morning everybody's reminder is counted.
type soakCommand struct {
	Riders int    `default:"500" help:"Riders, each with a week and two races."`
	Days   int    `default:"180" help:"Days of the season."`
	Events int    `default:"25" help:"What riders tell a day, together."`
	Seed   uint64 `default:"1" help:"Of what happens."`
}

// season is the bot at work by a clock that the drill moves.
type season struct {
	double *discordtest.Server
	club   discordtest.Guild
	db     *storage.DB
	bot    *bot.Bot
	poster *post.Poster
	clock  atomic.Int64 // Unix seconds
	dice   *rand.Rand
	seen   map[string]int // messages of each rider up to now

	told, refused, sent int
}

// The season begins on a Monday in March; reminders are due at half past six.
var (
	seasonStart = time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	afterDue    = 75 * time.Minute
)

func (s *season) now() time.Time { return time.Unix(s.clock.Load(), 0).UTC() }

// Run implements the subcommand.
func (c *soakCommand) Run(w *world) (err error) {
	runtime.MemProfileRate = 4096
	folder, err := os.MkdirTemp("", "musette-soak-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	s := &season{dice: rand.New(rand.NewPCG(c.Seed, 7)), seen: map[string]int{}}
	s.clock.Store(seasonStart.Unix())
	s.double = discordtest.New(discordtest.Options{KeepRequests: -1, Now: s.now})
	defer s.double.Close()
	if s.db, err = storage.Open(w.ctx, filepath.Join(folder, "musette.db")); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.db.Close()) }()
	s.db.Now = s.now
	if err := s.enrol(w.ctx, c.Riders); err != nil {
		return err
	}
	stop, err := s.start(w.ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, stop()) }()
	for day := range c.Days {
		if err := s.day(w.ctx, c.Events); err != nil {
			return fmt.Errorf("day %d: %w", day+1, err)
		}
		if day%15 == 14 || day == c.Days-1 {
			info, err := os.Stat(filepath.Join(folder, "musette.db"))
			if err != nil {
				return err
			}
			fmt.Fprintf(w.stdout, "day %3d  %6d told, %d of them refused; %6d reminders, each once; bot's heap %.1f MB, %d goroutines, file %.1f MB\n",
				day+1, s.told, s.refused, s.sent, float64(ownHeap())/1e6, runtime.NumGoroutine(), float64(info.Size())/1e6)
		}
	}
	return nil
}

// start runs the bot on the double; stop ends it.
func (s *season) start(ctx context.Context) (stop func() error, err error) {
	log := slog.New(slog.NewTextHandler(io.Discard, nil))
	s.bot = bot.New(bot.Deps{DB: s.db, Log: log})
	app, err := discord.New(discord.Config{Token: s.double.Token, URL: s.double.URL, Zone: "UTC", DB: s.db, Bot: s.bot, Log: log, Out: io.Discard, Now: s.now})
	if err != nil {
		return nil, err
	}
	s.poster = post.New(post.Config{DB: s.db, Bot: s.bot, Sender: app, Now: s.now})
	running, cancel := context.WithCancel(ctx)
	ended := make(chan error, 1)
	go func() { ended <- app.Run(running) }()
	stop = func() error { cancel(); return <-ended }
	ready, late := context.WithTimeout(ctx, 30*time.Second)
	defer late()
	return stop, errors.Join(s.double.WaitConnected(ready), s.double.WaitCommands(ready))
}

// enrol stores the riders.
func (s *season) enrol(ctx context.Context, riders int) error {
	guild := discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}}
	for i := range riders {
		guild.Members = append(guild.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", i)})
	}
	s.club = s.double.AddGuild(guild)
	club, err := s.db.EnsureClub(ctx, storage.PlatformKey("discord", s.club.ID), s.club.Name, "UTC")
	if err != nil {
		return err
	}
	week, err := typical()
	if err != nil {
		return err
	}
	today := planner.DateOf(s.now())
	for _, m := range s.club.Members {
		key := storage.PlatformKey("discord", m.UserID)
		a, err := s.db.EnsureAthlete(ctx, club.ID, key, m.Name)
		if err == nil {
			err = s.db.SetWeek(ctx, a.ID, today, planner.DatedWeek{From: today, Week: week})
		}
		for i, priority := range []planner.Priority{planner.PriorityA, planner.PriorityB} {
			if err == nil {
				race := planner.Race{Name: fmt.Sprintf("Hill Loop %d", i), Date: today.AddDays(20 + 60*i + s.dice.IntN(50)), Priority: priority, Hours: 3.5, Days: 1}
				_, _, err = s.db.AddRace(ctx, a.ID, today, race)
			}
		}
		if err == nil {
			_, err = s.db.UpdateSettings(ctx, a.ID, today, func(set *storage.Settings) error {
				set.Remind = storage.Reminders{Mode: storage.RemindChanged, At: "06:30", By: storage.RemindDirect, Since: s.now()}
				return nil
			})
		}
		if err == nil {
			err = s.db.KeepChannel(ctx, key, s.double.DM(m.UserID))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// happenings are what riders tell; %s is a day from today on, %n a number.
var happenings = []struct {
	command string
	options map[string]any
}{
	{"done", map[string]any{"minutes": "%n", "rpe": "6"}},
	{"done", map[string]any{"minutes": "%n", "note": "good legs"}},
	{"tell limit", map[string]any{"day": "%s", "minutes": "45"}},
	{"tell away", map[string]any{"from": "%s", "kind": "travel"}},
	{"tell sick", map[string]any{"symptoms": "fever"}},
	{"tell well", nil},
	{"tell tired", nil},
	{"tell missed", nil},
	{"race add", map[string]any{"name": "Cup %n", "date": "%s", "priority": "C", "hours": "2"}},
	{"race priority", map[string]any{"race": "Hill Loop 1", "priority": "A"}},
	{"me set", map[string]any{"taper": "10"}},
	{"me set", map[string]any{"taper": "auto"}},
	{"plan show", nil},
	{"ride", map[string]any{"day": "tomorrow"}},
	{"plan options", nil},
	{"season check", nil},
}

// happen lets a rider tell something, and reads the answer.
func (s *season) happen(ctx context.Context) error {
	do := happenings[s.dice.IntN(len(happenings))]
	options := map[string]any{}
	for name, value := range do.options {
		text := strings.ReplaceAll(value.(string), "%n", fmt.Sprint(30+s.dice.IntN(120)))
		options[name] = strings.ReplaceAll(text, "%s", s.now().AddDate(0, 0, s.dice.IntN(20)).Format(time.DateOnly))
	}
	at := discordtest.At{Guild: s.club.ID, User: s.club.Members[s.dice.IntN(len(s.club.Members))].UserID}
	i, err := s.double.Command(at, do.command, options)
	if err != nil {
		return err
	}
	waited, cancel := context.WithTimeout(ctx, time.Minute)
	defer cancel()
	a, err := i.Answer(waited)
	if err != nil {
		return fmt.Errorf("/%s: %w", do.command, err)
	}
	s.told++
	switch text := a.Text(); {
	case strings.Contains(text, "broke"), strings.Contains(text, "cannot store"), strings.Contains(text, "is busy"):
		return fmt.Errorf("/%s %v: %s", do.command, options, text)
	case strings.Contains(text, "did not work"):
		s.refused++
	}
	return nil
}

// day is what riders tell on a day, and the next morning.
func (s *season) day(ctx context.Context, events int) error {
	for range events {
		if err := s.happen(ctx); err != nil {
			return err
		}
	}
	s.clock.Store(s.now().Truncate(24 * time.Hour).Add(30*time.Hour + afterDue).Unix())
	due, err := s.due(ctx)
	if err != nil {
		return err
	}
	if err := s.poster.Tick(ctx, s.now()); err != nil {
		return err
	}
	for deadline := time.Now().Add(time.Minute); ; { // the bot's own tick may be at it as well
		open, err := s.db.OpenPosts(ctx)
		if err != nil || time.Now().After(deadline) {
			return fmt.Errorf("%d posts stay open: %w", len(open), err)
		}
		if len(open) == 0 {
			break
		}
		if err := sleep(ctx, 50*time.Millisecond); err != nil {
			return err
		}
	}
	return s.count(due)
}

// due are those who have to be reminded this morning, as the bot words it by itself.
func (s *season) due(ctx context.Context) (map[string]bool, error) {
	club, err := s.db.FindClub(ctx, storage.PlatformKey("discord", s.club.ID))
	if err != nil {
		return nil, err
	}
	due := map[string]bool{}
	for _, m := range s.club.Members {
		a, err := s.db.FindAthlete(ctx, club.ID, storage.PlatformKey("discord", m.UserID))
		if err != nil {
			return nil, err
		}
		today := planner.DateOf(s.now())
		who, err := s.db.KnownOf(ctx, today, a.ID)
		if err != nil {
			return nil, err
		}
		_, is, err := s.bot.Reminder(ctx, who, today, s.now())
		if err != nil {
			return nil, err
		}
		due[m.UserID] = is && a.Settings.Remind.Pause < today
	}
	return due, nil
}

// count holds that each who was due got one message, and nobody else any.
func (s *season) count(due map[string]bool) error {
	for user, is := range due {
		n := len(s.double.Sent(s.double.DM(user)))
		got := n - s.seen[user]
		s.seen[user] = n
		if want := map[bool]int{true: 1}[is]; got != want {
			return fmt.Errorf("%s: a rider got %d reminders, want %d", planner.DateOf(s.now()), got, want)
		}
		s.sent += got
	}
	return nil
}

// ownHeap is what is in use and was not allocated by the double, which keeps every message.
func ownHeap() (bytes int64) {
	runtime.GC()
	runtime.GC() // the profile is of the cycle before
	n, _ := runtime.MemProfile(nil, false)
	records := make([]runtime.MemProfileRecord, n+100)
	n, _ = runtime.MemProfile(records, false)
	for _, r := range records[:n] {
		frames := runtime.CallersFrames(r.Stack())
		own := true
		for more := true; more && own; {
			var f runtime.Frame
			f, more = frames.Next()
			own = !strings.Contains(f.Function, "discordtest")
		}
		if own {
			bytes += r.InUseBytes()
		}
	}
	return bytes
}
