package picture

import (
	"errors"
	"fmt"
	"slices"

	"musette/planner"
)

// Squad is a club's weeks: riders in rows, what their days are for as bands, races
// as flags. Gaps are days without training, whatever the reason; the picture tells none.
type Squad struct {
	Title    string
	From, To planner.Date
	Rows     []SquadRow
	Others   int // riders for whom there is no row
}

// SquadRow is a rider.
type SquadRow struct {
	Name  string
	Flags []Flag
	Bands []Band
	Gaps  []Band // of any kind
}

// MostSquadRows is how many riders a picture shows.
const MostSquadRows = 20

// Where the parts of a squad stand, in pixels.
const (
	squadNames = 176.0 // room for names
	squadLeft  = seasonLeft + squadNames + 14
	squadTop   = 126.0
	squadRow   = 46.0
	squadLane  = 34.0
	squadLabel = 30.0 // of a race's letter
)

// DrawSquad draws a row a rider. Without a row, or if letters cannot be drawn, it is an error.
func DrawSquad(s Squad) (Picture, error) {
	days := s.From.DaysUntil(s.To) + 1
	if len(s.Rows) == 0 || len(s.Rows) > MostSquadRows || days < 1 || days > maxSeasonDays {
		return Picture{}, errors.New("picture: a squad of no or too many riders, or of no length")
	}
	d := &squadDrawing{Squad: &s, width: (seasonRight - squadLeft) / float64(days), base: squadTop + squadRow*float64(len(s.Rows))}
	height := d.base + seasonFoot
	if s.Others > 0 {
		height += 36
	}
	png, err := render(seasonWidth, int(height), func(c *canvas) {
		c.text(c.fit(capital(drawable(s.Title)), titles, seasonWidth-56), titles, 28, 56, left, ink)
		d.key(c)
		for i := range s.Rows {
			d.row(c, &s.Rows[i], squadTop+squadRow*float64(i))
		}
		d.months(c)
		if s.Others > 0 {
			c.text(fmt.Sprintf("and %d more in the list", s.Others), words, seasonLeft, height-22, left, soft)
		}
	})
	if err != nil {
		return Picture{}, err
	}
	return Picture{PNG: png, Alt: s.alt()}, nil
}

type squadDrawing struct {
	*Squad
	width, base float64 // of a day; lower end of the rows
}

// at is where a day begins.
func (d *squadDrawing) at(day planner.Date) float64 {
	return squadLeft + float64(d.From.DaysUntil(max(d.From, min(day, d.To+1))))*d.width
}

func (d *squadDrawing) shown(from, to planner.Date) bool { return from <= d.To && to >= d.From }

// some reports a row that has such days.
func (d *squadDrawing) some(days func(*SquadRow) []Band, is func(*Band) bool) bool {
	return slices.ContainsFunc(d.Rows, func(r SquadRow) bool {
		return slices.ContainsFunc(days(&r), func(b Band) bool { return d.shown(b.From, b.To) && is(&b) })
	})
}

// key explains what occurs.
func (d *squadDrawing) key(c *canvas) {
	const y, gap = 101.0, 26.0
	x := 28.0
	put := func(word string, draw func()) {
		draw()
		c.text(word, words, x+32, y, left, soft)
		x += 32 + c.width(word, words) + gap
	}
	for kind, b := range bands {
		if d.some(func(r *SquadRow) []Band { return r.Bands }, func(band *Band) bool { return band.Kind == BandKind(kind) }) {
			put(b.word, func() { c.box(x, y-21+b.from*22, x+24, y-21+b.to*22, b.col) })
		}
	}
	put("race", func() { c.box(x, y-21, x+24, y+1, accent) })
	if d.some(func(r *SquadRow) []Band { return r.Gaps }, func(*Band) bool { return true }) {
		put(notTraining, func() {
			c.outlined(x, y-18, x+7, y-2, edge, pale)
			c.outlined(x+17, y-18, x+24, y-2, edge, pale)
		})
	}
}

// riderName is a rider's name, or what stands in for one of which no letter can be drawn.
func riderName(name string) string {
	if name == nameless {
		return "a rider"
	}
	return name
}

