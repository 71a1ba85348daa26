package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sync/atomic"
	"syscall"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// killCommand ends musette serve again and again, as kill -9 does, while it sends
// a batch of reminders, and counts what each rider got.
type killCommand struct {
	Rounds  int           `default:"300" help:"How often the bot is killed."`
	Riders  int           `default:"3000" help:"Riders with a reminder that is due."`
	Rest    time.Duration `default:"310s" help:"Pause after half of the kills, in which Discord forgets nonces: messages are read back."`
	Musette string        `placeholder:"FILE" help:"The program to kill; built where left out."`
	Log     string        `placeholder:"FILE" help:"Write the bot's log there."`
}

const (
	killPost     = "/channels/*/messages"
	killDelay    = 8 * time.Millisecond   // from a message to its answer, in which the bot may die
	killInBatch  = 250 * time.Millisecond // at most, from a round's first message to the kill
	killAtStart  = 500 * time.Millisecond // at most, from the start of the program to the kill
	killPatience = 30 * time.Second       // for a round's first message
	killStill    = 90 * time.Second       // without a further message the last run is over
)

// killDrill is a batch with what came of it.
type killDrill struct {
	double  *discordtest.Server
	riders  []discordtest.Member
	program string
	folder  string
	log     io.Writer

	posts, looks     atomic.Int64 // requests that the double saw
	inBatch, atStart int          // kills
}

// Run implements the subcommand.
func (c *killCommand) Run(w *world) (err error) {
	k := &killDrill{log: io.Discard}
	if k.folder, err = os.MkdirTemp("", "musette-kill-"); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(k.folder)) }()
	if c.Log != "" {
		file, err := os.Create(c.Log)
		if err != nil {
			return err
		}
		defer file.Close()
		k.log = file
	}
	if k.program = c.Musette; k.program == "" {
		if k.program, err = buildMusette(w.ctx, k.folder, w.stderr); err != nil {
			return err
		}
	}
	k.double = discordtest.New(discordtest.Options{KeepRequests: -1, OnRequest: k.see})
	defer k.double.Close()
	k.double.Fail(discordtest.Rule{Method: "POST", Path: killPost, Times: -1, Delay: killDelay})
	if err := k.fill(w.ctx, c.Riders); err != nil {
		return err
	}
	began := time.Now()
	for i := range c.Rounds {
		if i == c.Rounds/2 {
			if err := sleep(w.ctx, c.Rest); err != nil {
				return err
			}
		}
		if err := k.round(w.ctx); err != nil {
			return err
		}
	}
	atKills := k.arrived()
	if err := k.finish(w.ctx); err != nil {
		return err
	}
	return k.report(w.stdout, atKills, time.Since(began))
}

// buildMusette builds the program into a folder.
func buildMusette(ctx context.Context, folder string, out io.Writer) (program string, err error) {
	program = filepath.Join(folder, "musette")
	build := exec.CommandContext(ctx, "go", "build", "-o", program, "musette/cmd/musette")
	build.Stdout, build.Stderr = out, out
	if err := build.Run(); err != nil {
		return "", fmt.Errorf("build musette: %w", err)
	}
	return program, nil
}

// see counts the requests of the bot.
func (k *killDrill) see(r discordtest.Request) {
	if len(r.Path) > len("/channels/") && r.Path[:len("/channels/")] == "/channels/" {
		switch r.Method {
		case "POST":
			k.posts.Add(1)
		case "GET":
			k.looks.Add(1)
		}
	}
}

// fill stores riders whose reminders were due some minutes ago.
func (k *killDrill) fill(ctx context.Context, riders int) (err error) {
	guild := discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "general"}}}
	for i := range riders {
		guild.Members = append(guild.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", i)})
	}
	guild = k.double.AddGuild(guild)
	k.riders = guild.Members
	db, err := storage.Open(ctx, k.database())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	name, zone, err := dueZone(time.Now())
	if err != nil {
		return err
	}
	week, err := typical()
	if err != nil {
		return err
	}
	club, err := db.EnsureClub(ctx, storage.PlatformKey("discord", guild.ID), guild.Name, name)
	if err != nil {
		return err
	}
	at := time.Now().In(zone).Add(-3 * time.Minute)
	for _, m := range k.riders {
		key := storage.PlatformKey("discord", m.UserID)
		if err := dueRider(ctx, db, club.ID, key, m.Name, name, week, at); err != nil {
			return err
		}
		if err := db.KeepChannel(ctx, key, k.double.DM(m.UserID)); err != nil {
			return err
		}
	}
	return nil
}

