package picture

import (
	"fmt"
	"image/color"
	"math"
	"strings"
)

// tradeDrawing is a trade with the scales of its panels.
type tradeDrawing struct {
	*Trade
	days, part, effect scale
}

func newTradeDrawing(t *Trade) *tradeDrawing {
	d := &tradeDrawing{Trade: t}
	last := t.Points[len(t.Points)-1].Days
	d.days = scale{to: float64(max(last, 7)), a: tradeLeft, b: tradeRight, step: dayStep(last)}
	lowPart, highPart, low, high := 0.0, 1.0, 0.0, 0.0
	for _, p := range t.Points {
		lowPart, highPart = min(lowPart, p.Kept, p.Shed), max(highPart, p.Kept, p.Shed)
		low, high = min(low, p.Low), max(high, p.High)
	}
	d.part = roundScale(100*lowPart, 100*highPart, 4, partsBase, partsTop)
	d.effect = roundScale(low, high, 4, gainBase, gainTop)
	return d
}

// dayStep is the distance of the lengths named below the panels: days, then whole weeks.
func dayStep(last int) float64 {
	switch {
	case last <= 7:
		return 1
	case last <= 12:
		return 2
	case last <= 35:
		return 7
	}
	return 7 * math.Ceil(float64(last)/35)
}

// named are the lengths written below the panels: every step and the last one,
// in place of a step that leaves it no room.
func (d *tradeDrawing) named() []float64 {
	const room = 44 // for three digits
	all := d.days.ticks()
	last := len(all) - 1
	switch left := d.days.b - d.days.at(all[last]); {
	case left < 1:
		return all
	case left < room && last > 0:
		all = all[:last]
	}
	return append(all, d.days.to)
}

// frame draws headings, scales and the lengths of tapers.
func (d *tradeDrawing) frame(c *canvas) {
	c.text("Fitness and fatigue by race day", words, 28, partsHead, left, soft)
	c.text("Expected gain in performance (shaded: 80 % range)", words, 28, gainHead, left, soft)
	for _, v := range d.part.ticks() {
		level(c, d.part.at(v), percent(v/100), v == 0)
	}
	for _, v := range d.effect.ticks() {
		level(c, d.effect.at(v), gainOf(v, d.effect.step), v == 0)
	}
	for i, v := range d.named() {
		x := d.days.at(v)
		c.box(x-1, gainBase, x+1, gainBase+8, soft)
		label := fmt.Sprint(v)
		if i == 0 {
			label = "none"
		}
		c.text(label, words, x, tradeDays, middle, soft)
	}
	c.text("days of taper", words, tradeRight+26, tradeDays, left, soft)
}

// level is one line of a panel's scale and what it stands for.
func level(c *canvas, y float64, label string, zero bool) {
	line(c, y, zero)
	c.text(label, words, tradeLeft-14, y+9, right, soft)
}

// line runs across a panel: drawn through at zero, else dotted.
func line(c *canvas, y float64, zero bool) {
	if zero {
		c.box(tradeLeft, y-1, tradeRight, y+1, soft)
	} else {
		c.dots(tradeLeft, tradeRight, y, rule)
	}
}

// parts draws fitness kept as a solid line with discs and fatigue gone as a
// dashed one with squares, each with its words at its end.
func (d *tradeDrawing) parts(c *canvas) {
	kept := d.along(func(p Point) float64 { return d.part.at(100 * p.Kept) })
	shed := d.along(func(p Point) float64 { return d.part.at(100 * p.Shed) })
	d.curve(c, umber, 4, []float64{14, 7}, shed)
	d.curve(c, moss, 4, nil, kept)
	for i := range dotted(kept) {
		c.square(shed[i], 5, umber)
		c.disc(kept[i], 5.5, moss)
	}
	last := len(kept) - 1
	k, s := apart(kept[last].y, shed[last].y, 30)
	c.text("fitness kept", words, tradeRight+20, k+9, left, moss)
	c.text("fatigue gone", words, tradeRight+20, s+9, left, umber)
}

// curve joins the points of all lengths: thin and dotted across lengths that
// are not among them.
func (d *tradeDrawing) curve(c *canvas, col color.RGBA, width float64, dash []float64, at []point) {
	from := 0
	for i := 1; i <= len(at); i++ {
		if i < len(at) && d.Points[i].Days == d.Points[i-1].Days+1 {
			continue
		}
		c.line(col, width, dash, at[from:i]...)
		if i < len(at) {
			c.line(col, 2, []float64{3, 6}, at[i-1], at[i])
		}
		from = i
	}
}

// dotted are the points that get a mark of their own: none where they crowd.
func dotted(all []point) []point {
	if n := len(all); n > 1 && (all[n-1].x-all[0].x)/float64(n-1) < 16 {
		return nil
	}
	return all
}

