package engine

import (
	"musette/planner"
	"musette/planner/care"
)

// Days that an illness takes beyond its last day (IOC consensus 2022 for the 48
// hours; the number of return days is our choice).
const (
	FreeAfterIll    = 2  // whole days of rest unless only the head is cold
	leastReturn     = 3  // rides that grow
	mostReturn      = 7  //
	wellReach       = 14 // days after an illness on which a start needs the rider well
	seldomRides     = 2
	longerReturn    = 3
	halfReach       = 7  // days after the return in which the first hard day is halved
	nextWell        = 10 // days after the last ill one in which no ride is long before a short race
	nextReach       = 14 // and those in which the next one is smaller
	HeadReturn      = 6  // easy days after a cleared head knock
	HeadRest        = 1  // whole days of rest after the day of the knock, cleared or not
	startFree       = 3  // days after an illness without a start
	startFreeCold   = 2
	stillIllReaches = 21
)

var returnRides = [...]int{30, 45, 60, 75}

// longestReturn is the longest ride of a return, in minutes. In the ten days after an illness
// a long ride before a race of three hours and more lasts longLate at most, others otherLate
// (our choice).
const (
	longestReturn = 90
	longLate      = 150
	otherLate     = 110
)

// HeadSteps are the first rides after a doctor has cleared a head knock, in minutes (consensus on
// concussion: stages of a day at least; minutes are our choice).
var HeadSteps = [...]int{20, 30, 40, 45, 60}

// spell is an illness as the calendar takes it.
type spell struct {
	planner.Illness
	told
	last planner.Date // last ill day
	back planner.Date // last day of rest
	end  planner.Date // last day of the return
}

// orHurt is the reason of an illness, or that of an injury.
func (s *spell) orHurt(ill, hurt Code) Code {
	if s.Injury {
		return hurt
	}
	return ill
}

// whyReturn is the reason of a return: from an illness, from an injury, or after a doctor's word.
func (s *spell) whyReturn() Code {
	if s.severity == redFlag {
		return WhyClearedReturn
	}
	return s.orHurt(WhyIllReturn, WhyHurtReturn)
}

// whyFree is the reason of a day of rest after the last ill one.
func (s *spell) whyFree() Code {
	if s.head {
		return WhyHeadRest
	}
	return s.orHurt(WhyIllFree, WhyHurtFree)
}

// hold is a stop that no doctor has lifted: its first day, zero for none, and the gravest of what was entered.
type hold struct {
	from  planner.Date
	level care.Level
}

// spells reads the told illnesses.
func (c *calendar) spells() (out []spell, held hold) {
	for _, ill := range c.facts.Troubles() {
		s := spell{Illness: ill, last: ill.To}
		s.told = weigh(&ill, c.facts.Races)
		switch {
		case s.severity == redFlag && ill.Cleared.IsZero():
			if held.from.IsZero() || ill.From < held.from {
				held.from = ill.From
			}
			held.level = max(held.level, s.level)
			continue
		case s.severity == redFlag:
			s.last, s.back = ill.Cleared-1, ill.Cleared-1
			switch {
			case s.head:
				s.back = max(s.back, ill.From.AddDays(HeadRest))
				s.end = s.back.AddDays(HeadReturn)
			case ill.Level != planner.NoLevel:
				s.end = s.back.AddDays(returnRidesAfter(ill.From, s.last))
			default:
				s.end = s.back.AddDays(mostReturn)
			}
			out = append(out, s)
			continue
		case ill.To.IsZero():
			s.last = c.last()
		}
		s.back = s.last
		if s.severity != headCold {
			s.back = s.last.AddDays(FreeAfterIll)
		}
		s.end = s.back.AddDays(returnRidesAfter(ill.From, s.last))
		out = append(out, s)
	}
	return out, held
}

// returnRidesAfter is how many days a return from so long an illness takes.
func returnRidesAfter(from, last planner.Date) int {
	return max(leastReturn, min(mostReturn, from.DaysUntil(last)+1))
}

