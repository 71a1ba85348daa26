package plannertest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
)

// generator builds one plan file around the first race's day.
type generator struct {
	*rand.Rand
	in   inputFile
	race day // the first race
}

var raceNames = []string{
	"Alder Loop", "Birch Climb", "Cedar Dash", "Dune Round", "Elm Circuit", "Fern Hundred",
	"Gorse Trial", "Heath Classic", "Ivy Sprint", "Juniper Tour", "Kelp Mile", "Larch Ring", "Moss Marathon",
}

// Generate makes up a valid plan file: a bit more than half of them one A
// race with room, the rest seasons and rider's events of every sort.
func Generate(r *rand.Rand) []byte {
	g := &generator{Rand: r}
	g.race = 20600 + day(r.IntN(700))
	g.in.Week = randomWeekPlan(r).make(r)
	g.in.Taper = g.settings()
	if r.IntN(4) == 0 {
		g.in.Zone = pick(r, "UTC", "Europe/Lisbon", "Asia/Tokyo", "America/Denver")
	}
	if r.Float64() < 0.55 {
		g.add(g.race, "A", 45+r.IntN(30))
		g.setToday(pick(r, 0, 0, 0, 1, 2))
	} else {
		g.season()
		g.setToday(r.IntN(4))
		g.events()
	}
	return g.file()
}

// GenerateOrdinary makes up a plan file that no rule can fail on: a week of
// 8 to 15 h with five rides or more and one to three hard days apart, one A
// race with room, advised settings, no events, minutes that the rules' least
// and greatest lengths allow to be cut as asked.
func GenerateOrdinary(r *rand.Rand) []byte {
	for {
		g := &generator{Rand: r}
		g.race = 20600 + day(r.IntN(700))
		g.in.Week = ordinaryWeekPlan(r).make(r)
		if r.IntN(2) == 0 {
			g.in.Taper = map[string]any{"days": pick(r, 7, 7, 8, 10, 12, 14), "cut": pick(r, 40, 45, 50, 55, 60)}
		}
		g.add(g.race, "A", 45+r.IntN(30))
		g.in.Races[0].Hours = pick(r, 0.75, 1.5, 2, 3, 3.5, 4.5, 6)
		g.in.Races[0].Days = 0
		g.in.Today = (g.race - 16 - day(r.IntN(15))).String()
		if data := g.file(); hasRoom(data) {
			return data
		}
	}
}

// Later gives the plan file with today moved on by so many days and no new
// facts, for CheckStable; nil where an illness has no end yet, which today
// itself lengthens.
func Later(input []byte, days int) []byte {
	var in inputFile
	if json.Unmarshal(input, &in) != nil {
		return nil
	}
	today, err := parseDay(in.Today)
	if err != nil {
		return nil
	}
	for _, s := range in.Sick {
		if s.To == "" {
			return nil
		}
	}
	in.Today = (today + day(days)).String()
	g := &generator{in: in}
	return g.file()
}

func (g *generator) file() []byte {
	data, err := json.MarshalIndent(g.in, "", " ")
	if err != nil {
		panic(err) // plain values only
	}
	return data
}

func (g *generator) settings() map[string]any {
	s := map[string]any{}
	if g.IntN(2) == 0 {
		s["days"] = pick[any](g.Rand, 7, 7, 10, 10, 14, 14, 8, 9, 11, 12, 13, 21, 4+g.IntN(25), "auto")
	}
	if g.IntN(2) == 0 {
		s["cut"] = 40 + g.IntN(21)
		if g.IntN(8) == 0 {
			s["cut"] = 20 + g.IntN(61)
		}
	}
	if g.IntN(4) == 0 {
		s["pattern"] = pick(g.Rand, "second", "third", "third")
	}
	if g.IntN(4) == 0 {
		s["shape"] = pick(g.Rand, "exponential", "linear", "step")
	}
	if g.IntN(5) == 0 {
		s["openers"] = pick(g.Rand, "D-1", "D-2", "D-2")
	}
	return s
}

// add puts a race on d, registered so many days before.
func (g *generator) add(d day, priority string, before int) {
	r := inputRace{
		Name: raceNames[len(g.in.Races)%len(raceNames)], Date: d.String(), Priority: priority,
		Registered: (d - day(before)).String(),
	}
	if g.IntN(10) > 0 {
		r.Hours = pick(g.Rand, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 5.5, 6.5, 8, 9, 12)
	}
	r.Kind = pick(g.Rand, "", "", "road race", "criterium", "time trial", "gravel", "endurance")
	if g.IntN(12) == 0 {
		r.Kind, r.Days, r.Hours = "stage race", 2+g.IntN(6), pick(g.Rand, 2.5, 3.5, 4)
	}
	if g.IntN(3) == 0 {
		r.Start = fmt.Sprintf("%02d:%02d", 8+g.IntN(8), pick(g.Rand, 0, 15, 30, 45))
	}
	if priority == "B" && g.IntN(2) == 0 {
		r.Emphasis = pick(g.Rand, "important", "train-through")
	}
	g.in.Races = append(g.in.Races, r)
}

