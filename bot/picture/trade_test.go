package picture

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
)

// The planned length is marked at its own place and nowhere else.
func TestChosenIsMarked(t *testing.T) {
	rounds.Skip(t, "that a chosen length is marked")
	a, b := curves(7, 21), curves(14, 21)
	imgA, imgB := decode(t, mustTrade(t, a)), decode(t, mustTrade(t, b))
	x7 := newTradeDrawing(&a).days.at(7)
	x14 := newTradeDrawing(&a).days.at(14)
	for _, panel := range [][2]float64{{partsTag + 7, partsBase}, {gainTag + 7, gainBase}} {
		for _, c := range []struct {
			name        string
			seven, four int
		}{
			{"7 days", column(imgA, x7, panel[0], panel[1], ink), column(imgA, x14, panel[0], panel[1], ink)},
			{"14 days", column(imgB, x14, panel[0], panel[1], ink), column(imgB, x7, panel[0], panel[1], ink)},
		} {
			height := panel[1] - panel[0]
			if float64(c.seven) < 0.6*height || float64(c.four) > 0.15*height {
				t.Errorf("%s: %d of %.0f pixels marked, %d at the other length", c.name, c.seven, height, c.four)
			}
		}
	}
	// Between the two marks and their words the pictures are the same.
	for y := 0; y < tradeHeight; y++ {
		for x := 0; x < tradeWidth; x++ {
			near := min(math.Abs(float64(x)-x7), math.Abs(float64(x)-x14))
			if near > 150 && imgA.At(x, y) != imgB.At(x, y) {
				t.Fatalf("the pictures differ at %d, %d, far from both marks", x, y)
			}
		}
	}
}

// Curves run through their values.
func TestCurvesShowValues(t *testing.T) {
	trade := curves(10, 20)
	for i := range trade.Points {
		p := &trade.Points[i]
		p.Kept, p.Shed, p.Low, p.Mid, p.High = 0.75, 0.25, 1, 2, 3
	}
	d := newTradeDrawing(&trade)
	if d.part.to != 100 || d.part.from != 0 || d.effect.from != 0 || d.effect.to != 3 {
		t.Fatalf("scales %+v, %+v", d.part, d.effect)
	}
	img := decode(t, mustTrade(t, trade))
	x := d.days.at(15) // between marks, on a point
	quarter := (partsBase - partsTop) / 4
	if at(img, x, partsTop+quarter) != moss || at(img, x, partsBase-quarter) != umber {
		t.Error("fitness or fatigue are not where they belong")
	}
	if at(img, x, partsTop+quarter-4) != moss || at(img, x, partsBase-quarter-4) != umber || at(img, x+10, partsTop+quarter-4) != card {
		t.Error("a length has no mark of its own on the lines")
	}
	third := (gainBase - gainTop) / 3
	if at(img, x, gainTop+third) != ink {
		t.Error("the expected gain is not where it belongs")
	}
	if at(img, x, gainTop+third/2) != pale || at(img, x, gainBase-third/2) != card {
		t.Error("the range is not where it belongs")
	}
}

// Across lengths that were not tried lines are thin and dotted, and have no marks.
func TestUntriedLengths(t *testing.T) {
	trade := curves(14, 28)
	kept := trade.Points[:0]
	for _, p := range trade.Points {
		if p.Kept, p.Shed, p.Low, p.Mid, p.High = 0.75, 0.25, 1, 2, 3; p.Days == 0 || p.Days >= 4 && p.Days <= 21 || p.Days == 28 {
			kept = append(kept, p)
		}
	}
	trade.Points = kept
	d := newTradeDrawing(&trade)
	img := decode(t, mustTrade(t, trade))
	inked := func(from, to, y float64, col color.RGBA) (n, thickest int) {
		for x := d.days.at(from) + 8; x < d.days.at(to)-8; x++ {
			pixels := column(img, x, y-8, y+8, col)
			n += min(pixels, 1)
			thickest = max(thickest, pixels)
		}
		return n, thickest
	}
	for name, line := range map[string]struct {
		y   float64
		col color.RGBA
	}{"fitness": {d.part.at(75), moss}, "fatigue": {d.part.at(25), umber}, "gain": {d.effect.at(2), ink}, "range": {d.effect.at(3), edge}} {
		for _, gap := range [][2]float64{{0, 4}, {21, 28}} {
			n, thickest := inked(gap[0], gap[1], line.y, line.col)
			if long := d.days.at(gap[1]) - d.days.at(gap[0]) - 16; float64(n) < 0.1*long || float64(n) > 0.7*long || thickest > 2 {
				t.Errorf("%s from %g to %g days: %d of %.0f pixels, %d thick", name, gap[0], gap[1], n, long, thickest)
			}
		}
		if n, _ := inked(16, 20, line.y, line.col); float64(n) < 0.6*(d.days.at(20)-d.days.at(16)-16) {
			t.Errorf("%s is no line where lengths were tried", name)
		}
	}
}

