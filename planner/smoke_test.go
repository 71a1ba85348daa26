package planner

import (
	"fmt"
	"testing"
)

func TestSmoke(t *testing.T) {
	w, err := ParseWeek("mon recovery 40min; tue intervals 1h30 5x3min; wed endurance 1h45; thu off; fri endurance 1h15; sat long 3h; sun intervals 2h 4x8min")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := ParseISODate("2026-06-14")
	for _, n := range []int{7, 10, 14, 21} {
		f := &Facts{Weeks: []DatedWeek{{Week: w}}, Races: []Race{{Name: "Hill", Date: d, Hours: 3.5, Days: 1, Registered: d - 60}}, Taper: Taper{Days: n}}
		p := Derive(d.AddDays(-n-2), f)
		show(p)
	}
	f := &Facts{Weeks: []DatedWeek{{Week: w}}, Races: []Race{{Name: "B", Priority: PriorityB, Date: d, Hours: 2, Days: 1}}}
	show(Derive(d.AddDays(-5), f))
	f = &Facts{Weeks: []DatedWeek{{Week: w}}, Races: []Race{{Name: "C", Priority: PriorityC, Date: d, Hours: 2, Days: 1}}}
	show(Derive(d.AddDays(-5), f))
	f = &Facts{Weeks: []DatedWeek{{Week: w}}, Races: []Race{{Name: "C", Priority: PriorityC, Date: d - 1, Hours: 5, Days: 1}}}
	show(Derive(d.AddDays(-5), f))
}

func show(p *Plan) {
	for i := range p.Days {
		d := &p.Days[i]
		s := ""
		for _, x := range d.Sessions {
			s += fmt.Sprintf(" [%s %s %s]", x.Label(), x.Effort, x.RPE())
		}
		fmt.Printf("%s %-8s %-60s", d.Date.Short(), d.Phase, s)
		for _, r := range d.Why() {
			fmt.Printf(" %s", r.Rule)
		}
		fmt.Println()
	}
	for _, t := range p.Tapers {
		fmt.Printf("%+v\n", t)
	}
	fmt.Println(p.Warnings)
}
