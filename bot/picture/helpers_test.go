package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
)

// race day and week of every test plan: doubles on Wednesday, strength on Thursday.
var raceDate = planner.NewDate(2026, 6, 13)

const testWeek = "mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h15; endurance 45min; " +
	"thu strength 30min; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min"

// planned is n days of a plan that has its race on day at, of that many hours a day.
func planned(tb testing.TB, n, at int, hours float64, raceDays int) (planner.Date, []engine.Day) {
	tb.Helper()
	week, err := typed.Week(testWeek)
	if err != nil {
		tb.Fatal(err)
	}
	today := raceDate.AddDays(-at)
	plan := engine.Derive(today, &planner.Facts{
		Weeks: []planner.DatedWeek{{Week: week}},
		Races: []planner.Race{{Name: "Hill Loop", Date: raceDate, Priority: planner.PriorityA, Hours: hours, Days: raceDays, Registered: today.AddDays(-90)}},
	})
	if len(plan.Days) < n {
		tb.Fatalf("the plan has %d days, not %d", len(plan.Days), n)
	}
	return today, plan.Days[:n]
}

// handmade is a run of days of one session each, from a Monday on, usually ridden for an hour.
func handmade(sessions ...planner.Session) []engine.Day {
	out := make([]engine.Day, len(sessions))
	for i, s := range sessions {
		out[i] = engine.Day{
			Date:     planner.NewDate(2026, 6, 1).AddDays(i),
			Usual:    []planner.Session{ride(60)},
			Sessions: []planner.Session{s},
		}
	}
	return out
}

func ride(minutes int16) planner.Session {
	return planner.Session{Kind: planner.Endurance, Effort: planner.Steady, Minutes: minutes}
}

// curves is a trade of every length up to last days with plausible figures.
func curves(chosen, last int) Trade {
	t := Trade{Race: "Hill Loop", Chosen: chosen}
	for n := 0; n <= last; n++ {
		x := float64(n)
		kept, shed := math.Exp(-x/84), 1-math.Exp(-x/11)
		gain := 3*shed - 9*(1-kept)
		t.Points = append(t.Points, Point{Days: n, Kept: kept, Shed: shed, Low: gain - 0.1 - x*0.05, Mid: gain, High: gain + 0.15 + x*0.09})
	}
	return t
}

func mustStrip(tb testing.TB, title string, today planner.Date, days []engine.Day) Picture {
	tb.Helper()
	p, err := Strip(title, today, days)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

func mustTrade(tb testing.TB, t Trade) Picture {
	tb.Helper()
	p, err := TradeOff(t)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

func decode(tb testing.TB, p Picture) image.Image {
	tb.Helper()
	img, err := png.Decode(bytes.NewReader(p.PNG))
	if err != nil {
		tb.Fatal(err)
	}
	return img
}

// at is the colour of the pixel below and right of x, y.
func at(img image.Image, x, y float64) color.RGBA {
	return color.RGBAModel.Convert(img.At(int(math.Floor(x)), int(math.Floor(y)))).(color.RGBA)
}

// column counts the pixels of a colour from y0 to y1.
func column(img image.Image, x, y0, y1 float64, col color.RGBA) int {
	n := 0
	for y := y0; y < y1; y++ {
		if at(img, x, y) == col {
			n++
		}
	}
	return n
}