// weigh is how grave an illness is: by its level where one was entered, else by its
// symptoms.
func weigh(ill *planner.Illness, races []planner.Race) told {
	level, ok := careLevels[ill.Level]
	if !ok {
		return gravity(ill.Symptoms, races)
	}
	return told{severity: severities[level], level: level, head: level == care.Head, known: true}
}

// layIllness makes ill days rest and bounds the days of the return.
func (c *calendar) layIllness(spells []spell) {
	for i := range spells {
		s := &spells[i]
		for t := max(s.From, c.first); t <= min(s.back, c.last()); t++ {
			d := c.at(t)
			if d.owner == settled {
				d.unmet = d.unmet || d.race == nil && t <= s.last
				continue
			}
			code := s.orHurt(WhyIll, WhyHurt)
			if t > s.last {
				code = s.whyFree()
			}
			d.owner, d.phase, d.out = byHealth, planner.Health, plan{}
			d.bound(0, note{code: code})
			d.because(note{code: code})
		}
		c.boundReturn(s)
	}
}

// boundReturn lets rides grow after the rest. Who rides seldom has seldomRides of them
// at least, in longerReturn more days at most.
func (c *calendar) boundReturn(s *spell) {
	k, usual, longest := 0, 0, s.end
	if s.severity == noTraining {
		longest += longerReturn
	}
	steps, last := returnRides[:], returnRides[len(returnRides)-1]
	why := note{code: s.whyReturn(), day: s.last}
	if s.head {
		steps, last, why.code = HeadSteps[:], longestReturn, WhyHead
	}
	for t := s.back + 1; t <= s.end || k < seldomRides && t <= longest; t++ {
		d := c.at(t)
		if d == nil {
			continue
		}
		s.end = max(s.end, t)
		usual = last
		if k < len(steps) {
			usual = steps[k]
		}
		if s.severity != redFlag && !s.Injury && k >= 1 && d.mins >= 2*returnRides[2] { // half of a long ride is enough to test the legs
			usual = max(usual, min(longestReturn, floor5(min(d.mins, rideMinutes(d.usual))/2), 2*steps[min(k, len(steps))-1]))
		}
		if d.mins > 0 && d.most() >= shortestRide {
			k++
		}
		d.bound(usual, why)
	}
}

// easeReturn plans the days of a return that no window or race holds, and halves
// the first hard day after it.
func (c *calendar) easeReturn(spells []spell) {
	for _, s := range spells {
		for t := max(s.back+1, c.first); t <= min(s.end, c.last()); t++ {
			if d := c.at(t); d.owner < byAfter && d.race == nil {
				d.owner, d.phase = byHealth, planner.Health
				c.easeWithin(d)
			} else if d.owner == byWindow && d.race == nil {
				d.phase = planner.Health
			}
		}
		c.easeFirstHard(s)
	}
}

// easeFirstHard leaves half of the first hard day's set after a return and three
// quarters of the next one's, and shortens the first long ride.
func (c *calendar) easeFirstHard(s spell) {
	shares, longLeft := []int{half, threeQuarters}, true
	if s.severity == headCold {
		shares = shares[1:]
	}
	for t := s.end + 1; t <= s.end.AddDays(nextReach); t++ {
		d := c.at(t)
		if d != nil && d.owner == byB && d.isHard() && len(shares) > 1 {
			shares = shares[1:] // a race's half week has the first one
		}
		if t > s.end.AddDays(halfReach) && len(shares) != 1 {
			continue // the first one was too late to need it, or both are had
		}
		if d == nil || d.owner != nobody || !d.ridden() || d.ban.is() || d.lost() || c.raceOn(d.date-1) || d.kind == hard && c.raceOn(d.date+1) || d.kind == hard && c.easedByB(d) {
			continue
		}
		switch {
		case d.kind == hard && len(shares) > 0:
			d.out = plan{kind: planner.Intervals, effort: planner.Hard, minutes: min(neatMinutes(0.8*float64(d.mins)), d.most()), set: d.set.kept(shares[0])}
			d.because(note{code: WhyIllHalf})
			c.fitLimit(d)
			shares = shares[1:]
		case d.mins > 120 && longLeft && t <= s.end.AddDays(halfReach) && (d.kind == long || d.kind == endurance):
			d.out = plan{kind: kindOf(d.kind), effort: planner.Steady, minutes: min(neatMinutes(float64(d.mins)*2/3), d.most(), c.stepUp(s, t))}
			d.because(note{code: s.whyReturn(), day: s.last})
			longLeft = d.kind != long
		default:
			continue
		}
		d.owner, d.phase = byHealth, planner.Health
	}
}

