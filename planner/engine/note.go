package engine

import (
	"math"
	"slices"

	"musette/planner"
)

// cause says why a day may not be hard; none is the zero value.
type cause struct {
	code Code
	race *planner.Race
	day  planner.Date // the neighbour, where there is one
}

func (c cause) is() bool { return c.code != NoReason }

// note is a reason as the rule that decided it left it.
type note struct {
	code Code
	n    int
	day  planner.Date
	race *planner.Race
}

// Code names why a day is as it is, or what a warning is about. A new rule declares
// its own in its file.
type Code string

const (
	NoReason Code = ""
	// settled days
	WhyRace     Code = "WhyRace"
	WhyLogged   Code = "WhyLogged"
	WhyMissed   Code = "WhyMissed"
	WhyToldThen Code = "WhyToldThen"
	WhyPinned   Code = "WhyPinned"
	WhyMoved    Code = "WhyMoved"
	WhyBusy     Code = "WhyBusy"
	WhyAway     Code = "WhyAway"
	WhyTravel   Code = "WhyTravel"
	WhyLimit    Code = "WhyLimit"
	WhyLimitSet Code = "WhyLimitSet"
	WhyEased    Code = "WhyEased" // the limit is that of an easier form
	WhyBlock    Code = "WhyBlock"
	// health
	WhyIll           Code = "WhyIll"
	WhyIllFree       Code = "WhyIllFree"
	WhyIllReturn     Code = "WhyIllReturn"
	WhyHurt          Code = "WhyHurt"
	WhyHurtFree      Code = "WhyHurtFree"
	WhyHurtReturn    Code = "WhyHurtReturn"
	WhyClearedReturn Code = "WhyClearedReturn"
	WhyIllRace       Code = "WhyIllRace"
	WhyIllOpen       Code = "WhyIllOpen"
	WhyIllStart      Code = "WhyIllStart"
	WhyIllHalf       Code = "WhyIllHalf"
	WhyIllOne        Code = "WhyIllOne"
	WhyIllTwo        Code = "WhyIllTwo"
	WhyIllSoon       Code = "WhyIllSoon" // no ride is long yet
	WhyHold          Code = "WhyHold"
	WhyHead          Code = "WhyHead"
	WhyHeadRest      Code = "WhyHeadRest" // cleared, but the knock was yesterday or today
	// hard days
	WhyHardKept       Code = "WhyHardKept"
	WhyHardHalf       Code = "WhyHardHalf"
	WhyHardShort      Code = "WhyHardShort"
	WhyHardEve        Code = "WhyHardEve"
	WhyHardFromEve    Code = "WhyHardFromEve"
	WhyHardTouch      Code = "WhyHardTouch"
	WhyHardTouchFree  Code = "WhyHardTouchFree"
	WhyHardPattern    Code = "WhyHardPattern"
	WhyHardMovedAway  Code = "WhyHardMovedAway"
	WhyHardNear       Code = "WhyHardNear"
	WhyHardNextHard   Code = "WhyHardNextHard"
	WhyHardNextRace   Code = "WhyHardNextRace"
	WhyHardPair       Code = "WhyHardPair"
	WhyHardEnough     Code = "WhyHardEnough"
	WhyHardHeavy      Code = "WhyHardHeavy"
	WhyOpenersHeavy   Code = "WhyOpenersHeavy"
	WhyHardPatternOff Code = "WhyHardPatternOff"
	WhyHardRoom       Code = "WhyHardRoom"
	WhyHardAfterEve   Code = "WhyHardAfterEve"
	WhySetShort       Code = "WhySetShort"
	WhySetBunch       Code = "WhySetBunch"
	WhySetLong        Code = "WhySetLong"
	// easy days
	WhyShorter        Code = "WhyShorter"
	WhyEasy           Code = "WhyEasy"
	WhyFall           Code = "WhyFall"
	WhyTooShort       Code = "WhyTooShort"
	WhyOpeners        Code = "WhyOpeners"
	WhyOpenersFew     Code = "WhyOpenersFew"
	WhyOpenersD2      Code = "WhyOpenersD2"
	WhyOpenersWish    Code = "WhyOpenersWish"
	WhyFreeEve        Code = "WhyFreeEve"
	WhyFreeMoved      Code = "WhyFreeMoved"
	WhyRestBeforeLong Code = "WhyRestBeforeLong"
	WhyFreeKept       Code = "WhyFreeKept"
	WhySpin           Code = "WhySpin"
	WhyFreeBefore     Code = "WhyFreeBefore"
	WhyStrengthLight  Code = "WhyStrengthLight"
	WhyStrengthEnds   Code = "WhyStrengthEnds"
	// around other races
	WhyBlockAfter   Code = "WhyBlockAfter"
	WhyBlockSet     Code = "WhyBlockSet"
	WhyAfterRest    Code = "WhyAfterRest"
	WhyAfterEasy    Code = "WhyAfterEasy"
	WhyReturnSet    Code = "WhyReturnSet"
	WhyReturnLong   Code = "WhyReturnLong"
	WhyBRecovery    Code = "WhyBRecovery"
	WhyBShort       Code = "WhyBShort"
	WhyBMovedHere   Code = "WhyBMovedHere"
	WhyBLeftOut     Code = "WhyBLeftOut"
	WhyBSharp       Code = "WhyBSharp"
	WhySharp        Code = "WhySharp"
	WhyIllEnough    Code = "WhyIllEnough"
	WhyIllNone      Code = "WhyIllNone"
	WhyIllTest      Code = "WhyIllTest"
	WhyBImportant   Code = "WhyBImportant"
	WhyBOutgrows    Code = "WhyBOutgrows"
	WhyBRaceDay     Code = "WhyBRaceDay"
	WhyBTouch       Code = "WhyBTouch"
	WhyOpenersLost  Code = "WhyOpenersLost"
	WhyBTold        Code = "WhyBTold"
	WhyBEase        Code = "WhyBEase"
	WhyBAfter       Code = "WhyBAfter"
	WhyBRest        Code = "WhyBRest"
	WhyBSoon        Code = "WhyBSoon"
	WhyBAfterEasy   Code = "WhyBAfterEasy"
	WhyInsideBefore Code = "WhyInsideBefore"
	WhyInsideAfter  Code = "WhyInsideAfter"
	WhyCGives       Code = "WhyCGives"
	WhyCOpeners     Code = "WhyCOpeners"
	WhyLongHere     Code = "WhyLongHere"
	WhyCMovedHere   Code = "WhyCMovedHere"
	WhyCMovedAway   Code = "WhyCMovedAway"
	WhyCAfter       Code = "WhyCAfter"
	WhyCEvening     Code = "WhyCEvening"
	WhyCShort       Code = "WhyCShort"
	WhyCRest        Code = "WhyCRest"
	WhyCBefore      Code = "WhyCBefore"
)

