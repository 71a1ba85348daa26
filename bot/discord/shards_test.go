package discord

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/bot/discord/gateway"
	"musette/bot/meter"
	"musette/storage"
)

// fleet is a double with a club on each of several shards, for one process or several.
type fleet struct {
	t      *testing.T
	double *discordtest.Server
	clubs  []discordtest.Guild // by shard
}

// newFleet has the same riders in each club, and one who is in all.
func newFleet(t *testing.T, o discordtest.Options, shards int) *fleet {
	t.Helper()
	t.Parallel()
	if o.Now == nil {
		o.Now = func() time.Time { return start }
	}
	f := &fleet{t: t, double: discordtest.New(o)}
	t.Cleanup(f.double.Close)
	for shard := range shards {
		id := strconv.FormatUint(uint64(1_000_000*shards+shard)<<22, 10)
		f.clubs = append(f.clubs, f.double.AddGuild(discordtest.Guild{ID: id, Name: fmt.Sprintf("Club %d", shard),
			Channels: []discordtest.Channel{{Name: "general"}, {Name: "races"}},
			Members:  []discordtest.Member{{Name: "Ines"}, {Name: "Tomas", UserID: "77000"}, {Name: "Admin", Permissions: rightManageServer}}}))
	}
	return f
}

// process runs a share of the shards with the database in a folder.
func (f *fleet) process(folder string, share gateway.Share) *stage {
	f.t.Helper()
	s := &stage{t: f.t, log: &logBook{}, double: f.double, club: f.clubs[0]}
	s.conf = s.configIn(f.t, folder, f.double.Token)
	s.conf.Share, s.conf.Meter, s.conf.Out = share, meter.New(), s.log
	s.conf.Pace.IdentifyGap = 150 * time.Millisecond
	f.begin(s)
	return s
}

// begin starts a process and waits until its shards are there.
func (f *fleet) begin(s *stage) {
	f.t.Helper()
	app, err := New(s.conf)
	if err != nil {
		f.t.Fatal(err)
	}
	s.app = app
	ctx, stop := context.WithCancel(context.Background())
	s.stop, s.ended = stop, make(chan error, 1)
	go func() { s.ended <- app.Run(ctx) }()
	f.t.Cleanup(s.end)
	s.eventually("all shards are connected", app.arrived.Complete)
	s.eventually("commands are put", func() bool { return len(f.double.Commands()) > 0 })
}

// clubNames are those that a database holds and that have the bot.
func (s *stage) clubNames() (names []string) {
	s.t.Helper()
	clubs, err := s.db.Clubs(s.t.Context(), platform)
	if err != nil {
		s.t.Fatal(err)
	}
	for _, c := range clubs {
		names = append(names, c.Name)
	}
	return names
}

// One process runs as many shards as Discord recommends, at Discord's pace: each club is
// answered, its riders are reminded once, and a shard that drops resumes alone.
func TestShardsOfOneProcess(t *testing.T) {
	const shards = 3
	f := newFleet(t, discordtest.Options{Shards: shards, IdentifyEvery: 20 * time.Millisecond, GuildsPerShard: 1}, shards)
	s := f.process(t.TempDir(), gateway.Share{})
	for shard := range shards {
		if n := f.double.Shard(shard, shards); n != (discordtest.ShardCounters{Identifies: 1}) {
			t.Errorf("shard %d: %+v", shard, n)
		}
		s.club = f.clubs[shard]
		s.tapering("Ines")
		s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	}
	s.lisbon(2, 6, 30)
	s.lisbon(2, 6, 31)
	for _, s.club = range f.clubs {
		if n := len(s.written("Ines")); n != 1 {
			t.Errorf("%s: %d reminders, want 1", s.club.Name, n)
		}
	}
	health := s.conf.Meter.Health(t.Context(), "test", s.now(), func(context.Context) (time.Time, error) { return s.now(), nil })
	if len(health.Shards) != shards || !health.OK {
		t.Errorf("health %+v", health)
	}
	f.double.DropShard(1)
	s.eventually("the shard resumes", func() bool { return f.double.Shard(1, shards).Resumes == 1 })
	for _, s.club = range f.clubs {
		s.shows(s.give(s.in("Ines"), "ride", "day", "today"), "Tue 2 Jun")
		s.shows(s.give(s.direct("Ines"), "ride", "day", "today"), "Tue 2 Jun") // by shard 0
	}
	want := discordtest.Counters{Identifies: shards, Resumes: 1, Resumed: 1}
	if n := f.double.Counters(); n.Identifies != want.Identifies || n.Resumes != want.Resumes || n.Resumed != want.Resumed {
		t.Errorf("%+v", n)
	}
	s.end() // one end for all
	if err := f.double.WaitDisconnected(s.within()); err != nil {
		t.Error(err)
	}
}

// What Discord refuses one shard for good ends all.
func TestRefusedShardEndsAll(t *testing.T) {
	for _, code := range []int{4010, 4011, 4013} {
		t.Run(strconv.Itoa(code), func(t *testing.T) {
			f := newFleet(t, discordtest.Options{}, 4)
			s := f.process(t.TempDir(), gateway.Share{Shards: 2})
			f.double.RefuseIdentify(code, 1)
			f.double.InvalidateSessions() // both must begin anew; the first one is refused
			select {
			case err := <-s.ended:
				if fatal, ok := errors.AsType[*gateway.FatalError](err); !ok || fatal.Code != code {
					t.Errorf("ended with %v", err)
				}
				s.stop()
				s.stop = nil
			case <-s.within().Done():
				t.Fatal("the bot does not end")
			}
			if err := f.double.WaitDisconnected(s.within()); err != nil {
				t.Error(err)
			}
		})
	}
}

