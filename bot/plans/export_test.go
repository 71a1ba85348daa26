package plans

// What the tests of this room look at.
const MostScreen = mostScreen

const ScreenDays = screenDays

type Scheduled = scheduled

var NoOptions = noOptions

var NoSeason = noSeason

var NoTaperToCome = noTaperToCome

var OptionsReply = optionsReply

var SeasonCard = seasonCard

var SeasonFlags = seasonFlags

var SeasonReply = seasonReply

var Swappable = swappable

var TradeOf = tradeOf

var CutRows = cutRows

var SeasonVerdict = seasonVerdict
