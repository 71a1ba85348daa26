package discord

import (
	"context"
	"flag"
	"io"
	"log/slog"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"go.uber.org/goleak"

	"musette/bot"
	"musette/bot/bottest"
	"musette/bot/bottest/notice"
	"musette/bot/desk"
	"musette/bot/discord/discordtest"
	"musette/bot/discord/discordtest/lint"
	"musette/bot/discord/gateway"
	pictures "musette/bot/picture"
	"musette/storage"
	"musette/storage/storagetest"
)

func TestMain(m *testing.M) {
	flag.Parse()
	// Tests wait for sockets and for discordgo's sleeps more than they work.
	if err := flag.Set("test.parallel", "16"); err != nil {
		panic(err)
	}
	goleak.VerifyTestMain(m)
}

// stage is the bot at work on a double of Discord with a made-up club.
type stage struct {
	t      *testing.T
	double *discordtest.Server
	club   discordtest.Guild
	db     *storage.DB
	folder string
	log    *logBook
	conf   Config
	clock  atomic.Int64                  // Unix seconds; start where it is 0
	gate   atomic.Pointer[chan struct{}] // holds up pictures until it is closed
	app    *App
	stop   context.CancelFunc
	ended  chan error
}

// start is Monday 1 June 2026, 08:00 in Lisbon.
var start = time.Date(2026, 6, 1, 7, 0, 0, 0, time.UTC)

// quick are waits that a test can afford.
var quick = gateway.Pace{Hello: 3 * time.Second, Ready: 3 * time.Second, IdentifyGap: 20 * time.Millisecond, InvalidMin: time.Millisecond, InvalidMax: 5 * time.Millisecond,
	RetryMin: 5 * time.Millisecond, RetryMax: 50 * time.Millisecond, Goodbye: 10 * time.Millisecond}

// newStage starts double and bot; at the end each payload that the bot sent is
// checked against Discord's API description and its documented limits.
func newStage(t *testing.T, o discordtest.Options) *stage {
	t.Helper()
	t.Parallel() // discordgo takes a second to close
	s := &stage{t: t, log: &logBook{}}
	o.Now = s.now
	if o.Date == nil {
		o.Date = s.now
	}
	if o.AnswerWithin == 0 {
		o.AnswerWithin = time.Minute // a busy machine is no fault
	}
	s.double = discordtest.New(o)
	t.Cleanup(s.double.Close)
	s.club = s.double.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers",
		Channels: []discordtest.Channel{{Name: "general"}, {Name: "races"}, {Name: "coaches", Private: true}},
		Roles:    []discordtest.Role{{Name: "Coach"}},
		Members: []discordtest.Member{{Name: "Ines"}, {Name: "Tomas"}, {Name: "Mira", Roles: []string{"Coach"}},
			{Name: "Admin", Permissions: rightManageServer}}})
	s.conf = s.config(t, s.double.Token)
	t.Cleanup(s.checkPayloads)
	s.run()
	s.eventually("the club's name is known", func() bool { return s.app.names.name(s.club.ID) != "" })
	return s
}

// draw sketches, as soon as nothing holds it up.
func (s *stage) draw(p desk.Paint) (pictures.Picture, error) {
	if gate := s.gate.Load(); gate != nil {
		<-*gate
	}
	return bottest.Sketch(p)
}

// config makes the bot's surroundings, with a database of its own.
func (s *stage) config(t *testing.T, token string) Config {
	t.Helper()
	return s.configIn(t, t.TempDir(), token)
}

// configIn is config with the database that a folder has, if it has one.
func (s *stage) configIn(t *testing.T, folder, token string) Config {
	t.Helper()
	s.folder = folder
	db := storagetest.Open(t, filepath.Join(s.folder, "musette.db"))
	db.Now = s.now
	s.db = db
	log := slog.New(slog.NewTextHandler(s.log, nil))
	c := Config{Token: token, Zone: "Europe/Lisbon", DB: db, Bot: bot.New(bot.Deps{DB: db, Log: log, Draw: s.draw}),
		Log: log, Out: io.Discard, Pace: quick, Now: s.now}
	c.patience = discordsPatience
	c.patience.firstAnswer, c.patience.promptAfter = 50*time.Second, 40*time.Second
	if s.double != nil {
		c.URL = s.double.URL
	}
	return c
}

