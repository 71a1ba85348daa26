package picture

import "fmt"

// mark draws a day's shape with its middle at x, y; room is the width of a slot.
func (c *canvas) mark(m mark, x, y, room float64) {
	r := max(3, min(0.42*room, 10)) // half its width
	switch m {
	case noRide:
		c.disc(point{x, y}, max(3, 0.6*r), ink)
	case hardDay:
		c.fill(ink, point{x, y - 1.1*r}, point{x + r, y}, point{x, y + 1.1*r}, point{x - r, y})
	case openers: // two short strokes, as openers are a few short efforts
		c.box(x-0.75*r, y-r, x-0.2*r, y+r, ink)
		c.box(x+0.2*r, y-r, x+0.75*r, y+r, ink)
	case raceDay: // a pennant on its pole
		c.box(x-r, y-1.3*r, x-r+max(2, 0.3*r), y+1.3*r, accent)
		c.fill(accent, point{x - r, y - 1.3*r}, point{x + r, y - 0.5*r}, point{x - r, y + 0.3*r})
	}
}

var markWords = map[mark]string{noRide: "no ride", hardDay: "hard", openers: "openers", raceDay: "race"}

// key explains in one line what occurs in the strip, and nothing else.
func (s *strip) key(c *canvas) {
	const y, gap = 101.0, 26.0
	x := 28.0
	put := func(word string, draw func(x float64)) {
		draw(x)
		x += 28
		c.text(word, words, x, y, left, soft)
		x += c.width(word, words) + gap
	}
	has := map[mark]bool{}
	for _, slot := range s.slots {
		has[slot.mark] = true
	}
	put("planned", func(x float64) { c.box(x+3, y-21, x+17, y+1, plain) })
	put("usual", func(x float64) { c.outlined(x, y-21, x+20, y+1, edge, pale) })
	for _, m := range [...]mark{hardDay, openers, raceDay, noRide} {
		if has[m] {
			put(markWords[m], func(x float64) { c.mark(m, x+10, y-9, 100) })
		}
	}
	if s.all > len(s.slots) {
		c.text(fmt.Sprintf("first %d days", len(s.slots)), words, stripRight, y, right, soft)
	}
}
