package picture

import (
	"fmt"
	"math"
	"strings"
)

// alt says the trade: the planned length, its neighbours, the shortest and the longest.
func (t *Trade) alt() string {
	var a speech
	n, last := t.chosen(), len(t.Points)-1
	lengths := "without a taper"
	if last > 0 {
		lengths = "for tapers of 0 to " + days(t.Points[last].Days)
	}
	a.say(fmt.Sprintf("%s: fitness kept, fatigue gone and how much faster than without a taper, %s.", capital(sayable(t.Race)), lengths))
	a.say("Planned: " + t.Points[n].words())
	said := map[int]bool{n: true}
	more := func(i int, word string) {
		if i < 0 || i > last || said[i] {
			return
		}
		said[i] = true
		a.say(word + t.Points[i].words())
	}
	more(n-1, "Next shorter: ")
	more(n+1, "Next longer: ")
	more(0, "Shortest: ")
	more(last, "Longest: ")
	return a.String()
}

// words tells one length and what it brings.
func (p Point) words() string {
	name := "no taper"
	if p.Days > 0 {
		name = days(p.Days)
	}
	if p.Days == 0 {
		return name + "."
	}
	return fmt.Sprintf("%s, %s of fitness kept, %s of fatigue gone, expected about %s (8 in 10 riders: %s to %s).",
		name, percent(p.Kept), percent(p.Shed), fasterBy(p.Mid), fasterBy(p.Low), fasterBy(p.High))
}

// fasterBy is a gain in words.
func fasterBy(v float64) string {
	text := strings.TrimPrefix(gainOf(math.Abs(v), 0.1), "+")
	switch {
	case text == "0 %":
		return text
	case v < 0:
		return text + " slower"
	}
	return text + " faster"
}
