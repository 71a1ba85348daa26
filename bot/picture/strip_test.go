package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"musette/planner"
)

// Bars are as tall as their minutes, on one scale, over the outline of the usual ride.
func TestBarsShowMinutes(t *testing.T) {
	days := handmade(ride(120), ride(60), ride(30), planner.RestSession)
	days[3].Usual = []planner.Session{ride(45), ride(45)} // a double is one bar
	s := newStrip(0, days)
	img := decode(t, mustStrip(t, "Hill Loop", 0, days))
	for i, want := range []float64{1, 0.5, 0.25} {
		got := float64(column(img, s.middle(i), 0, s.base-2, plain))
		if math.Abs(got-want*(s.base-s.high)) > 3 {
			t.Errorf("bar %d is %.0f pixels tall, want %.0f of %.0f", i, got, want*(s.base-s.high), s.base-s.high)
		}
	}
	// Beside the planned bar the usual one shows: 60 of 120 minutes, on the rest day 90.
	for i, want := range []float64{0.5, 0.5, 0.5, 0.75} {
		got := float64(column(img, s.middle(i)-35, 0, s.base-2, pale))
		if math.Abs(got-want*(s.base-s.high)) > 5 {
			t.Errorf("usual bar %d is %.0f pixels tall, want %.0f", i, got, want*(s.base-s.high))
		}
	}
}

// Each kind of day has its mark at its place, and strength is no riding.
func TestMarks(t *testing.T) {
	hard := planner.Session{Kind: planner.Intervals, Effort: planner.Hard, Minutes: 60}
	short := planner.Session{Kind: planner.Openers, Effort: planner.OpenersEffort, Minutes: 60}
	race := planner.Session{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: 90}
	gym := planner.Session{Kind: planner.Strength, Effort: planner.Steady, Minutes: 45}
	days := handmade(ride(60), hard, short, race, gym)
	days[3].Sessions = []planner.Session{race, hard} // the race counts more
	s := newStrip(0, days)
	img := decode(t, mustStrip(t, "Hill Loop", 0, days))
	r := 10.0
	for i, want := range []struct{ centre, top, pole color.RGBA }{
		{card, card, card},
		{ink, ink, card},
		{card, card, card}, // between the two strokes
		{accent, accent, accent},
		{card, card, card},
	} {
		x, y := s.middle(i), s.base+20
		if got := at(img, x, y-3); got != want.centre {
			t.Errorf("day %d: %v in the middle of the mark", i, got)
		}
		if got := at(img, x, y-7); got != want.top {
			t.Errorf("day %d: %v at the top of the mark", i, got)
		}
		if got := at(img, x-r+1, y+8); got != want.pole {
			t.Errorf("day %d: %v at the pole", i, got)
		}
	}
	if got := at(img, s.middle(2)-5, s.base+20); got != ink {
		t.Errorf("openers: no stroke but %v", got)
	}
	if at(img, s.middle(4), s.base-4) != ink || at(img, s.middle(4), s.base-12) == plain {
		t.Error("a day of strength alone is not a day without a ride")
	}
	if at(img, s.middle(3), s.base-20) != accent {
		t.Error("the race's bar looks like any ride")
	}
}

// A race far longer than all rides is cut and leaves them their height.
func TestLongRaceIsCut(t *testing.T) {
	race := planner.Session{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: 480}
	sessions := []planner.Session{ride(120), ride(60), race}
	for len(sessions) < 14 {
		sessions = append(sessions, ride(30))
	}
	s := newStrip(0, handmade(sessions...))
	if s.top != 120 {
		t.Fatalf("the scale ends at %d minutes, not with the longest ride", s.top)
	}
	img := decode(t, mustStrip(t, "Hill Loop", 0, handmade(sessions...)))
	inside := column(img, s.middle(2), s.high, s.high+24, card)
	if inside < 6 || column(img, s.middle(2), s.high-12, s.base-2, accent) < 60 {
		t.Errorf("no gap in the bar of the long race: %d pixels", inside)
	}
	if s := newStrip(0, handmade(ride(120), planner.Session{Kind: planner.RaceRide, Minutes: 180})); s.top != 180 {
		t.Errorf("a race of half as long again is cut at %d minutes", s.top)
	}
}

