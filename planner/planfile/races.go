package planfile

import (
	"fmt"
	"strings"

	"musette/planner"
)

func (r *reader) races(o *object) {
	r.namesKnown = o.values["races"] != nil && o.values["races"].kind == listNode
	type key struct {
		name string
		date planner.Date
	}
	first := map[key]int{}
	if r.namesKnown {
		for _, n := range o.values["races"].items {
			r.namesKnown = r.namesKnown && n.kind == objectNode
		}
	}
	o.objects("races", raceFields, func(i int, item *object) {
		race := r.race(item)
		r.facts.Races = append(r.facts.Races, race)
		if race.Name == "" {
			r.namesKnown = false
			return
		}
		r.raceNames = append(r.raceNames, race.Name)
		if race.Date.IsZero() {
			return
		}
		k := key{fold(race.Name), race.Date}
		if j, twice := first[k]; twice {
			item.faults.add(item.values["name"].at, item.at("name"), fmt.Sprintf(
				"%s on %s is races[%d] already; give it another name or date, for example \"name\": \"Hill Loop 2\"", quote(race.Name), race.Date, j))
			return
		}
		first[k] = i
	})
}

// fold makes names comparable that differ in case and spaces only.
func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// race reads one race. Name and date are empty where they cannot be read.
func (r *reader) race(o *object) planner.Race {
	o.require("name", "date", "priority")
	race := planner.Race{Days: 1, Registered: r.today}
	race.Name, _ = o.text("name")
	if d, ok := o.date("date"); ok {
		race.Date = d
		if away := r.today.DaysUntil(d); r.hasToday && (away > planner.MaxAhead || away < -planner.MaxAhead) {
			o.bad("date", "%s is more than %d days from today, %s", d, planner.MaxAhead, r.today)
		}
	}
	if p, ok := o.choice("priority", "A", "B", "C"); ok {
		race.Priority = planner.Priority(p)
	}
	race.Hours, _ = o.number("hours", 0, planner.MaxRaceHours, true)
	race.Kind, _ = o.text("kind")
	race.Place, _ = o.text("place")
	if n, ok := o.integer("days", 1, planner.MaxRaceDays); ok {
		race.Days = n
	}
	if s, ok := o.text("start"); ok {
		start, err := planner.ParseStart(s)
		if err != nil {
			o.bad("start", "%s is not a time of day", quote(s))
		}
		race.Start = start
	}
	if e, ok := o.choice("emphasis", planner.TrainThrough.String(), planner.Important.String()); ok {
		race.Emphasis = planner.Emphasis(e + 1)
	}
	if d, ok := o.date("registered"); ok {
		race.Registered = d
	}
	return race
}

func (r *reader) result(_ int, o *object) {
	o.require("race", "feeling")
	var res planner.Result
	if name, ok := o.text("race"); ok {
		for _, known := range r.raceNames {
			if fold(known) == fold(name) {
				res.Race = known
			}
		}
		if res.Race == "" && r.namesKnown {
			r.unknownRace(o, name)
		}
	}
	res.Feeling, _ = o.integer("feeling", lowest, highest)
	r.facts.Results = append(r.facts.Results, res)
}

// unknownRace shows a race of this file as the example where there is one.
func (r *reader) unknownRace(o *object, name string) {
	if len(r.raceNames) == 0 {
		o.bad("race", "%s is not a race of this file, which lists none", quote(name))
		return
	}
	right := planner.Nearest(name, r.raceNames[:min(len(r.raceNames), 100)])
	if right == "" {
		right = r.raceNames[0]
	}
	o.faults.add(o.values["race"].at, o.at("race"), fmt.Sprintf("%s is not a race of this file; for example \"race\": %q", quote(name), right))
}
