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
	}{
		{"auto", "all", gateway.Share{}},
		{"6", "all", gateway.Share{Shards: 6}},
		{"6", "0-1", gateway.Share{Shards: 6, Own: []int{0, 1}}},
		{"6", "5, 0,2-3,3", gateway.Share{Shards: 6, Own: []int{0, 2, 3, 5}}},
	} {
		got, err := Config{Shards: tt.shards, Own: tt.own}.share()
		if err != nil || !reflect.DeepEqual(got, tt.want) {
			t.Errorf("%s, %s: %+v, %v", tt.shards, tt.own, got, err)
		}
	}
	for _, own := range []string{"", "x", "-1", "1-", "0,,1", "1000", "0-1-2"} {
		if isOwn(own) == "" {
			t.Errorf("%q passes", own)
		}
	}
}

// What is wrong with own is said in the spelling of where it was set: a flag of
// serve helps nobody who gave a line of the file to check.
func TestShareIsNamedWhereItWasSet(t *testing.T) {
	const unknown = ": names shards, but not how many the bot has. Set their number, the same for each process. For example "
	const beyond = ": names shard 5, but with 2 shards the last one is 1. For example "
	for _, tt := range []struct {
		file  string
		env   []string
		flags map[string]string
		wrong string
	}{
		{"", nil, map[string]string{"own": "0-1"}, "--own" + unknown + "--shards 2 --own 0-1"},
		{"", nil, map[string]string{"own": "0,4"}, "--own" + unknown + "--shards 5 --own 0,4"},
		{"", nil, map[string]string{"own": "5", "shards": "2"}, "--own" + beyond + "--shards 2 --own 0-1"},
		{"shards = '2'", nil, map[string]string{"own": "5"}, "--own" + beyond + "--shards 2 --own 0-1"},
		{"own = '3'", []string{"MUSETTE_SHARDS=2", "MUSETTE_OWN=5"}, nil, "MUSETTE_OWN" + beyond + "MUSETTE_SHARDS=2 MUSETTE_OWN=0-1"},
		{"own = '0-1'", nil, nil, "own in FILE" + unknown + `shards = "2" and own = "0-1"`},
		{"own = '5'", nil, map[string]string{"shards": "2"}, "own in FILE" + beyond + `shards = "2" and own = "0-1"`},
	} {
		path := writeConfig(t, tt.file)
		conf, err := loadConfig(t.Context(), tt.env, path, tt.flags)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := conf.share(); err == nil || strings.ReplaceAll(err.Error(), path, "FILE") != tt.wrong {
			t.Errorf("got %v\nwant %s", err, tt.wrong)
		}
		if tt.flags != nil {
			continue // musette config has none
		}
		var out, errs strings.Builder
		code := run(t.Context(), []string{"config", "--config", path}, tt.env, strings.NewReader(""), &out, &errs)
		if code != exitInput || out.Len() > 0 || strings.ReplaceAll(errs.String(), path, "FILE") != "musette: "+tt.wrong+"\n" {
			t.Errorf("config: %d\n%s%s\nwant %s", code, out.String(), errs.String(), tt.wrong)
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