// stepUp is how long the first long ride after an illness may be: twice the longest ride since,
// longestReturn at least. A race of five hours and more soon after wants a real one.
func (c *calendar) stepUp(s spell, t planner.Date) int {
	if s.severity == headCold || s.Injury {
		return noLimit
	}
	for _, r := range c.races {
		if r.Date > t && r.Date <= t.AddDays(halfReach) && total(r) >= sharpAfterIll {
			return noLimit
		}
	}
	before := 0
	for u := s.back; u < t; u++ {
		if d := c.at(u); d != nil && d.race == nil {
			before = max(before, rideMinutes(d.sessions()))
		}
	}
	return max(longestReturn, neatFloor(2*before))
}

// freshlyWell reports a day within halfReach days after a return from more than a cold: the
// first hard day is smaller then.
func (c *calendar) freshlyWell(t planner.Date) bool {
	for _, s := range c.ills {
		if s.severity != headCold && s.end < t && t <= s.end.AddDays(halfReach) {
			return true
		}
	}
	return false
}

// illIn reports an illness or return inside the window, and whether it was more than a cold.
func illIn(w *window, spells []spell) (ill, more bool) {
	for _, s := range spells {
		if s.From < w.race.Date && s.end >= w.start() {
			ill = true
			more = more || s.severity != headCold
		}
	}
	return ill, more
}

// hold makes every day from a stop on rest.
func (c *calendar) hold(from planner.Date) {
	for t := max(from, c.first); t <= c.last(); t++ {
		d := c.at(t)
		d.owner, d.phase, d.race, d.out = byHealth, planner.Health, nil, plan{}
		d.because(note{code: WhyHold})
	}
}

// noStart is the last day on which no race is started. After a head knock that is
// the last of the easy steps.
func (s *spell) noStart() planner.Date {
	if s.head {
		return s.end
	}
	return s.last.AddDays(s.free())
}

// free is how many days after the last ill one no race is started.
func (s *spell) free() int {
	if s.severity == headCold {
		return startFreeCold
	}
	return startFree
}

// NoStart is the last day on which no race is started where an illness goes on today.
func NoStart(ill *planner.Illness, today planner.Date) planner.Date {
	s := spell{told: weigh(ill, nil)}
	return today.AddDays(s.free())
}

// mayStart reports a day on which it is too early to say whether a race is started,
// because the illness goes on.
func (s *spell) mayStart(t, today planner.Date) bool {
	return s.To.IsZero() && s.Cleared.IsZero() && t > today.AddDays(s.free())
}

// keepFromStart takes races too near an illness out of the plan, and asks for a
// well rider at those that follow.
func (c *calendar) keepFromStart(spells []spell) {
	for _, s := range spells {
		near := s.noStart()
		for _, r := range c.races {
			for t := max(r.Date, s.From, c.from); t <= min(r.Last(), s.last.AddDays(wellReach)); t++ {
				d := c.at(t)
				switch {
				case d == nil || d.race != r || d.logged:
				case t <= near:
					d.owner, d.phase, d.race, d.out = byHealth, planner.Health, nil, plan{}
					d.because(note{code: WhyIllRace, race: r})
					if s.mayStart(t, c.today) {
						d.because(note{code: WhyIllOpen, race: r})
					}
				default:
					d.also(note{code: WhyIllStart, race: r})
				}
			}
		}
	}
}

type severity uint8

const (
	headCold severity = iota
	noTraining
	redFlag
)

// severities are what each level of care means for a plan.
var severities = map[care.Level]severity{
	care.Easy: headCold, care.Rest: noTraining, care.Talk: noTraining, care.Doctor: redFlag, care.Head: redFlag, care.Emergency: redFlag,
}