// season adds one to twelve races after the first day, some close together,
// some registered late, at times two on a day.
func (g *generator) season() {
	n := 1 + g.IntN(4)
	if g.IntN(4) == 0 {
		n = 1 + g.IntN(12)
	}
	d := g.race
	for i := 0; i < n; i++ {
		before := 45 + g.IntN(60)
		if g.IntN(5) == 0 {
			before = g.IntN(16)
		}
		priority := pick(g.Rand, "A", "A", "B", "B", "C")
		for g.taken(d, priority) {
			d++
		}
		g.add(d, priority, before)
		days := day(max(g.in.Races[len(g.in.Races)-1].Days, 1))
		switch g.IntN(8) {
		case 0:
			d += days + day(g.IntN(4))
		case 1, 2, 3:
			d += days + 3 + day(g.IntN(14))
		default:
			d += days + 14 + day(g.IntN(50))
		}
		if g.IntN(40) == 0 {
			d = g.race
		}
	}
}

// taken: two races of a day must differ in priority, or the rules do not say
// which one is planned.
func (g *generator) taken(d day, priority string) bool {
	for _, r := range g.in.Races {
		if r.Date == d.String() && r.Priority == priority {
			return true
		}
	}
	return false
}

// setToday puts today before, inside or after the first race's window, never
// before a race was registered.
func (g *generator) setToday(where int) {
	var today day
	switch where {
	case 0:
		today = g.race - 14 - day(g.IntN(20))
	case 1:
		today = g.race - day(g.IntN(14))
	case 2:
		today = g.race - day(g.IntN(30))
	default:
		today = g.race + day(g.IntN(10))
	}
	g.in.Today = today.String()
	for i := range g.in.Races {
		if reg, _ := parseDay(g.in.Races[i].Registered); reg > today {
			g.in.Races[i].Registered = g.in.Today
		}
	}
}

// events adds a few of the things that happen to riders.
func (g *generator) events() {
	today, _ := parseDay(g.in.Today)
	at := func(n int) day { return g.race - day(g.IntN(n)) - 1 }
	if g.IntN(4) == 0 {
		from := at(16)
		g.in.Away = append(g.in.Away, span{From: from.String(), To: min(from+day(g.IntN(5)), g.race-1).String(),
			Kind: pick(g.Rand, "off", "travel")})
	}
	for n := g.IntN(3); n > 0 && g.IntN(2) == 0; n-- {
		g.in.Limits = append(g.in.Limits, limit{(g.race - 1 - day(n*3+g.IntN(3))).String(), pick(g.Rand, 0, 3, 15, 20, 30, 45, 43, 60, 90)})
	}
	if g.IntN(8) == 0 {
		to := g.race - day(6+g.IntN(20))
		g.in.Blocks = []span{{From: (to - day(6+g.IntN(12))).String(), To: to.String(), Percent: pick(g.Rand, 15, 20, 30, 40)}}
	}
	if g.IntN(8) == 0 {
		g.sick(today)
	}
	if g.IntN(6) == 0 {
		g.logs(today)
	}
	for _, r := range g.in.Races {
		if d, _ := parseDay(r.Date); d < today && g.IntN(2) == 0 {
			g.in.Results = append(g.in.Results, map[string]any{"race": r.Name, "feeling": 1 + g.IntN(10)})
		}
	}
}

func (g *generator) sick(today day) {
	from := today - day(g.IntN(4))
	s := span{From: from.String(), Symptoms: pick(g.Rand, []string{"fever"}, []string{"runny nose"},
		[]string{"runny nose"}, []string{"fever", "body aches"}, []string{"vomiting"})}
	if g.IntN(10) == 0 {
		s.Symptoms = []string{pick(g.Rand, "chest pain", "fainting", "palpitations", "breathlessness at rest")}
	} else if g.IntN(3) > 0 {
		s.To = (from + day(g.IntN(7))).String()
	}
	g.in.Sick = []span{s}
}

// logs adds a few past rides close to usual, never a block.
func (g *generator) logs(today day) {
	for back := day(1); back <= 5; back++ {
		sessions, _, err := parseWeekday(g.in.Week[weekdays[(today-back).weekday()]])
		if err != nil || g.IntN(2) == 0 || len(sessions) == 0 || !sessions[0].told || !sessions[0].isRide() {
			continue
		}
		g.in.Done = append(g.in.Done, logged{Date: (today - back).String(), Minutes: sessions[0].minutes})
	}
}
