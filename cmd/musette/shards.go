package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"musette/bot/discord/gateway"
	"musette/planner"
)

const (
	keyShards  = "shards"
	shardsAuto = "auto" // as many as Discord recommends

	keyOwn = "own"
	ownAll = "all"

	maxShards = 1000
)

func isShards(value string) string {
	if n, err := strconv.Atoi(value); value != shardsAuto && (err != nil || n < 1 || n > maxShards) {
		return fmt.Sprintf("%q is neither auto nor a number from 1 to %d", value, maxShards)
	}
	return ""
}

func isOwn(value string) string {
	if _, ok := shardNumbers(value); value != ownAll && !ok {
		return fmt.Sprintf("%q is neither all nor numbers of shards, which begin at 0", value)
	}
	return ""
}

// shardNumbers reads 0-1 and 0,2,4-5.
func shardNumbers(text string) (numbers []int, ok bool) {
	for part := range strings.SplitSeq(text, ",") {
		from, to, stretch := strings.Cut(strings.TrimSpace(part), "-")
		low, err := strconv.Atoi(from)
		high := low
		if err == nil && stretch {
			high, err = strconv.Atoi(to)
		}
		if err != nil || low < 0 || high < low || high >= maxShards {
			return nil, false
		}
		for n := low; n <= high; n++ {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	return slices.Compact(numbers), true
}

// share is which shards of the bot this process runs.
func (c Config) share() (gateway.Share, error) {
	share := gateway.Share{}
	if c.Shards != shardsAuto {
		share.Shards, _ = strconv.Atoi(c.Shards) // it was checked
	}
	if c.Own == ownAll {
		return share, nil
	}
	share.Own, _ = shardNumbers(c.Own)
	wrong := func(shards int, own, format string, args ...any) (gateway.Share, error) {
		return share, &planner.InputError{Field: c.ownName, Msg: fmt.Sprintf(format, args...) + ". For example " + c.shardsAsWritten(shards, own)}
	}
	switch last := share.Own[len(share.Own)-1]; {
	case share.Shards == 0:
		return wrong(max(2, last+1), c.Own, "names shards, but not how many the bot has. Set their number, the same for each process")
	case last >= share.Shards:
		return wrong(share.Shards, fmt.Sprint("0-", share.Shards-1), "names shard %d, but with %d shards the last one is %d", last, share.Shards, share.Shards-1)
	}
	return share, nil
}

// shardsAsWritten is how to set both where own was set.
func (c Config) shardsAsWritten(shards int, own string) string {
	switch {
	case strings.HasPrefix(c.ownName, "--"):
		return fmt.Sprintf("--%s %d --%s %s", keyShards, shards, keyOwn, own)
	case strings.HasPrefix(c.ownName, envPrefix):
		return fmt.Sprintf("%s=%d %s=%s", setting{key: keyShards}.envName(), shards, c.ownName, own)
	}
	return fmt.Sprintf("%s = %q and %s = %q", keyShards, strconv.Itoa(shards), keyOwn, own)
}
