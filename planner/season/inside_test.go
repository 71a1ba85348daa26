package season

import (
	"testing"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
)

// What a race inside a taper costs is what its days do, each by its age (Morton et al. 1990), in place of usual ones:
// its minutes at the effort of a race. What is over, or not ridden, costs nothing more.
func TestRaceInsideCosts(t *testing.T) {
	for before := 1; before <= 7; before++ {
		for _, days := range []int{1, 2} {
			f := facts(t, mixedWeek, raceOn(200, planner.PriorityA), raceOn(200-before, planner.PriorityB))
			host, inside := &f.Races[0], &f.Races[1]
			inside.Hours, inside.Days, f.Taper.Days = 4, min(days, before), 8
			p := engine.Derive(firstDay, f)
			var costs []float64
			for _, draw := range response.Prior() {
				sum := 0.0
				for u := before; u > before-inside.Days; u-- {
					load := 0.0
					for _, s := range p.Known(host.Date.AddDays(-u)).Sessions {
						load += s.Load()
					}
					sum += (load - asUsual(f, host.Date.AddDays(-u))) / unitOf(f, host.Date) * influence(draw, u)
				}
				costs = append(costs, sum)
			}
			got := InsideOf(p, f, taperOf(p, "Race 200"))
			if len(got) != 1 || got[0].Race.Name != inside.Name || got[0].Host.Name != host.Name {
				t.Fatalf("%d days before: %+v", before, got)
			}
			nearRange(t, inside.Name, got[0].Cost, quantiles(costs), 1e-9)
			if got[0].Cost.High >= 0 {
				t.Errorf("%s of 4 h costs nothing: %+v", inside.Name, got[0].Cost)
			}
			if check := NewCheck(firstDay, f); len(check.Inside) != 1 || check.Inside[0].Cost != got[0].Cost {
				t.Errorf("the season check has %+v", check.Inside)
			}
			p = engine.Derive(inside.Last()+1, f)
			if over := InsideOf(p, f, taperOf(p, "Race 200")); len(over) != 0 {
				t.Errorf("over: %+v", over)
			}
		}
	}
	f := facts(t, mixedWeek, raceOn(200, planner.PriorityA), raceOn(185, planner.PriorityB))
	f.Taper.Days = 8
	p := engine.Derive(firstDay, f)
	if got := InsideOf(p, f, taperOf(p, "Race 200")); len(got) != 0 {
		t.Errorf("before the taper: %+v", got)
	}
}
