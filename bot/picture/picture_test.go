package picture

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"sync"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest/rounds"
	"musette/planner"
)

// Every picture is a whole PNG of its size, opaque to the edge, and has words.
func TestPicturesDecode(t *testing.T) {
	rounds.Skip(t, "that all kinds of pictures have their size and a card")
	stage, stageDays := planned(t, 18, 12, 4, 5)
	long, longDays := planned(t, 60, 58, 8, 1)
	for name, c := range map[string]struct {
		p             Picture
		width, height int
	}{
		"trade":       {mustTrade(t, curves(14, 21)), tradeWidth, tradeHeight},
		"no taper":    {mustTrade(t, curves(0, 0)), tradeWidth, tradeHeight},
		"stage race":  {mustStrip(t, "Three Valleys", stage, stageDays), stripWidth, stripHeight},
		"sixty days":  {mustStrip(t, "Three Valleys", long, longDays), stripWidth, stripHeight},
		"one day":     {mustStrip(t, "Three Valleys", stage, stageDays[:1]), stripWidth, stripHeight},
		"rest alone":  {mustStrip(t, "", 0, handmade(planner.RestSession, planner.RestSession)), stripWidth, stripHeight},
		"a year":      {mustStrip(t, "A year", 0, handmade(make([]planner.Session, 365)...)), stripWidth, stripHeight},
		"day of 48 h": {mustStrip(t, "Long", 0, handmade(ride(48*60), ride(5))), stripWidth, stripHeight},
	} {
		img := decode(t, c.p)
		if img.Bounds() != image.Rect(0, 0, c.width, c.height) {
			t.Errorf("%s: bounds %v", name, img.Bounds())
		}
		if rgba, ok := img.(*image.RGBA); !ok || !rgba.Opaque() {
			t.Errorf("%s: a %T that lets through what lies behind", name, img)
		}
		if at(img, 0, 0) != border || at(img, 10, 10) != card {
			t.Errorf("%s: no card with a border: %v, %v", name, at(img, 0, 0), at(img, 10, 10))
		}
		if n := utf8.RuneCountInString(c.p.Alt); n < 60 || n > maxAlt {
			t.Errorf("%s: alt has %d characters: %s", name, n, c.p.Alt)
		}
		if len(c.p.PNG) > 200_000 {
			t.Errorf("%s: %d bytes", name, len(c.p.PNG))
		}
	}
}

// Equal input gives equal bytes, also when many pictures are drawn at once.
func TestSameBytesAtOnce(t *testing.T) {
	today, days := planned(t, 22, 18, 3.5, 1)
	strip, trade := mustStrip(t, "Hill Loop", today, days), mustTrade(t, curves(10, 21))
	var wait sync.WaitGroup
	for i := range 6 {
		wait.Go(func() {
			if i%2 == 0 {
				p, err := Strip("Hill Loop", today, days)
				if err != nil || !bytes.Equal(p.PNG, strip.PNG) || p.Alt != strip.Alt {
					t.Errorf("another strip: %v", err)
				}
				return
			}
			p, err := TradeOff(curves(10, 21))
			if err != nil || !bytes.Equal(p.PNG, trade.PNG) || p.Alt != trade.Alt {
				t.Errorf("another trade-off: %v", err)
			}
		})
	}
	wait.Wait()
}

// Relative luminance and contrast as WCAG 2.1 defines them.
func contrast(a, b color.RGBA) float64 {
	luminance := func(c color.RGBA) float64 {
		sum := 0.0
		for i, v := range [...]uint8{c.R, c.G, c.B} {
			s := float64(v) / 255
			if s <= 0.04045 {
				s /= 12.92
			} else {
				s = math.Pow((s+0.055)/1.055, 2.4)
			}
			sum += [...]float64{0.2126, 0.7152, 0.0722}[i] * s
		}
		return sum
	}
	high, low := max(luminance(a), luminance(b)), min(luminance(a), luminance(b))
	return (high + 0.05) / (low + 0.05)
}

