package planfile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"musette/planner"
	"musette/planner/typed"
)

// entry is an entry of races: a race, or one of its versions.
type entry struct {
	place int
	item  *object
	race  *planner.Race
}

func (r *reader) races(o *object) {
	r.namesKnown = o.values["races"] != nil && o.values["races"].kind == listNode
	if r.namesKnown {
		for _, n := range o.values["races"].items {
			r.namesKnown = r.namesKnown && n.kind == objectNode
		}
	}
	var entries []entry
	ids := map[string]int64{}
	o.objects("races", raceFields, func(i int, item *object) {
		race := r.race(item)
		race.ID = int64(len(entries) + 1)
		if id := item.id(); id != "" {
			if first, ok := ids[id]; ok {
				race.ID = first
			}
			ids[id] = race.ID
		}
		if race.Name == "" {
			r.namesKnown = false
		} else {
			r.raceNames = append(r.raceNames, race.Name)
		}
		entries = append(entries, entry{i, item, &race})
	})
	registerFirst(entries)
	checkVersions(entries)
	checkNames(entries)
	for _, e := range entries {
		r.facts.Races = append(r.facts.Races, *e.race)
	}
}

// id is the file's own name of a race that has several versions, "" where it has none.
func (o *object) id() string {
	n := o.values["id"]
	switch {
	case n == nil:
		return ""
	case n.kind == textNode:
		text, _ := o.text("id")
		return text
	case n.kind != numberNode:
		o.bad("id", "must be text or a number, not %s", n.kind)
		return ""
	}
	number, _ := o.integer("id", 0, math.MaxInt32)
	return strconv.Itoa(number)
}

// registerFirst registers all versions of a race on the day of the first.
func registerFirst(entries []entry) {
	first := map[int64]planner.Date{}
	for _, e := range entries {
		if on, ok := first[e.race.ID]; !ok || e.race.On < on {
			first[e.race.ID] = e.race.On
		}
	}
	for _, e := range entries {
		e.race.Registered = first[e.race.ID]
	}
}

// checkVersions refuses two versions of a race that hold on one day.
func checkVersions(entries []entry) {
	for _, versions := range groups(entries, func(e entry) int64 { return e.race.ID }) {
		atOnce(versions, func(e, other entry) {
			e.item.faults.add(e.item.values["id"].at, e.item.at("id"), fmt.Sprintf(
				`is that of races[%d] too, and both hold on %s. Say until when the older one held, for example %s`,
				other.place, max(e.race.On, other.race.On, firstDay), withdrawnField.example))
		})
	}
}

// firstDay is shown where two versions hold before everything.
var firstDay = planner.NewDate(planner.MinYear, time.January, 1)

// checkNames refuses two races with one name on one date.
func checkNames(entries []entry) {
	type key struct {
		name string
		date planner.Date
	}
	named := slices.DeleteFunc(slices.Clone(entries), func(e entry) bool { return e.race.Name == "" || e.race.Date.IsZero() })
	for _, same := range groups(named, func(e entry) key { return key{fold(e.race.Name), e.race.Date} }) {
		atOnce(same, func(e, other entry) {
			if e.race.ID == other.race.ID {
				return // told already
			}
			e.item.faults.add(e.item.values["name"].at, e.item.at("name"), fmt.Sprintf(
				"%s on %s is races[%d] already. Give it another name or date, for example \"name\": \"Hill Loop 2\"", quote(e.race.Name), e.race.Date, other.place))
		})
	}
}

// groups parts entries by a key, each in the order of the file.
func groups[K comparable](entries []entry, key func(entry) K) map[K][]entry {
	out := map[K][]entry{}
	for _, e := range entries {
		out[key(e)] = append(out[key(e)], e)
	}
	return out
}

// atOnce reports entries that hold while another one does, the later one of the file first.
func atOnce(entries []entry, report func(e, other entry)) {
	slices.SortStableFunc(entries, func(a, b entry) int { return int(a.race.On - b.race.On) })
	longest := -1 // the entry so far that holds the longest
	for i, e := range entries {
		if e.race.Withdrawn == e.race.On && !e.race.Withdrawn.IsZero() {
			continue // it never held
		}
		if longest >= 0 && e.race.On < end(entries[longest]) {
			if other := entries[longest]; e.place > other.place {
				report(e, other)
			} else {
				report(other, e)
			}
		}
		if longest < 0 || end(e) > end(entries[longest]) {
			longest = i
		}
	}
}

// end is the first day on which an entry does not hold any more.
func end(e entry) planner.Date {
	if e.race.Withdrawn.IsZero() {
		return planner.Date(math.MaxInt32)
	}
	return e.race.Withdrawn
}

// fold makes names comparable that differ in case and spaces only.
func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// race reads one race. Name and date are empty where they cannot be read.
func (r *reader) race(o *object) planner.Race {
	o.require("name", "date", "priority")
	race := planner.Race{Days: 1}
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
	race.Kind, _ = o.text("kind")
	race.Place, _ = o.text("place")
	r.raceLength(o, &race)
	if s, ok := o.text("start"); ok {
		start, err := typed.Start(s)
		if err != nil {
			o.bad("start", "%s is not a time of day", quote(s))
		}
		race.Start = start
	}
	if e, ok := o.choice("emphasis", planner.TrainThrough.String(), planner.Important.String()); ok {
		race.Emphasis = planner.Emphasis(e + 1)
	}
	race.TaperDays, _ = o.integer("taper", planner.MinTaperDays, planner.MaxTaperDays)
	race.Told = r.told(o, "registered", 0)
	raceStatus(o, &race)
	return race
}

// raceStatus reads what happened to a race. One that is postponed to a day that is not
// known yet counts for as little as a cancelled one.
func raceStatus(o *object, race *planner.Race) {
	i, ok := o.choice("status", planner.Planned.String(), planner.Finished.String(), planner.GaveUp.String(), planner.NotStarted.String(), planner.Cancelled.String(), "postponed")
	if ok {
		race.Status = min(planner.RaceStatus(i), planner.Cancelled)
	}
	ended, told := o.date("ended")
	switch {
	case told && race.Status != planner.GaveUp:
		o.bad("ended", "is of a race that was given up. Leave it out, or write status gave-up")
	case race.Status != planner.GaveUp:
	case told && (ended < race.Date || ended > race.Last()):
		o.bad("ended", "%s is no day of the race", ended)
	case told:
		race.Ended = ended
	default:
		race.Ended = race.Date
	}
}

// raceLength reads race days and their hours. More hours than a day has are
// most likely minutes where the race is of one day.
func (r *reader) raceLength(o *object, race *planner.Race) {
	n, read := o.integer("days", 1, planner.MaxRaceDays)
	if read {
		race.Days = n
	}
	hours, ok := o.number("hours", 0, planner.MaxRaceHours, true)
	race.Hours = hours
	if oneDay := n == 1 || o.values["days"] == nil; ok && oneDay && hours > 24 {
		o.bad("hours", "%g hours are more than a day and days is 1. If minutes were meant, %g minutes are %.2f hours", hours, hours, hours/60)
	}
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
	right := typed.Nearest(name, r.raceNames[:min(len(r.raceNames), 100)])
	if right == "" {
		right = r.raceNames[0]
	}
	o.faults.add(o.values["race"].at, o.at("race"), fmt.Sprintf("%s is not a race of this file. For example \"race\": %q", quote(name), right))
}