// notTraining is all that is said of days that health takes.
const notTraining = "not training: health"

// row draws a rider's lane, broken by gaps, with bands and flags.
func (d *squadDrawing) row(c *canvas, r *SquadRow, y float64) {
	c.text(c.fit(riderName(drawable(r.Name)), words, squadNames), words, seasonLeft, y+27, left, ink)
	from := d.From
	for _, g := range append(slices.Clone(r.Gaps), Band{From: d.To + 1, To: d.To + 1}) {
		if g.From > from {
			c.outlined(d.at(from), y, d.at(g.From), y+squadLane, edge, pale)
		}
		from = max(from, g.To+1)
	}
	for day := d.From + 1; day <= d.To; day++ {
		inGap := slices.ContainsFunc(r.Gaps, func(g Band) bool { return g.From <= day && day <= g.To+1 })
		if day.Weekday() == planner.Monday && !inGap {
			c.box(d.at(day)-1, y, d.at(day)+1, y+squadLane, rule)
		}
	}
	for _, b := range r.Bands {
		if d.shown(b.From, b.To) {
			look := bands[b.Kind]
			const high = squadLane - 8
			c.box(d.at(b.From), y+4+look.from*high, max(d.at(b.From)+4, d.at(b.To+1)), y+4+look.to*high, look.col)
		}
	}
	d.flags(c, r, y)
}

// flags draws the races' letters, as wide as their days at least, beside each other.
func (d *squadDrawing) flags(c *canvas, r *SquadRow, y float64) {
	end := squadLeft
	for _, f := range r.Flags {
		if !d.shown(f.From, f.To) {
			continue
		}
		wide := max(squadLabel, d.at(f.To+1)-d.at(f.From))
		x := min(max(end, d.at(f.From)), seasonRight-wide)
		if x < end { // no room beside the last one
			continue
		}
		c.box(x, y, x+wide, y+squadLane, card)
		c.box(x+1, y, x+wide-1, y+squadLane, accent)
		c.text(f.Letter, strong, x+wide/2, y+27, middle, card)
		end = x + wide
	}
}

// months names them below the rows.
func (d *squadDrawing) months(c *canvas) {
	for _, m := range c.monthNames(d.From, d.To, d.at) {
		if m.begins {
			c.box(m.x-1, d.base-8, m.x+1, d.base+4, soft)
		}
		c.text(m.name, words, m.x+4, d.base+34, left, soft)
	}
}

// alt says a squad: a sentence a rider.
func (s *Squad) alt() string {
	const room = 30 // for how many more there are
	var a speech
	a.say(fmt.Sprintf("%s, from %s to %s.", capital(sayable(s.Title)), s.From.Long(), s.To.Long()))
	shown := func(from, to planner.Date) bool { return from <= s.To && to >= s.From }
	for i, r := range s.Rows {
		var parts []string
		for _, f := range r.Flags {
			if shown(f.From, f.To) {
				parts = append(parts, fmt.Sprintf("%s (%s) %s", sayable(f.Name), f.Letter, daySpan(f.From, f.To)))
			}
		}
		for _, b := range r.Bands {
			if b.Kind != RecoveryBand && shown(b.From, b.To) {
				parts = append(parts, bands[b.Kind].word+" "+daySpan(b.From, b.To))
			}
		}
		for _, g := range r.Gaps {
			if shown(g.From, g.To) {
				parts = append(parts, notTraining+" "+daySpan(max(g.From, s.From), min(g.To, s.To)))
			}
		}
		if len(parts) == 0 {
			parts = []string{"no race"}
		}
		sentence := fmt.Sprintf("%s: %s.", riderName(sayable(r.Name)), listed(parts, ", "))
		if len(a.String())+len(sentence) > maxAlt-room || !a.say(sentence) {
			a.say(fmt.Sprintf("And %d more riders.", len(s.Rows)-i+s.Others))
			return a.String()
		}
	}
	if s.Others > 0 {
		a.say(fmt.Sprintf("And %d more riders.", s.Others))
	}
	return a.String()
}