// Cuts outside the advised per cent are warned about.
const (
	AdviseMinCut, AdviseMaxCut = 40, 60
	volumePoints               = 5
	LongTaper                  = 21 // days, more than any study supports
)

// What studies found best (Bosquet et al. 2007): cuts in per cent, and days of a taper.
const (
	StudiedMinCut, StudiedMaxCut   = 41, 60
	StudiedMinDays, StudiedMaxDays = 8, 14
)

func (c *calendar) warnClose(other, r *planner.Race) {
	if r.Last() >= c.today {
		c.warn(Warning{Code: WarnCloseB, Race: r, Other: other, N: halfGap})
	}
}

// warnAll names what could not be met.
func (c *calendar) warnAll() {
	c.warnRaces()
	for _, w := range c.wins {
		if w.race.Last() >= c.today {
			w.warn()
		}
	}
}

func (c *calendar) warnRaces() {
	var prev *planner.Race
	for _, r := range c.races {
		coming := r.Last() >= c.today
		if coming && r.Hours <= 0 {
			c.warn(Warning{Code: WarnNoHours, Race: r, N: r.Minutes()})
		}
		for t := r.Date; t <= r.Last() && coming; t++ {
			if d := c.at(t); d != nil && d.away {
				c.warn(Warning{Code: WarnRaceAway, Race: r, Day: t})
				break
			}
		}
		if r.Priority == planner.PriorityB && coming && r.Registered > r.Date-2 {
			c.warn(Warning{Code: WarnLateB, Race: r, N: r.Registered.DaysUntil(r.Date)})
		}
		c.warnInside(r, coming)
		if r.Priority != planner.PriorityA {
			continue
		}
		if prev != nil && coming && prev.Last() >= c.today && prev.Last().DaysUntil(r.Date) < CloseGap { // one that is over is what it was
			c.warn(Warning{Code: WarnCloseA, Race: r, Other: prev, N: prev.Last().DaysUntil(r.Date), M: c.lacks(r)})
		}
		prev = r
	}
}

