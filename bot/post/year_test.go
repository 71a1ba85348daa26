package post

import (
	"database/sql"
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"musette/bot/bottest/notice"
	"musette/bot/bottest/rounds"
	"musette/planner"
	"musette/storage"
)

// yearZones are 40 zones: both ways of summer time, offsets of half and three
// quarters of an hour, both sides of the date line, jumps at midnight.
var yearZones = []string{
	"Europe/Lisbon", "Australia/Lord_Howe", "Asia/Kathmandu", "Pacific/Kiritimati", "Pacific/Pago_Pago", "America/Santiago", "Africa/Cairo", "America/New_York", // these under the race detector
	"Europe/Berlin", "America/St_Johns", "Pacific/Chatham", "America/Nuuk", "Asia/Beirut", "Europe/London", "Europe/Athens", "Europe/Chisinau",
	"Europe/Moscow", "Africa/Casablanca", "Africa/Lagos", "Atlantic/Azores", "America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles",
	"America/Anchorage", "America/Havana", "America/Asuncion", "America/Sao_Paulo", "America/Caracas", "Asia/Jerusalem", "Asia/Tehran", "Asia/Kabul",
	"Asia/Kolkata", "Asia/Yangon", "Asia/Tokyo", "Australia/Adelaide", "Australia/Eucla", "Pacific/Auckland", "Pacific/Norfolk", "Pacific/Marquesas",
}

var yearTimes = []string{"06:30", "02:15", "00:00", "22:45"}

// almanac is when times of day came in one zone, found by looking at its clock
// each minute of the year.
type almanac struct {
	due  [][]int32 // by time and day: the minute, -1 for none
	ends []int32   // by day: its first minute that is over
}

var (
	yearStart  = time.Date(2025, 12, 30, 0, 0, 0, 0, time.UTC)
	yearDays   = daysLived()
	firstDay   = planner.NewDate(2025, 12, 28)
	yearRiders = flag.Int("riders", 600, "how many riders live through the year of reminders")
)

// daysLived ends under the race detector after clocks have changed in spring.
func daysLived() int {
	if rounds.Raced {
		return 110
	}
	return 370
}

func minuteOf(t time.Time) int32       { return int32(t.Sub(yearStart) / time.Minute) }
func instantOf(minute int32) time.Time { return yearStart.Add(time.Duration(minute) * time.Minute) }

func newAlmanac(t *testing.T, zone string) almanac {
	t.Helper()
	loc := must(time.LoadLocation(zone))
	al := almanac{due: make([][]int32, len(yearTimes)), ends: make([]int32, yearDays+8)}
	var wanted []int
	for i, at := range yearTimes {
		var h, m int
		fmt.Sscanf(at, "%d:%d", &h, &m)
		wanted = append(wanted, h*60+m)
		al.due[i] = make([]int32, yearDays+8)
		for d := range al.due[i] {
			al.due[i][d] = -1
		}
	}
	latest, lastMinute := -1, int32(0)
	for minute := int32(0); minute < int32(yearDays*1440); minute++ {
		local := instantOf(minute).In(loc)
		d, clock := int(planner.DateOf(local)-firstDay), local.Hour()*60+local.Minute()
		if d > latest {
			if latest >= 0 {
				al.ends[latest] = minute
				for i := range wanted { // a jump took the time and the rest of the day
					if al.due[i][latest] < 0 {
						al.due[i][latest] = lastMinute
					}
				}
			}
			latest = d
		}
		if d == latest {
			for i, want := range wanted {
				if clock >= want && al.due[i][d] < 0 {
					al.due[i][d] = minute
				}
			}
			lastMinute = minute
		}
	}
	return al
}

// era is a time during which a rider's settings stayed: after one minute, up to another.
type era struct {
	from, to int32
	zone, at int
	off      bool
}

// yearSim is a year of reminders.
type yearSim struct {
	*house
	room     *room
	poster   *Poster
	random   *rand.Rand
	zones    []string
	almanacs []almanac
	eras     [][]era // by rider
	ticks    []int32
	skipped  map[personDay]bool
	quiet    func(a storage.Athlete, day planner.Date) bool
}

