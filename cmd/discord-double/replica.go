package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// replicaCommand runs several processes on one Discord, each with a shard, a database and the clubs
// of its own, and restores one of them from a replica that lags behind.
type replicaCommand struct {
	Processes int           `default:"3" help:"Processes, each with a shard of Discord's and the database of its clubs."`
	Clubs     int           `default:"1000" help:"Clubs of each, with one rider whose reminder is due."`
	Rest      time.Duration `default:"310s" help:"Pause before the restored process starts, in which Discord forgets nonces: messages are read back."`
	Lag       time.Duration `default:"6s" help:"How far the replica lags behind, at least."`
	Newcomers int           `default:"16" help:"Each so-many-th club of the process that is lost has a rider to whom the bot has never written, by direct message or by thread."`
	Unknown   int           `default:"200" help:"Messages that go out in the lag, at least: more than the batch of 128 that the replica knows to be under way."`
	Musette   string        `placeholder:"FILE" help:"The program; built where left out."`
}

// identifyGap is the time that Discord wants between two IDENTIFYs.
const identifyGap = 5 * time.Second

// sessionsPatience is for the sessions of all processes, which part by chance.
const sessionsPatience = 3 * time.Minute

// aThread stands for the threads, which have no number yet; riders of one process alone have some.
const aThread = ""

// lostOf is which of so many processes is lost: the second.
func lostOf(processes int) int { return min(1, processes-1) }

// Run implements the subcommand.
func (c *replicaCommand) Run(w *world) (err error) {
	all, end, err := c.processes(w)
	defer end()
	if err != nil {
		return err
	}
	began := time.Now()
	bots := make([]*exec.Cmd, len(all))
	for i, k := range all {
		if bots[i], err = k.start(); err != nil {
			return err
		}
		defer bots[i].Process.Kill() //nolint:errcheck // it ended before where all went well
	}
	lost := lostOf(len(all))
	if err := all[lost].lose(w.ctx, w.stdout, bots[lost], c); err != nil {
		return err
	}
	if bots[lost], err = all[lost].start(); err != nil {
		return err
	}
	defer bots[lost].Process.Kill() //nolint:errcheck // it ended before where all went well
	for _, k := range all {
		err = errors.Join(err, k.settle(w.ctx))
	}
	for i, k := range all {
		fmt.Fprintf(w.stdout, "process   %d with shard %d: IDENTIFYs and answers of op 9 %+v\n", i+1, k.shard, k.double.Shard(k.shard, k.shards))
		err = errors.Join(err, k.report(w.stdout, 0, time.Since(began)))
	}
	if err == nil { // each but the first has a session of shard 0 besides its own
		ready, cancel := context.WithTimeout(w.ctx, sessionsPatience)
		defer cancel()
		err = all[0].double.WaitSessions(ready, 2*len(all)-1)
	}
	if err == nil {
		err = talkTo(w.ctx, w.stdout, all)
	}
	if err == nil && len(all) > 1 {
		err = riderOfTwo(w.ctx, w.stdout, all)
	}
	for _, bot := range bots {
		err = errors.Join(err, bot.Process.Signal(syscall.SIGTERM), bot.Wait())
	}
	return err
}

// processes makes what each process has, on one double. end may be called in any case.
func (c *replicaCommand) processes(w *world) (all []*killDrill, end func(), err error) {
	owners := map[string]*killDrill{}
	end = func() {
		for i, k := range all {
			if i == 0 {
				k.double.Close()
			}
			_ = os.RemoveAll(k.folder) // a folder of its own
		}
	}
	program := c.Musette
	for i := range c.Processes {
		var k *killDrill
		if i == 0 {
			k, err = newKillDrill(w, program, discordtest.Options{IdentifyEvery: identifyGap})
		} else {
			k, err = newDrillFolder(w, program)
		}
		if err != nil {
			return all, end, err
		}
		all = append(all, k)
		if i == 0 {
			k.whose = func(channel string) *killDrill { return cmp.Or(owners[channel], owners[aThread]) }
		}
		program, k.double, k.shard, k.shards = k.program, all[0].double, i, c.Processes
		if i == 0 || i == c.Processes-1 {
			k.both = riderOfTwoID
		}
		if i == lostOf(c.Processes) {
			k.newcomers, owners[aThread] = c.Newcomers, k
		}
		if err := k.fillClubs(w.ctx, c.Clubs, 1); err != nil {
			return all, end, err
		}
		for _, m := range k.riders {
			owners[k.double.DM(m.UserID)] = k
		}
	}
	return all, end, nil
}

// talkTo lets a rider of each process press a button of their reminder and write in direct messages,
// which Discord sends to shard 0: each is answered once, by the process that knows the rider.
func talkTo(ctx context.Context, out io.Writer, all []*killDrill) error {
	for i, k := range all {
		at := discordtest.At{User: k.riders[0].UserID}
		channel := k.double.DM(at.User)
		before := k.double.Sent(channel)
		give, err := k.double.Press(at, before[len(before)-1], "Rode it")
		if err != nil {
			return err
		}
		pressed, err := give.Answer(ctx)
		if err != nil {
			return err
		}
		if _, err := k.double.Say(at, "what do I ride tomorrow?", false); err != nil {
			return err
		}
		if _, err := k.double.WaitSent(ctx, channel, len(before)+1); err != nil {
			return err
		}
		if err := sleep(ctx, 3*time.Second); err != nil { // for a second answer, which must not come
			return err
		}
		said := k.double.Sent(channel)[len(before):]
		if len(said) != 1 {
			return fmt.Errorf("a rider of process %d got %d answers", i+1, len(said))
		}
		fmt.Fprintf(out, "direct    to process %d: %q; %q\n", i+1, firstLine(pressed.Text()), firstLine(said[0].Text()))
	}
	return nil
}

