package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"time"

	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/planner"
	"musette/storage"
)

// killCommand ends musette serve again and again, as kill -9 does, while it sends
// a batch of reminders, and counts what each rider got.
type killCommand struct {
	Rounds  int           `default:"300" help:"How often the bot is killed."`
	Riders  int           `default:"3000" help:"Riders with a reminder that is due."`
	Rest    time.Duration `default:"310s" help:"Pause after half of the kills, in which Discord forgets nonces: messages are read back."`
	By      string        `default:"direct" enum:"direct,thread" help:"How reminders go out: by direct message, or by a private thread for each rider."`
	Musette string        `placeholder:"FILE" help:"The program to kill; built where left out."`
	Log     string        `placeholder:"FILE" help:"Write the bot's log there."`
}

// readHistory lets the bot see what a thread holds.
const readHistory = 1 << 16

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
	races   string // the channel of threads
	by      string // direct or thread
	program string
	folder  string
	file    string // the database; "": that of the folder
	log     io.Writer
	shard   int // of shards, where there are several processes
	shards  int // 0: one process runs all

	due  time.Time // of the reminders; zero: some minutes ago
	both string    // the id of somebody who rides in the first club besides, not one of riders

	newcomers int               // each so-many-th club has riders to whom the bot has never written; 0: none has
	threads   map[string]string // the channels of their threads, of those who have reminders there

	whose            func(channel string) *killDrill // to count for; nil: always this one
	posts, looks     atomic.Int64                    // requests that the double saw
	members          atomic.Int64                    // such that ask who is there
	inBatch, atStart int                             // kills
}

// Run implements the subcommand.
func (c *killCommand) Run(w *world) (err error) {
	k, err := newKillDrill(w, c.Musette, discordtest.Options{})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, k.end()) }()
	k.by = c.By
	if c.Log != "" {
		file, err := os.Create(c.Log)
		if err != nil {
			return err
		}
		defer file.Close()
		k.log = file
	}
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

// newKillDrill makes a double and a folder for the program, which is built unless it is given.
func newKillDrill(w *world, program string, o discordtest.Options) (*killDrill, error) {
	k, err := newDrillFolder(w, program)
	if err != nil {
		return nil, err
	}
	o.KeepRequests, o.OnRequest, o.Date = -1, k.see, time.Now
	k.double = discordtest.New(o)
	k.double.Fail(discordtest.Rule{Method: "POST", Path: killPost, Times: -1, Delay: killDelay})
	return k, nil
}

// newDrillFolder is newKillDrill without a double.
func newDrillFolder(w *world, program string) (k *killDrill, err error) {
	k = &killDrill{log: io.Discard, program: program, threads: map[string]string{}}
	if k.folder, err = os.MkdirTemp("", "musette-kill-"); err != nil {
		return nil, err
	}
	if k.program == "" {
		if k.program, err = buildMusette(w.ctx, k.folder, w.stderr); err != nil {
			return nil, errors.Join(err, os.RemoveAll(k.folder))
		}
	}
	return k, nil
}

func (k *killDrill) end() error {
	k.double.Close()
	return os.RemoveAll(k.folder)
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
	if strings.HasPrefix(r.Path, "/guilds/") && strings.Contains(r.Path, "/members/") {
		k.members.Add(1)
	}
	channel, _ := strings.CutPrefix(r.Path, "/channels/")
	if channel, ok := strings.CutSuffix(channel, "/messages"); ok {
		if k.whose != nil {
			k = k.whose(channel)
		}
		if k == nil {
			return
		}
		switch r.Method {
		case "POST":
			k.posts.Add(1)
		case "GET":
			k.looks.Add(1)
		}
	}
}

// fill stores riders of one club whose reminders were due some minutes ago.
func (k *killDrill) fill(ctx context.Context, riders int) error { return k.fillClubs(ctx, 1, riders) }

