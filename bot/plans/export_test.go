package plans

import (
	"musette/bot/say"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
)

// What the tests of this room look at.
const MostScreen = mostScreen

const ScreenDays = screenDays

type Scheduled = scheduled

var NoOptions = noOptions

var NoSeason = noSeason

var NoTaperToCome = noTaperToCome

func OptionsReply(o *season.Options, t *engine.Taper, all *planner.Facts, race *planner.Race, known *planner.Facts, today planner.Date) say.Reply {
	return optionsReply(&lengthOffer{o, t, race, asB(today, all, race)}, known, today)
}

var SeasonCard = seasonCard

var SeasonFlags = seasonFlags

var SeasonReply = seasonReply

var Swappable = swappable

var TradeOf = tradeOf

var CutRows = cutRows

var SeasonVerdict = seasonVerdict

var WhyTry = whyTry

var LegsLines = legsLines
