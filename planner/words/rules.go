package words

// Rule ids, as plan files and docs/rules.md carry them.
const (
	ruleLength   = "taper.length"
	ruleCut      = "taper.cut"
	ruleHardDays = "taper.hard-days"
	ruleSet      = "taper.set"
	ruleDose     = "taper.dose"
	ruleOpeners  = "taper.openers"
	ruleRest     = "taper.rest"
	ruleStrength = "taper.strength"
	ruleMinutes  = "taper.minutes"
	ruleLighter  = "taper.lighter"
	ruleRace     = "race.day"
	ruleSameDay  = "race.same-day"
	ruleHours    = "race.hours"
	ruleLate     = "race.late"
	ruleAfter    = "race.after"
	ruleReturn   = "race.return"
	ruleB        = "b.days"
	ruleC        = "c.days"
	ruleBlock    = "block.days"
	ruleUnload   = "block.after"
	ruleClose    = "season.close"
	ruleInside   = "season.inside"
	ruleOff      = "day.off"
	ruleLimit    = "day.limit"
	ruleTravel   = "day.travel"
	ruleLogged   = "day.logged"
	ruleMoved    = "day.moved"
	rulePinned   = "day.pinned"
	rulePast     = "day.past"
	ruleStop     = "health.stop"
	ruleEasy     = "health.easy"
	ruleBack     = "health.return"
)

const (
	commonPractice = "common practice"
	ourChoice      = "our choice"
)

// sources says where each rule comes from. docs/rules.md lists the papers in full.
var sources = map[string]string{
	ruleLength:   "Bosquet et al. 2007: 8-14 days; the table by weekly hours is common practice",
	ruleCut:      "Bosquet et al. 2007: best effect at a 41-60 % volume cut",
	ruleHardDays: commonPractice,
	ruleSet:      commonPractice,
	ruleDose:     "Bosquet et al. 2007, Hickson et al. 1985: keep intensity; the shares of a set are our choice",
	ruleOpeners:  commonPractice,
	ruleRest:     "Mujika & Padilla 2003: cut frequency by no more than 20 %",
	ruleStrength: commonPractice,
	ruleMinutes:  "Bosquet et al. 2007: cut volume, progressively; the shares of a day are our choice",
	ruleLighter:  "the model of docs/model.md: no taper that it expects to be worse than none; the margin is our choice",
	ruleRace:     commonPractice,
	ruleSameDay:  commonPractice,
	ruleHours:    ourChoice,
	ruleLate:     commonPractice,
	ruleAfter:    commonPractice,
	ruleReturn:   "common practice; the shares are our choice",
	ruleB:        commonPractice,
	ruleC:        commonPractice,
	ruleBlock:    "your own plan",
	ruleUnload:   "Aubry et al. 2014: rest before overload costs performance; the number of days is our choice",
	ruleClose:    commonPractice,
	ruleInside:   commonPractice,
	ruleOff:      "your own entry",
	ruleLimit:    "your own entry",
	ruleTravel:   commonPractice,
	ruleLogged:   "your own log",
	ruleMoved:    "your own wish",
	rulePinned:   "set by hand",
	rulePast:     "what you were told then",
	ruleStop:     "IOC consensus 2022 on acute respiratory illness; consensus on concussion in sport 2022",
	ruleEasy:     "IOC consensus 2022 on acute respiratory illness in athletes",
	ruleBack:     "IOC consensus 2022: back step by step; the minutes are our choice",
}