// riderOfTwoID is somebody who rides in a club of the first process and in one of the last.
const riderOfTwoID = "900000000000000001"

// riderOfTwo shows what happens to somebody in clubs of two processes. Both send a reminder;
// Discord takes the second for a repeat of the first where it comes within some minutes. Its
// buttons reach one process. In direct messages that with shard 0 answers, and names its club.
func riderOfTwo(ctx context.Context, out io.Writer, all []*killDrill) error {
	double, at := all[0].double, discordtest.At{User: riderOfTwoID}
	channel := double.DM(at.User)
	reminders := double.Sent(channel)
	if n := len(reminders); n < 1 || n > 2 {
		return fmt.Errorf("somebody in clubs of two processes got %d reminders", n)
	}
	for _, reminder := range reminders {
		give, err := double.Press(at, reminder, "Rode it")
		if err != nil {
			return err
		}
		pressed, err := give.Answer(ctx)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "of two    presses below a reminder: %q\n", firstLine(pressed.Text()))
	}
	stored := 0
	for _, k := range []*killDrill{all[0], all[len(all)-1]} {
		rides, err := k.ridesOf(ctx, at.User)
		if err != nil {
			return err
		}
		stored += rides
	}
	if stored != len(reminders) {
		return fmt.Errorf("%d rides are stored, want one for each of %d reminders", stored, len(reminders))
	}
	give, err := double.Command(at, "me show", nil)
	if err != nil {
		return err
	}
	shown, err := give.Answer(ctx)
	if err != nil {
		return err
	}
	if !strings.Contains(shown.Text(), "Wheelers 0 of process 1") {
		return fmt.Errorf("/me show does not name the club:\n%s", shown.Text())
	}
	fmt.Fprintf(out, "of two    %d reminders, %d rides stored by one process each; /me show: %q\n", len(reminders), stored, firstLine(shown.Text()))
	return nil
}

// ridesOf counts the rides of a person that are stored.
func (k *killDrill) ridesOf(ctx context.Context, user string) (n int, err error) {
	db, err := storage.OpenAsIs(ctx, k.database())
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	person := storage.PlatformKey("discord", user)
	clubs, err := db.ClubsOf(ctx, person)
	for _, club := range clubs {
		rider, failed := db.FindAthlete(ctx, club.ID, person)
		if failed != nil {
			return n, failed
		}
		facts, failed := db.Facts(ctx, rider.ID)
		if failed != nil {
			return n, failed
		}
		n += len(facts.Done)
	}
	return n, err
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}

// lose copies the database while the process sends, lets it send more, kills it
// and puts the copy in place of its database, as from a replica that lags.
func (k *killDrill) lose(ctx context.Context, out io.Writer, bot *exec.Cmd, c *replicaCommand) error {
	if err := k.waitPosts(ctx, 0, time.Minute); err != nil { // the third process may IDENTIFY late
		return err
	}
	elsewhere := filepath.Join(k.folder, "replica")
	if err := os.Mkdir(elsewhere, 0o700); err != nil {
		return err
	}
	atCopy := k.arrived()
	replica, err := storage.Backup(ctx, k.database(), elsewhere, time.Now())
	if err != nil {
		return err
	}
	copied := time.Now()
	if err := sleep(ctx, c.Lag); err != nil {
		return err
	}
	if err := k.waitArrived(ctx, min(atCopy+c.Unknown, len(k.riders))); err != nil {
		return err
	}
	lag := time.Since(copied)
	if err := errors.Join(bot.Process.Kill(), ignoreExit(bot.Wait())); err != nil {
		return err
	}
	atKill := k.arrived()
	for _, end := range []string{"", "-wal", "-shm"} {
		if err := removeIfThere(k.database() + end); err != nil {
			return err
		}
	}
	if err := sleep(ctx, c.Rest); err != nil {
		return err
	}
	opened, err := k.openedSince(ctx, replica)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "lost      a process; its replica lagged %s: %d messages were out when it was copied, %d when the process was killed, %d of them in channels that the replica does not know\n",
		lag.Round(time.Millisecond), atCopy, atKill, opened)
	if k.newcomers > 0 && opened == 0 {
		return errors.New("nobody was written to for the first time in the lag, so this shows nothing of them. Take more clubs, or less for --newcomers")
	}
	_, err = storage.Restore(ctx, replica, k.database(), time.Now())
	return err
}

// openedSince is how many riders have a message in a direct channel or thread that a copy
// of the database does not know.
func (k *killDrill) openedSince(ctx context.Context, replica string) (n int, err error) {
	db, err := storage.OpenAsIs(ctx, replica)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for user, messages := range k.got() {
		key := storage.PlatformKey("discord", user)
		person, err := db.FindPerson(ctx, key)
		if err != nil {
			return n, err
		}
		known := person.Channel != ""
		if _, inThread := k.threads[user]; inThread {
			clubs, err := db.ClubsOf(ctx, key)
			if err != nil {
				return n, err
			}
			rider, err := db.FindAthlete(ctx, clubs[0].ID, key)
			if err != nil {
				return n, err
			}
			known = rider.Thread != ""
		}
		if messages > 0 && !known {
			n++
		}
	}
	return n, nil
}

// waitArrived waits until so many riders have a message.
func (k *killDrill) waitArrived(ctx context.Context, want int) error {
	const patience = 2 * time.Minute
	for began := time.Now(); k.arrived() < want; {
		if time.Since(began) > patience {
			return fmt.Errorf("only %d messages in %s, want %d", k.arrived(), patience, want)
		}
		if err := sleep(ctx, 50*time.Millisecond); err != nil {
			return err
		}
	}
	return nil
}