// now is the bot's clock, which stands still.
func (s *stage) now() time.Time {
	if at := s.clock.Load(); at != 0 {
		return time.Unix(at, 0).UTC()
	}
	return start
}

// run starts the bot and waits until it is there.
func (s *stage) run() {
	s.t.Helper()
	app, err := New(s.conf)
	if err != nil {
		s.t.Fatal(err)
	}
	s.app = app
	ctx, stop := context.WithCancel(context.Background())
	s.stop, s.ended = stop, make(chan error, 1)
	go func() { s.ended <- app.Run(ctx) }()
	s.t.Cleanup(s.end)
	if err := s.double.WaitConnected(s.within()); err != nil {
		s.t.Fatal(err)
	}
	s.eventually("commands are put", func() bool { return len(s.double.Commands()) > 0 })
}

// end stops the bot as a signal does.
func (s *stage) end() {
	s.t.Helper()
	if s.stop == nil {
		return
	}
	s.stop()
	s.stop = nil
	select {
	case err := <-s.ended:
		if err != nil {
			s.t.Errorf("the bot ended with %v", err)
		}
	case <-time.After(time.Minute):
		s.t.Error("the bot does not end")
	}
}

func (s *stage) checkPayloads() {
	schemas, _, err := lint.SchemasFromEnv()
	if err != nil {
		s.t.Fatal(err)
	}
	if schemas == nil {
		notice.Unchecked("what the bot sends against Discord's API description: %s is not set", lint.SchemasVariable)
	}
	for _, r := range s.double.Requests() {
		var files []string
		for _, f := range r.Files {
			files = append(files, f.Name)
		}
		if r.Status >= 200 && r.Status < 300 || r.Status == 0 {
			lint.CheckAll(s.t, schemas, lint.Payload{Method: r.Method, Path: r.Path, Body: r.Body, Files: files})
		}
		if r.Status == 400 && !strings.Contains(path.Base(r.Path), "callback") {
			s.t.Errorf("%s %s was refused as malformed", r.Method, r.Path)
		}
	}
}

// within bounds a wait; the bound is for a broken bot, not a slow one.
func (s *stage) within() context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	s.t.Cleanup(cancel)
	return ctx
}

func (s *stage) eventually(what string, done func() bool) {
	s.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); !done(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(deadline) {
			s.t.Fatalf("not in 30 s: %s\nlog:\n%s", what, s.log)
		}
	}
}

// in is a member in the club's general channel, direct one in direct messages.
func (s *stage) in(name string) discordtest.At {
	return discordtest.At{Guild: s.club.ID, User: s.club.UserID(name)}
}

func (s *stage) direct(name string) discordtest.At { return discordtest.At{User: s.club.UserID(name)} }

// servers is how many servers the bot knows by name by now.
func (s *stage) servers() (n int) {
	s.app.names.mu.RLock()
	defer s.app.names.mu.RUnlock()
	for _, name := range s.app.names.names {
		if name != "" {
			n++
		}
	}
	return n
}

// options are name, value, name, value.
func options(pairs ...string) map[string]any {
	out := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		out[pairs[i]] = pairs[i+1]
	}
	return out
}

func (s *stage) await(i *discordtest.Interaction, err error) discordtest.Answer {
	s.t.Helper()
	if err != nil {
		s.t.Fatal(err)
	}
	a, err := i.Answer(s.within())
	if err != nil {
		s.t.Fatalf("%v\nlog:\n%s", err, s.log)
	}
	return a
}

// give is a slash command and what the person sees.
func (s *stage) give(at discordtest.At, name string, pairs ...string) discordtest.Answer {
	s.t.Helper()
	return s.await(s.double.Command(at, name, options(pairs...)))
}

func (s *stage) press(at discordtest.At, a discordtest.Answer, button string) discordtest.Answer {
	s.t.Helper()
	return s.await(s.double.Press(at, a.Message, button))
}

// shows fails unless what the person sees holds each of the words.
func (s *stage) shows(a discordtest.Answer, words ...string) {
	s.t.Helper()
	for _, w := range words {
		if !strings.Contains(a.Text(), w) {
			s.t.Errorf("the answer lacks %q:\n%s", w, a.Text())
		}
	}
}

// logBook keeps log lines.
type logBook struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *logBook) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *logBook) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}