func newYear(t *testing.T, seed uint64, riders int, zones []string) *yearSim {
	t.Helper()
	s := &yearSim{zones: zones, house: newHouse(t, &clock{at: yearStart}), random: rand.New(rand.NewPCG(2026, seed)), skipped: map[personDay]bool{},
		quiet: func(a storage.Athlete, day planner.Date) bool { return a.ID%5 == 0 && day%3 == 0 }}
	s.room = newRoom(s.clock)
	for _, zone := range zones {
		s.almanacs = append(s.almanacs, newAlmanac(t, zone))
	}
	s.fill(t, func(tx *sql.Tx) error {
		for i, zone := range zones {
			if _, err := tx.Exec(`INSERT INTO club (name, key, zone, added_ms, digest_day) VALUES (?, ?, ?, 0, 'off')`, fmt.Sprint("Club ", i+1), fmt.Sprint("discord:9", i+1), zone); err != nil {
				return err
			}
		}
		for i := range riders {
			e := era{from: 0, zone: i % len(zones), at: s.random.IntN(len(yearTimes))}
			var own any = s.zones[e.zone]
			if i%2 == 0 {
				own = nil // the club's
			}
			if _, err := tx.Exec(`INSERT INTO athlete (club_id, name, key, zone, remind, remind_at, added_ms) VALUES (?, ?, ?, ?, 'always', ?, 0)`,
				e.zone+1, fmt.Sprint("Rider ", i+1), fmt.Sprint("discord:", i+1), own, yearTimes[e.at]); err != nil {
				return err
			}
			s.eras = append(s.eras, []era{e})
		}
		return nil
	})
	s.restart(t)
	return s
}

// restart leaves the database and enters it again.
func (s *yearSim) restart(t *testing.T) {
	t.Helper()
	if err := s.db.Close(); err != nil {
		t.Fatal(err)
	}
	s.open(t)
	s.poster = s.house.poster(s.room, words{quiet: s.quiet})
}

// steps lists the ticks of the year: each hour, and by the minute for half an
// hour around each change of a clock.
func (s *yearSim) steps() []int32 {
	near := map[int32]bool{}
	for _, zone := range s.zones {
		for t := yearStart.In(must(time.LoadLocation(zone))); ; {
			_, end := t.ZoneBounds()
			if end.IsZero() || minuteOf(end) > int32(yearDays*1440) {
				break
			}
			for m := minuteOf(end) - 15; m < minuteOf(end)+15; m++ {
				near[m] = true
			}
			t = end
		}
	}
	var steps []int32
	for m := int32(2 * 1440); m < int32((yearDays-3)*1440); m++ {
		if m%60 == 0 || near[m] {
			steps = append(steps, m)
		}
	}
	return steps
}

// run lives through the year.
func (s *yearSim) run(t *testing.T) {
	t.Helper()
	down := int32(0)
	for _, minute := range s.steps() {
		if minute < down {
			continue
		}
		s.set(instantOf(minute))
		s.tick(t, s.poster)
		s.ticks = append(s.ticks, minute)
		if down > 0 {
			s.noteSkipped(t)
			down = 0
		}
		moves := len(s.eras)/15 + 5 // in a thousand ticks
		switch x := s.random.IntN(1000); {
		case x < 3:
			s.restart(t)
			down = minute + 1 + s.random.Int32N(30*60) // at times over the end of a day
		case x < 6:
			s.restart(t)
		case x < 6+moves:
			s.move(t, s.random.IntN(len(s.eras)), minute)
		}
	}
}

// move changes a rider's zone, time or whether they are reminded.
func (s *yearSim) move(t *testing.T, rider int, minute int32) {
	t.Helper()
	eras := s.eras[rider]
	e := eras[len(eras)-1]
	switch s.random.IntN(4) {
	case 0:
		e.off = !e.off
	case 1:
		e.at = s.random.IntN(len(yearTimes))
	default:
		e.zone = s.random.IntN(len(s.almanacs))
	}
	eras[len(eras)-1].to, e.from = minute, minute
	s.eras[rider] = append(eras, e)
	s.change(t, storage.AthleteID(rider+1), func(set *storage.Settings) {
		set.Zone, set.Remind.At, set.Remind.Mode = s.zones[e.zone], yearTimes[e.at], storage.RemindAlways
		if e.off {
			set.Remind.Mode = storage.RemindOff
		}
	})
}

// noteSkipped keeps what was recorded as skipped after musette was away.
func (s *yearSim) noteSkipped(t *testing.T) {
	t.Helper()
	for club := range s.almanacs {
		for _, post := range must(s.db.ClubPosts(t.Context(), storage.ClubID(club+1), s.now())) {
			if post.State == storage.PostSkipped {
				s.skipped[personDay{post.Key, post.Day}] = true
			}
		}
	}
}

