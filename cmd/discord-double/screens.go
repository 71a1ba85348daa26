package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"time"

	"musette/bot"
	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/bot/post"
	"musette/storage"
)

// screensCommand plays a file of lines with a bot in this process. Lines are
//
//	now 2026-06-12T08:00           the club's time, with the reminders and the digest due by then
//	Ines: /plan show               a command
//	Ines press Other lengths       a button of the rider's newest message
//	Ines hears                     the newest direct message to a rider
//	#races                         the newest message in a channel
//
// What comes of a line that begins with "name = " becomes a screen.
type screensCommand struct {
	File string `arg:"" type:"existingfile" help:"The lines."`
}

// screen is what somebody sees after a line.
type screen struct {
	Name, Who      string
	Asked, Command string // "/ride tomorrow" and "ride"; empty where no command was typed
	At             time.Time
	Messages       []discordtest.Message

	from *discordtest.Interaction
}

// stage is a club, its bot and a clock that is set by hand.
type stage struct {
	play
	clock   *handClock
	zone    *time.Location
	posts   *post.Poster
	seen    map[string]discordtest.Message // by rider
	heard   map[string]int                 // by channel
	screens []screen
}

// Run implements the subcommand.
func (c *screensCommand) Run(w *world) error {
	lines, err := os.ReadFile(c.File)
	if err != nil {
		return err
	}
	st, err := playScreens(w.ctx, string(lines), w.stderr)
	if err != nil {
		return err
	}
	out := json.NewEncoder(w.stdout)
	out.SetEscapeHTML(false)
	return out.Encode(map[string]any{"Zone": st.zone.String(), "Names": st.names(), "Screens": st.screens})
}

// playScreens plays all lines; the stage's screens are complete then.
func playScreens(ctx context.Context, lines string, log io.Writer) (st *stage, err error) {
	folder, err := os.MkdirTemp("", "musette-screens-")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	db, err := storage.Open(ctx, filepath.Join(folder, "musette.db"))
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	s := discordtest.New(discordtest.Options{})
	defer s.Close()
	if st, err = newStage(s); err != nil {
		return nil, err
	}
	db.Now = st.clock.now
	logger := slog.New(slog.NewTextHandler(log, &slog.HandlerOptions{Level: slog.LevelWarn}))
	b := bot.New(bot.Deps{DB: db, Log: logger})
	app, err := discord.New(discord.Config{Token: s.Token, URL: s.URL, Zone: st.zone.String(), DB: db, Bot: b, Log: logger, Out: io.Discard, Now: st.clock.now})
	if err != nil {
		return nil, err
	}
	st.posts = post.New(post.Config{DB: db, Bot: b, Sender: app, Log: logger, Now: st.clock.now})
	running, stop := context.WithCancel(ctx)
	ended := make(chan error, 1)
	go func() { ended <- app.Run(running) }()
	err = st.all(ctx, lines)
	stop()
	err = errors.Join(err, <-ended)
	for i, sc := range st.screens {
		if sc.from != nil { // the bot has finished, so all that follows an answer has come
			st.screens[i].Messages = append(sc.Messages, sc.from.FollowUps()...)
		}
	}
	return st, err
}

func newStage(s *discordtest.Server) (*stage, error) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	before := time.Date(2026, time.June, 1, 8, 0, 0, 0, time.UTC)
	return &stage{play: play{s: s, guild: wheelers(s, "Lena", "Oskar", "Nadia")}, zone: zone, clock: &handClock{at: before, set: time.Now()},
		seen: map[string]discordtest.Message{}, heard: map[string]int{}}, err
}

var screenName = regexp.MustCompile(`^([a-z-]+) = (.*)$`)

func (st *stage) all(ctx context.Context, lines string) error {
	ready, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	if err := errors.Join(st.s.WaitConnected(ready), st.s.WaitCommands(ready)); err != nil {
		return err
	}
	for line := range strings.Lines(lines) {
		if line = strings.TrimSpace(line); line == "" || strings.HasPrefix(line, "# ") {
			continue
		}
		name := ""
		if found := screenName.FindStringSubmatch(line); found != nil {
			name, line = found[1], found[2]
		}
		sc, err := st.line(ctx, line)
		if err != nil {
			return fmt.Errorf("%s: %w", line, err)
		}
		if sc.Name = name; name != "" {
			st.screens = append(st.screens, sc)
		}
	}
	return nil
}

// line carries out one line.
func (st *stage) line(ctx context.Context, line string) (screen, error) {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	who, does, _ := strings.Cut(line, " ")
	who, typed := strings.CutSuffix(who, ":")
	if who == "now" {
		at, err := time.ParseInLocation("2006-01-02T15:04", does, st.zone)
		if err != nil {
			return screen{}, err
		}
		st.clock.turn(at)
		return screen{}, st.posts.Tick(ctx, at)
	}
	sc := screen{Who: who, At: st.clock.now()}
	if strings.HasPrefix(who, "#") {
		return sc, st.hear(ctx, &sc, st.guild.ChannelID(who))
	}
	at := discordtest.At{Guild: st.guild.ID, User: st.guild.UserID(who)}
	if at.User == "" {
		return screen{}, fmt.Errorf("no rider %q", who)
	}
	sc.Who = st.names()[at.User]
	label, pressed := strings.CutPrefix(does, "press ")
	switch {
	case does == "hears":
		return sc, st.hear(ctx, &sc, st.s.DM(at.User))
	case pressed:
		return sc, st.answer(ctx, &sc)(st.s.Press(at, st.seen[sc.Who], label))
	case typed:
		command, options, _, err := st.parse(does)
		if err != nil {
			return screen{}, err
		}
		sc.Asked, sc.Command = does, command
		return sc, st.answer(ctx, &sc)(st.s.Command(at, command, options))
	}
	return screen{}, fmt.Errorf("%q is not understood", does)
}

// answer waits for what comes of a command or a press.
func (st *stage) answer(ctx context.Context, sc *screen) func(*discordtest.Interaction, error) error {
	return func(i *discordtest.Interaction, err error) error {
		if err != nil {
			return err
		}
		a, err := i.Answer(ctx)
		sc.Messages, sc.from, st.seen[sc.Who] = []discordtest.Message{a.Message}, i, a.Message
		return err
	}
}

// hear waits for a message that the bot writes of its own accord.
func (st *stage) hear(ctx context.Context, sc *screen, channel string) error {
	sent, err := st.s.WaitSent(ctx, channel, st.heard[channel]+1)
	if err != nil {
		return err
	}
	st.heard[channel] = len(sent)
	newest := sent[len(sent)-1]
	sc.Messages, st.seen[sc.Who] = []discordtest.Message{newest}, newest
	return nil
}

// names are what Discord shows for ids: races, Coach, Ines K.
func (st *stage) names() map[string]string {
	names := map[string]string{}
	for _, c := range st.guild.Channels {
		names[c.ID] = c.Name
	}
	for _, r := range st.guild.Roles {
		names[r.ID] = r.Name
	}
	for _, m := range st.guild.Members {
		names[m.UserID] = cmp.Or(m.Nick, m.Name)
	}
	return names
}

// handClock is set by hand and goes on from there.
type handClock struct {
	mu      sync.Mutex
	at, set time.Time
}

func (c *handClock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at.Add(time.Since(c.set))
}

func (c *handClock) turn(to time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at, c.set = to, time.Now()
}
