// Package planfile reads plan files, JSON documents with a rider's facts, and
// writes plans as JSON. It does no input or output of its own but for looking up time zones.
package planfile

import (
	"fmt"
	"time"

	"musette/planner"
	"musette/planner/typed"
)

// Limits of a plan file.
const (
	defaultPercent  = 20
	minutesPerDay   = 24 * 60
	lowest, highest = 1, 10 // ratings of effort and feeling
)

// wholeFile is the path of faults that concern no single key.
const wholeFile = "plan file"

const fileExample = `{"today": "2026-05-04", "week": {"tue": "intervals 1h30 5x3min"}, "races": []}`

// Read reads a plan file and reports all its faults in the order of the file,
// each with the path of its key and a right example. With faults the facts are nil.
func Read(data []byte) (today planner.Date, f *planner.Facts, faults []planner.InputError) {
	root, err := parseTree(data)
	if err != nil {
		return 0, nil, []planner.InputError{{Field: wholeFile, Msg: err.Error() + ". For example " + fileExample}}
	}
	var list faultList
	r := reader{facts: &planner.Facts{}}
	top := newObject(root, "", fileExample, fileFields, &list)
	if top == nil {
		list[0].Field = wholeFile
		return 0, nil, list.inOrder()
	}
	r.file(top)
	if len(list) > 0 {
		return 0, nil, list.inOrder()
	}
	return r.today, r.facts, nil
}

// reader turns checked objects into facts.
type reader struct {
	today    planner.Date
	hasToday bool
	facts    *planner.Facts

	ridden     map[planner.Date]int // minutes logged a day
	pinned     map[planner.Date]int // which pin stands on a day
	raceNames  []string
	namesKnown bool // every race has a readable name, so that results can be checked
}

func (r *reader) file(o *object) {
	o.require("today", "week", "races")
	r.today, r.hasToday = o.date("today")
	r.zone(o)
	r.week(o)
	r.races(o)
	r.taper(o)
	o.objects("blocks", blockFields, r.block)
	o.objects("away", awayFields, r.away)
	o.objects("limits", limitFields, r.limit)
	o.objects("sick", sickFields, r.sick)
	o.objects("holds", holdFields, r.hold)
	o.objects("done", doneFields, r.done)
	o.objects("pins", pinFields, r.pin)
	o.objects("results", resultFields, r.result)
	o.objects("learned", taughtFields, r.learned)
}

// zone is checked only: a plan in whole days needs none.
func (r *reader) zone(o *object) {
	name, ok := o.text("zone")
	if !ok {
		return
	}
	if _, err := time.LoadLocation(name); err != nil || name == "Local" {
		o.bad("zone", "%s is not a time zone", quote(name))
	}
}

func (r *reader) block(_ int, o *object) {
	b := planner.Block{Percent: defaultPercent}
	b.From, b.To, _ = o.stretch(false)
	if p, ok := o.integer("percent", 1, planner.MaxBlockPercent); ok {
		b.Percent = p
	}
	b.Told = r.told(o, "told", 0)
	r.facts.Blocks = append(r.facts.Blocks, b)
}

func (r *reader) away(_ int, o *object) {
	var a planner.Absence
	a.From, a.To, _ = o.stretch(false)
	if k, ok := o.choice("kind", "off", "travel"); ok {
		a.Travel = k == 1
	}
	a.Told = r.told(o, "told", 0)
	r.facts.Absences = append(r.facts.Absences, a)
}

func (r *reader) limit(_ int, o *object) {
	o.require("date", "minutes")
	var l planner.Limit
	l.Date, _ = o.date("date")
	l.Minutes, _ = o.integer("minutes", 0, minutesPerDay)
	l.Told = r.told(o, "told", 0)
	r.facts.Limits = append(r.facts.Limits, l)
}