// check compares what was seen with what the almanacs say.
func (s *yearSim) check(t *testing.T) (sent, skipped int) {
	t.Helper()
	type got struct{ minute, times int32 }
	seen := make([]map[planner.Date]got, len(s.eras))
	for i := range seen {
		seen[i] = map[planner.Date]got{}
	}
	for _, x := range s.room.take() {
		id, _ := x.key.ID("discord")
		var rider int
		fmt.Sscan(id, &rider)
		seen[rider-1][x.day] = got{minuteOf(x.at), seen[rider-1][x.day].times + 1}
	}
	complaints := 0
	complain := func(format string, args ...any) {
		if complaints++; complaints <= 20 {
			t.Errorf(format, args...)
		}
	}
	for rider, eras := range s.eras {
		id, key := storage.AthleteID(rider+1), storage.PlatformKey("discord", fmt.Sprint(rider+1))
		for d := range yearDays {
			date := firstDay.AddDays(d)
			want, over, owed := s.wanted(eras, d)
			if owed && s.quiet(storage.Athlete{ID: id}, date) {
				owed = false
			}
			have := seen[rider][date]
			delete(seen[rider], date)
			switch missed := s.skipped[personDay{key, date}]; {
			case have.times > 1:
				complain("rider %d, %s: %d reminders", id, date, have.times)
			case !owed && (have.times > 0 || missed):
				complain("rider %d, %s: a reminder at %v (skipped %t) that was not due; %+v", id, date, instantOf(have.minute), missed, eras)
			case owed && over && (have.times > 0 || !missed):
				complain("rider %d, %s: want it skipped as its day was over; %d sent at %v, skipped %t", id, date, have.times, instantOf(have.minute), missed)
			case owed && !over && (have.times == 0 || have.minute != want):
				complain("rider %d, %s: %d reminders at %v, want it at %v; %+v", id, date, have.times, instantOf(have.minute), instantOf(want), eras)
			case owed && over:
				skipped++
			case owed:
				sent++
			}
		}
		for date := range seen[rider] {
			complain("rider %d: a reminder of %s", id, date)
		}
	}
	return sent, skipped
}

// wanted is the tick at which a rider's reminder of a day is owed, and whether
// the day is over by then.
func (s *yearSim) wanted(eras []era, d int) (minute int32, over, owed bool) {
	for _, e := range eras {
		due := s.almanacs[e.zone].due[e.at][d]
		if e.off || due <= s.ticks[0] && e.from == 0 && due < s.today(e) || due <= e.from && e.from > 0 || e.to > 0 && due > e.to || due < 0 {
			continue
		}
		tick := s.tickAt(due)
		if tick < 0 {
			return 0, false, false
		}
		return tick, tick >= s.almanacs[e.zone].ends[d], true
	}
	return 0, false, false
}

// today is when the local day of the first tick began: what is due before it is not owed.
func (s *yearSim) today(e era) int32 {
	start := int32(0)
	for _, end := range s.almanacs[e.zone].ends {
		if end > 0 && end <= s.ticks[0] {
			start = end
		}
	}
	return start
}

// tickAt is the first tick at or after a minute, -1 for none.
func (s *yearSim) tickAt(minute int32) int32 {
	low, high := 0, len(s.ticks)
	for low < high {
		if mid := (low + high) / 2; s.ticks[mid] < minute {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low == len(s.ticks) {
		return -1
	}
	return s.ticks[low]
}

// Through a year of moves, restarts and outages everybody gets exactly one
// reminder on each day on which one is due, at the right local time. The riders
// live in two clubs' worth of zones each, side by side.
func TestYearOfReminders(t *testing.T) {
	riders, zones, halves := *yearRiders, len(yearZones), 2
	if rounds.Raced {
		riders, zones = 24, 4
		notice.Unchecked("260 of 370 days of reminders, of 576 of 600 riders in 36 of 40 zones, under the race detector (go test lives them without)")
	}
	for half := range halves {
		t.Run(fmt.Sprint("half ", half+1), func(t *testing.T) {
			t.Parallel()
			s := newYear(t, uint64(half), riders/halves, yearZones[half*zones/halves:(half+1)*zones/halves])
			s.run(t)
			sent, skipped := s.check(t)
			moves := 0
			for _, eras := range s.eras {
				moves += len(eras) - 1
			}
			t.Logf("%d riders in %d zones, %d ticks, %d changes of settings: %d reminders sent, %d skipped", len(s.eras), len(s.zones), len(s.ticks), moves, sent, skipped)
			if sent < len(s.eras)*yearDays*200/370 || skipped == 0 || moves < len(s.eras)*yearDays/740 {
				t.Errorf("the year was too quiet to tell anything")
			}
		})
	}
}
