package planner

import (
	"fmt"
	"strings"
)

// Days that an illness takes beyond its last day with symptoms. The International
// Olympic Committee's consensus (2022) and common practice stand behind them.
const (
	freeDays       = 2 // 48 h without symptoms before any training
	minReturnDays  = 2 // easy days before the first hard day
	maxReturnDays  = 7
	illnessReach   = 21 // while still ill, races this near are warned about
	feverRaceReach = 3  // an A race this near to a fever should not be started
)

type severity uint8

const (
	headCold severity = iota
	noTraining
	redFlag
)

// Words in a told symptom, the gravest list first. Anything else is treated
// like fever: cautiously.
var symptomWords = []struct {
	severity severity
	words    []string
}{
	{redFlag, []string{"faint", "syncope", "passed out", "pass out", "blackout", "black out", "collapse", "breathless at rest", "breathlessness at rest", "short of breath", "shortness of breath",
		"trouble breathing", "difficulty breathing", "breathing difficult", "can't breathe", "cannot breathe", "palpitation", "irregular heart", "racing heart", "heart rac", "heart flutter",
		"heart skip", "heart pound", "pounding heart", "heart pain", "heat stroke", "confus", "seizure", "concuss", "head knock", "knock on the head", "knocked my head", "hit my head", "hit head",
		"head injury", "head trauma", "unconscious", "arm pain", "jaw pain"}},
	{noTraining, []string{"fever", "temperature", "chill", "chest", "cough", "breath", "wheez", "gut", "stomach", "belly", "nausea", "vomit", "diarrh", "ache", "aching", "fatigue", "exhaust", "dizz", "headache", "flu", "covid", "swollen", "swelling", "tired", "sick", "dark urine", "severe", "persistent", "unwell", "infection"}},
	{headCold, []string{"cold", "runny nose", "blocked nose", "stuffy nose", "sniffle", "sneez", "sore throat", "scratchy throat", "nose", "throat"}},
}

// gravity is the gravest reading of the symptoms; known is false where a word was not understood.
func gravity(symptoms []string) (worst severity, known bool) {
	known = true
	if len(symptoms) == 0 {
		return noTraining, false
	}
	for _, symptom := range symptoms {
		s, ok := readSymptom(symptom)
		worst, known = max(worst, s), known && ok
	}
	return worst, known
}

// chestTrouble are words that make a symptom of the chest a red flag.
var chestTrouble = []string{"pain", "hurt", "tight", "press", "discomfort", "ache", "aching", "crush", "squeez", "burn"}

func readSymptom(symptom string) (severity, bool) {
	symptom = strings.NewReplacer("-", " ", "_", " ", "’", "'").Replace(strings.ToLower(symptom))
	if strings.Contains(symptom, "chest") {
		for _, word := range chestTrouble {
			if strings.Contains(symptom, word) {
				return redFlag, true
			}
		}
	}
	for _, list := range symptomWords {
		for _, word := range list.words {
			if strings.Contains(symptom, word) {
				return list.severity, true
			}
		}
	}
	return noTraining, false
}

// applyIllness lays illness over the plan. It reports true where a red flag
// leaves no plan at all: every day from its date on is rest until a doctor clears the rider.
func (c *calendar) applyIllness() (stopped bool) {
	today := c.plan.Today
	for _, ill := range c.facts.Ill {
		if worst, _ := gravity(ill.Symptoms); worst == redFlag {
			c.stopFrom(ill.From)
			stopped = true
		}
	}
	if stopped {
		c.plan.Warnings = []Warning{{Code: ruleStop,
			Text: "Stop training now and see a doctor; with chest pain, fainting or trouble breathing call the emergency number. After a knock on the head do not ride; have it assessed. No plan and no race until a doctor has cleared you."}}
		return true
	}
	for _, ill := range c.facts.Ill {
		worst, known := gravity(ill.Symptoms)
		last := ill.To
		if last.IsZero() {
			last = c.first.AddDays(len(c.slots))
		}
		back := last
		if worst == noTraining {
			back = last.AddDays(freeDays)
		}
		end := back.AddDays(returnDays(ill, worst))
		c.layIllness(ill.From, last, back, end, worst)
		if end >= today {
			c.warnIllness(ill, last, end, worst, known)
		}
	}
	return false
}

// returnDays are as many easy days as the illness lasted, within bounds.
func returnDays(ill Illness, worst severity) int {
	if ill.To.IsZero() {
		return 0
	}
	if worst == headCold {
		return minReturnDays
	}
	return min(max(ill.From.DaysUntil(ill.To)+1, minReturnDays), maxReturnDays)
}

func (c *calendar) stopFrom(from Date) {
	for i := range c.slots {
		if s := &c.slots[i]; s.Date >= from {
			s.Phase, s.Race = Health, nil
			c.set(s)
			s.renote(noteStop)
		}
	}
}

func (c *calendar) layIllness(from, last, back, end Date, worst severity) {
	for d := max(from, c.first); d <= end; d++ {
		s := c.at(d)
		if s == nil {
			return
		}
		switch {
		case d <= last && worst == headCold:
			c.halve(s, noteCold)
		case d <= last:
			c.rest(s, noteIll)
		case d <= back:
			c.rest(s, noteSymptomFree)
		case s.claim != claimRace:
			c.halve(s, noteReturn)
		}
	}
}

func (c *calendar) rest(s *slot, why noteCode) {
	s.Phase = Health
	c.set(s)
	if s.claim == claimRace {
		why = noteIllRace
	}
	s.renote(why)
}

// halve leaves at most half of the usual or planned minutes, easy; a race is not ridden.
func (c *calendar) halve(s *slot, why noteCode) {
	s.Phase = Health
	minutes := floor5(min(rideMinutes(s.Sessions), rideMinutes(s.Usual)/2))
	if s.claim == claimTaper {
		minutes = min(minutes, mostEasy(c.facts.weekOn(s.Date).hours()))
	}
	switch {
	case s.claim == claimRace:
		c.rest(s, why)
		return
	case minutes < shortestRide:
		c.set(s)
	default:
		c.set(s, easyRide(s.Usual, minutes))
	}
	s.renote(why)
}

func (c *calendar) warnIllness(ill Illness, last, end Date, worst severity, known bool) {
	text := "You are unwell: no training until two days free of symptoms, then easy days before hard ones. See a doctor if it is severe, gets worse or lasts."
	if worst == headCold {
		text = "A head cold: easy at most and half the time, stop if it gets worse. With fever, cough, aches or chest symptoms do not train at all."
	}
	if !known {
		text = "A symptom that musette does not know is treated with caution: " + text
	}
	c.warn(ruleEasy, nil, text)
	soon := max(c.plan.Today, ill.From).AddDays(illnessReach)
	for _, r := range c.races {
		if r.Last() < c.plan.Today || r.Last() < ill.From || ill.To.IsZero() && r.Date > soon {
			continue
		}
		near := last.AddDays(feverRaceReach)
		if worst == headCold {
			near = last
		}
		if r.Date <= max(near, last) {
			c.warn(ruleEasy, r, fmt.Sprintf("Do not start %s on %s: it is too near to this illness. Ask a doctor before you race.", r.Name, r.Date.Short()))
		} else if r.Date <= end.AddDays(maxReturnDays) {
			c.warn(ruleEasy, r, fmt.Sprintf("The days before %s stay easy after this illness: volume and hard days are below a normal taper.", r.Name))
		}
	}
}