// Two processes part the shards: each stores the clubs of its own and no others. A copy of one
// database that had all is what each may begin with.
func TestShardsOfTwoProcesses(t *testing.T) {
	f := newFleet(t, discordtest.Options{IdentifyEvery: 20 * time.Millisecond}, 3)
	before := f.process(t.TempDir(), gateway.Share{Shards: 3})
	for _, before.club = range f.clubs {
		before.tapering("Ines")
		before.give(before.in("Ines"), "me set", "remind", "always 06:30")
	}
	before.end()
	one := f.copied(before, gateway.Share{Shards: 3, Own: []int{0}})
	two := f.copied(before, gateway.Share{Shards: 3, Own: []int{1, 2}})
	if got := one.clubNames(); !slices.Equal(got, []string{"Club 0"}) {
		t.Errorf("the first process has %q", got)
	}
	if got := two.clubNames(); !slices.Equal(got, []string{"Club 1", "Club 2"}) {
		t.Errorf("the second process has %q", got)
	}
	for _, s := range []*stage{one, two} {
		s.lisbon(2, 6, 30)
	}
	for _, one.club = range f.clubs {
		if n := len(one.written("Ines")); n != 1 {
			t.Errorf("%s: %d reminders, want 1", one.club.Name, n)
		}
	}
	if !strings.Contains(one.log.String(), "silent here") || !strings.Contains(one.log.String(), "clubs=2") {
		t.Errorf("log:\n%s", one.log)
	}
	// A shard that comes back brings its club back.
	two.end()
	one.end()
	one.conf.Share.Own = []int{0, 2}
	f.begin(one)
	if got := one.clubNames(); !slices.Equal(got, []string{"Club 0", "Club 2"}) {
		t.Errorf("the first process has %q", got)
	}
}

// Direct messages reach shard 0 alone. The process answers that knows the rider; of two that do,
// and of none, the one with shard 0. Buttons say for whom they are.
func TestDirectMessagesOfTwoProcesses(t *testing.T) {
	f := newFleet(t, discordtest.Options{IdentifyEvery: 20 * time.Millisecond, AnswerWithin: time.Minute}, 2)
	one := f.process(t.TempDir(), gateway.Share{Shards: 2, Own: []int{0}})
	two := f.process(t.TempDir(), gateway.Share{Shards: 2, Own: []int{1}})
	two.club = f.clubs[1]
	two.eventually("direct messages are heard", func() bool { return f.double.Shard(0, 2).Identifies == 2 && f.double.Counters().Ready == 3 })
	stranger := discordtest.At{User: one.club.UserID("Admin")}
	for _, s := range []*stage{one, two} {
		s.tapering("Ines")
		s.tapering("Tomas") // the same person in both clubs
		s.give(s.in("Ines"), "me set", "remind", "always 06:30")
	}
	one.shows(one.give(one.direct("Ines"), "ride", "day", "today"), "Mon 1 Jun")
	two.shows(two.give(two.direct("Ines"), "ride", "day", "today"), "Mon 1 Jun")
	one.shows(one.give(stranger, "ride", "day", "today"), "I do not know yet for which club you ride")
	one.shows(one.give(one.direct("Tomas"), "me show"), "This is about Club 0. For another club of yours ask in its server as well.")
	two.shows(two.give(two.in("Tomas"), "me show"), "This is about Club 1.")
	for _, at := range []discordtest.At{one.direct("Ines"), two.direct("Ines"), one.direct("Tomas"), stranger} {
		if _, err := f.double.Say(at, "what do I ride today?", false); err != nil {
			t.Fatal(err)
		}
		if _, err := f.double.WaitSent(one.within(), f.double.DM(at.User), 1); err != nil {
			t.Error(err)
		}
	}
	for _, s := range []*stage{one, two} {
		s.lisbon(2, 6, 30)
	}
	got := two.written("Ines")
	two.shows(two.await(f.double.Press(two.direct("Ines"), got[len(got)-1], "Rode it")), "Noted", "Tue 2 Jun")
	two.end()
	one.end()
	for at, want := range map[discordtest.At]int{one.direct("Ines"): 2, two.direct("Ines"): 2, one.direct("Tomas"): 1, stranger: 1} {
		if n := len(f.double.Sent(f.double.DM(at.User))); n != want {
			t.Errorf("%d messages to %+v, want %d", n, at, want)
		}
	}
	for name, s := range map[string]*stage{"one": one, "two": two} {
		if strings.Contains(s.log.String(), "level=ERROR") {
			t.Errorf("%s:\n%s", name, s.log)
		}
	}
}

// copied is a process that begins with a copy of another one's database.
func (f *fleet) copied(of *stage, share gateway.Share) *stage {
	f.t.Helper()
	folder := f.t.TempDir()
	name, err := storage.Backup(f.t.Context(), filepath.Join(of.folder, "musette.db"), folder, start)
	if err == nil {
		err = os.Rename(name, filepath.Join(folder, "musette.db"))
	}
	if err != nil {
		f.t.Fatal(err)
	}
	return f.process(folder, share)
}