// gain draws the range as an outlined band and the expected gain within it.
func (d *tradeDrawing) gain(c *canvas) {
	low := d.along(func(p Point) float64 { return d.effect.at(p.Low) })
	mid := d.along(func(p Point) float64 { return d.effect.at(p.Mid) })
	high := d.along(func(p Point) float64 { return d.effect.at(p.High) })
	if len(mid) > 1 {
		band := append([]point(nil), high...)
		for i := len(low) - 1; i >= 0; i-- {
			band = append(band, low[i])
		}
		c.fill(pale, band...)
		for _, v := range d.effect.ticks() { // the scale shows through the band
			line(c, d.effect.at(v), v == 0)
		}
		d.curve(c, edge, 2, nil, high)
		d.curve(c, edge, 2, nil, low)
	}
	d.curve(c, ink, 4, nil, mid)
	for _, p := range dotted(mid) {
		c.disc(p, 5.5, ink)
	}
	last := len(mid) - 1
	c.text("expected", words, tradeRight+20, mid[last].y+9, left, ink)
}

// planned marks the chosen length: a line through both panels with its word,
// and the values there.
func (d *tradeDrawing) planned(c *canvas) {
	p := d.Points[d.chosen()]
	x := math.Round(d.days.at(float64(p.Days)))
	c.box(x-2, partsTag+7, x+2, partsBase, ink)
	c.box(x-2, gainTag+7, x+2, gainBase+8, ink)

	word := "planned: no taper"
	if p.Days > 0 {
		word = "planned: " + days(p.Days)
	}
	above(c, word, x, partsTag)
	above(c, fmt.Sprintf("%s (%s to %s)", gainOf(p.Mid, 0.1), bare(p.Low), bare(p.High)), x, gainTag)

	kept, shed := point{x, d.part.at(100 * p.Kept)}, point{x, d.part.at(100 * p.Shed)}
	c.ring(kept, moss)
	c.ring(shed, umber)
	if keptAbove := kept.y <= shed.y; p.Days > 0 { // no taper keeps all and takes nothing away, as the scale says
		beside(c, percent(p.Kept), kept, keptAbove, keptAbove, moss)
		beside(c, percent(p.Shed), shed, !keptAbove, keptAbove, umber)
	}

	high, low := d.effect.at(p.High), d.effect.at(p.Low)
	c.box(x-12, high-2, x+12, high+2, ink)
	c.box(x-12, low-2, x+12, low+2, ink)
	c.ring(point{x, d.effect.at(p.Mid)}, ink)
}

// above writes over a panel where the planned line begins.
func above(c *canvas, s string, x, y float64) {
	w := c.width(s, strong)
	c.text(s, strong, max(tradeLeft+w/2, min(x, tradeRight-w/2)), y, middle, ink)
}

// beside writes a value above or below its point, on the side where the lines
// leave more room unless the panel ends there.
func beside(c *canvas, s string, at point, above, onRight bool, col color.RGBA) {
	const off = 18
	if w := c.width(s, strong) + off; at.x+w > tradeRight {
		onRight = false
	} else if at.x-w < tradeLeft {
		onRight = true
	}
	y := at.y + 31
	if above {
		y = at.y - 14
	}
	if onRight {
		c.tag(s, strong, at.x+off, y, left, col)
	} else {
		c.tag(s, strong, at.x-off, y, right, col)
	}
}

// along is a line through all points.
func (d *tradeDrawing) along(y func(Point) float64) []point {
	out := make([]point, len(d.Points))
	for i, p := range d.Points {
		out[i] = point{d.days.at(float64(p.Days)), y(p)}
	}
	return out
}

func (c *canvas) square(at point, r float64, col color.RGBA) {
	c.box(at.x-r, at.y-r, at.x+r, at.y+r, col)
}

// ring is a disc that stands out from the line through it.
func (c *canvas) ring(at point, col color.RGBA) {
	c.disc(at, 12, card)
	c.disc(at, 9, col)
}

// apart moves two heights away from each other until they are gap apart, the
// first one above when they are equal.
func apart(a, b, gap float64) (float64, float64) {
	if miss := gap - math.Abs(a-b); miss > 0 {
		if a <= b {
			return a - miss/2, b + miss/2
		}
		return a + miss/2, b - miss/2
	}
	return a, b
}

func percent(part float64) string { return signed(fmt.Sprintf("%.0f %%", 100*part)) }

// gainOf is a gain in per cent with its sign, with decimals if step asks for them.
func gainOf(v, step float64) string {
	format := "%+.0f %%"
	if step < 1 {
		format = fmt.Sprintf("%%+.%df %%%%", int(math.Ceil(-math.Log10(step)-1e-9)))
	}
	return signed(fmt.Sprintf(format, v))
}

// bare is a gain without its unit.
func bare(v float64) string { return strings.TrimSuffix(gainOf(v, 0.1), " %") }

// signed gives a number its true minus and writes zero plainly.
func signed(s string) string {
	if !strings.ContainsAny(s, "123456789") {
		return "0 %"
	}
	return strings.Replace(s, "-", "−", 1)
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
