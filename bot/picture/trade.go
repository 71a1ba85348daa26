package picture

import (
	"errors"
	"fmt"
	"math"
)

// Trade is what lengths of a taper bring and cost for one race. Points are
// ascending by Days, the first is 0 (no taper). Chosen is the length of the
// planned taper in days, one of the points.
type Trade struct {
	Race   string
	Chosen int
	Points []Point
}

// Point is one length of a taper, in days. Kept is the fitness left at the race
// and Shed the fatigue gone by then, as parts of what there is without a taper
// (0..1). Low, Mid and High are the expected gain in per cent of performance
// and the ends of its 80 % range.
type Point struct {
	Days           int
	Kept, Shed     float64
	Low, Mid, High float64
}

// Bounds of what can be drawn; far outside of anything that a taper does.
const (
	maxPoints = 200
	maxTaper  = 365 // days
	maxPart   = 2   // of fitness or fatigue
	maxGain   = 100 // per cent
)

// validate reports the first way in which a trade is not as documented.
func (t *Trade) validate() error {
	switch {
	case len(t.Points) == 0:
		return errors.New("picture: a trade-off without points")
	case len(t.Points) > maxPoints:
		return fmt.Errorf("picture: a trade-off of %d points, more than %d", len(t.Points), maxPoints)
	case t.Points[0].Days != 0:
		return fmt.Errorf("picture: the first point of a trade-off is %d days, not 0", t.Points[0].Days)
	}
	for i, p := range t.Points {
		for _, part := range [...]float64{p.Kept, p.Shed} {
			if !(math.Abs(part) <= maxPart) {
				return fmt.Errorf("picture: the point of %d days has a part of %g", p.Days, part)
			}
		}
		if !(-maxGain <= p.Low && p.Low <= p.Mid && p.Mid <= p.High && p.High <= maxGain) {
			return fmt.Errorf("picture: the point of %d days gains %g, %g, %g", p.Days, p.Low, p.Mid, p.High)
		}
		if p.Days > maxTaper || i > 0 && p.Days <= t.Points[i-1].Days {
			return fmt.Errorf("picture: the point of %d days is out of order", p.Days)
		}
	}
	if t.chosen() < 0 {
		return fmt.Errorf("picture: %d days are chosen, which is no point", t.Chosen)
	}
	return nil
}

// chosen is the index of the planned point, or -1.
func (t *Trade) chosen() int {
	for i, p := range t.Points {
		if p.Days == t.Chosen {
			return i
		}
	}
	return -1
}

// Size of a trade-off and where its parts stand, in pixels.
const (
	tradeWidth, tradeHeight = 1000, 680

	tradeLeft, tradeRight = 112.0, 794.0 // ends of both panels; words stand right of them

	partsHead, partsTag, partsTop, partsBase = 104.0, 140.0, 182.0, 338.0 // the upper panel
	gainHead, gainTag, gainTop, gainBase     = 394.0, 430.0, 456.0, 608.0 // the lower panel
	tradeDays                                = 650.0                      // base line of the lengths
)

// TradeOff draws fitness kept and fatigue gone against the length of the taper,
// below them the expected gain with its range, and marks the planned length in
// both. A trade that is not as documented is an error, as are letters that
// cannot be drawn.
func TradeOff(t Trade) (Picture, error) {
	if err := t.validate(); err != nil {
		return Picture{}, err
	}
	d := newTradeDrawing(&t)
	png, err := render(tradeWidth, tradeHeight, func(c *canvas) {
		const after = ": what a taper brings"
		name := c.fit(capital(drawable(t.Race)), titles, tradeWidth-60-c.width(after, titles))
		c.text(name+after, titles, 28, 56, left, ink)
		d.frame(c)
		d.gain(c)
		d.parts(c)
		d.planned(c)
	})
	if err != nil {
		return Picture{}, err
	}
	return Picture{PNG: png, Alt: t.alt()}, nil
}
