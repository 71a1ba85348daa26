package words

import (
	"fmt"

	"musette/planner"
	"musette/planner/engine"
)

// Warning is a compromise that the rider must know. Code is a rule id. Race is
// the race that it concerns, which the text names; nil concerns the whole plan.
// Command is the command that the text ends with, if there is one.
type Warning struct {
	Code, Text string
	Race       *planner.Race
	Command    string
}

// weigh is the command that compares choices of A races.
const weigh = "season check"

// Warnings words all warnings of a plan.
func Warnings(p *engine.Plan) []Warning {
	out := make([]Warning, len(p.Warnings))
	for i := range p.Warnings {
		w := &p.Warnings[i]
		code, text := warning(w)
		out[i] = Warning{Code: code, Text: text, Race: w.Race}
		if w.Code == engine.WarnCloseA {
			out[i].Command = weigh
		}
	}
	return out
}

func warning(w *engine.Warning) (code, text string) {
	if plain, is := warnings[w.Code]; is {
		return plain.rule.id, fill(plain.text, engine.Cause{N: w.N, Day: w.Day}, w.Race, "OTHER", raceName(w.Other), "DAYS", days(w.N))
	}
	if code, text = raceWarning(w); code == "" {
		code, text = healthWarning(w)
	}
	return code, text
}

func raceWarning(w *engine.Warning) (code, text string) {
	name, other := raceName(w.Race), raceName(w.Other)
	switch w.Code {
	case engine.WarnSameDay:
		return ruleSameDay.id, fmt.Sprintf("%s (%s, %s) falls on a race day of %s (%s), which comes first, so that day is planned for %s. Change or remove one of them.",
			name, w.Race.Priority, w.Race.Date.Short(), other, w.Other.Priority, other)
	case engine.WarnLate:
		if w.N <= 0 {
			return ruleLate.id, fmt.Sprintf("%s was registered on race day, so no day is left for a taper.", name)
		}
		return ruleLate.id, fmt.Sprintf("%s was registered %s before the race. A taper of %s no longer fits, so it takes the days that are left.", name, days(w.N), days(w.M))
	case engine.WarnBlockShort:
		return ruleUnload.id, fmt.Sprintf("The overload block leaves %s before %s, and %d would be better. End the block on %s instead.", days(w.N), name, engine.BlockDays, w.Day.Short())
	case engine.WarnCloseA:
		so := "so there is little time to train between them"
		if w.M > 0 {
			so = "so the second cannot have a whole taper"
		}
		return ruleClose.id, fmt.Sprintf("%s and %s are A races %s apart, %s. Weigh making one of them a B race with /"+weigh, other, name, days(w.N), so)
	case engine.WarnNoOpeners:
		if w.Cause.Code == engine.WhyOpenersHeavy {
			return ruleLighter.id, fmt.Sprintf("There are no openers before %s: they would make your taper heavier than your usual week. Warm up longer on the day.", name)
		}
		return ruleOpeners.id, fmt.Sprintf("Neither of the two days before %s has room for openers. Warm up longer on the day.", name)
	case engine.WarnCut:
		return ruleCut.id, cutText(name, w)
	}
	return "", ""
}

// cutText names the one thing that kept a taper from its cut.
func cutText(name string, w *engine.Warning) string {
	what := fmt.Sprintf("The taper for %s cuts your time by %d %%, not by %d %%", name, w.N, w.M)
	if w.N < 0 {
		what = fmt.Sprintf("The taper for %s has %d %% more time than usual, not %d %% less", name, -w.N, w.M)
	}
	switch w.Cause.Code {
	case engine.WhyRace:
		return what + ": the race inside it takes the time."
	case engine.WhyAway:
		return what + ": you cannot ride on some of its days."
	case engine.WhyIll:
		return what + ": days of illness have no training."
	case engine.WhyToldThen:
		return what + ": some of its days are over already."
	case engine.WhyLimit:
		return what + ": you have little time on some of its days."
	case engine.WhyMoved:
		return what + ": some of its days were set by hand."
	case engine.WhyFall:
		return what + ": the last rides before a race stay short."
	}
	return what + ": shorter rides would not be worth riding."
}

func healthWarning(w *engine.Warning) (code, text string) {
	name := raceName(w.Race)
	const unwell = "You do not train until you have been free of symptoms for " + WellFor + ". Then easy days come before hard ones. See a doctor if it is severe, gets worse or lasts."
	const cold = "With a head cold you rest until it is over. With fever, cough, aches or chest symptoms rest longer, and see a doctor if it gets worse."
	const injured = "You do not train until you have been free of pain for " + WellFor + ". Then easy days come before hard ones. See a doctor if it is severe, gets worse or lasts."
	const cleared = "A doctor has cleared you, so you come back in short, easy rides before hard days. If any symptom returns, stop and ask the doctor again."
	switch w.Code {
	case engine.WarnHold:
		return ruleStop.id, held(w.Level)
	case engine.WarnUnknownSymptom:
		return ruleEasy.id, "I do not know one of your symptoms, so I treat it with caution. " + unwell
	case engine.WarnIll:
		return ruleEasy.id, [...]string{engine.Unwell: unwell, engine.HeadCold: cold, engine.Injured: injured, engine.Cleared: cleared}[w.N]
	case engine.WarnDoNotStart:
		return ruleEasy.id, DoNotStart(w.Race, w.N == engine.Injured)
	case engine.WarnStartOpen:
		well := "been free of symptoms"
		if w.N == engine.Injured {
			well = "been free of pain"
		}
		return ruleEasy.id, fmt.Sprintf("%s on %s is %s away, too early to say whether you can start. Start only if you have %s since %s or longer, and easy riding goes well. If you are not sure, ask a doctor first.",
			name, w.Race.Date.Short(), days(w.M), well, w.Day.Short())
	case engine.WarnStartIfWell:
		return ruleBack.id, fmt.Sprintf("You have had little time after your %s before %s on %s. Start only without any symptom and with your usual pulse at rest. If you are not sure, ask a doctor first.", trouble(w.N), name, w.Race.Date.Short())
	case engine.WarnMoveDropped:
		return ruleMoved.id, fmt.Sprintf("Your swap of %s and %s no longer fits, so it is left out.", w.Day.Short(), w.To.Short())
	}
	return "", ""
}

// DoNotStart is what a rider reads of a race that comes too soon after an illness or an injury.
func DoNotStart(race *planner.Race, injured bool) string {
	kind := engine.Unwell
	if injured {
		kind = engine.Injured
	}
	return fmt.Sprintf("Do not start %s on %s: you need more time after your %s. Ask a doctor before you race.", race.Name, race.Date.Short(), trouble(kind))
}

func trouble(kind int) string {
	if kind == engine.Injured {
		return "injury"
	}
	return "illness"
}

func raceName(r *planner.Race) string {
	if r == nil {
		return "the race"
	}
	return r.Name
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