// The longest length is always named, and no name runs into another.
func TestLengthsNamed(t *testing.T) {
	for last, want := range map[int]string{0: "[0 1 2 3 4 5 6 7]", 7: "[0 1 2 3 4 5 6 7]", 11: "[0 2 4 6 8 10 11]", 14: "[0 7 14]", 15: "[0 7 14 15]", 16: "[0 7 14 16]",
		20: "[0 7 14 20]", 21: "[0 7 14 21]", 22: "[0 7 14 22]", 28: "[0 7 14 21 28]", 36: "[0 14 28 36]", 365: "[0 77 154 231 308 365]"} {
		trade := curves(0, 0)
		if last > 0 {
			trade.Points = append(trade.Points, Point{Days: last, Kept: 1})
		}
		d := newTradeDrawing(&trade)
		all := d.named()
		whole := make([]int, len(all))
		for i, v := range all {
			whole[i] = int(v)
		}
		if got := fmt.Sprint(whole); got != want {
			t.Errorf("lengths up to %d days: %s, want %s", last, got, want)
		}
		for i := 1; i < len(all); i++ {
			if d.days.at(all[i])-d.days.at(all[i-1]) < 44 {
				t.Errorf("%g and %g of %d days are too near", all[i-1], all[i], last)
			}
		}
	}
}

// The values of the longest taper stand within the panel, clear of the words at its end.
func TestValuesOfTheLongest(t *testing.T) {
	trade := curves(21, 21)
	for i := range trade.Points {
		trade.Points[i].Kept, trade.Points[i].Shed = 0.9, 0.2
	}
	d := newTradeDrawing(&trade)
	img := decode(t, mustTrade(t, trade))
	base := d.part.at(90) - 14 // of the upper value
	value, clear := 0, 0
	for x := 20.0; x < 80; x++ {
		value += column(img, tradeRight-x, base-18, base-8, moss)
		clear += column(img, tradeRight+x, base-18, base-8, card)
	}
	if value < 50 || clear != 600 {
		t.Errorf("%d pixels of the value within the panel, %d of 600 clear beyond", value, clear)
	}
}

func TestTradeOffRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Trade)
		says  string
	}{
		"no points":       {func(t *Trade) { t.Points = nil }, "without points"},
		"too many":        {func(t *Trade) { t.Points = curves(0, 200).Points }, "more than 200"},
		"no zero":         {func(t *Trade) { t.Points = t.Points[1:] }, "first point"},
		"below zero":      {func(t *Trade) { t.Points[0].Days = -1 }, "first point"},
		"not ascending":   {func(t *Trade) { t.Points[3].Days = 2 }, "out of order"},
		"far too long":    {func(t *Trade) { t.Points[21].Days = 366 }, "out of order"},
		"chosen is none":  {func(t *Trade) { t.Chosen = 22 }, "no point"},
		"fitness is NaN":  {func(t *Trade) { t.Points[2].Kept = math.NaN() }, "part of NaN"},
		"fatigue is Inf":  {func(t *Trade) { t.Points[2].Shed = math.Inf(1) }, "part of +Inf"},
		"gain is NaN":     {func(t *Trade) { t.Points[2].Mid = math.NaN() }, "gains"},
		"range is turned": {func(t *Trade) { t.Points[2].Low, t.Points[2].High = 5, -5 }, "gains"},
		"gain is endless": {func(t *Trade) { t.Points[2].High = math.Inf(1) }, "gains"},
	} {
		trade := curves(7, 21)
		c.spoil(&trade)
		p, err := TradeOff(trade)
		if err == nil || !strings.Contains(err.Error(), c.says) || p.PNG != nil || p.Alt != "" {
			t.Errorf("%s: %d bytes, error %v, want %q", name, len(p.PNG), err, c.says)
		}
	}
}

// Scales are round, hold their values and have few ticks.
func TestRoundScale(t *testing.T) {
	for _, c := range []struct {
		low, high      float64
		most           int
		from, to, step float64
	}{
		{0, 100, 4, 0, 100, 50},
		{0, 104, 4, 0, 150, 50},
		{-10, 110, 4, -50, 150, 50},
		{-0.6, 2.6, 4, -1, 3, 1},
		{0, 0, 4, 0, 1, 0.5},
		{0, 0.3, 4, 0, 0.3, 0.1},
		{-1000, 1000, 4, -1000, 1000, 500},
		{-4.4, 0, 4, -6, 0, 2},
	} {
		s := roundScale(c.low, c.high, c.most, 0, 100)
		if math.Abs(s.from-c.from)+math.Abs(s.to-c.to)+math.Abs(s.step-c.step) > 1e-9 {
			t.Errorf("%g to %g: scale %g to %g by %g, want %g to %g by %g", c.low, c.high, s.from, s.to, s.step, c.from, c.to, c.step)
		}
		ticks := s.ticks()
		if len(ticks) < 3 || len(ticks) > c.most+1 || s.at(s.from) != 0 || s.at(s.to) != 100 {
			t.Errorf("%g to %g: ticks %v", c.low, c.high, ticks)
		}
	}
	for last, want := range map[int]float64{0: 1, 7: 1, 12: 2, 21: 7, 35: 7, 36: 14, 365: 77} {
		if got := dayStep(last); got != want {
			t.Errorf("lengths up to %d days by %g, want %g", last, got, want)
		}
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{percent(0.876), "88 %"},
		{percent(-0.004), "0 %"},
		{percent(-0.02), "−2 %"},
		{gainOf(1.25, 0.1), "+1.2 %"},
		{gainOf(-0.04, 0.1), "0 %"},
		{gainOf(-3, 1), "−3 %"},
		{gainOf(0.25, 0.05), "+0.25 %"},
		{bare(-1.26), "−1.3"},
		{days(1), "1 day"},
		{days(14), "14 days"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if a, b := apart(100, 110, 30); a != 90 || b != 120 {
		t.Errorf("apart: %g, %g", a, b)
	}
	if a, b := apart(110, 100, 30); a != 120 || b != 90 {
		t.Errorf("apart: %g, %g", a, b)
	}
}