func TestContrast(t *testing.T) {
	if c := contrast(color.RGBA{0, 0, 0, 255}, color.RGBA{255, 255, 255, 255}); math.Abs(c-21) > 1e-9 {
		t.Fatalf("black on white is %.3f, not 21", c)
	}
	dark, darker, white := color.RGBA{0x31, 0x33, 0x38, 255}, color.RGBA{0x2B, 0x2D, 0x31, 255}, color.RGBA{255, 255, 255, 255}
	for name, c := range map[string]struct {
		front, back color.RGBA
		least       float64
	}{
		"titles and values":     {ink, card, 4.5},
		"words of axes":         {soft, card, 4.5},
		"minutes":               {plain, card, 4.5},
		"race":                  {accent, card, 4.5},
		"fitness":               {moss, card, 4.5},
		"fatigue":               {umber, card, 4.5},
		"dotted lines":          {rule, card, 3},
		"outlines":              {edge, card, 3},
		"bar on a usual bar":    {plain, pale, 3},
		"race on a usual bar":   {accent, pale, 3},
		"gain on its range":     {ink, pale, 3},
		"zero line on a range":  {soft, pale, 3},
		"border on the card":    {border, card, 3},
		"border on dark":        {border, dark, 3},
		"border on darker":      {border, darker, 3},
		"border on white":       {border, white, 3},
		"card on dark":          {card, dark, 4.5},
		"race from other rides": {accent, plain, 1.2}, // shape and flag tell it as well
	} {
		if got := contrast(c.front, c.back); got < c.least {
			t.Errorf("%s: %.2f, want %.1f at least", name, got, c.least)
		}
	}
}

// No letter or shape leaves the card, whatever is drawn: the margin stays empty.
func TestNothingLeavesTheCard(t *testing.T) {
	rounds.Skip(t, "that nothing leaves the cards of pictures")
	today, days := planned(t, 22, 18, 8, 1)
	end, ending := planned(t, 60, 59, 8, 1)
	wild := curves(21, 21)
	wild.Race = "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW"
	for i := range wild.Points {
		p := &wild.Points[i]
		p.Kept, p.Shed, p.Low, p.Mid, p.High = -2, 2, -100, 0, 100
	}
	for name, p := range map[string]Picture{
		"strip":  mustStrip(t, wild.Race, today, days),
		"last":   mustStrip(t, wild.Race, end, ending),
		"monday": mustStrip(t, wild.Race, 0, handmade(make([]planner.Session, 78)...)),
		"trade":  mustTrade(t, wild),
		"first":  mustTrade(t, curves(0, 21)),
	} {
		img := decode(t, p)
		b := img.Bounds()
		for y := 3; y < b.Dy()-3; y++ {
			for _, x := range [...]int{3, 4, 5, b.Dx() - 6, b.Dx() - 5, b.Dx() - 4} {
				if at(img, float64(x), float64(y)) != card {
					t.Fatalf("%s: ink in the margin at %d, %d", name, x, y)
				}
			}
		}
		for x := 3; x < b.Dx()-3; x++ {
			if at(img, float64(x), 8) != card || at(img, float64(x), float64(b.Dy()-7)) != card {
				t.Fatalf("%s: ink in the margin at x %d", name, x)
			}
		}
	}
}

func FuzzTitle(f *testing.F) {
	for _, s := range []string{"Hill Loop", "", "大会", "🚴🏽‍♀️ Marrow Vale", "a\x00b\r\n", "\xff\xfe", "é", "Łódź – Ωμέγα", "\u202eevil", "W" + string(make([]byte, 300))} {
		f.Add(s)
	}
	days := handmade(ride(60), planner.RestSession)
	trade := curves(2, 3)
	f.Fuzz(func(t *testing.T, s string) {
		drawn := drawable(s)
		if drawn == "" || utf8.RuneCountInString(drawn) > maxName || drawn != drawable(drawn) && utf8.RuneCountInString(drawn) < maxName {
			t.Errorf("%q is drawn as %q", s, drawn)
		}
		if _, err := render(1000, 70, func(c *canvas) {
			if w := c.width(c.fit(drawn, titles, 900), titles); w > 900 {
				t.Errorf("%q takes %g pixels", s, w)
			}
			c.text(drawn, titles, 28, 56, left, ink)
		}); err != nil {
			t.Errorf("%q: %v", s, err)
		}
		trade.Race = s
		for _, alt := range []string{newStrip(0, days).alt(sayable(s)), trade.alt()} {
			if !utf8.ValidString(alt) || utf8.RuneCountInString(alt) > maxAlt || len(alt) < 60 {
				t.Errorf("%q: %q", s, alt)
			}
		}
	})
}

func BenchmarkStrip(b *testing.B) {
	today, days := planned(b, 22, 18, 3.5, 1)
	b.ReportAllocs()
	for b.Loop() {
		mustStrip(b, "Hill Loop", today, days)
	}
}

func BenchmarkTradeOff(b *testing.B) {
	trade := curves(14, 21)
	b.ReportAllocs()
	for b.Loop() {
		mustTrade(b, trade)
	}
}