func (k *killDrill) database() string { return filepath.Join(k.folder, "musette.db") }

// start starts the program.
func (k *killDrill) start() (*exec.Cmd, error) {
	bot := exec.Command(k.program, "serve", "--db", k.database())
	bot.Dir, bot.Stderr = k.folder, k.log
	bot.Env = append(os.Environ(), "MUSETTE_DISCORD__TOKEN="+k.double.Token, "MUSETTE_DISCORD__URL="+k.double.URL, "MUSETTE_METRICS=off")
	return bot, bot.Start()
}

// round starts the program and kills it: most often while it sends, else while
// it starts.
func (k *killDrill) round(ctx context.Context) error {
	before := k.posts.Load()
	bot, err := k.start()
	if err != nil {
		return err
	}
	if rand.IntN(5) == 0 {
		err = sleep(ctx, rand.N(killAtStart))
		k.atStart++
	} else {
		err = k.waitPosts(ctx, before, killPatience)
		err = errors.Join(err, sleep(ctx, rand.N(killInBatch)))
		k.inBatch++
	}
	if kill := bot.Process.Kill(); kill != nil {
		return errors.Join(err, fmt.Errorf("the bot ended by itself: %w", kill))
	}
	_ = bot.Wait() // it says that it was killed
	return err
}

// waitPosts waits for the next message; the batch may be over.
func (k *killDrill) waitPosts(ctx context.Context, before int64, most time.Duration) error {
	deadline := time.Now().Add(most)
	for polls := 0; k.posts.Load() == before && time.Now().Before(deadline); polls++ {
		if polls%200 == 199 && k.arrived() == len(k.riders) {
			return nil
		}
		if err := sleep(ctx, 2*time.Millisecond); err != nil {
			return err
		}
	}
	return nil
}

// arrived is how many riders have a message at least.
func (k *killDrill) arrived() (n int) {
	for _, m := range k.riders {
		if len(k.double.Sent(k.double.DM(m.UserID))) > 0 {
			n++
		}
	}
	return n
}

// finish lets the program send the rest in peace and stops it as a signal does.
func (k *killDrill) finish(ctx context.Context) error {
	bot, err := k.start()
	if err != nil {
		return err
	}
	for last, since := k.posts.Load(), time.Now(); time.Since(since) < killStill; {
		open, err := k.open(ctx)
		if _, migrating := errors.AsType[*storage.SchemaError](err); err != nil && !migrating || err == nil && open == 0 && k.arrived() == len(k.riders) {
			break
		}
		if n := k.posts.Load(); n != last {
			last, since = n, time.Now()
		}
		if err = sleep(ctx, 200*time.Millisecond); err != nil {
			break
		}
	}
	return errors.Join(err, bot.Process.Signal(syscall.SIGTERM), bot.Wait())
}

// open is how many posts the database holds of which nothing more is known.
func (k *killDrill) open(ctx context.Context) (n int, err error) {
	db, err := storage.OpenAsIs(ctx, k.database())
	if err != nil {
		return 0, err
	}
	posts, err := db.OpenPosts(ctx)
	return len(posts), errors.Join(err, db.Close())
}

// report prints what each rider got, and what the database says of it.
func (k *killDrill) report(out io.Writer, atKills int, took time.Duration) error {
	missing, twice, messages := 0, 0, 0
	for _, m := range k.riders {
		n := len(k.double.Sent(k.double.DM(m.UserID)))
		messages += n
		switch {
		case n == 0:
			missing++
		case n > 1:
			twice++
		}
	}
	open, err := k.open(context.Background())
	fmt.Fprintf(out, "kills     %d in %s: %d while it sent, %d while it started\n", k.inBatch+k.atStart, took.Round(time.Second), k.inBatch, k.atStart)
	fmt.Fprintf(out, "messages  %d for %d riders, %d of them before the last kill\n", messages, len(k.riders), atKills)
	fmt.Fprintf(out, "repeated  %d requests, which Discord knew by their nonce; %d times read back\n", int(k.posts.Load())-messages, k.looks.Load())
	fmt.Fprintf(out, "missing   %d\ntwice     %d\nunsettled %d\n", missing, twice, open)
	if missing > 0 || twice > 0 || open > 0 {
		err = errors.Join(err, errors.New("some reminders got lost or doubled"))
	}
	return err
}
