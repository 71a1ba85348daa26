package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
	"time"

	"musette/bot"
	"musette/bot/post"
	"musette/planner"
	"musette/storage"
)

// memoryCommand stores many riders and lets one tick make the reminders of those
// who are due, for a Sender that only counts.
type memoryCommand struct {
	Riders int `default:"100000" help:"Riders stored, with weeks and races, in clubs of 1000."`
	Due    int `default:"10" help:"Per cent of them that are due in the tick."`
}

// counter is a post.Sender that counts.
type counter struct{ sent, bytes atomic.Int64 }

func (c *counter) Send(_ context.Context, m post.Message) error {
	c.sent.Add(1)
	c.bytes.Add(int64(len(m.Reply.Text())))
	return nil
}

func (c *counter) Look(context.Context, post.Message) (bool, error) { return false, nil }

// Run implements the subcommand.
func (c *memoryCommand) Run(w *world) (err error) {
	folder, err := os.MkdirTemp("", "musette-memory-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	path := filepath.Join(folder, "musette.db")
	due, err := c.fill(w.ctx, path)
	if err != nil {
		return err
	}
	db, err := storage.Open(w.ctx, path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	debug.FreeOSMemory() // of filling
	idleHeap, idle := heap(), resident()
	idleOwn := own()
	var sent counter
	poster := post.New(post.Config{DB: db, Bot: bot.New(bot.Deps{DB: db}), Sender: &sent})
	measured, stop := context.WithCancel(w.ctx)
	peaks := make(chan [3]uint64, 1)
	go func() { peaks <- peak(measured) }()
	began := time.Now()
	err = poster.Tick(w.ctx, began)
	took := time.Since(began)
	stop()
	most := <-peaks
	fmt.Fprintf(w.stdout, "riders    %d stored, %d due, %d reminders of %d bytes on average\n", c.Riders, due, sent.sent.Load(), sent.bytes.Load()/max(1, sent.sent.Load()))
	fmt.Fprintf(w.stdout, "pace      %.1f s for the tick, %.0f reminders a second on %d cores\n", took.Seconds(), float64(sent.sent.Load())/took.Seconds(), runtime.NumCPU())
	for _, row := range []struct {
		what         string
		before, most uint64
	}{{"heap", idleHeap, most[0]}, {"own", idleOwn, most[2]}, {"resident", idle, most[1]}} {
		fmt.Fprintf(w.stdout, "%-9s %.1f MB before, %.1f MB at most\n", row.what, float64(row.before)/1e6, float64(row.most)/1e6)
	}
	if err == nil && int(sent.sent.Load()) != due {
		err = fmt.Errorf("%d reminders for %d riders", sent.sent.Load(), due)
	}
	return err
}

// fill stores the riders; due is how many have their reminder in the tick.
func (c *memoryCommand) fill(ctx context.Context, path string) (due int, err error) {
	db, err := storage.Open(ctx, path)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	name, zone, err := dueZone(time.Now())
	if err != nil {
		return 0, err
	}
	var week planner.Week
	if week, err = typical(); err != nil {
		return 0, err
	}
	now := time.Now().In(zone)
	var club storage.Club
	for i := range c.Riders {
		if i%1000 == 0 {
			club, err = db.EnsureClub(ctx, storage.PlatformKey("discord", fmt.Sprint(1000+i)), fmt.Sprintf("Club %d", i/1000), name)
			if err != nil {
				return 0, err
			}
		}
		at := now.Add(6 * time.Hour) // those who are not due now
		if i%100 < c.Due {
			at = now.Add(-3 * time.Minute)
			due++
		}
		if err := dueRider(ctx, db, club.ID, storage.PlatformKey("discord", fmt.Sprint(1_000_000+i)), fmt.Sprintf("Rider %d", i), name, week, at); err != nil {
			return 0, err
		}
	}
	return due, nil
}

// peak watches the heap, the resident memory and what of it is the process's own
// until ctx ends; it returns the most of each, in bytes.
func peak(ctx context.Context) (most [3]uint64) {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	for {
		metrics.Read(sample)
		most[0] = max(most[0], sample[0].Value.Uint64())
		most[1] = max(most[1], resident())
		most[2] = max(most[2], own())
		if sleep(ctx, 20*time.Millisecond) != nil {
			return most
		}
	}
}

// resident is the process's memory in RAM, in bytes; 0 where /proc does not tell.
func resident() uint64 {
	pages, _ := statm()
	return pages * uint64(os.Getpagesize())
}

// own is the memory in RAM without pages of files, such as the program itself. How many of
// these are there depends on how the file came into the memory of the machine.
func own() uint64 {
	pages, shared := statm()
	return (pages - shared) * uint64(os.Getpagesize())
}

func statm() (pages, shared uint64) {
	data, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		return 0, 0
	}
	var size uint64
	if _, err := fmt.Fscan(bytes.NewReader(data), &size, &pages, &shared); err != nil {
		return 0, 0
	}
	return pages, shared
}
