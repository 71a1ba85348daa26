package picture

import (
	"errors"
	"image/color"
	"slices"
	"strings"
	"unicode"

	"musette/planner"
)

// Calendar is a rider's season: races as flags, and what days are for as bands.
type Calendar struct {
	Title    string
	Today    planner.Date
	From, To planner.Date // the days that are shown
	Flags    []Flag       // ascending
	Bands    []Band       // ascending, none over another
}

// Flag is a race with the letter of its priority.
type Flag struct {
	Name     string
	Letter   string
	From, To planner.Date // its days
}

// BandKind is what days are for.
type BandKind uint8

// Kinds of bands.
const (
	TaperBand BandKind = iota
	RecoveryBand
	BlockBand
)

// Band is a run of days for one thing.
type Band struct {
	Kind     BandKind
	From, To planner.Date
}

// bands differ in height too, for those who see no difference in colour: from and
// to are parts of the lane.
var bands = [...]struct {
	word     string
	col      color.RGBA
	from, to float64
}{TaperBand: {"taper", plain, 0, 1}, RecoveryBand: {"recovery", moss, 0.5, 1}, BlockBand: {"training block", umber, 0, 0.5}}

const maxSeasonDays = 400

// Size of a season and where its parts stand, in pixels.
const (
	seasonWidth = 1000

	seasonLeft, seasonRight = 28.0, 972.0
	seasonTop               = 134.0 // of the highest flag
	seasonRow               = 42.0  // a row of flags
	seasonRows              = 6     // at most
	seasonLane              = 42.0  // of the bands
	seasonFoot              = 70.0  // below them

	flagSide = 34.0
	flagName = flagSide + 8 // where a name begins
	flagGap  = 14           // between a name and the next flag
	leastCut = 70           // pixels of a name that is cut
)

// Season draws weeks across, bands below, and above them a flag for each race with
// its letter and name. Days outside From and To are left out. Without a flag, or if
// letters cannot be drawn, it is an error.
func Season(s Calendar) (Picture, error) {
	days := s.From.DaysUntil(s.To) + 1
	if len(s.Flags) == 0 || days < 1 || days > maxSeasonDays {
		return Picture{}, errors.New("picture: a season without races or of no length")
	}
	measure, err := scratch()
	if err != nil {
		return Picture{}, err
	}
	d := &seasonDrawing{Calendar: &s, width: (seasonRight - seasonLeft) / float64(days)}
	d.place(measure)
	png, err := render(seasonWidth, int(d.lane+seasonLane+seasonFoot), func(c *canvas) {
		c.text(c.fit(capital(drawable(s.Title)), titles, seasonWidth-56), titles, 28, 56, left, ink)
		d.key(c)
		d.weeks(c)
		d.bands(c)
		d.flags(c)
		if d.Today >= d.From && d.Today <= d.To {
			c.pointer(d.at(d.Today)+d.width/2, d.lane+seasonLane)
		}
	})
	if err != nil {
		return Picture{}, err
	}
	return Picture{PNG: png, Alt: s.alt()}, nil
}

type seasonDrawing struct {
	*Calendar
	width float64 // of a day, in pixels
	lane  float64 // upper end of the bands
	poles []pole
}

// pole is a flag in its place.
type pole struct {
	*Flag
	x, flag float64 // of the pole, and of the flag's left edge
	row     int     // from below
	name    string  // as far as there is room
	before  bool    // the name stands left of the flag
	bare    bool    // there is no room for the flag
}

// at is where a day begins.
func (d *seasonDrawing) at(day planner.Date) float64 {
	return seasonLeft + float64(d.From.DaysUntil(max(d.From, min(day, d.To+1))))*d.width
}

// shown reports days of which some are in the picture.
func (d *seasonDrawing) shown(from, to planner.Date) bool { return from <= d.To && to >= d.From }

// key explains what occurs.
func (d *seasonDrawing) key(c *canvas) {
	const y, gap = 101.0, 26.0
	x := 28.0
	put := func(word string, draw func()) {
		draw()
		c.text(word, words, x+32, y, left, soft)
		x += 32 + c.width(word, words) + gap
	}
	for kind, b := range bands {
		if slices.ContainsFunc(d.Bands, func(band Band) bool { return band.Kind == BandKind(kind) && d.shown(band.From, band.To) }) {
			word := b.word
			if BandKind(kind) == TaperBand {
				word = "taper, easier days" // those of a B race look the same
			}
			put(word, func() { c.box(x, y-21+b.from*22, x+24, y-21+b.to*22, b.col) })
		}
	}
	put("race", func() { c.box(x, y-21, x+24, y+1, accent) })
	if d.Today >= d.From && d.Today <= d.To {
		put("today", func() { c.pointer(x+12, y-16) })
	}
}

// pointer points up at x, y.
func (c *canvas) pointer(x, y float64) {
	c.fill(ink, point{x, y}, point{x + 9, y + 14}, point{x - 9, y + 14})
}

// weeks draws a box a week, from Monday to Sunday, and names months.
func (d *seasonDrawing) weeks(c *canvas) {
	base := d.lane + seasonLane
	c.outlined(seasonLeft, d.lane, seasonRight, base, edge, pale)
	for day := d.From; day <= d.To; day++ {
		x := d.at(day)
		if day.Weekday() == planner.Monday && day > d.From {
			c.box(x-1, d.lane, x+1, base, rule)
		}
	}
	for _, m := range c.monthNames(d.From, d.To, d.at) {
		if m.begins {
			c.box(m.x-1, base, m.x+1, base+12, soft)
		}
		c.text(m.name, words, m.x+4, base+42, left, soft)
	}
}

