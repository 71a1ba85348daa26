package planfile

import (
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/typed"
)

// told reads when a fact was entered, under the given key, and when it was taken
// back. Where the first is missing the fact was entered on that day.
func (r *reader) told(o *object, key string, on planner.Date) planner.Told {
	t := planner.Told{On: on}
	if d, ok := r.past(o, key); ok {
		t.On = d
	}
	if d, ok := r.past(o, "withdrawn"); ok {
		t.Withdrawn = d
		if d < t.On {
			o.bad("withdrawn", "%s is before it was told, %s", d, t.On)
		}
	}
	return t
}

// past reads a date that today has reached.
func (r *reader) past(o *object, key string) (planner.Date, bool) {
	d, ok := o.date(key)
	if ok && r.hasToday && d > r.today {
		o.bad(key, "%s is later than today, %s", d, r.today)
		return 0, false
	}
	return d, ok
}

// each reads an object or a list of objects, the later told of which hold from
// then on: they come in the order of telling.
func (r *reader) each(o *object, key string, fields []field) []version {
	n := o.values[key]
	var all []version
	add := func(_ int, item *object) {
		if item != nil {
			all = append(all, version{item, r.told(item, "told", 0).On})
		}
	}
	switch {
	case n == nil:
	case n.kind != listNode:
		add(0, newObject(n, key, o.example(key), fields, o.faults))
	case len(n.items) == 0:
		o.bad(key, "is an empty list")
	default:
		o.objects(key, fields, add)
	}
	slices.SortStableFunc(all, func(a, b version) int { return int(a.on - b.on) })
	return all
}

// version is an object that was entered on a day, zero meaning before everything.
type version struct {
	*object
	on planner.Date
}

// week reads the typical week. One told later names the days that change.
func (r *reader) week(o *object) {
	weeks := &r.facts.Weeks
	for i, v := range r.each(o, "week", weekFields) {
		next := planner.DatedWeek{Told: planner.Told{On: v.on}}
		if d, ok := v.date("from"); ok {
			next.From = d
		} else if i > 0 {
			next.From = v.on
		}
		if i > 0 {
			next.Week = weekBefore(*weeks, next.From)
		}
		v.days(&next.Week)
		if next.Second = v.second(); next.Second != nil && next.From.IsZero() {
			next.From = r.today // the first of the two is this week's
		}
		for j := range *weeks {
			if w := &(*weeks)[j]; w.From == next.From && w.Withdrawn.IsZero() {
				w.Withdrawn = next.On
			}
		}
		*weeks = slices.DeleteFunc(*weeks, func(w planner.DatedWeek) bool { return w.From == next.From && w.On == next.On })
		*weeks = append(*weeks, next)
	}
	slices.SortStableFunc(*weeks, func(a, b planner.DatedWeek) int { return int(a.From - b.From) })
}

// days reads the days that a week names.
func (o *object) days(w *planner.Week) {
	for day := range w {
		if p, ok := weekday(o, weekFields[day].key, weekFields[day+len(w)].key); ok {
			w[day] = p
		}
	}
}

// second reads the other of two weeks in turn, nil where there is none.
func (o *object) second() *planner.Week {
	n := o.values["second"]
	if n == nil {
		return nil
	}
	item := newObject(n, o.at("second"), o.example("second"), secondFields, o.faults)
	if item == nil {
		return nil
	}
	other := new(planner.Week)
	item.days(other)
	return other
}

// weekBefore is the week that holds on a day as it was entered last.
func weekBefore(weeks []planner.DatedWeek, day planner.Date) planner.Week {
	at := 0
	for i, w := range weeks {
		if w.From <= day && (weeks[at].From > day || w.From >= weeks[at].From) {
			at = i
		}
	}
	return weeks[at].Week
}

// weekday reads a day under its short or its long name; ok is false where it is not named.
func weekday(o *object, short, long string) (p planner.WeekdayPlan, ok bool) {
	key := short
	if first, second := o.values[short], o.values[long]; second != nil {
		key = long
		if first != nil {
			other := short
			if first.at < second.at {
				key, other = short, long
			}
			o.bad(other, "names a day that the week has already")
		}
	}
	if !o.has(key, textNode) {
		return planner.WeekdayPlan{}, false
	}
	p, err := typed.Weekday(o.values[key].text)
	if err != nil {
		o.faults.add(o.values[key].at, o.at(key), err.Error())
	}
	return p, true
}

// taper reads the taper settings. One told later names those that change.
func (r *reader) taper(o *object) {
	var states []planner.Taper
	var now planner.Taper
	for _, v := range r.each(o, "taper", taperFields) {
		now.Told = planner.Told{On: v.on}
		v.taper(&now)
		if last := len(states) - 1; last >= 0 && states[last].On == v.on {
			states[last] = now
			continue
		}
		states = append(states, now)
	}
	for i := range states[:max(0, len(states)-1)] {
		states[i].Withdrawn = states[i+1].On
		r.facts.OldTaper = append(r.facts.OldTaper, states[i])
	}
	r.facts.Taper = now
}

// taper lays the settings that are named over those of before.
func (o *object) taper(out *planner.Taper) {
	if n := o.values["days"]; n != nil && n.kind == textNode && strings.EqualFold(n.text, "usual") {
		out.Days, out.Usual = 0, true
	} else if n, ok := o.autoOr("days", planner.MinTaperDays, planner.MaxTaperDays); ok {
		out.Days, out.Usual = n, false
	}
	if n, ok := o.autoOr("cut", planner.MinCut, planner.MaxCut); ok {
		out.Cut = n
	}
	if p, ok := o.choice("pattern", planner.UsualDays.String(), planner.EverySecondDay.String(), planner.EveryThirdDay.String()); ok {
		out.Pattern = planner.Pattern(p)
	}
	if d, ok := o.choice("openers", "D-1", "D-2"); ok {
		out.OpenersD2 = d == 1
	}
}

// autoOr reads a whole number, or auto as 0.
func (o *object) autoOr(key string, low, high int) (int, bool) {
	n := o.values[key]
	switch {
	case n == nil || n.kind != textNode:
		return o.integer(key, low, high)
	case strings.EqualFold(n.text, "auto"):
		return 0, true
	}
	o.bad(key, "%s is neither auto nor a number without quotes", quote(n.text))
	return 0, false
}