// careLevels are the levels that somebody told instead of symptoms.
var careLevels = map[planner.Level]care.Level{
	planner.LevelEasy: care.Easy, planner.LevelRest: care.Rest, planner.LevelDoctor: care.Doctor, planner.LevelHead: care.Head, planner.LevelEmergency: care.Emergency,
}

// told is what the symptoms of an illness say.
type told struct {
	severity severity
	level    care.Level // the gravest
	head     bool       // one of them tells of a knock to the head
	known    bool       // each was understood
}

// gravity is the gravest reading of the symptoms. What is not understood is
// treated like fever: cautiously. A race's name is no symptom.
func gravity(symptoms []string, races []planner.Race) told {
	if len(symptoms) == 0 {
		return told{severity: noTraining}
	}
	out := told{known: true}
	var names []string
	for i := range races {
		names = append(names, races[i].Name)
	}
	for _, symptom := range symptoms {
		f := care.Symptom(symptom, names...)
		s, ok := severities[f.Level]
		if !ok {
			s, out.known = noTraining, false
		}
		out.severity, out.level = max(out.severity, s), max(out.level, f.Level)
		out.head = out.head || f.Level == care.Head || f.Head
	}
	return out
}

// afterIllness leaves one smaller hard day of D-6 to D-3, the first, where an illness
// ended in the two weeks before the race.
func (h *halfWeek) afterIllness() {
	if !endedIll(h.c.facts, h.race, illNear) {
		return
	}
	one, ridden := false, false // a usual hard day, and one that is hard in spite of the return
	for t := 6; t >= 3; t-- {
		d := h.open(t)
		if !h.c.hardAfter(d) {
			one = one || d != nil && d.isHard()
			ridden = ridden || d != nil && d.isHard() && !d.ban.is()
			continue
		}
		switch {
		case !one:
			h.c.smaller(d, illShare, note{code: WhyIllHalf})
		case !ridden:
			h.recovery(d)
			d.because(note{code: WhyIllNone, race: h.race})
		default:
			h.recovery(d)
			d.because(note{code: WhyIllEnough})
		}
		ridden = ridden || !one
		one = true
		d.owner, d.phase, d.host = byB, planner.Tapering, h.race
		d.noteFacts()
	}
	if !ridden {
		h.testLegs()
	}
}

// A first hard day after an illness, where the return took the usual ones: so many days
// after the last ill one at least, with so much work and repetitions so long at most.
const (
	testAfter   = 7
	testWork    = 13 * 60 // seconds
	testRep     = 4 * 60  // seconds
	testMinutes = 60      // of the ride
)

// testLegs puts a few short repetitions on D-4, D-3 or D-5, so that the race is not the
// first hard effort after an illness.
func (h *halfWeek) testLegs() {
	short, _ := h.c.sets(h.race.Date)
	if short.set.isZero() || short.set.part > 0 {
		return
	}
	set := short.set.kept(half).atMost(testRep)
	for set.work() > testWork {
		fewer, ok := set.less()
		if !ok {
			return
		}
		set = fewer
	}
	for _, t := range [...]int{4, 3, 5} {
		d := h.c.at(h.race.Date.AddDays(-t))
		if d == nil || d.owner > byB || d.race != nil || d.date < h.race.Registered || !d.ridden() || d.ban.is() || d.only || h.c.touches(d) || h.c.easedByB(d) || !h.c.wellOn(h.race, d.date) {
			continue
		}
		minutes := min(d.mins, d.most(), max(testMinutes, set.least(frame)))
		if set.least(forcedFrame) > minutes {
			continue
		}
		h.makeHard(d, set, minutes)
		d.because(note{code: WhyIllTest, race: h.race})
		d.noteFacts()
		return
	}
}

// wellOn reports a day that is long enough after every illness before a race.
func (c *calendar) wellOn(r *planner.Race, t planner.Date) bool {
	for _, ill := range c.facts.Troubles() {
		if ill.From < r.Date && (ill.To.IsZero() || ill.To.AddDays(testAfter) > t) {
			return false
		}
	}
	return true
}
