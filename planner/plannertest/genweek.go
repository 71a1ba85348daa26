package plannertest

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

var weekdays = [7]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// weekPlan says what kind of week to make up.
type weekPlan struct {
	minutes          int // riding minutes of the week, about
	free, busy, hard int
	apart            bool // hard days are never neighbours
	odd              bool // doubles, strength, commutes, groups, indoor rides
}

func randomWeek(r *rand.Rand) map[string]string {
	hours := 3.3 + 21*r.Float64()*r.Float64()
	w := weekPlan{minutes: int(hours * 60), hard: r.IntN(4), free: pick(r, 0, 1, 1, 1, 2, 3), busy: pick(r, 0, 0, 0, 1, 1, 2), odd: true}
	if hours > 12 {
		w.free, w.busy = min(w.free, 1), min(w.busy, 1)
	}
	for w.free > 0 && 7-w.free-w.busy < max(3, w.hard+1) {
		w.free--
	}
	return w.make(r)
}

func ordinaryWeek(r *rand.Rand) map[string]string {
	w := weekPlan{minutes: 360 + r.IntN(541), hard: 1 + r.IntN(3), free: r.IntN(3), apart: true}
	return w.make(r)
}

var weight = map[string]float64{"long": 2.3, "endurance": 1.25, "recovery": 0.5, "commute": 0.5, "intervals": 1.2, "group": 1.3, "indoor": 0.9}

func (w weekPlan) make(r *rand.Rand) map[string]string {
	days := w.layout(r)
	total := 0.0
	for _, kind := range days {
		total += weight[kind]
	}
	grain := 5
	if w.odd {
		grain = pick(r, 5, 5, 5, 5, 15, 1)
	}
	week := map[string]string{}
	for i, kind := range days {
		text := kind
		if weight[kind] > 0 {
			mins := max(20, int(float64(w.minutes)*weight[kind]/total*(0.8+0.4*r.Float64()))/grain*grain)
			text = w.rides(r, kind, mins)
		}
		if w.odd && kind != "busy" && r.IntN(12) == 0 {
			text = strings.TrimPrefix(text+"; ", "rest; ")
			text = strings.TrimPrefix(text, "off; ") + "strength " + pick(r, "30min", "45min", "1h")
		}
		week[weekdays[i]] = text
	}
	return week
}

// layout places the kinds of the seven days, the long ride mostly on the weekend.
func (w weekPlan) layout(r *rand.Rand) [7]string {
	for {
		var days [7]string
		for i, d := range r.Perm(7) {
			switch {
			case i < w.busy:
				days[d] = "busy"
			case i < w.busy+w.free:
				days[d] = pick(r, "rest", "off")
			case i < w.busy+w.free+w.hard:
				days[d] = "intervals"
				if w.odd {
					days[d] = pick(r, "intervals", "intervals", "group", "indoor")
				}
			case i == w.busy+w.free+w.hard:
				days[d] = "long"
			default:
				days[d] = pick(r, "endurance", "endurance", "endurance", "recovery")
				if w.odd && r.IntN(6) == 0 {
					days[d] = "commute"
				}
			}
		}
		weekend := days[5] == "long" || days[6] == "long"
		if !weekend && r.IntN(4) > 0 || w.apart && adjacent(days) {
			continue
		}
		return days
	}
}

func adjacent(days [7]string) bool {
	for i := range days {
		if days[i] == "intervals" && days[(i+1)%7] == "intervals" {
			return true
		}
	}
	return false
}

var hardSets = []struct {
	text  string
	least int
}{
	{"5x3min", 52}, {"4x8min", 69}, {"3x10min", 65}, {"6x3min", 58}, {"4x4min", 47}, {"2x20min", 75}, {"10x1min", 44},
	{"10x30s", 35}, {"8x2min", 55}, {"3x12min", 73}, {"3x3min + 4x30s", 45}, {"5x5min/2min", 58}, {"1x20min", 45},
}

// rides gives a day's rides of about mins, at times two.
func (w weekPlan) rides(r *rand.Rand, kind string, mins int) string {
	extra := ""
	if w.odd && mins >= 60 && r.IntN(8) == 0 {
		part := max(20, mins/3/5*5)
		mins -= part
		extra = pick(r, "recovery ", "endurance ", "commute ") + minutesText(r, part)
	}
	first := kind + " " + minutesText(r, mins)
	switch {
	case kind == "intervals" || kind == "indoor":
		s := hardSets[r.IntN(len(hardSets))]
		for try := 0; try < 20 && s.least > mins; try++ {
			s = hardSets[r.IntN(len(hardSets))]
		}
		first = fmt.Sprintf("%s %s %s", kind, minutesText(r, max(mins, s.least)), s.text)
		if w.odd && kind == "intervals" && r.IntN(8) == 0 {
			first = kind + " " + pick(r, minutesText(r, max(mins, 40)), s.text)
		}
	case kind == "group" && r.IntN(4) == 0 && mins > 60:
		first += " 1x40min"
	}
	switch {
	case extra == "":
		return first
	case r.IntN(2) == 0:
		return extra + "; " + first
	}
	return first + "; " + extra
}

func minutesText(r *rand.Rand, mins int) string {
	if mins < 60 || r.IntN(4) == 0 {
		return fmt.Sprintf("%dmin", mins)
	}
	if mins%60 == 0 {
		return fmt.Sprintf("%dh", mins/60)
	}
	return fmt.Sprintf("%dh%02d", mins/60, mins%60)
}