// Over many cut bars as many labels stand as have room.
func TestLabelsHaveRoom(t *testing.T) {
	race := planner.Session{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: 600}
	for _, n := range []int{14, 28, 60} {
		sessions := []planner.Session{ride(120)}
		for len(sessions) < n {
			sessions = append(sessions, race)
		}
		s := newStrip(0, handmade(sessions...))
		img := decode(t, mustStrip(t, "Hill Loop", 0, handmade(sessions...)))
		labels, gap := 0, 99
		for x := stripLeft; x < stripWidth-4; x++ {
			if column(img, x, s.high-42, s.high-14, accent) == 0 {
				gap++
				continue
			}
			if gap >= 8 {
				labels++
			}
			gap = 0
		}
		width := 46.0 // of 10h and its gap, somewhat less than drawn
		if most := int((stripRight - stripLeft) / width); labels < min(n-1, 8) || labels > most {
			t.Errorf("%d days have %d labels apart, want up to %d", n, labels, most)
		}
	}
}

// Scales and layouts of every width are sound.
func TestStripLayout(t *testing.T) {
	for n := 1; n <= 100; n++ {
		s := newStrip(0, handmade(make([]planner.Session, n)...))
		if len(s.slots) != min(n, maxStripDays) || s.all != n {
			t.Fatalf("%d days: %d slots of %d", n, len(s.slots), s.all)
		}
		first, last := s.middle(0)-s.width/2, s.middle(len(s.slots)-1)+s.width/2
		if math.Abs(first-stripLeft) > 1e-6 || math.Abs(last-stripRight) > 1e-6 {
			t.Errorf("%d days span %.1f to %.1f", n, first, last)
		}
		if n <= 10 != s.valued() || n <= 33 != s.lettered() {
			t.Errorf("%d days: minutes told %t, letters %t", n, s.valued(), s.lettered())
		}
	}
	for _, c := range []struct{ top, step int }{{5, 15}, {45, 15}, {60, 30}, {119, 30}, {120, 60}, {210, 60}, {300, 120}, {480, 180}, {2880, 780}} {
		if got := roundMinutes(c.top); got != c.step {
			t.Errorf("%d minutes in steps of %d, want %d", c.top, got, c.step)
		}
	}
}

func TestStripWithoutDays(t *testing.T) {
	if p, err := Strip("Hill Loop", raceDate, nil); err == nil || p.PNG != nil || p.Alt != "" {
		t.Errorf("no days give %d bytes, %v", len(p.PNG), err)
	}
}

// Below the bars stand the dates of the race, of today, of the first day and of
// Mondays; what would run into another is left out.
func TestDates(t *testing.T) {
	written := func(img image.Image, x, from, to float64) bool {
		for dx := from; dx <= to; dx++ {
			if column(img, x+dx, stripDates-18, stripDates, card) < 18 {
				return true
			}
		}
		return false
	}
	days := handmade(make([]planner.Session, 21)...)
	for i := range days { // from a Wednesday on
		days[i].Date += 2
	}
	days[10].Sessions = []planner.Session{{Kind: planner.RaceRide, Effort: planner.RaceEffort, Minutes: 90}}
	today := days[15].Date
	s := newStrip(today, days)
	img := decode(t, mustStrip(t, "Hill Loop", today, days))
	for i, want := range map[int]bool{0: true, 3: false, 5: true, 8: false, 10: true, 15: true, 17: false, 19: true} {
		if got := written(img, s.middle(i), -12, 12); got != want {
			t.Errorf("day %d: date %t, want %t", i, got, want)
		}
	}
	if img := decode(t, mustStrip(t, "Hill Loop", 0, days)); written(img, s.middle(15), -12, 12) {
		t.Error("a day is called today, though today is not among the days")
	}
	days[6].Sessions = days[10].Sessions // a race on Tuesday leaves Monday no room
	img = decode(t, mustStrip(t, "Hill Loop", today, days))
	if !written(img, s.middle(6), -12, 12) || !written(img, s.middle(10), -12, 12) {
		t.Error("a race has no date")
	}
	if written(img, s.middle(5), -30, -5) {
		t.Error("the date of a Monday runs into that of a race")
	}
}
