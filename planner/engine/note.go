package engine

import "musette/planner"

// cause says why a day may not be hard; none is the zero value.
type cause struct {
	code noteCode
	race *planner.Race
	day  planner.Date // the neighbour, where there is one
}

func (c cause) is() bool { return c.code != 0 }

// note is a reason as the rule that decided it left it.
type note struct {
	code noteCode
	n    int
	day  planner.Date
	race *planner.Race
}

type noteCode uint8

const (
	noNote noteCode = iota
	// settled days
	noteRace
	noteLogged
	noteMissed
	noteToldThen
	notePinned
	noteMoved
	noteBusy
	noteAway
	noteTravel
	noteLimit
	noteLimitSet
	noteBlock
	// health
	noteIll
	noteIllFree
	noteIllReturn
	noteIllRace
	noteIllStart
	noteIllHalf
	noteIllOne
	noteHold
	noteHead
	// hard days
	noteHardKept
	noteHardHalf
	noteHardShort
	noteHardEve
	noteHardFromEve
	noteHardTouch
	noteHardTouchFree
	noteHardPattern
	noteHardMovedAway
	noteHardNear
	noteHardNextHard
	noteHardNextRace
	noteHardPair
	noteHardEnough
	noteHardPatternOff
	noteHardRoom
	noteHardAfterEve
	noteSetShort
	// easy days
	noteShorter
	noteEasy
	noteFall
	noteTooShort
	noteOpeners
	noteOpenersD2
	noteOpenersWish
	noteOpenersNone
	noteFreeEve
	noteFreeMoved
	noteFreeKept
	noteStrengthLight
	noteStrengthEnds
	// around other races
	noteBlockAfter
	noteAfterRest
	noteAfterEasy
	noteReturnSet
	noteReturnLong
	noteBEve
	noteBRecovery
	noteBShort
	noteBMovedHere
	noteBLeftOut
	noteBImportant
	noteBAfter
	noteBAfterEasy
	noteInsideBefore
	noteInsideAfter
	noteCTakes
	noteCGives
	noteCMovedHere
	noteCMovedAway
	noteCAfter
	noteCBefore
)
