package engine_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/planfile"
	"musette/planner/plannertest"
)

func minutes(l []planner.Session) int {
	n := 0
	for _, s := range l {
		if s.Kind.IsRide() {
			n += int(s.Minutes)
		}
	}
	return n
}

func TestZZ(t *testing.T) {
	bad := map[string]int{}
	first := map[string]string{}
	report := func(kind string, seed int, f string, a ...any) {
		bad[kind]++
		if first[kind] == "" {
			first[kind] = fmt.Sprintf("seed %d: ", seed) + fmt.Sprintf(f, a...)
		}
	}
	for seed := range 6000 {
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		data := plannertest.Generate(r)
		if seed%2 == 0 {
			data = plannertest.GenerateOrdinary(r)
		}
		data = regexp.MustCompile(`,?\s*"shape": "\w+"`).ReplaceAll(data, nil)
		data = regexp.MustCompile(`"taper": \{,`).ReplaceAll(data, []byte(`"taper": {`))
		today, f, faults := planfile.Read(data)
		if len(faults) > 0 {
			report("faults", seed, "%v", faults)
			continue
		}
		func() {
			defer func() {
				if e := recover(); e != nil {
					report("panic", seed, "%v\n%s", e, data)
				}
			}()
			p := engine.Derive(today, f)
			for i := range p.Days {
				d := &p.Days[i]
				if d.Date != today.AddDays(i) {
					report("dates", seed, "%v", d.Date)
				}
				if d.Phase == planner.Health {
					continue
				}
				hard := false
				for _, s := range d.Sessions {
					hard = hard || s.Effort == planner.Hard
				}
				logged := false
				for _, c := range d.Causes {
					logged = logged || c.Code == engine.WhyLogged
				}
				if d.Changed() && len(d.Causes) == 0 {
					report("nowhy", seed, "%v %v %v\n%s", d.Date, d.Usual, d.Sessions, data)
				}
				if logged {
					continue
				}
				if hard {
					for _, role := range p.Races {
						rc := role.Race
						left := d.Date.DaysUntil(rc.Date)
						if rc.Priority != planner.PriorityC && left > 0 && left <= 2 && role.Role != planner.Outranked {
							report("hardnear", seed, "%v before %v %v\n%s", d.Date, rc.Name, rc.Date, data)
						}
					}
					if i > 0 {
						e := &p.Days[i-1]
						eh := false
						for _, s := range e.Sessions {
							eh = eh || s.Effort == planner.Hard || s.Effort == planner.RaceEffort
						}
						uh := func(d *engine.Day) bool {
							for _, s := range d.Usual {
								if s.Effort == planner.Hard {
									return true
								}
							}
							return false
						}
						if eh && !(uh(d) && uh(e) && (d.Phase != planner.Tapering || d.Race.Priority != planner.PriorityA)) && (d.Changed() || e.Changed() && e.Phase != planner.RaceDay) {
							report("hardrow", seed, "%v\n%s", d.Date, data)
						}
					}
				}
				openers := false
				for _, s := range d.Sessions {
					openers = openers || s.Kind == planner.Openers || s.Kind == planner.RaceRide
				}
				if m, u := minutes(d.Sessions), minutes(d.Usual); m > u && !openers && d.Phase != planner.Overload {
					moved := false
					for _, c := range d.Causes {
						moved = moved || c.Code == engine.WhyHardTouchFree
					}
					if !moved || m > 60 {
						report("longer", seed, "%v %d > %d %v %v\n%s", d.Date, m, u, d.Usual, d.Sessions, data)
					}
				}
			}
		}()
	}
	for k, n := range bad {
		t.Errorf("%s: %d, %s", k, n, first[k])
	}
}
