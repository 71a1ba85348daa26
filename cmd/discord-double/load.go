package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"sync"
	"sync/atomic"
	"time"

	"musette/bot/discord/discordtest"
)

// forgetAfter leaves time for what follows an answer.
const forgetAfter = 2 * time.Second

// loadCommand measures how quickly the bot answers.
type loadCommand struct {
	Rate         int  `default:"200" help:"What riders do, a second; some of it is followed by a press or a form."`
	Seconds      int  `default:"30" help:"How long."`
	Reminders    int  `default:"0" help:"Riders besides, whose reminders are due when the bot starts."`
	FirstContact bool `default:"true" negatable:"" help:"Afterwards 60 riders mention the bot for the first time within a second, while the others go on."`
}

const (
	// loadHeartbeat lets the double forget soon what a RESUME will not ask for.
	loadHeartbeat = 5 * time.Second

	talkShare    = 25                // of 1000 deeds: direct messages
	mentionShare = 5                 // of 1000 deeds: mentions, which also need a line in the channel
	answerTime   = 5 * time.Second   // for an answer
	writingTime  = 110 * time.Second // for a direct message: channels open one a second
)

// load is a drill with what it measured.
type load struct {
	d               *drill
	answers, direct latencies
	presses, forms  atomic.Int64
	missed          atomic.Int64
	writer          atomic.Int64 // whose turn it is to write a message

	once   sync.Once
	reason error // why the first answer was missed
}

// Run implements the subcommand.
func (c *loadCommand) Run(w *world) (err error) {
	d, err := startDrill(w.ctx, discordtest.Options{KeepRequests: -1, HeartbeatInterval: loadHeartbeat}, io.Discard, c.Reminders)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.end()) }()
	l := load{d: d}
	if err := paced(w.ctx, c.Rate, 3*time.Second, func() { l.deed(w.ctx) }); err != nil { // connections, caches
		return err
	}
	l = load{d: d}
	before, reminded := heap(), d.reminded()
	if err := paced(w.ctx, c.Rate, time.Duration(c.Seconds)*time.Second, func() { l.deed(w.ctx) }); err != nil {
		return err
	}
	l.report(w.stdout, c.Seconds)
	if c.Reminders > 0 {
		fmt.Fprintf(w.stdout, "reminders       %d by the start, %d at the end\n", reminded, d.reminded())
	}
	fmt.Fprintf(w.stdout, "heap            %.1f MB before, %.1f MB after (bot and double together)\n", float64(before)/1e6, float64(heap())/1e6)
	if err := l.fault(); err != nil || !c.FirstContact {
		return err
	}
	return c.firstContact(w, d)
}

// deed is one thing that a rider does, and its answer.
func (l *load) deed(ctx context.Context) {
	if n := rand.IntN(1000); n < talkShare+mentionShare {
		rider := int(l.writer.Add(1)) % (drillRiders - newRiders)
		l.write(ctx, rider, n < mentionShare)
		return
	}
	i, then, err := l.d.act()
	a, err := l.answer(ctx, i, err)
	if err == nil && then != nil {
		next, err := then(a)
		if _, err = l.answer(ctx, next, err); err == nil {
			time.AfterFunc(forgetAfter, next.Forget)
		}
		if a.Modal != nil {
			l.forms.Add(1)
		} else {
			l.presses.Add(1)
		}
	}
	if err == nil {
		time.AfterFunc(forgetAfter, i.Forget)
	}
}

// answer waits for the answer to what was done, or to what could not be.
func (l *load) answer(ctx context.Context, i *discordtest.Interaction, err error) (a discordtest.Answer, _ error) {
	if err == nil {
		ctx, cancel := context.WithTimeout(ctx, answerTime)
		defer cancel()
		if a, err = i.Answer(ctx); err == nil {
			l.answers.add(i.Latency())
			return a, nil
		}
	}
	l.miss(err)
	return a, err
}

func (l *load) write(ctx context.Context, rider int, mention bool) {
	ctx, cancel := context.WithTimeout(ctx, writingTime)
	defer cancel()
	took, err := l.d.write(ctx, rider, mention)
	if err != nil {
		l.miss(err)
		return
	}
	l.direct.add(took)
}

func (l *load) miss(err error) {
	l.missed.Add(1)
	l.once.Do(func() { l.reason = err })
}

func (l *load) report(out io.Writer, seconds int) {
	all, direct := l.answers.sorted(), l.direct.sorted()
	fmt.Fprintf(out, "interactions    %d in %d s (%d a second), %d presses and %d forms among them\n",
		len(all), seconds, len(all)/max(1, seconds), l.presses.Load(), l.forms.Load())
	fmt.Fprintf(out, "first answer    p50 %v, p95 %v, p99 %v, longest %v\n", quantile(all, 0.5), quantile(all, 0.95), quantile(all, 0.99), quantile(all, 1))
	fmt.Fprintf(out, "direct message  p50 %v, p99 %v, longest %v, of %d\n", quantile(direct, 0.5), quantile(direct, 0.99), quantile(direct, 1), len(direct))
	fmt.Fprintf(out, "past 3 s        %d, unanswered %d\n", l.late(), l.missed.Load())
}

// late is how many first answers came too late for Discord.
func (l *load) late() (n int) {
	for _, d := range l.answers.sorted() {
		if d > 3*time.Second {
			n++
		}
	}
	return n
}

func (l *load) fault() error {
	if l.late() > 0 || l.missed.Load() > 0 {
		return errors.Join(errors.New("some answers came too late or not at all"), l.reason)
	}
	return nil
}

// firstContact lets riders mention the bot who have no channel of direct messages
// yet. Discord wants these opened slowly, and nobody else may wait for that.
func (c *loadCommand) firstContact(w *world, d *drill) error {
	first, others := load{d: d}, load{d: d}
	first.writer.Store(drillRiders - newRiders)
	var all sync.WaitGroup
	var broken error
	all.Go(func() {
		broken = paced(w.ctx, newRiders, time.Second, func() {
			first.write(w.ctx, int(first.writer.Add(1)-1), true)
		})
	})
	err := paced(w.ctx, c.Rate, time.Duration(c.Seconds)*time.Second, func() { others.deed(w.ctx) })
	all.Wait()
	direct := first.direct.sorted()
	fmt.Fprintf(w.stdout, "\nfirst contact   %d of %d riders answered, the first after %v, the last after %v; meanwhile:\n",
		len(direct), newRiders, quantile(direct, 0), quantile(direct, 1))
	others.report(w.stdout, c.Seconds)
	return errors.Join(err, broken, first.fault(), others.fault())
}
