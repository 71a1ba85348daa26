package plans

// What the tests of this room look at.
const MostScreen = mostScreen

const ScreenDays = screenDays

type Scheduled = scheduled

var AddChange = addChange

var ClashRows = clashRows

var CutRows = cutRows

var NoOptions = noOptions

var NoSeason = noSeason

var NoTaperToCome = noTaperToCome

var OptionLines = optionLines

var SeasonCost = seasonCost

var SeasonMeant = seasonMeant

var SeasonReply = seasonReply

var SeasonVerdict = seasonVerdict

var Swappable = swappable

var TradeOf = tradeOf
