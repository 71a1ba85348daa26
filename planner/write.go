package planner

// writeSpot turns a planned spot into the day's sessions and reasons.
func (c *calendar) writeSpot(w *window, p int) {
	s := &w.spots[p]
	if s.raced() {
		return
	}
	day := s.slot
	sessions := make([]Session, 0, 4)
	if s.rides() && s.minutes > 0 {
		sessions = append(sessions, w.sessionAt(p))
	}
	if !day.off && !day.travel && p >= lastStrength {
		for _, u := range day.Usual {
			if u.Kind == Strength && s.minutes+int(u.Minutes) <= day.limit {
				sessions = append(sessions, u)
			}
		}
	}
	c.set(day, sessions...)
	w.explain(p)
}

// lastStrength is the last heavy strength session before the race: D-4.
const lastStrength = 4

func (w *window) sessionAt(p int) Session {
	s := &w.spots[p]
	switch {
	case s.openers:
		return Session{Kind: Openers, Effort: OpenersEffort, Minutes: int16(s.minutes)}
	case s.hard:
		source := s.source
		if !s.full {
			source.Sets = source.Sets.halved()
		}
		return Session{Kind: Intervals, Effort: Hard, Minutes: int16(s.minutes), Sets: source.Sets}
	}
	if recovery, _ := w.recoveryAt(p); recovery {
		return recoveryRide(s.minutes)
	}
	return easyRide(s.slot.Usual, s.minutes)
}

// explain notes why the day at D-p is as it is, the deciding reason first.
func (w *window) explain(p int) {
	s := &w.spots[p]
	day := s.slot
	usual := day.usualMinutes()
	if day.travel && !day.off {
		day.note(noteTravel)
	} else if day.limit < usual && !day.off {
		day.note(noteLimit, day.told)
	}
	switch {
	case day.off:
		day.noteOff()
		return
	case s.openers:
		w.explainOpeners(p)
	case s.hard:
		w.explainHard(p)
	case s.rides() && s.minutes > 0:
		w.explainEasy(p)
	default:
		w.explainRest(p)
	}
	if day.afterCap < noCap {
		day.note(noteAfterCap)
	}
	switch {
	case usual == 0 || s.minutes == 0:
	case s.minutes < usual:
		day.note(noteVolume, w.cut)
	case s.minutes > usual && s.hard:
		day.note(noteHardLonger)
	}
	if p < lastStrength {
		if _, ok := strengthOf(day.Usual); ok {
			day.note(noteStrengthEnds)
		}
	}
	if day.noted == 0 {
		day.note(noteVolume, w.cut)
	}
}

func (w *window) explainOpeners(p int) {
	day := w.spots[p].slot
	switch {
	case p == 2 && w.freeEve:
		day.note(noteOpenersWished)
	case p == 2:
		day.note(noteOpenersEarly)
	case w.wantD2:
		day.note(noteOpenersNoD2)
	default:
		day.note(noteOpeners)
	}
	if w.spots[p].resting() {
		day.note(noteRestDisplaced)
	}
}

func (w *window) explainHard(p int) {
	s := &w.spots[p]
	day := s.slot
	switch {
	case w.overload && s.full:
		day.note(noteFullOverload)
	case s.full && w.n > patternDays && p > patternDays:
		day.note(noteHardFar)
	case s.full:
		day.note(noteHardFull)
	case s.source.Sets.IsZero():
		day.note(noteHardPart)
	default:
		day.note(noteHardHalved)
	}
	switch {
	case w.n <= oneWeekMax && p > lastHard:
		day.note(noteHardKept, p)
	case p <= lastHard:
		day.note(noteHardLast, p)
	case !day.usuallyHard():
		day.note(noteHardHere, p)
	}
	if s.resting() {
		day.note(noteRestDisplaced)
	}
}

func (w *window) explainEasy(p int) {
	s := &w.spots[p]
	recovery, longer := w.recoveryAt(p)
	switch {
	case s.extra > 0:
		s.slot.note(noteRideMoved)
	case longer:
		s.slot.note(noteAfterFull)
	case s.opening:
		s.slot.note(noteOpening)
	case recovery && !onlyKind(s.slot.Usual, Recovery):
		s.slot.note(noteAfterRest)
	case s.slot.usuallyHard() && (p <= 2 || w.isHard(p-1) || w.isHard(p+1) || w.isHard(p-2) || p == w.n && w.hardEve):
		s.slot.note(noteHardGivesWay, p)
	case s.slot.usuallyHard():
		s.slot.note(noteHardFewer)
	case !onlyKind(s.slot.Usual, Recovery):
		s.slot.note(notePolar)
	}
}

func (w *window) explainRest(p int) {
	s := &w.spots[p]
	switch {
	case p == 1 && w.freeEve:
		s.slot.note(noteEveFree)
	case s.moved:
		s.slot.note(noteRestHere)
	case s.slot.usuallyRidden():
		s.slot.note(noteTooShort)
	}
}
