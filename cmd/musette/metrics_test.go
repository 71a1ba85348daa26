package main

import (
	"context"
	"io"
	"net"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/bot/meter"
)

var servedAt = regexp.MustCompile(`metrics and health are served" address=(\S+)`)

// serving is the bot at work, until end is called.
func serving(t *testing.T, s *discordtest.Server, metrics string, args ...string) (log *shared, end func() int) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	log, code := new(shared), make(chan int, 1)
	go func() {
		code <- run(ctx, append([]string{"serve"}, args...), environment(s, hiddenToken, metrics), strings.NewReader(""), io.Discard, log)
	}()
	return log, func() int { cancel(); return <-code }
}

// A bot that runs tells what it does on its own machine, and musette check asks it.
func TestMetricsOfARunningBot(t *testing.T) {
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	guild := s.AddGuild(discordtest.Guild{Name: "Marrow Vale Wheelers", Channels: []discordtest.Channel{{Name: "races"}}, Members: []discordtest.Member{{Name: "Ines"}}})
	t.Chdir(t.TempDir())
	setUp(t, "musette.db", guild)
	log, end := serving(t, s, "127.0.0.1:0")
	waitFor(t, func() bool { return servedAt.MatchString(log.String()) && len(s.Commands()) > 0 })
	if err := s.WaitConnected(t.Context()); err != nil {
		t.Fatal(err)
	}
	address := servedAt.FindStringSubmatch(log.String())[1]
	if host, _, _ := net.SplitHostPort(address); host != "127.0.0.1" {
		t.Errorf("served at %s", address)
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	i, err := s.Command(discordtest.At{Guild: guild.ID, User: guild.Members[0].UserID}, "help", nil)
	if err == nil {
		_, err = i.Answer(ctx)
	}
	if err != nil {
		t.Fatal(err)
	}
	page := func() string {
		response, err := http.Get("http://" + address + "/metrics")
		if err != nil {
			t.Fatal(err)
		}
		defer response.Body.Close()
		data, err := io.ReadAll(response.Body)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	waitFor(t, func() bool {
		return strings.Contains(page(), `musette_interaction_seconds_count{kind="command",outcome="ok"} 1`)
	})
	for _, want := range []string{`musette_gateway_connected{shard="0"} 1`, `musette_request_seconds_count{command="help",outcome="ok"} 1`} {
		if !strings.Contains(page(), want) {
			t.Errorf("%s is missing", want)
		}
	}
	check := func(flags ...string) string {
		var out, errs shared
		run(t.Context(), append([]string{"check"}, flags...), environment(s, hiddenToken, address), nil, &out, &errs)
		return out.String()
	}
	hasLines(t, check(), "ok    running: musette serve is well, its connections to Discord stand, of shard 0", "ok    shards: as many as Discord recommends, now 1,")
	hasLines(t, check("--shards", "2"), "ok    shards: 2 as set, all in one process")
	hasLines(t, check("--shards", "2", "--own", "1"), "ok    shards: 1 of 2 in this process. Other processes must run the others")
	if code := end(); code != exitDone {
		t.Errorf("exit %d\n%s", code, log)
	}
	hasLines(t, check(), "note  running: no musette serve answers at "+address)
}

func TestShardsOf(t *testing.T) {
	for _, tt := range []struct {
		shards []meter.Shard
		want   string
	}{{[]meter.Shard{{Shard: 3}}, "shard 3"}, {[]meter.Shard{{Shard: 10}, {Shard: 0}, {Shard: 2}}, "shards 0, 2, 10"}} {
		if got := shardsOf(meter.Health{Shards: tt.shards}); got != tt.want {
			t.Errorf("got %s, want %s", got, tt.want)
		}
	}
}

// The bot does its work where the address is taken, and says so.
func TestMetricsAddressIsTaken(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	s := discordtest.New(discordtest.Options{Token: hiddenToken})
	defer s.Close()
	t.Chdir(t.TempDir())
	log, end := serving(t, s, taken.Addr().String())
	waitFor(t, func() bool { return len(s.Commands()) > 0 })
	if code := end(); code != exitDone || !strings.Contains(log.String(), "metrics and health are not served") {
		t.Errorf("exit %d\n%s", code, log)
	}
}
