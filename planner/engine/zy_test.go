package engine_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"regexp"
	"runtime/debug"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/plannertest"
)

func TestZY(t *testing.T) {
	bad := map[string]int{}
	first := map[string]string{}
	report := func(kind string, seed int, f string, a ...any) {
		bad[kind]++
		if first[kind] == "" {
			first[kind] = fmt.Sprintf("seed %d: ", seed) + fmt.Sprintf(f, a...)
		}
	}
	for seed := range 600 {
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		data := plannertest.Generate(r)
		if seed%2 == 0 {
			data = plannertest.GenerateOrdinary(r)
		}
		data = regexp.MustCompile(`,?\s*"shape": "\w+"`).ReplaceAll(data, nil)
		data = regexp.MustCompile(`"taper": \{,`).ReplaceAll(data, []byte(`"taper": {`))
		_, f, faults := planfile.Read(data)
		if len(faults) > 0 {
			continue
		}
		race := f.Races[r.IntN(len(f.Races))]
		at := func() planner.Date { return race.Date.AddDays(-r.IntN(16) + 3) }
		for range 4 {
			told := planner.Told{On: at()}
			if r.IntN(4) == 0 {
				told.Withdrawn = told.On.AddDays(1 + r.IntN(4))
			}
			day := told.On.AddDays(r.IntN(6))
			switch r.IntN(6) {
			case 0:
				f.Absences = append(f.Absences, planner.Absence{From: day, To: day.AddDays(r.IntN(3)), Travel: r.IntN(2) == 0, Told: told})
			case 1:
				f.Limits = append(f.Limits, planner.Limit{Date: day, Minutes: r.IntN(90), Told: told})
			case 2:
				f.Ill = append(f.Ill, planner.Illness{From: told.On, To: told.On.AddDays(r.IntN(3)), Symptoms: []string{"runny nose"}, Told: told})
			case 3:
				f.Done = append(f.Done, planner.Ride{Date: told.On, Minutes: r.IntN(180), RPE: float64(r.IntN(10)), Told: planner.Told{On: told.On}})
			case 4:
				f.Moves = append(f.Moves, planner.Move{From: day, To: day.AddDays(1 + r.IntN(3)), Told: told})
			case 5:
				f.Taper.Cut, f.Taper.Told = 30+r.IntN(30), told
			}
		}
		func() {
			defer func() {
				if e := recover(); e != nil {
					report("panic", seed, "%v %s", e, debug.Stack())
				}
			}()
			from := race.Date.AddDays(-20)
			var shown []engine.Day
			var prev *engine.Plan
			dates := map[planner.Date]bool{}
			for _, d := range f.ToldDates(race.Date + 40) {
				dates[d] = true
			}
			for k := range 30 {
				today := from.AddDays(k)
				p := engine.Derive(today, f)
				shown = append(shown, p.Days[0])
				if prev != nil && !dates[today] {
					for i := range p.Days {
						if q, ok := prev.Day(p.Days[i].Date); ok && !reflect.DeepEqual(q.Sessions, p.Days[i].Sessions) {
							report("moves", seed, "today %v day %v: %v, before %v, race %v\n%s", today, q.Date, p.Days[i].Sessions, q.Sessions, race.Date, data)
							break
						}
					}
				}
				for _, tp := range p.Tapers {
					for d := max(tp.From, from); d < today && d < tp.Race.Date; d++ {
						q := p.Known(d)
						if q == nil || !reflect.DeepEqual(q.Sessions, shown[from.DaysUntil(d)].Sessions) {
							report("past", seed, "today %v day %v: %v, shown %v, race %v told %v %+v %+v %+v %+v %+v\n%s", today, d, q, shown[from.DaysUntil(d)].Sessions, tp.Race.Date, f.ToldDates(today), f.Absences, f.Limits, f.Ill, f.Done, f.Moves, data)
							break
						}
					}
				}
				prev = p
			}
		}()
	}
	for k, n := range bad {
		t.Errorf("%s: %d, %s", k, n, first[k])
	}
}
