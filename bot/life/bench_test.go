package life_test

import (
	"fmt"
	"syscall"
	"testing"
	"time"

	"musette/bot/bottest"
	"musette/planner"
)

// processor is the time that this process has had of the processor.
func processor(b *testing.B) time.Duration {
	b.Helper()
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		b.Fatal(err)
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}

// BenchmarkTold tells something that happens, on a database, and takes it back: the
// line is read, searched for danger, stored, the plan made before and after it, and
// what changes worded. The rider has a week, 12 races of all priorities and 40 rides.
func BenchmarkTold(b *testing.B) {
	for _, event := range [][2]string{
		{"/tell limit day:2026-06-18 minutes:45", "/tell limit day:2026-06-18 minutes:none"},
		{"/tell away from:2026-06-16 to:2026-06-18", "/tell away from:2026-06-16 to:2026-06-18 kind:none"},
		{"/tell sick symptoms:fever since:2026-06-09", "/tell sick symptoms:none since:2026-06-09"},
		{"/done 55 rpe:6", "/done minutes:none"},
		{"/tell tired", "/tell tired legs:fine"},
		{"I have had a fever since yesterday", "/tell sick symptoms:none since:2026-06-09"},
	} {
		b.Run(event[0], func(b *testing.B) {
			k := bottest.NewTalk(b)
			k.OK("/week share week:\"" + bottest.InesWeek + "\"")
			for i := range 12 {
				k.OK(fmt.Sprintf(`/race add name:"Race %d" date:%s priority:%c hours:3`, i, planner.NewDate(2026, 6, 21).AddDays(28*i), "ABC"[i%3]))
			}
			for i := range 40 {
				k.OK(fmt.Sprintf("/done 60 rpe:5 day:%s", planner.NewDate(2026, 5, 31).AddDays(-i)))
			}
			k.Who.Now = bottest.At("2026-06-10T08:00:00Z")
			b.ResetTimer()
			began := processor(b)
			for b.Loop() {
				for _, line := range event {
					if reply := k.Say(line); reply.Err != nil {
						b.Fatalf("%s: %s", line, reply.Text())
					}
				}
			}
			b.ReportMetric(float64((processor(b)-began).Microseconds())/1000/float64(2*b.N), "cpu-ms/line")
		})
	}
}
