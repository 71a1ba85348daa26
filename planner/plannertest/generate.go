package plannertest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"

	"musette/planner"
)

type object = map[string]any

// generator builds one plan file around the first race's day.
type generator struct {
	*rand.Rand
	file  object
	races []object
	race  planner.Date // the first race
	today planner.Date
	weeks []map[string]string
}

var raceNames = []string{
	"Alder Loop", "Birch Climb", "Cedar Dash", "Dune Round", "Elm Circuit", "Fern Hundred",
	"Gorse Trial", "Heath Classic", "Ivy Sprint", "Juniper Tour", "Kelp Mile", "Larch Ring", "Moss Marathon",
}

// Generate makes up a valid plan file: a bit more than half of them one A
// race with room, the rest seasons. In half of them things are told, and some
// taken back, in the middle of a window; half of the others have events too.
func Generate(r *rand.Rand) []byte {
	g := newGenerator(r, randomWeek(r))
	late := r.IntN(2) == 0
	if r.Float64() < 0.55 {
		g.add(g.race, "A", 45+r.IntN(30))
		g.setToday(pick(r, 0, 0, 0, 1, 2))
	} else {
		g.season()
		g.setToday(r.IntN(4))
	}
	if late { // inside a window
		g.setToday(1)
	}
	g.settings()
	if r.IntN(4) == 0 {
		g.file["zone"] = pick(r, "UTC", "Europe/Lisbon", "Asia/Tokyo")
	}
	g.facts(late)
	return g.json()
}

// GenerateOrdinary makes up a plan file of a rider with one to three hard days
// apart, 6 to 15 h a week, one A race with room, advised settings and no events.
func GenerateOrdinary(r *rand.Rand) []byte {
	g := newGenerator(r, ordinaryWeek(r))
	g.add(g.race, "A", 45+r.IntN(30))
	delete(g.races[0], "days")
	delete(g.races[0], "taper")
	g.races[0]["hours"] = pick(r, 0.75, 1.5, 2, 3, 3.5, 4.5, 6)
	if r.IntN(2) == 0 {
		g.file["taper"] = object{"days": pick(r, 7, 8, 10, 12, 14), "cut": pick(r, 40, 45, 50)}
	}
	g.today = g.race - 16 - planner.Date(r.IntN(15))
	return g.json()
}

func newGenerator(r *rand.Rand, week map[string]string) *generator {
	g := &generator{Rand: r, file: object{}, weeks: []map[string]string{week}}
	g.race = planner.NewDate(2026, 5, 20).AddDays(r.IntN(700))
	return g
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

func (g *generator) json() []byte {
	g.file["today"], g.file["races"] = g.today.String(), g.races
	if g.file["week"] == nil {
		g.file["week"] = g.weeks[0]
	}
	for _, r := range g.races { // no race is registered after today
		if reg, _ := r["registered"].(string); reg > g.today.String() {
			r["registered"] = g.today.String()
		}
	}
	return encode(g.file)
}

func encode(file object) []byte {
	data, err := json.MarshalIndent(file, "", " ")
	if err != nil {
		panic(err) // plain values only
	}
	return data
}

// Later gives the plan file with today moved on by so many days and no new
// facts, for CheckStable; nil where an illness has no end yet, which today
// itself lengthens.
func Later(input []byte, days int) []byte {
	var file object
	if json.Unmarshal(input, &file) != nil {
		return nil
	}
	today, err := planner.ParseISODate(fmt.Sprint(file["today"]))
	if err != nil {
		return nil
	}
	sick, _ := file["sick"].([]any)
	for _, s := range sick {
		if m, _ := s.(object); m["to"] == nil {
			return nil
		}
	}
	file["today"] = today.AddDays(days).String()
	return encode(file)
}

func (g *generator) settings() {
	s := object{}
	if g.IntN(2) == 0 {
		s["days"] = pick[any](g.Rand, 7, 7, 10, 10, 14, 14, 8, 9, 11, 12, 13, 21, 4+g.IntN(25), "auto")
	}
	if g.IntN(3) == 0 {
		s["cut"] = 40 + g.IntN(21)
		if g.IntN(6) == 0 {
			s["cut"] = 20 + g.IntN(61)
		}
	}
	if g.IntN(5) == 0 {
		s["pattern"] = pick(g.Rand, "second", "third")
	}
	if g.IntN(5) == 0 {
		s["openers"] = pick(g.Rand, "D-1", "D-2", "D-2")
	}
	if len(s) > 0 {
		g.file["taper"] = s
	}
}

// add puts a race on d, registered so many days before.
func (g *generator) add(d planner.Date, priority string, before int) {
	r := object{
		"name": raceNames[len(g.races)%len(raceNames)], "date": d.String(), "priority": priority,
		"registered": d.AddDays(-before).String(),
	}
	if g.IntN(10) > 0 {
		r["hours"] = pick(g.Rand, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 5.5, 6.5, 8, 9, 12, 20)
	}
	if kind := pick(g.Rand, "", "", "road race", "criterium", "time trial", "hill climb", "gravel"); kind != "" {
		r["kind"] = kind
	}
	if g.IntN(12) == 0 {
		r["kind"], r["days"], r["hours"] = "stage race", 2+g.IntN(6), pick(g.Rand, 2.5, 3.5, 4)
	}
	if g.IntN(3) == 0 {
		r["start"] = fmt.Sprintf("%02d:%02d", 8+g.IntN(12), pick(g.Rand, 0, 15, 30, 45))
	}
	if priority == "B" && g.IntN(2) == 0 {
		r["emphasis"] = pick(g.Rand, "important", "train-through")
	}
	if priority == "A" && g.IntN(10) == 0 {
		r["taper"] = 4 + g.IntN(18)
	}
	g.races = append(g.races, r)
}

// season adds one to twelve races after the first day, some close together,
// some registered late, at times two on a day.
func (g *generator) season() {
	n := 1 + g.IntN(4)
	if g.IntN(4) == 0 {
		n = 1 + g.IntN(12)
	}
	d := g.race
	for range n {
		before := 45 + g.IntN(60)
		if g.IntN(5) == 0 {
			before = g.IntN(16)
		}
		g.add(d, pick(g.Rand, "A", "A", "B", "B", "C"), before)
		switch g.IntN(8) {
		case 0:
			d = d.AddDays(g.IntN(5))
		case 1, 2, 3:
			d = d.AddDays(4 + g.IntN(14))
		default:
			d = d.AddDays(15 + g.IntN(50))
		}
	}
}

// setToday puts today before, inside or after the first race's window.
func (g *generator) setToday(where int) {
	switch where {
	case 0:
		g.today = g.race.AddDays(-14 - g.IntN(20))
	case 1:
		g.today = g.race.AddDays(-g.IntN(14))
	case 2:
		g.today = g.race.AddDays(-g.IntN(30))
	default:
		g.today = g.race.AddDays(g.IntN(10))
	}
}
