package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"musette/bot/discord"
	"musette/bot/discord/discordtest"
	"musette/storage"
)

// runOn runs the program against a double, in the working folder.
func runOn(ctx context.Context, s *discordtest.Server, token string, out *shared, args ...string) (int, string) {
	var errs shared
	code := run(ctx, args, environment(s, token, metricsOff), strings.NewReader(""), out, &errs)
	return code, errs.String()
}

// environment is that of a program that works on a double.
func environment(s *discordtest.Server, token, metrics string) []string {
	return []string{"TZ=UTC", "MUSETTE_DISCORD__URL=" + s.URL, "MUSETTE_DISCORD__TOKEN=" + token, "MUSETTE_METRICS=" + metrics}
}

// shared is a buffer for several goroutines.
type shared struct {
	mu  sync.Mutex
	buf bytes.Buffer
}

func (b *shared) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.buf.Write(p)
}

func (b *shared) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.buf.String()
}

func TestServeRefuses(t *testing.T) {
	for name, test := range map[string]struct {
		env  []string
		want string
	}{
		"no token":          {nil, "musette: discord.token: is missing. Set MUSETTE_DISCORD__TOKEN to your bot's token, see docs/admin.md\n"},
		"no file of it":     {[]string{"MUSETTE_DISCORD__TOKEN_FILE=none"}, "musette: discord.token_file: cannot be read (open none: no such file or directory). Name a file that holds the bot's token\n"},
		"a foreign address": {[]string{"MUSETTE_DISCORD__TOKEN=abc", "MUSETTE_DISCORD__URL=http://chat.example"}, "musette: MUSETTE_DISCORD__URL: http:// would send the bot's token in clear text over the network, use https://. For example http://127.0.0.1:8585\n"},
	} {
		t.Chdir(t.TempDir())
		var out, errs bytes.Buffer
		if code := run(t.Context(), []string{"serve"}, test.env, nil, &out, &errs); code != exitInput || out.Len() > 0 || errs.String() != test.want {
			t.Errorf("%s: exit %d, %q, errors %q; want %q", name, code, out.String(), errs.String(), test.want)
		}
		if left, err := os.ReadDir("."); err != nil || len(left) > 0 {
			t.Errorf("%s: left %v, %v", name, left, err)
		}
	}
}

func TestServeEndsWhenDiscordRefusesTheToken(t *testing.T) {
	s := discordtest.New(discordtest.Options{})
	defer s.Close()
	t.Chdir(t.TempDir())
	var out shared
	code, errs := runOn(t.Context(), s, hiddenToken, &out, "serve")
	if code != exitInput || !strings.Contains(errs, "musette: Discord refused the bot (code 4004)") || strings.Contains(errs+out.String(), hiddenToken) {
		t.Errorf("exit %d, %s%s", code, out.String(), errs)
	}
}

// One bot serves, a second on its database is refused, and a signal ends the first cleanly.
func TestServe(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}})
	t.Chdir(t.TempDir())
	db := filepath.Join(t.TempDir(), "club.db")

	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	var out, secondOut shared
	var code int
	var errs string
	done := make(chan struct{})
	go func() {
		defer close(done)
		code, errs = runOn(ctx, s, hiddenToken, &out, "serve", "--db", db)
	}()
	if err := s.WaitConnected(ctx); err != nil {
		t.Error(err)
	}
	second, why := runOn(ctx, s, hiddenToken, &secondOut, "serve", "--db", db)
	if second != exitBroke || secondOut.String() != "" ||
		why != "musette: "+db+": another musette serve answers with this database already. Stop it first, or name another file with --db\n" {
		t.Errorf("the second: exit %d, %q", second, why)
	}
	cancel()
	<-done
	if code != exitDone || !strings.Contains(out.String(), discord.InviteLink(s.AppID)) {
		t.Errorf("exit %d, %s\n%s", code, out.String(), errs)
	}
	if strings.Contains(out.String()+errs+why, hiddenToken) {
		t.Errorf("the token is given away: %s%s%s", out.String(), errs, why)
	}
	lock, err := storage.LockServing(t.Context(), db)
	if err != nil {
		t.Fatalf("after the end: %v", err)
	}
	if err := lock.Release(); err != nil {
		t.Error(err)
	}
}

// The guide promises the permissions that the invite link asks for.
func TestGuideNamesThePermissions(t *testing.T) {
	page, err := os.ReadFile("../../docs/admin.md")
	if err != nil {
		t.Fatal(err)
	}
	_, invite, _ := strings.Cut(string(page), "\n## 4.")
	invite, _, _ = strings.Cut(invite, "\n## 5.") // further on there are those that private threads need besides
	sum := 0
	for _, row := range regexp.MustCompile(`(?m)^\| [A-Z][A-Za-z ]+ \| (\d+) \|`).FindAllStringSubmatch(invite, -1) {
		n, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatal(err)
		}
		sum += n
	}
	if sum != discord.Permissions || !strings.Contains(string(page), strconv.Itoa(discord.Permissions)) {
		t.Errorf("the guide's permissions are %d together, the link asks for %d", sum, discord.Permissions)
	}
	for _, n := range []int{discord.ThreadPermissions, discord.ThreadPermissions &^ (1 << 38) &^ discord.Permissions, 1 << 38} {
		if !strings.Contains(string(page), strconv.Itoa(n)) {
			t.Errorf("the guide does not name %d, which threads need", n)
		}
	}
}
