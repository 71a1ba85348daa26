package picture

import (
	"errors"
	"image/color"
	"math"
	"strconv"

	"musette/planner"
	"musette/planner/engine"
)

// maxStripDays are the most days that a strip shows, the first ones: twelve weeks.
const maxStripDays = 84

// Size of a strip and where its parts stand, in pixels.
const (
	stripWidth, stripHeight = 1000, 400

	stripLeft, stripRight = 110.0, 974.0 // ends of the base line
	stripTop              = 132.0        // where the tallest bar ends at most
	stripWeekdays         = 346.0        // base lines of letters
	stripDates            = 380.0
)

// Strip draws each day's planned minutes against its usual ones, the riding of
// a day summed. Marks below the bars tell races, openers and hard days. today
// is pointed out if it is among the days. Of more than 84 days the first 84 are
// shown. Without days, or if letters cannot be drawn, it is an error.
func Strip(title string, today planner.Date, days []engine.Day) (Picture, error) {
	if len(days) == 0 {
		return Picture{}, errors.New("picture: a strip without days")
	}
	s := newStrip(today, days)
	png, err := render(stripWidth, stripHeight, func(c *canvas) {
		c.text(c.fit(capital(drawable(title)), titles, stripWidth-56), titles, 28, 56, left, ink)
		s.key(c)
		s.axis(c)
		for i := range s.slots {
			s.bar(c, i)
		}
		c.box(stripLeft, s.base-1, stripRight, s.base+1, soft)
		for i := range s.slots {
			s.foot(c, i)
		}
		s.dates(c)
	})
	if err != nil {
		return Picture{}, err
	}
	return Picture{PNG: png, Alt: s.alt(sayable(title))}, nil
}

// mark is what a day's shape says.
type mark uint8

const (
	noMark mark = iota
	noRide
	hardDay
	openers
	raceDay
)

// slot is one day of a strip.
type slot struct {
	date           planner.Date
	planned, usual int // minutes of riding
	mark           mark
}

type strip struct {
	today planner.Date
	slots []slot
	all   int // days given, of which slots are the first

	width      float64 // of a slot, in pixels
	base, high float64 // the base line and the end of the tallest bar
	top        int     // minutes at the end of the tallest bar; races may go beyond
	step       int     // minutes between the lines of the scale

	labelled float64 // where the last label over a cut bar ends
}

func newStrip(today planner.Date, days []engine.Day) *strip {
	s := &strip{today: today, all: len(days)}
	days = days[:min(len(days), maxStripDays)]
	tallest, longestRace := 0, 0
	for i := range days {
		day := &days[i]
		slot := slot{date: day.Date, planned: riding(day.Sessions), usual: riding(day.Usual), mark: markOf(day)}
		s.slots = append(s.slots, slot)
		tallest = max(tallest, slot.usual)
		if slot.mark == raceDay {
			longestRace = max(longestRace, slot.planned)
		} else {
			tallest = max(tallest, slot.planned)
		}
	}
	// A race somewhat longer than all rides is drawn whole, a far longer one is cut.
	if tallest == 0 || longestRace*2 <= tallest*3 {
		tallest = max(tallest, longestRace)
	}
	if tallest == 0 {
		tallest = 60
	}
	s.top, s.step = tallest, roundMinutes(tallest)
	s.layout(longestRace > tallest)
	return s
}

// layout gives bars the room that letters and values leave.
func (s *strip) layout(cut bool) {
	s.width = (stripRight - stripLeft) / float64(len(s.slots))
	s.base, s.high = stripWeekdays-62, stripTop
	switch {
	case !s.lettered():
		s.base += 32
	case s.valued():
		s.base -= 32
	}
	if cut && !s.valued() {
		s.high += 36
	}
}

// lettered reports whether each day has room for the letter of its weekday,
// named whether for three of them, valued whether for the minutes of its ride.
func (s *strip) lettered() bool { return s.width >= 0.95*wordSize }
func (s *strip) named() bool    { return s.width >= 2.2*wordSize }
func (s *strip) valued() bool   { return s.width >= 3.05*wordSize }

func riding(sessions []planner.Session) int {
	sum := 0
	for _, session := range sessions {
		if session.Kind.IsRide() {
			sum += int(session.Minutes)
		}
	}
	return sum
}

// markOf is the strongest thing that a day holds.
func markOf(day *engine.Day) mark {
	found := noMark
	for _, session := range day.Sessions {
		m := noMark
		switch {
		case session.Kind == planner.RaceRide || session.Effort == planner.RaceEffort:
			m = raceDay
		case session.Kind == planner.Openers || session.Effort == planner.OpenersEffort:
			m = openers
		case session.IsHard():
			m = hardDay
		}
		found = max(found, m)
	}
	if found == noMark && riding(day.Sessions) == 0 {
		return noRide
	}
	return found
}

