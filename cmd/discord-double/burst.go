package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"musette/bot/discord/discordtest"
)

// burstCommand asks more at once than can be worked out at once.
type burstCommand struct {
	Count   int `default:"400" help:"Interactions at once, of all kinds."`
	Rate    int `default:"20" help:"Afterwards pictures a second."`
	Seconds int `default:"15" help:"How long."`
}

// Run implements the subcommand.
func (c *burstCommand) Run(w *world) (err error) {
	d, err := startDrill(w.ctx, discordtest.Options{KeepRequests: -1}, io.Discard, 0)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.end()) }()
	var all []*discordtest.Interaction
	for range c.Count {
		i, _, err := d.act()
		if err != nil {
			return err
		}
		all = append(all, i)
	}
	if err := d.outcome(w, "at once ", all); err != nil {
		return err
	}
	var mu sync.Mutex
	all = all[:0:0]
	err = paced(w.ctx, c.Rate, time.Duration(c.Seconds)*time.Second, func() {
		at := discordtest.At{Guild: d.club.ID, User: d.club.Members[0].UserID}
		i, failed := d.double.Command(at, "plan show", nil)
		mu.Lock()
		defer mu.Unlock()
		if all = append(all, i); failed != nil {
			err = failed
		}
	})
	if err != nil {
		return err
	}
	return d.outcome(w, "pictures", all)
}

// outcome waits for all answers and tells how they came; one that was not in time
// or never came is an error.
func (d *drill) outcome(w *world, what string, all []*discordtest.Interaction) error {
	ended, deferred, bare := 0, 0, 0
	var first latencies
	var missed []*discordtest.Interaction
	within, cancel := context.WithTimeout(w.ctx, time.Minute)
	defer cancel()
	for _, i := range all {
		a, err := i.Answer(within)
		if err != nil {
			missed = append(missed, i)
			continue
		}
		ended++
		first.add(i.Latency())
		if a.Kind == 5 {
			deferred++
		}
		if i.Name == "plan show" && i.Kind == 2 && len(a.Message.Attachments) == 0 {
			bare++
		}
	}
	sorted, once := first.sorted(), count(all).once
	fmt.Fprintf(w.stdout, "%s  %d asked: %d answered in time, %d of them deferred, %d without their picture; first answer p50 %v, longest %v\n",
		what, len(all), once, deferred, bare, quantile(sorted, 0.5), quantile(sorted, 1))
	if lost := len(all) - min(once, ended); lost > 0 {
		return fmt.Errorf("%d of %d are lost: %s", lost, len(all), states(missed))
	}
	return nil
}

// states says how far interactions came, how many each.
func states(all []*discordtest.Interaction) string {
	count := map[string]int{}
	for _, i := range all {
		count[i.State()]++
	}
	var each []string
	for _, state := range slices.Sorted(maps.Keys(count)) {
		each = append(each, fmt.Sprintf("%d %s", count[state], state))
	}
	return strings.Join(each, "; ")
}
