package plannertest

import (
	"encoding/json"
	"fmt"
	"sort"
)

type outFile struct {
	Days     []outDay     `json:"days"`
	Tapers   []outTaper   `json:"tapers"`
	Warnings []outWarning `json:"warnings"`
}

type outDay struct {
	Date     string       `json:"date"`
	Weekday  string       `json:"weekday"`
	Phase    string       `json:"phase"`
	Race     *string      `json:"race"`
	Usual    []outSession `json:"usual"`
	Sessions []outSession `json:"sessions"`
	Why      []outWhy     `json:"why"`
	Cautions []string     `json:"cautions"`
}

type outSession struct {
	Kind    string  `json:"kind"`
	Minutes int     `json:"minutes"`
	Effort  string  `json:"effort"`
	Sets    *string `json:"sets"`
	RPE     string  `json:"rpe"`
	Text    string  `json:"text"`
}

type outWhy struct {
	Rule   string `json:"rule"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

type outTaper struct {
	Race           string   `json:"race"`
	Priority       string   `json:"priority"`
	Days           int      `json:"days"`
	From           string   `json:"from"`
	CutPercent     float64  `json:"cut_percent"`
	UsualMinutes   int      `json:"usual_minutes"`
	PlannedMinutes int      `json:"planned_minutes"`
	UsualRides     int      `json:"usual_rides"`
	PlannedRides   int      `json:"planned_rides"`
	FitnessKept    *float64 `json:"fitness_kept"`
	FatigueShed    *float64 `json:"fatigue_shed"`
	Gain           *outGain `json:"gain"`
}

type outGain struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

type outWarning struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

func (s outSession) isRide() bool { return s.Kind != "rest" && s.Kind != "strength" }
func (s outSession) isHard() bool { return s.Effort == "hard" || s.Effort == "race" }

// key holds what makes a session differ from another.
func (s outSession) key() string {
	sets := ""
	if s.Sets != nil {
		sets = " " + *s.Sets
	}
	return fmt.Sprintf("%s %d %s%s", s.Kind, s.Minutes, s.Effort, sets)
}

func sessionKeys(list []outSession) []string {
	var keys []string
	for _, s := range list {
		keys = append(keys, s.key())
	}
	sort.Strings(keys)
	return keys
}

func (d *outDay) minutes() int { return rideMinutes(d.Sessions) }

func rideMinutes(list []outSession) int {
	total := 0
	for _, s := range list {
		if s.isRide() {
			total += s.Minutes
		}
	}
	return total
}

func rideCount(list []outSession) int {
	n := 0
	for _, s := range list {
		if s.isRide() {
			n++
		}
	}
	return n
}

func (d *outDay) hard() bool {
	for _, s := range d.Sessions {
		if s.isHard() {
			return true
		}
	}
	return false
}

func (d *outDay) has(kind string) bool {
	for _, s := range d.Sessions {
		if s.Kind == kind {
			return true
		}
	}
	return false
}

// easyOnly tells that no ride of the day is more than easy.
func (d *outDay) easyOnly() bool {
	for _, s := range d.Sessions {
		if s.isRide() && s.Effort != "easy" {
			return false
		}
	}
	return true
}

// recoveryOnly tells that the day has recovery rides or none.
func (d *outDay) recoveryOnly() bool {
	for _, s := range d.Sessions {
		if s.isRide() && s.Kind != "recovery" {
			return false
		}
	}
	return d.easyOnly()
}

func (d *outDay) changed() bool {
	a, b := sessionKeys(d.Usual), sessionKeys(d.Sessions)
	if len(a) != len(b) {
		return true
	}
	for i := range a {
		if a[i] != b[i] {
			return true
		}
	}
	return false
}

var outputKeys = map[string][]string{
	"":         {"days", "tapers", "warnings"},
	"days":     {"date", "weekday", "phase", "race", "usual", "sessions", "why", "cautions"},
	"sessions": {"kind", "minutes", "effort", "sets", "rpe", "text"},
	"tapers": {"race", "priority", "days", "from", "cut_percent", "usual_minutes", "planned_minutes",
		"usual_rides", "planned_rides", "fitness_kept", "fatigue_shed", "gain"},
}

func parseOutput(data []byte) (outFile, error) {
	var out outFile
	var raw map[string]any
	if err := json.Unmarshal(data, &raw); err != nil {
		return out, fmt.Errorf("output: %w", err)
	}
	if err := checkKeys("", raw); err != nil {
		return out, err
	}
	if err := json.Unmarshal(data, &out); err != nil {
		return out, fmt.Errorf("output: %w", err)
	}
	return out, nil
}

// checkKeys finds missing keys and lists that are null, in raw and below.
func checkKeys(name string, raw map[string]any) error {
	for _, k := range outputKeys[name] {
		if _, ok := raw[k]; !ok {
			return fmt.Errorf("output: %q has no %q", name, k)
		}
	}
	lists := []string{"days", "tapers", "warnings", "usual", "sessions", "why", "cautions"}
	for _, k := range lists {
		v, ok := raw[k]
		if !ok || name == "tapers" {
			continue
		}
		list, ok := v.([]any)
		if !ok {
			return fmt.Errorf("output: %q is no list", k)
		}
		sub := k
		if k == "usual" {
			sub = "sessions"
		}
		for _, e := range list {
			if m, ok := e.(map[string]any); ok && outputKeys[sub] != nil {
				if err := checkKeys(sub, m); err != nil {
					return err
				}
			}
		}
	}
	return nil
}
