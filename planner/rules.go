package planner

// Rule ids, as plan files and docs/rules.md carry them.
const (
	ruleVolume     = "taper.volume"
	ruleLeast      = "taper.least"
	ruleMost       = "taper.most"
	ruleShape      = "taper.shape"
	ruleFrequency  = "taper.frequency"
	ruleIntensity  = "taper.intensity"
	rulePolar      = "taper.polar"
	rulePattern    = "taper.pattern"
	ruleOneWeek    = "taper.one-week"
	ruleTwoWeek    = "taper.two-week"
	ruleOverload   = "taper.overload"
	ruleOpeners    = "taper.openers"
	ruleLength     = "length.auto"
	ruleRaceDay    = "race.day"
	ruleRaceAfter  = "race.after"
	ruleRaceLate   = "race.late"
	ruleSameDay    = "race.same-day"
	ruleHours      = "race.hours"
	ruleHalf       = "b.window"
	ruleThrough    = "c.train-through"
	ruleThroughEnd = "c.after"
	ruleClose      = "season.close"
	ruleInside     = "season.inside"
	ruleOff        = "day.off"
	ruleLimit      = "day.limit"
	ruleTravel     = "day.travel"
	ruleLogged     = "day.logged"
	ruleMoved      = "day.moved"
	ruleStop       = "health.stop"
	ruleEasy       = "health.easy"
)

const commonPractice = "common practice"

// sources says where each rule comes from; docs/rules.md lists the papers in full.
var sources = map[string]string{
	ruleVolume:     "Bosquet et al. 2007: best effect at a 41-60 % volume cut",
	ruleLeast:      commonPractice,
	ruleMost:       commonPractice,
	ruleShape:      "Mujika & Padilla 2003: progressive tapers at least as good as a step",
	ruleFrequency:  "Mujika & Padilla 2003: cut frequency by no more than 20 %",
	ruleIntensity:  "Bosquet et al. 2007; Hickson et al. 1985: keep intensity",
	rulePolar:      commonPractice,
	rulePattern:    commonPractice,
	ruleOneWeek:    commonPractice,
	ruleTwoWeek:    "Bosquet et al. 2007: 8-14 days; the order of days is common practice",
	ruleOverload:   "Thomas & Busso 2005; Aubry et al. 2014: longer taper after overload",
	ruleOpeners:    commonPractice,
	ruleLength:     "Bosquet et al. 2007: 8-14 days; linear response model (Calvert et al. 1976; Morton et al. 1990)",
	ruleRaceDay:    commonPractice,
	ruleRaceAfter:  commonPractice,
	ruleRaceLate:   commonPractice,
	ruleSameDay:    commonPractice,
	ruleHours:      commonPractice,
	ruleHalf:       commonPractice,
	ruleThrough:    commonPractice,
	ruleThroughEnd: commonPractice,
	ruleClose:      commonPractice,
	ruleInside:     commonPractice,
	ruleOff:        commonPractice,
	ruleLimit:      commonPractice,
	ruleTravel:     commonPractice,
	ruleLogged:     commonPractice,
	ruleMoved:      commonPractice,
	ruleStop:       "IOC consensus 2022 on acute respiratory illness; consensus on concussion in sport 2017",
	ruleEasy:       "IOC consensus 2022 on acute respiratory illness in athletes",
}
