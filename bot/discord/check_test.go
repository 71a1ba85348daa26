package discord

import (
	"context"
	"net"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"musette/bot"
	"musette/bot/discord/api"
	"musette/bot/discord/discordtest"
	"musette/bot/discord/gateway"
	"musette/storage"
	"musette/storage/storagetest"
)

// checked is a double with one club that is all set up.
type checked struct {
	t     *testing.T
	s     *discordtest.Server
	guild discordtest.Guild
	c     Config
	club  storage.Club

	unread bool
}

func newChecked(t *testing.T, o discordtest.Options) *checked {
	t.Helper()
	s := discordtest.New(o)
	t.Cleanup(s.Close)
	db := storagetest.Open(t, filepath.Join(t.TempDir(), "club.db"))
	w := &checked{t: t, s: s, c: Config{Token: s.Token, URL: s.URL, DB: db}}
	w.guild = s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}, Roles: []discordtest.Role{{Name: "Coach"}}})
	w.setUp(channelReference(w.guild.ChannelID("races")), "<@&"+w.guild.RoleID("Coach")+">")
	w.put(definitions(bot.Commands()))
	return w
}

func (w *checked) setUp(channel, role string) {
	w.t.Helper()
	club, err := w.c.DB.EnsureClub(w.t.Context(), clubKey(w.guild.ID), w.guild.Name, "Europe/Lisbon")
	if err == nil {
		club, err = w.c.DB.UpdateClub(w.t.Context(), club.ID, func(_ *string, s *storage.ClubSetup) error {
			s.Channel, s.CoachRole = channel, role
			return nil
		})
	}
	if err != nil {
		w.t.Fatal(err)
	}
	w.club = club
}

func (w *checked) put(commands []definition) {
	w.t.Helper()
	client, err := api.New(api.Config{Token: w.s.Token, Base: w.s.URL})
	if err == nil {
		err = client.PutCommands(w.t.Context(), w.s.AppID, commands)
	}
	if err != nil {
		w.t.Fatal(err)
	}
}

// run checks and returns the lines of one state.
func (w *checked) run(state string) []string {
	w.t.Helper()
	ctx, cancel := context.WithTimeout(w.t.Context(), time.Minute)
	defer cancel()
	var lines []string
	for _, f := range Check(ctx, w.c, w.unread) {
		line := f.What + ": " + f.Text
		if strings.Contains(line, w.s.Token) {
			w.t.Errorf("the token is given away: %s", line)
		}
		if f.State == state {
			lines = append(lines, line)
		}
	}
	return lines
}

func TestCheckFindsNothingMissing(t *testing.T) {
	w := newChecked(t, discordtest.Options{})
	if got := slices.Concat(w.run(StateFix), w.run(StateNote)); len(got) > 0 {
		t.Errorf("nothing is missing, but: %q", got)
	}
	got := strings.Join(w.run(StateOK), "\n")
	for _, want := range []string{"discord: " + w.s.URL + " answers", "token: Discord knows it, the bot is called musette", "application: ", InviteLink(w.s.AppID),
		"intents: no privileged one is on", "shards: as many as Discord recommends, now 1, all in one process", "connections: 1000 of 1000 are left", "commands: Discord has them all",
		"club Marrow Vale Wheelers: channel #races is there", "club Marrow Vale Wheelers: coaches have the role Coach"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in\n%s", want, got)
		}
	}
}