// lacks is how many days an A race's taper is shorter than it would be without other A races.
func (c *calendar) lacks(r *planner.Race) int {
	for _, w := range c.wins {
		switch {
		case w.race != r:
		case w.why == planner.LengthClose:
			return tableLength(c.facts, r) - w.n
		case w.why == planner.LengthAfterRace:
			return w.wanted - w.n
		}
	}
	return 0
}

// warnInside names races that cost an A race's taper or recovery something.
func (c *calendar) warnInside(r *planner.Race, coming bool) {
	if !coming || r.Priority == planner.PriorityA {
		return
	}
	if host := c.recovering(r); host != nil {
		c.warn(Warning{Code: WarnInRecovery, Race: r, Other: host, Day: r.Date})
		return
	}
	for _, w := range c.wins {
		left := r.Last().DaysUntil(w.race.Date)
		if r.Last() >= w.start() && left > 0 && (r.Minutes() >= 120 || r.Days > 1 || left <= 3) {
			c.warn(Warning{Code: WarnInside, Race: r, Other: w.race, N: left})
			return
		}
	}
}

// warn names what this taper could not have.
func (w *window) warn() {
	c := w.c
	hasHard, openers := false, false
	for t := 1; t <= w.n; t++ {
		hasHard = hasHard || w.t[t].isHard()
		openers = openers || t <= 2 && (w.t[t].opener || w.t[t].race != nil || len(w.t[t].out.sessions) > 0)
	}
	if w.why == planner.LengthLate {
		c.warn(Warning{Code: WarnLate, Race: w.race, N: w.n, M: w.wanted})
	}
	if w.block {
		if w.told.length && c.facts.Taper.Days+w.race.TaperDays < w.n {
			c.warn(Warning{Code: WarnBlockLength, Race: w.race, N: w.n})
		}
		if w.wanted < BlockDays {
			c.warn(Warning{Code: WarnBlockShort, Race: w.race, N: w.wanted, Day: w.race.Date.AddDays(-BlockDays - 1)})
		}
	}
	switch {
	case w.hours == 0:
	case w.short.set.isZero():
		c.warn(Warning{Code: WarnNoHard, Race: w.race})
	case !hasHard && w.n >= 4 && slices.ContainsFunc(w.t[1:], func(s taperDay) bool { return s.unmade }):
		c.warn(Warning{Code: WarnHardMissed, Race: w.race})
	case !hasHard && w.n >= 4:
		c.warn(Warning{Code: WarnNoTouch, Race: w.race})
	}
	if w.hours > 0 && !openers {
		c.warn(Warning{Code: WarnNoOpeners, Race: w.race, Cause: w.noOpeners()})
	}
	if w.told.cut && (w.cut < AdviseMinCut || w.cut > AdviseMaxCut) {
		c.warn(Warning{Code: WarnCutRange, Race: w.race, N: w.cut})
	}
	if w.n > LongTaper {
		c.warn(Warning{Code: WarnLongTaper, Race: w.race, N: w.n})
	}
	if sum := w.summary(); w.told.cut && math.Abs(sum.CutPercent-float64(w.cut)) > volumePoints {
		c.warn(Warning{Code: WarnCut, Race: w.race, N: wholePercent(sum.CutPercent), M: w.cut, Cause: w.cutCause(sum)})
	}
}

