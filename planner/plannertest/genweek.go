package plannertest

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// weekPlan says what kind of week to make up.
type weekPlan struct {
	minutes         int // riding minutes of the week, about
	rest, off, hard int
	apart           bool // hard days are never neighbours
	doubles         float64
	strength        int
	plainSets       bool // only sets with a total time that holds them
}

var hardForms = []interval{{5, 3}, {4, 8}, {3, 10}, {6, 3}, {4, 4}, {6, 5}, {2, 20}, {10, 1}, {1, 20}, {8, 2}, {7, 4}, {3, 12}}

func randomWeekPlan(r *rand.Rand) weekPlan {
	hours := 3.3 + 21*r.Float64()*r.Float64()
	if r.IntN(3) == 0 {
		hours = 3.3 + 21*r.Float64()
	}
	w := weekPlan{minutes: int(hours * 60), hard: r.IntN(4)}
	w.rest, w.off = pick(r, 0, 1, 1, 1, 2, 3), pick(r, 0, 0, 0, 1, 1, 2)
	if hours > 12 {
		w.rest, w.off = min(w.rest, 1), min(w.off, 1)
	}
	for 7-w.rest-w.off < max(3, w.hard+1) {
		if w.rest > 0 {
			w.rest--
		} else {
			w.off--
		}
	}
	if hours > 5 {
		w.doubles = pick(r, 0, 0, 0, 0, 0.2, 1)
	}
	w.strength = pick(r, 0, 0, 0, 1, 2)
	return w
}

func ordinaryWeekPlan(r *rand.Rand) weekPlan {
	w := weekPlan{minutes: 480 + r.IntN(421), hard: 1 + r.IntN(3), apart: true, plainSets: true}
	free := r.IntN(3)
	w.off = r.IntN(free + 1)
	w.rest = free - w.off
	w.strength = pick(r, 0, 0, 0, 1)
	return w
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// layout places the kinds of the seven days.
func (w weekPlan) layout(r *rand.Rand) [7]string {
	for {
		var days [7]string
		order := r.Perm(7)
		i := 0
		put := func(kind string, n int) {
			for ; n > 0; n-- {
				days[order[i]] = kind
				i++
			}
		}
		put("rest", w.rest)
		put("off", w.off)
		put("intervals", w.hard)
		if i < 7 {
			put("long", 1)
		}
		for i < 7 {
			put(pick(r, "endurance", "endurance", "endurance", "recovery"), 1)
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

var weight = map[string]float64{"long": 2.3, "endurance": 1.25, "recovery": 0.5, "intervals": 1.2}

// make writes a week of 3 to 25 h, about as long as asked.
func (w weekPlan) make(r *rand.Rand) map[string]string {
	for {
		week := w.draft(r)
		p := &plan{}
		p.in.Week = week
		if err := p.readWeek(); err == nil && p.weekly >= 180 && p.weekly <= 1500 {
			return week
		}
	}
}

func (w weekPlan) draft(r *rand.Rand) map[string]string {
	days := w.layout(r)
	total := 0.0
	for _, kind := range days {
		total += weight[kind]
	}
	grain := pick(r, 5, 5, 5, 5, 15, 1)
	if w.plainSets {
		grain = 5
	}
	week := map[string]string{}
	strength := w.strength
	for _, i := range r.Perm(7) {
		kind := days[i]
		if kind == "off" || kind == "rest" && strength == 0 {
			week[weekdays[i]] = kind
			continue
		}
		var parts []string
		if kind != "rest" {
			mins := max(20, int(float64(w.minutes)*weight[kind]/total*(0.8+0.4*r.Float64()))/grain*grain)
			parts = w.rides(r, kind, mins)
		}
		if strength > 0 && (kind == "recovery" || kind == "rest" || r.IntN(2) == 0) {
			strength--
			parts = append(parts, "strength "+minutesText(r, pick(r, 30, 40, 45, 60)))
		}
		if len(parts) == 0 {
			parts = []string{"rest"}
		}
		week[weekdays[i]] = strings.Join(parts, "; ")
	}
	return week
}

func (w weekPlan) rides(r *rand.Rand, kind string, mins int) []string {
	extra := 0
	if r.Float64() < w.doubles && mins >= 60 {
		extra = max(20, mins/3/5*5)
		mins -= extra
	}
	first := kind + " " + minutesText(r, mins)
	if kind == "intervals" {
		first = w.intervals(r, mins)
	} else if !w.plainSets && kind == "recovery" && r.IntN(15) == 0 {
		first = pick(r, "other ", "openers ") + minutesText(r, mins)
	}
	if extra == 0 {
		return []string{first}
	}
	second := pick(r, "recovery ", "endurance ") + minutesText(r, extra)
	if r.IntN(2) == 0 {
		return []string{second, first}
	}
	return []string{first, second}
}

// intervals gives a hard ride of about mins, in one of its forms.
func (w weekPlan) intervals(r *rand.Rand, mins int) string {
	form := r.IntN(8)
	if form == 0 && !w.plainSets {
		return "intervals " + minutesText(r, max(mins, 40))
	}
	set := hardForms[r.IntN(len(hardForms))]
	for try := 0; try < 20; try++ {
		if _, high := set.least(); float64(mins) >= high {
			break
		}
		set = hardForms[r.IntN(len(hardForms))]
	}
	if form == 1 && !w.plainSets {
		return "intervals " + set.String()
	}
	if _, high := set.least(); float64(mins) < high {
		mins = (int(high) + 4) / 5 * 5
	}
	return fmt.Sprintf("intervals %s %s", minutesText(r, mins), set)
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