// middle is the x of a day's middle.
func (s *strip) middle(i int) float64 { return stripLeft + (float64(i)+0.5)*s.width }

// height is how tall a bar of that many minutes is.
func (s *strip) height(minutes int) float64 {
	return float64(minutes) / float64(s.top) * (s.base - s.high)
}

func (s *strip) axis(c *canvas) {
	for minutes := s.step; minutes <= s.top; minutes += s.step {
		y := s.base - s.height(minutes)
		c.dots(stripLeft, stripRight, y, rule)
		c.text(planner.Duration(minutes), words, stripLeft-14, y+9, right, soft)
	}
	c.text("0", words, stripLeft-14, s.base+9, right, soft)
}

// bar draws the usual ride as a pale outline and the planned one as a narrower solid bar over it.
func (s *strip) bar(c *canvas, i int) {
	slot, x := s.slots[i], math.Round(s.middle(i))
	wide := math.Round(min(0.41*s.width, 42)) // half widths
	narrow := math.Round(min(0.25*s.width, 25))
	if slot.usual > 0 {
		c.outlined(x-wide, s.base-s.height(slot.usual), x+wide, s.base, edge, pale)
	}
	if slot.planned == 0 {
		return
	}
	col := slot.color()
	cut := slot.planned > s.top
	top := s.base - s.height(min(slot.planned, s.top))
	if cut {
		top -= 12
	}
	c.box(x-narrow, top, x+narrow, s.base, col)
	if cut { // two gaps aslant say that the bar goes on
		for _, y := range [...]float64{top + 12, top + 24} {
			c.fill(card, point{x - narrow - 1, y + 4}, point{x + narrow + 1, y - 4}, point{x + narrow + 1, y + 1}, point{x - narrow - 1, y + 9})
		}
	}
	if cut && !s.valued() {
		s.label(c, planner.Duration(slot.planned), x, top-8, col)
	}
}

// label tells the minutes of a cut bar where the last such label leaves room.
func (s *strip) label(c *canvas, text string, x, y float64, col color.RGBA) {
	const gap = 10
	w := c.width(text, words)
	x = s.inside(x, w)
	if x-w/2 < s.labelled+gap {
		return
	}
	s.labelled = x + w/2
	c.text(text, words, x, y, middle, col)
}

// inside moves the middle of a text so that it ends within the card.
func (s *strip) inside(x, width float64) float64 {
	return max(stripLeft+width/2-8, min(x, stripWidth-12-width/2))
}

// color is that of a day's bar and minutes.
func (s slot) color() color.RGBA {
	if s.mark == raceDay {
		return accent
	}
	return plain
}

// foot draws a day's mark, its minutes and the letters of its weekday.
func (s *strip) foot(c *canvas, i int) {
	slot, x := s.slots[i], s.middle(i)
	y := s.base + 20
	if slot.mark == noRide {
		y = s.base
	}
	c.mark(slot.mark, x, y, s.width)
	if !s.lettered() {
		return
	}
	if s.valued() && slot.planned > 0 {
		c.text(planner.Duration(slot.planned), words, x, stripWeekdays-32, middle, slot.color())
	}
	name := slot.date.Weekday().Short()
	if !s.named() {
		name = name[:1]
	}
	f, col := words, soft
	if slot.mark == raceDay || slot.date == s.today {
		f, col = strong, ink
	}
	c.text(name, f, x, stripWeekdays, middle, col)
}

// dates names races, today, the first day and Mondays, in that order of
// importance; what has no room is left out.
func (s *strip) dates(c *canvas) {
	const gap = 10
	var taken [][2]float64
	write := func(i int, label string, f font, col color.RGBA) {
		w := c.width(label, f)
		x := s.inside(s.middle(i), w)
		for _, t := range taken {
			if x-w/2 < t[1]+gap && x+w/2 > t[0]-gap {
				return
			}
		}
		taken = append(taken, [2]float64{x - w/2, x + w/2})
		c.text(label, f, x, stripDates, middle, col)
	}
	for i, slot := range s.slots {
		if slot.mark == raceDay && (i == 0 || s.slots[i-1].mark != raceDay) {
			write(i, dayMonth(slot.date), strong, ink)
		}
	}
	for i, slot := range s.slots {
		if slot.date == s.today {
			write(i, "today", strong, ink)
		}
	}
	write(0, dayMonth(s.slots[0].date), words, soft)
	weeks := 1 // between Mondays named
	if 7*s.width < c.width("28 May", words)+gap {
		weeks = 2
	}
	for i, slot := range s.slots {
		if slot.date.Weekday() == planner.Monday && i/7%weeks == 0 {
			write(i, dayMonth(slot.date), words, soft)
		}
	}
}

// dayMonth is a date without its weekday: 4 May.
func dayMonth(d planner.Date) string {
	_, m, day := d.Civil()
	return strconv.Itoa(day) + " " + m.String()[:3]
}
