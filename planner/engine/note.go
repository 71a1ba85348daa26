package engine

import "musette/planner"

// cause says why a day may not be hard; none is the zero value.
type cause struct {
	code Code
	race *planner.Race
	day  planner.Date // the neighbour, where there is one
}

func (c cause) is() bool { return c.code != 0 }

// note is a reason as the rule that decided it left it.
type note struct {
	code Code
	n    int
	day  planner.Date
	race *planner.Race
}

type Code uint8

const (
	NoReason Code = iota
	// settled days
	WhyRace
	WhyLogged
	WhyMissed
	WhyToldThen
	WhyPinned
	WhyMoved
	WhyBusy
	WhyAway
	WhyTravel
	WhyLimit
	WhyLimitSet
	WhyBlock
	// health
	WhyIll
	WhyIllFree
	WhyIllReturn
	WhyIllRace
	WhyIllStart
	WhyIllHalf
	WhyIllOne
	WhyHold
	WhyHead
	// hard days
	WhyHardKept
	WhyHardHalf
	WhyHardShort
	WhyHardEve
	WhyHardFromEve
	WhyHardTouch
	WhyHardTouchFree
	WhyHardPattern
	WhyHardMovedAway
	WhyHardNear
	WhyHardNextHard
	WhyHardNextRace
	WhyHardPair
	WhyHardEnough
	WhyHardHeavy
	WhyOpenersHeavy
	WhyHardPatternOff
	WhyHardRoom
	WhyHardAfterEve
	WhySetShort
	// easy days
	WhyShorter
	WhyEasy
	WhyFall
	WhyTooShort
	WhyOpeners
	WhyOpenersD2
	WhyOpenersWish
	WhyFreeEve
	WhyFreeMoved
	WhyRestBeforeLong
	WhyFreeKept
	WhyStrengthLight
	WhyStrengthEnds
	// around other races
	WhyBlockAfter
	WhyAfterRest
	WhyAfterEasy
	WhyReturnSet
	WhyReturnLong
	WhyBRecovery
	WhyBShort
	WhyBMovedHere
	WhyBLeftOut
	WhyBImportant
	WhyBAfter
	WhyBAfterEasy
	WhyInsideBefore
	WhyInsideAfter
	WhyCGives
	WhyCMovedHere
	WhyCMovedAway
	WhyCAfter
	WhyCBefore
)