// monthName is where a month is named: where it begins, or the one of the first day.
type monthName struct {
	x      float64
	name   string
	begins bool
}

// monthNames are those that have room. A month that begins goes before one that ends.
func (c *canvas) monthNames(from, to planner.Date, at func(planner.Date) float64) (out []monthName) {
	for day := from; day <= to; day++ {
		_, month, date := day.Civil()
		m := monthName{at(day), month.String()[:3], date == 1}
		if !m.begins && day != from || m.x+c.width(m.name, words) > seasonRight {
			continue
		}
		if k := len(out) - 1; k >= 0 && m.x < out[k].x+c.width(out[k].name, words)+22 {
			if out[k].begins {
				continue
			}
			out = out[:k]
		}
		out = append(out, m)
	}
	return out
}

func (d *seasonDrawing) bands(c *canvas) {
	for _, b := range d.Bands {
		if d.shown(b.From, b.To) {
			x, look := d.at(b.From), bands[b.Kind]
			const high = seasonLane - 8
			c.box(x, d.lane+4+look.from*high, max(x+4, d.at(b.To+1)), d.lane+4+look.to*high, look.col)
		}
	}
	for _, f := range d.Flags {
		if d.shown(f.From, f.To) {
			x := d.at(f.From)
			c.box(x, d.lane, max(x+5, d.at(f.To+1)), d.lane+seasonLane, accent)
		}
	}
}

// place finds a row for each flag, from the right to the left, each as low as its
// name has room. A name that has room nowhere is cut.
func (d *seasonDrawing) place(c *canvas) {
	var start [seasonRows]float64 // of what was placed last in each row
	for i := range start {
		start[i] = seasonRight + flagGap
	}
	highest := 0
	for i := len(d.Flags) - 1; i >= 0; i-- {
		f := &d.Flags[i]
		if !d.shown(f.From, f.To) {
			continue
		}
		p := pole{Flag: f, x: d.at(f.From) + min(d.width/2, 4), name: flagged(f)}
		p.flag = min(p.x, seasonRight-flagSide)
		wide := c.width(p.name, words)
		// At the right end the name stands before the flag, if no other pole does.
		p.before = p.flag+flagName+wide > seasonRight && p.flag-8-wide > seasonLeft &&
			(i == 0 || d.at(d.Flags[i-1].From)+flagSide+flagGap < p.flag-8-wide)
		from, to := p.flag, p.flag+flagName+wide
		if p.before {
			from, to = p.flag-8-wide, p.flag+flagSide
		}
		for p.row < seasonRows && to+flagGap > start[p.row] {
			p.row++
		}
		if row := lowest(start[:], p.flag+flagSide); p.row == seasonRows && row < seasonRows && !p.before && p.flag-8-wide > seasonLeft && p.flag+flagName+wide > seasonRight {
			p.row, p.before, from = row, true, p.flag-8-wide // across other poles
		}
		if p.row == seasonRows { // the row that leaves most of the name
			p.row, p.before, from = 0, false, p.flag
			for k := range start {
				if start[k] > start[p.row] {
					p.row = k
				}
			}
			room := start[p.row] - p.flag - flagName - flagGap
			if p.name = c.fit(p.name, words, room); room < leastCut {
				p.name = ""
			}
			p.bare = start[p.row] < p.flag+flagSide
		}
		start[p.row] = min(start[p.row], from)
		highest = max(highest, p.row)
		d.poles = append(d.poles, p)
	}
	d.lane = seasonTop + float64(highest)*seasonRow + flagSide + flagGap
}

// lowest is the first row with room up to x.
func lowest(start []float64, x float64) int {
	for row, from := range start {
		if x+flagGap <= from {
			return row
		}
	}
	return len(start)
}

// flags draws each race's pole, and above all poles letters and names.
func (d *seasonDrawing) flags(c *canvas) {
	top := func(p *pole) float64 { return d.lane - flagGap - flagSide - float64(p.row)*seasonRow }
	for i := range d.poles {
		p := &d.poles[i]
		c.box(p.x-1.5, top(p), p.x+1.5, d.lane, soft)
	}
	for i := range d.poles {
		p := &d.poles[i]
		if p.bare {
			continue
		}
		y := top(p)
		c.box(p.flag-1, y, p.flag+flagSide, y+flagSide, accent)
		c.text(p.Letter, strong, p.flag+flagSide/2, y+27, middle, card)
		switch {
		case p.name == "":
		case p.before:
			c.tag(p.name, words, p.flag-8, y+27, right, ink)
		default:
			c.tag(p.name, words, p.flag+flagName, y+27, left, ink)
		}
	}
}

// flagged is a race's name at its flag, its day where no letter of the name can be drawn: a
// number alone would look like the name.
func flagged(f *Flag) string {
	lettered := func(s string) bool { return strings.ContainsFunc(s, unicode.IsLetter) }
	if name := drawable(f.Name); name != nameless && (lettered(name) || !lettered(f.Name)) {
		return name
	}
	return dayMonth(f.From)
}
