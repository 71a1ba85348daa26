package engine

import "strings"

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

// headWords are the red flags of a knock to the head.
var headWords = []string{"head", "concuss", "unconscious"}

// gravity is the gravest reading of the symptoms; head tells of a knock to the
// head, known is false where a word was not understood.
func gravity(symptoms []string) (worst severity, head, known bool) {
	known = true
	if len(symptoms) == 0 {
		return noTraining, false, false
	}
	for _, symptom := range symptoms {
		s, ok := readSymptom(symptom)
		worst, known = max(worst, s), known && ok
		for _, word := range headWords {
			head = head || s == redFlag && strings.Contains(strings.ToLower(symptom), word)
		}
	}
	return worst, head, known
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
