package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"strconv"
	"syscall"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// clubsCommand runs musette serve for many clubs and measures what they cost.
type clubsCommand struct {
	Clubs   int    `default:"1000" help:"Clubs, each a server of Discord."`
	Riders  int    `default:"10" help:"Riders of each, with weeks and races. The reminder of one is due."`
	Rate    int    `default:"10" help:"Commands a second, in clubs at random, while the reminders go out."`
	Musette string `placeholder:"FILE" help:"The program; built where left out."`
}

const (
	clubsReady = 5 * time.Minute  // for all shards, which begin 5.5 seconds apart
	clubsAsked = 30 * time.Second // at least, so that there are answers to count
	clubsMost  = time.Hour        // for all reminders
)

// Run implements the subcommand.
func (c *clubsCommand) Run(w *world) (err error) {
	k, err := newKillDrill(w, c.Musette, discordtest.Options{IdentifyEvery: identifyGap})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, k.end()) }()
	guilds, err := c.fill(w.ctx, k)
	if err != nil {
		return err
	}
	size, err := os.Stat(k.database())
	if err != nil {
		return err
	}
	began := time.Now()
	bot, err := k.start()
	if err != nil {
		return err
	}
	defer bot.Process.Kill() //nolint:errcheck // it ended before where all went well
	ready, cancel := context.WithTimeout(w.ctx, clubsReady)
	defer cancel()
	const mostServers = 2500 // of a shard
	shards := (c.Clubs + mostServers - 1) / mostServers
	if err := k.double.WaitSessions(ready, shards); err != nil {
		return fmt.Errorf("not all %d shards are there: %w", shards, err)
	}
	there, startCPU := time.Since(began), processTime(bot.Process.Pid)
	asked, last, err := c.ask(w.ctx, k, guilds)
	if err != nil {
		return err
	}
	now, most := residentOf(bot.Process.Pid)
	fmt.Fprintf(w.stdout, "clubs     %d with %d riders each, file %.1f MB; %d shards\n", c.Clubs, c.Riders, float64(size.Size())/1e6, shards)
	fmt.Fprintf(w.stdout, "start     %.1f s until all shards were there, %.1f s of processor time\n", there.Seconds(), startCPU.Seconds())
	fmt.Fprintf(w.stdout, "reminders %d, the last %.0f s after the start; %d times asked meanwhile who is there\n", k.posts.Load(), last.Sub(began).Seconds(), k.members.Load())
	answers := asked.sorted()
	fmt.Fprintf(w.stdout, "answers   %d meanwhile, p50 %s, p99 %s\n", len(answers), quantile(answers, 0.5), quantile(answers, 0.99))
	fmt.Fprintf(w.stdout, "resident  %.1f MB at the end, %.1f MB at most; %.1f s of processor time in all\n", now, most, processTime(bot.Process.Pid).Seconds())
	err = errors.Join(bot.Process.Signal(syscall.SIGTERM), bot.Wait())
	return errors.Join(err, c.report(w.stdout, k))
}

// fill stores the clubs. Of each the first rider's reminder is due.
func (c *clubsCommand) fill(ctx context.Context, k *killDrill) (guilds []discordtest.Guild, err error) {
	db, err := storage.OpenUnsynced(ctx, k.database()) // many are stored more quickly so
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	name, zone, err := dueZone(time.Now())
	if err != nil {
		return nil, err
	}
	week, err := typical()
	if err != nil {
		return nil, err
	}
	now := time.Now().In(zone)
	for i := range c.Clubs {
		// Numbers one after the other, so that each shard has as many.
		guild := discordtest.Guild{ID: strconv.FormatUint(uint64(1_000_000+i)<<22, 10), Name: "Wheelers " + strconv.Itoa(i), Channels: []discordtest.Channel{{Name: "races"}}}
		for j := range c.Riders {
			guild.Members = append(guild.Members, discordtest.Member{Name: "Rider " + strconv.Itoa(j)})
		}
		guild = k.double.AddGuild(guild)
		guilds = append(guilds, guild)
		k.riders = append(k.riders, guild.Members[0])
		club, err := db.EnsureClub(ctx, storage.PlatformKey("discord", guild.ID), guild.Name, name)
		if err != nil {
			return nil, err
		}
		for j, m := range guild.Members {
			at := now.Add(-3 * time.Minute)
			if j > 0 {
				at = now.Add(6 * time.Hour)
			}
			key := storage.PlatformKey("discord", m.UserID)
			if err := dueRider(ctx, db, club.ID, key, m.Name, name, week, at); err != nil {
				return nil, err
			}
			if err := db.KeepChannel(ctx, key, k.double.DM(m.UserID)); err != nil {
				return nil, err
			}
		}
	}
	return guilds, nil
}

// ask gives commands until each due rider has the reminder, the last one at an instant that it tells.
func (c *clubsCommand) ask(ctx context.Context, k *killDrill, guilds []discordtest.Guild) (asked *latencies, last time.Time, err error) {
	asking, stop := context.WithCancel(ctx)
	defer stop()
	asked = &latencies{}
	over := make(chan struct{})
	go func() {
		defer close(over)
		_ = paced(asking, c.Rate, clubsMost, func() { // it ends when asking does
			guild := guilds[rand.IntN(len(guilds))]
			at := discordtest.At{Guild: guild.ID, Channel: guild.ChannelID("races"), User: guild.Members[rand.IntN(len(guild.Members))].UserID}
			if i, err := k.double.Command(at, "ride", nil); err == nil {
				if _, err := i.Answer(asking); err == nil {
					asked.add(i.Latency())
				}
				i.Forget()
			}
		})
	}()
	began := time.Now()
	for k.posts.Load() < int64(c.Clubs) && time.Since(began) < clubsMost {
		if err := sleep(ctx, 50*time.Millisecond); err != nil {
			return asked, last, err
		}
	}
	last = time.Now()
	err = sleep(ctx, max(0, clubsAsked-time.Since(began)))
	stop()
	<-over
	return asked, last, err
}

// report tells whether everybody got one reminder.
func (c *clubsCommand) report(out io.Writer, k *killDrill) error {
	missing, twice := 0, 0
	for _, n := range k.got() {
		switch {
		case n == 0:
			missing++
		case n > 1:
			twice++
		}
	}
	fmt.Fprintf(out, "missing   %d\ntwice     %d\n", missing, twice)
	if missing > 0 || twice > 0 {
		return errors.New("some reminders got lost or doubled")
	}
	return nil
}

// processTime is what a process has taken of processors so far, 0 where /proc does not tell.
func processTime(pid int) time.Duration {
	const ticks, before = 100, 13 // a second; fields before those of the time, by proc(5)
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return 0
	}
	_, rest, _ := bytes.Cut(data, []byte(") "))
	fields := bytes.Fields(rest)
	if len(fields) < before {
		return 0
	}
	user, _ := strconv.Atoi(string(fields[before-2]))
	system, _ := strconv.Atoi(string(fields[before-1]))
	return time.Duration(user+system) * time.Second / ticks
}

// residentOf is the memory in RAM of a process, now and at most, in MB.
func residentOf(pid int) (now, most float64) {
	data, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	for line := range bytes.Lines(data) {
		fields := bytes.Fields(line)
		if len(fields) < 2 {
			continue
		}
		kB, _ := strconv.ParseFloat(string(fields[1]), 64)
		switch string(fields[0]) {
		case "VmRSS:":
			now = kB * 1024 / 1e6
		case "VmHWM:":
			most = kB * 1024 / 1e6
		}
	}
	return now, most
}
