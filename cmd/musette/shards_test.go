package main

import (
	"context"
	"os"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"

	"musette/bot/discord/discordtest"
	"musette/bot/discord/gateway"
)

func TestShare(t *testing.T) {
	for _, tt := range []struct {
		shards, own string
		want        gateway.Share
		wrong       string
	}{
		{"auto", "all", gateway.Share{}, ""},
		{"6", "all", gateway.Share{Shards: 6}, ""},
		{"6", "0-1", gateway.Share{Shards: 6, Own: []int{0, 1}}, ""},
		{"6", "5, 0,2-3,3", gateway.Share{Shards: 6, Own: []int{0, 2, 3, 5}}, ""},
		{"auto", "0-1", gateway.Share{}, "own: names shards, but not how many the bot has. Set their number, the same for each process, for example --shards 2 --own 0-1"},
		{"auto", "0,4", gateway.Share{}, "own: names shards, but not how many the bot has. Set their number, the same for each process, for example --shards 5 --own 0,4"},
		{"6", "4-6", gateway.Share{}, "own: names shard 6, but with 6 shards the last one is 5. For example --own 0-5"},
	} {
		got, err := Config{Shards: tt.shards, Own: tt.own}.share()
		if err != nil && err.Error() != tt.wrong || err == nil && (tt.wrong != "" || !reflect.DeepEqual(got, tt.want)) {
			t.Errorf("%s, %s: %+v, %v", tt.shards, tt.own, got, err)
		}
	}
	for _, own := range []string{"", "x", "-1", "1-", "0,,1", "1000", "0-1-2"} {
		if isOwn(own) == "" {
			t.Errorf("%q passes", own)
		}
	}
}

// The flags reach Discord, and one interrupt ends all shards of the process.
func TestServeShards(t *testing.T) {
	s := discordtest.New(discordtest.Options{})
	defer s.Close()
	cmd := program(t, "serve", "--shards", "3", "--own", "2,0")
	cmd.Env = append(cmd.Env, environment(s, s.Token, metricsOff)...)
	var out, errs shared
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for _, shard := range []string{"0", "2"} {
		waitFor(t, func() bool { return strings.Contains(out.String(), "Connected with shard "+shard+" of 0 to 2") })
	}
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil || cmd.ProcessState.Sys().(syscall.WaitStatus).Signaled() {
		t.Errorf("%v\n%s", err, errs.String())
	}
	for shard, want := range []int{1, 0, 1} {
		if n := s.Shard(shard, 3); n.Identifies != want {
			t.Errorf("shard %d: %+v", shard, n)
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	if err := s.WaitDisconnected(ctx); err != nil {
		t.Error(err)
	}
}