// noOpeners says why there are none: no room, or too few rides a week.
func (w *window) noOpeners() Cause {
	for t := 1; t <= min(2, w.n); t++ {
		if w.t[t].reason.code == WhyOpenersHeavy {
			return Cause{Code: WhyOpenersHeavy}
		}
	}
	return Cause{}
}

// cutCause is the one fact that kept the taper from its cut.
func (w *window) cutCause(sum Taper) Cause {
	less := sum.CutPercent > float64(w.cut)
	races, lost, past, limited, hand := 0, 0, 0, 0, 0
	for t := 1; t <= w.n; t++ {
		d := w.t[t].day
		switch {
		case d.race != nil:
			races++
		case d.phase == planner.Health:
			return Cause{Code: WhyIll}
		case d.byHand:
			hand++
		case d.owner == settled:
			past++
		case d.lost() && d.mins > 0:
			lost++
		case d.limit < d.mins:
			limited++
		}
	}
	switch {
	case races > 0 && !less:
		return Cause{Code: WhyRace}
	case lost > 0:
		return Cause{Code: WhyAway}
	case limited > 0 && less:
		return Cause{Code: WhyLimit}
	case hand > 0:
		return Cause{Code: WhyMoved}
	case past > 0:
		return Cause{Code: WhyToldThen}
	case less:
		return Cause{Code: WhyFall}
	}
	return Cause{Code: WhyTooShort}
}

// warnIll says what an illness means for now and for the races near it.
func (c *calendar) warnIll(spells []spell, held hold) {
	if !held.from.IsZero() {
		c.warns = []Warning{{Code: WarnHold, Day: held.from, Level: held.level}}
		c.quiet = true
		return
	}
	for _, s := range spells {
		if s.end < c.today {
			c.warnStarts(s)
			continue
		}
		code := WarnIll
		if !s.known {
			code = WarnUnknownSymptom
		}
		c.warn(Warning{Code: code, N: s.kind(), Day: s.last})
		c.warnStarts(s)
	}
	var out []Warning
	for i := range c.warns {
		if !c.saidBetter(i) {
			out = append(out, c.warns[i])
		}
	}
	c.warns = out
}

// starts are the warnings of a race's start, the gravest last.
var starts = []Code{WarnStartOpen, WarnStartIfWell, WarnDoNotStart}

// saidBetter reports a warning that another one says too, for who has two troubles at
// once: of two that are the same the first stays, of a race's start the gravest.
func (c *calendar) saidBetter(i int) bool {
	w := &c.warns[i]
	grave := slices.Index(starts, w.Code)
	for j := range c.warns {
		switch o := &c.warns[j]; {
		case i == j:
		case w.Code == WarnIll:
			if o.Code == WarnIll && o.N == w.N && j < i {
				return true
			}
		case grave >= 0 && o.Race == w.Race:
			other := slices.Index(starts, o.Code)
			if other > grave || other == grave && (o.Day < w.Day || o.Day == w.Day && j < i) {
				return true
			}
		}
	}
	return false
}

// What a warning of an illness is about.
const (
	Unwell = iota
	HeadCold
	Injured
	Cleared // by a doctor
)

func (s *spell) kind() int {
	switch {
	case !s.Cleared.IsZero() && s.severity == redFlag:
		return Cleared
	case s.Injury:
		return Injured
	case s.severity == headCold:
		return HeadCold
	}
	return Unwell
}

func (c *calendar) warnStarts(s spell) {
	near := s.noStart()
	soon := max(c.today, s.From).AddDays(stillIllReaches)
	for _, r := range c.races {
		switch {
		case r.Last() < c.today || r.Last() < s.From || s.To.IsZero() && s.Cleared.IsZero() && r.Date > soon:
		case s.mayStart(r.Date, c.today):
			c.warn(Warning{Code: WarnStartOpen, Race: r, N: s.kind(), M: c.today.DaysUntil(r.Date), Day: r.Date.AddDays(-s.free())})
		case r.Date <= near:
			c.warn(Warning{Code: WarnDoNotStart, Race: r, N: s.kind()})
		case r.Date <= s.last.AddDays(wellReach):
			c.warn(Warning{Code: WarnStartIfWell, Race: r, N: s.kind()})
		}
	}
}