// fillClubs stores clubs with so many riders each.
func (k *killDrill) fillClubs(ctx context.Context, clubs, riders int) (err error) {
	db, err := storage.Open(ctx, k.database())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for i := range clubs {
		guild := discordtest.Guild{Name: fmt.Sprintf("Wheelers %d", i), Channels: []discordtest.Channel{{Name: "races", BotPermissions: discord.ThreadPermissions | readHistory}}}
		for j := range riders {
			guild.Members = append(guild.Members, discordtest.Member{Name: fmt.Sprintf("Rider %d", j)})
		}
		if k.shards > 0 {
			guild.Name = fmt.Sprintf("Wheelers %d of process %d", i, k.shard+1)
			guild.ID = strconv.FormatUint(uint64((1_000_000+i)*k.shards+k.shard)<<22, 10)
		}
		if i == 0 && k.both != "" {
			guild.Members = append(guild.Members, discordtest.Member{UserID: k.both, Name: "Rider of two"})
		}
		guild = k.double.AddGuild(guild)
		k.riders, k.races = append(k.riders, guild.Members[:riders]...), guild.ChannelID("races")
		newcomers := k.newcomers > 0 && i%k.newcomers == k.newcomers/2
		byThread := k.by == "thread" || newcomers && i/k.newcomers%2 == 1
		if err := k.enrol(ctx, db, guild, byThread, newcomers); err != nil {
			return err
		}
	}
	return nil
}

// enrol stores a club and its riders; newcomers are such to whom the bot has never written.
func (k *killDrill) enrol(ctx context.Context, db *storage.DB, guild discordtest.Guild, inThread, newcomers bool) error {
	name, zone, err := dueZone(time.Now())
	if err != nil {
		return err
	}
	week, err := typical()
	if err != nil {
		return err
	}
	club, err := db.EnsureClub(ctx, storage.PlatformKey("discord", guild.ID), guild.Name, name)
	if err == nil {
		club, err = db.UpdateClub(ctx, club.ID, func(_ *string, s *storage.ClubSetup) error { s.Channel = "<#" + k.races + ">"; return nil })
	}
	if err != nil {
		return err
	}
	at := time.Now().In(zone).Add(-3 * time.Minute)
	if !k.due.IsZero() {
		at = k.due.In(zone)
	}
	for _, m := range guild.Members {
		key := storage.PlatformKey("discord", m.UserID)
		if err := dueRider(ctx, db, club.ID, key, m.Name, name, week, at); err != nil {
			return err
		}
		if inThread {
			if err := byThread(ctx, db, club.ID, key, planner.DateOf(at)); err != nil {
				return err
			}
			k.threads[m.UserID] = k.races
		}
		if newcomers {
			continue
		}
		if err := db.KeepChannel(ctx, key, k.double.DM(m.UserID)); err != nil {
			return err
		}
	}
	return nil
}

// byThread lets a rider have reminders in a private thread.
func byThread(ctx context.Context, db *storage.DB, club storage.ClubID, key storage.Key, today planner.Date) error {
	a, err := db.FindAthlete(ctx, club, key)
	if err == nil {
		_, err = db.UpdateSettings(ctx, a.ID, today, func(s *storage.Settings) error { s.Remind.By = storage.RemindThread; return nil })
	}
	return err
}

// got is how many messages each rider has.
func (k *killDrill) got() map[string]int {
	got, read := map[string]int{}, map[string]bool{}
	for _, m := range k.riders {
		channel, inThread := k.threads[m.UserID]
		if !inThread {
			got[m.UserID] = len(k.double.Sent(k.double.DM(m.UserID)))
			continue
		}
		if read[channel] {
			continue
		}
		read[channel] = true
		for _, thread := range k.double.Threads(channel) {
			for _, user := range thread.Members {
				got[user] += len(k.double.Sent(thread.ID))
			}
		}
	}
	return got
}

func (k *killDrill) database() string { return cmp.Or(k.file, filepath.Join(k.folder, "musette.db")) }

// start starts the program.
func (k *killDrill) start() (*exec.Cmd, error) {
	args := []string{"serve", "--db", k.database()}
	if k.shards > 0 {
		args = append(args, "--shards", strconv.Itoa(k.shards), "--own", strconv.Itoa(k.shard))
	}
	bot := exec.Command(k.program, args...)
	bot.Dir, bot.Stderr = k.folder, k.log
	bot.Env = k.environment()
	return bot, bot.Start()
}

func (k *killDrill) environment() []string {
	return append(os.Environ(), "MUSETTE_DISCORD__TOKEN="+k.double.Token, "MUSETTE_DISCORD__URL="+k.double.URL, "MUSETTE_METRICS=off")
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
	for _, messages := range k.got() {
		n += min(messages, 1)
	}
	return n
}

// finish lets the program send the rest in peace and stops it as a signal does.
func (k *killDrill) finish(ctx context.Context) error {
	bot, err := k.start()
	if err != nil {
		return err
	}
	err = k.settle(ctx)
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
	got := k.got()
	for _, m := range k.riders {
		n := got[m.UserID]
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