func (r *reader) sick(_ int, o *object) {
	var ill planner.Illness
	ill.From, ill.To, _ = o.stretch(true)
	if o.has("symptoms", listNode) {
		for i, n := range o.values["symptoms"].items {
			msg := ""
			if n.kind != textNode {
				msg = fmt.Sprintf("must be text, not %s", n.kind)
			} else {
				msg = checkText(n.text)
			}
			if msg != "" {
				o.faults.add(n.at, fmt.Sprintf("%s[%d]", o.at("symptoms"), i), msg+". For example "+o.example("symptoms"))
				continue
			}
			ill.Symptoms = append(ill.Symptoms, n.text)
		}
	}
	if d, ok := o.date("cleared"); ok {
		ill.Cleared = d
		switch {
		case r.hasToday && d > r.today:
			o.bad("cleared", "%s is later than today, %s", d, r.today)
		case d < ill.From:
			o.bad("cleared", "%s is before from, %s", d, ill.From)
		}
	}
	ill.Told = r.told(o, "told", min(ill.From, r.today))
	r.facts.Ill = append(r.facts.Ill, ill)
}

// hold reads a stop, entered on its date. One that a doctor has ended is entered again on that day.
func (r *reader) hold(_ int, o *object) {
	o.require("date", "level")
	var h planner.Hold
	if l, ok := o.choice("level", planner.LevelDoctor.String(), planner.LevelHead.String(), planner.LevelEmergency.String()); ok {
		h.Level = planner.LevelDoctor + planner.Level(l)
	}
	h.Told = r.told(o, "date", 0)
	h.Date = h.On
	if cleared, ok := r.past(o, "cleared"); ok {
		switch {
		case cleared < h.Date:
			o.bad("cleared", "%s is before the hold, %s", cleared, h.Date)
		case o.values["withdrawn"] != nil:
			o.bad("cleared", "is of a hold that was withdrawn. Leave one of them out")
		}
		h.Withdrawn = cleared
		r.facts.Holds = append(r.facts.Holds, planner.Hold{Date: h.Date, Level: h.Level, Cleared: cleared, Told: planner.Told{On: cleared}})
	}
	r.facts.Holds = append(r.facts.Holds, h)
}

func (r *reader) done(_ int, o *object) {
	o.require("date", "minutes")
	var ride planner.Ride
	d, ok := o.date("date")
	if ok && r.hasToday && d > r.today {
		o.bad("date", "%s is in the future, today is %s", d, r.today)
	}
	ride.Date = d
	ride.Minutes, _ = o.integer("minutes", 0, minutesPerDay)
	ride.RPE, _ = o.number("rpe", lowest, highest, false)
	ride.Told = r.told(o, "told", d)
	if r.ridden == nil {
		r.ridden = map[planner.Date]int{}
	}
	if ride.Withdrawn.IsZero() {
		if r.ridden[d] += ride.Minutes; ok && ride.Minutes <= minutesPerDay && r.ridden[d] > minutesPerDay {
			o.bad("minutes", "the rides of %s add up to more than 24 h", d)
		}
	}
	r.facts.Done = append(r.facts.Done, ride)
}

func (r *reader) pin(i int, o *object) {
	o.require("date", "session")
	var pin planner.Pin
	d, ok := o.date("date")
	pin.Date = d
	if text, ok := o.text("session"); ok {
		session, err := typed.Session(text)
		if err != nil {
			o.faults.add(o.values["session"].at, o.at("session"), err.Error())
		}
		pin.Session = session
	}
	if pin.Told = r.told(o, "told", 0); ok && pin.Withdrawn.IsZero() {
		if r.pinned == nil {
			r.pinned = map[planner.Date]int{}
		}
		if other, twice := r.pinned[d]; twice {
			o.bad("date", "%s is pinned by pins[%d] already. Withdraw one of them", d, other)
		}
		r.pinned[d] = i
	}
	r.facts.Pins = append(r.facts.Pins, pin)
}

// learned reads what races have taught of the length of tapers.
func (r *reader) learned(_ int, o *object) {
	o.require("races", "low", "mid", "high")
	var t planner.Taught
	races, told := o.integer("races", planner.MinTaughtRaces, planner.MaxTaughtRaces)
	low, hasLow := o.integer("low", planner.MinTaught, planner.MaxTaught)
	mid, hasMid := o.integer("mid", planner.MinTaught, planner.MaxTaught)
	high, hasHigh := o.integer("high", planner.MinTaught, planner.MaxTaught)
	t.Races, t.Low, t.Mid, t.High = races, low, mid, high
	if t.Told = r.told(o, "told", 0); told && hasLow && hasMid && hasHigh && t.Validate() != nil {
		o.bad("mid", "%d is not between low, %d, and high, %d", mid, low, high)
	}
	r.facts.Taught = append(r.facts.Taught, t)
}