func TestCheckSaysWhatToFix(t *testing.T) {
	const club = "club Marrow Vale Wheelers: "
	for name, test := range map[string]struct {
		spoil func(*checked)
		want  []string // beginnings of the lines to fix
	}{
		"no address":       {func(w *checked) { w.c.URL = "http://chat.example" }, []string{"discord.url: http:// would send"}},
		"nobody there":     {func(w *checked) { w.c.URL = unusedAddress(w.t) }, []string{"discord: http://127.0.0.1:"}},
		"no token":         {func(w *checked) { w.c.Token = "" }, nil}, // the caller says why
		"wrong token":      {func(w *checked) { w.c.Token = "another" }, []string{"token: Discord does not know it. "}},
		"refused":          {func(w *checked) { w.s.Fail(discordtest.Rule{Path: "/users/@me", Status: 403}) }, []string{"discord: http://127.0.0.1:"}},
		"no commands":      {func(w *checked) { w.put([]definition{}) }, []string{"commands: "}},
		"old commands":     {func(w *checked) { w.put(definitions(bot.Commands())[1:]) }, []string{"commands: "}},
		"no starts":        {func(w *checked) { w.starts(0) }, []string{"connections: none of 1000 is left. Stop the bot, and start it again in 2h0m0s"}},
		"no server":        {func(w *checked) { w.s.RemoveGuild(w.guild.ID) }, []string{"clubs: no server has the bot"}},
		"club without all": {func(w *checked) { w.s.AddGuild(discordtest.Guild{Name: "Hill Club"}) }, []string{"club Hill Club: is not set up. Run /club setup there"}},
		"no database":      {func(w *checked) { w.c.DB = nil }, []string{club + "is not set up"}},
		"digest's channel gone": {func(w *checked) {
			if _, err := w.c.DB.UpdateClub(w.t.Context(), w.club.ID, func(_ *string, s *storage.ClubSetup) error {
				s.Coaches = channelReference("5")
				return nil
			}); err != nil {
				w.t.Fatal(err)
			}
		}, []string{club + "coaches-channel: it was deleted. Set it anew there"}},
		"no channel": {func(w *checked) { w.setUp("", w.club.Setup.CoachRole) }, []string{club + "no channel. Run /club setup there"}},
		"channel deleted": {func(w *checked) {
			if err := w.s.DeleteChannel(w.guild.ChannelID("races")); err != nil {
				w.t.Fatal(err)
			}
		}, []string{club + "channel: it was deleted. Set"}},
		"channel hidden": {func(w *checked) {
			if err := w.s.SetBotPermissions(w.guild.ChannelID("races"), discordtest.PermSend); err != nil {
				w.t.Fatal(err)
			}
		}, []string{club + "channel: I may not see it. Allow me View Channel"}},
		"channel not writable": {func(w *checked) {
			if err := w.c.DB.SetFault(w.t.Context(), w.club.ID, "I may not write there"); err != nil {
				w.t.Fatal(err)
			}
		}, []string{club + "channel: I may not write there. "}},
		"role deleted": {func(w *checked) {
			w.guild.Roles = nil
			w.s.AddGuild(w.guild)
		}, []string{club + "the coach role was deleted"}},
		"parts unknown": {func(w *checked) {
			for _, path := range []string{"/applications/@me", "/gateway/bot", "/users/@me/guilds"} {
				w.s.Fail(discordtest.Rule{Path: path, Status: 403})
			}
		}, []string{"application: could not be looked up", "connections: could not be looked up", "clubs: could not be looked up"}},
	} {
		t.Run(name, func(t *testing.T) {
			w := newChecked(t, discordtest.Options{})
			test.spoil(w)
			got := w.run(StateFix)
			if !slices.EqualFunc(got, test.want, strings.HasPrefix) {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestCheckNotes(t *testing.T) {
	const messageContent = 1 << 15
	w := newChecked(t, discordtest.Options{Privileged: messageContent})
	w.starts(5)
	w.setUp(w.club.Setup.Channel, "")
	gone := w.s.AddGuild(discordtest.Guild{Name: "Hill Club"})
	if _, err := w.c.DB.EnsureClub(t.Context(), clubKey(gone.ID), gone.Name, "Europe/Lisbon"); err != nil {
		t.Fatal(err)
	}
	w.s.RemoveGuild(gone.ID)
	got := w.run(StateNote)
	want := []string{"intents: privileged ones are on", "connections: only 5 of 1000 are left for the next 2h0m0s",
		"club Marrow Vale Wheelers: no coach role", "club Hill Club: has removed the bot"}
	if !slices.EqualFunc(got, want, strings.HasPrefix) {
		t.Errorf("got %q, want %q", got, want)
	}
	if fixes := w.run(StateFix); len(fixes) > 0 {
		t.Errorf("nothing is to fix, but: %q", fixes)
	}
}

// A coaches-channel that everybody reads is told, a private one is not.
func TestCheckOfTheCoachesChannel(t *testing.T) {
	w := newChecked(t, discordtest.Options{})
	w.guild.Channels = append(w.guild.Channels, discordtest.Channel{Name: "open"}, discordtest.Channel{Name: "coaches", Private: true})
	w.guild = w.s.AddGuild(w.guild)
	for channel, want := range map[string]int{"open": 1, "coaches": 0} {
		if _, err := w.c.DB.UpdateClub(t.Context(), w.club.ID, func(_ *string, s *storage.ClubSetup) error {
			s.Coaches = channelReference(w.guild.ChannelID(channel))
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		notes := slices.DeleteFunc(w.run(StateNote), func(line string) bool {
			return !strings.Contains(line, "everybody in the server can read the coaches-channel")
		})
		if len(notes) != want {
			t.Errorf("#%s: %q", channel, notes)
		}
		if fixes := w.run(StateFix); len(fixes) > 0 {
			t.Errorf("nothing is to fix, but: %q", fixes)
		}
	}
}

func TestCheckWithoutReadingTheDatabase(t *testing.T) {
	w := newChecked(t, discordtest.Options{})
	w.c.DB, w.unread = nil, true
	if got := w.run(StateNote); len(got) != 1 || !strings.HasPrefix(got[0], "clubs: servers that have the bot: 1. ") {
		t.Errorf("got %q, want one line about clubs", got)
	}
	if fixes := w.run(StateFix); len(fixes) > 0 {
		t.Errorf("nothing is to fix, but: %q", fixes)
	}
}

// A club that removed the bot is told with the day on which its data go.
func TestCheckOfClubsThatLeft(t *testing.T) {
	w := newChecked(t, discordtest.Options{})
	w.setUp(w.club.Setup.Channel, "")
	left := time.Date(2026, time.May, 3, 12, 0, 0, 0, time.UTC)
	w.c.DB.Now = func() time.Time { return left }
	for _, id := range []string{"77", w.guild.ID} {
		if _, err := w.c.DB.EnsureClub(t.Context(), clubKey(id), "Hill Club", "Europe/Lisbon"); err != nil {
			t.Fatal(err)
		}
		if err := w.c.DB.LeaveClub(t.Context(), clubKey(id)); err != nil {
			t.Fatal(err)
		}
	}
	const back = "club Marrow Vale Wheelers: removed the bot and has it again. musette serve sees that when it runs, and keeps what is stored"
	for later, want := range map[time.Duration]string{
		time.Hour:           "club Hill Club: removed the bot on 3 May. Its data are erased here on 2 June",
		31 * 24 * time.Hour: "club Hill Club: removed the bot on 3 May. musette serve erases its data here when it runs",
	} {
		w.c.DB.Now = func() time.Time { return left.Add(later) }
		if got := w.run(StateNote); !slices.Equal(got, []string{back, want}) {
			t.Errorf("after %v: got %q, want %q", later, got, []string{back, want})
		}
	}
	if fixes := w.run(StateFix); len(fixes) > 0 {
		t.Errorf("nothing is to fix, but: %q", fixes)
	}
}

// A process looks at the clubs of its own shards, and knows those that other processes serve.
func TestCheckOfAShare(t *testing.T) {
	w := newChecked(t, discordtest.Options{Shards: 3})
	w.c.Share.Shards = 2
	own := gateway.ShardOf(w.guild.ID, 2)
	w.c.Share.Own = []int{own}
	w.s.AddGuild(discordtest.Guild{ID: strconv.FormatUint(uint64(1_000_000+1-own)<<22, 10), Name: "Elsewhere"})
	found := strings.Join(w.run(StateNote), "\n")
	for _, want := range []string{"shards: 2 are set, and Discord recommends 3", "clubs: servers whose shards other processes run: 1"} {
		if !strings.Contains(found, want) {
			t.Errorf("%q is missing in\n%s", want, found)
		}
	}
	if fixes := w.run(StateFix); len(fixes) > 0 {
		t.Errorf("nothing is to fix, but: %q", fixes)
	}
	w.c.Share = gateway.Share{Shards: 4, Own: []int{(gateway.ShardOf(w.guild.ID, 4) + 1) % 4}}
	if err := w.c.DB.LeaveClub(t.Context(), w.club.Key); err != nil {
		t.Fatal(err)
	}
	found = strings.Join(append(w.run(StateOK), w.run(StateNote)...), "\n")
	for _, want := range []string{"shards: 1 of 4 in this process. Other processes must run the others", "is of a shard that this process does not run since"} {
		if !strings.Contains(found, want) {
			t.Errorf("%q is missing in\n%s", want, found)
		}
	}
}

func TestCheckEndsWithItsContext(t *testing.T) {
	w := newChecked(t, discordtest.Options{})
	w.s.Fail(discordtest.Rule{Path: "/users/@me/guilds", Times: -1, Delay: time.Minute})
	ctx, cancel := context.WithTimeout(t.Context(), 500*time.Millisecond)
	defer cancel()
	found := Check(ctx, w.c, false)
	if last := found[len(found)-1]; last.State != StateFix {
		t.Errorf("the last finding is %+v, want one to fix", last)
	}
}

func (w *checked) starts(left int) {
	w.s.SetSessionStartLimit(discordtest.SessionStartLimit{Total: 1000, Remaining: left, ResetAfter: 2 * time.Hour, MaxConcurrency: 1})
}

// unusedAddress is one of this machine where nobody listens.
func unusedAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return "http://" + l.Addr().String()
}

// A clock that differs from Discord's is told with what mends it.
func TestCheckOfTheClock(t *testing.T) {
	for off, want := range map[time.Duration]string{
		9 * time.Minute:  "ok clock: this machine's agrees with Discord's",
		-48 * time.Hour:  "fix clock: this machine's is 48h0m",
		25 * time.Minute: "fix clock: this machine's is 2",
	} {
		w := newChecked(t, discordtest.Options{Date: func() time.Time { return time.Now().Add(off) }})
		var lines []string
		for _, state := range []string{StateOK, StateFix} {
			for _, line := range w.run(state) {
				lines = append(lines, state+" "+line)
			}
		}
		if !slices.ContainsFunc(lines, func(line string) bool { return strings.HasPrefix(line, want) }) {
			t.Errorf("%v: %q is missing in %q", off, want, lines)
		}
	}
	w := newChecked(t, discordtest.Options{})
	if got := w.run(StateOK); slices.ContainsFunc(got, func(line string) bool { return strings.HasPrefix(line, "clock: ") }) {
		t.Errorf("without a Date: %q", got)
	}
}

// A bot whose clock is not that of Discord's answers sends no reminders and erases nothing.
func TestClockIsDoubtedAtStart(t *testing.T) {
	for name, ahead := range map[string]int{"right": 0, "wrong": 40} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t, discordtest.Options{Date: func() time.Time { return start.AddDate(0, 0, ahead) }})
			select {
			case <-s.app.posts.Believed():
				if ahead > 0 {
					t.Error("a wrong clock is believed")
				}
			case <-time.After(3 * time.Second):
				if ahead == 0 {
					t.Error("a right clock is not believed")
				}
			}
		})
	}
}
