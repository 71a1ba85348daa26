package plannertest

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"sort"
	"strings"
)

// The output as docs/contract.md has it. Each key must be there and no other.
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
	Gain           *struct {
		Low  float64 `json:"low"`
		Mid  float64 `json:"mid"`
		High float64 `json:"high"`
	} `json:"gain"`
	Why []outWhy `json:"why"`
}

type outWarning struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// parseOutput reads a plan. Written again it must be the same: no key is missing,
// none is unknown, no list is null.
func parseOutput(data []byte) (*outFile, error) {
	out := &outFile{}
	if err := json.Unmarshal(data, out); err != nil {
		return nil, fmt.Errorf("output: %w", err)
	}
	again, err := json.Marshal(out)
	if err != nil {
		return nil, fmt.Errorf("output: %w", err)
	}
	var got, want any
	if json.Unmarshal(data, &got) != nil || json.Unmarshal(again, &want) != nil || !reflect.DeepEqual(got, want) {
		return nil, fmt.Errorf("output: a key is missing or unknown")
	}
	for _, null := range []string{`"days"`, `"tapers"`, `"warnings"`, `"usual"`, `"sessions"`, `"why"`, `"cautions"`} {
		if bytes.Contains(again, []byte(null+":null")) {
			return nil, fmt.Errorf("output: %s is null", null)
		}
	}
	return out, nil
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

func keys(list []outSession) string {
	var all []string
	for _, s := range list {
		all = append(all, s.key())
	}
	sort.Strings(all)
	return strings.Join(all, ", ")
}

// minutes is the riding time of a day's sessions.
func minutes(list []outSession) int {
	total := 0
	for _, s := range list {
		if s.isRide() {
			total += s.Minutes
		}
	}
	return total
}

func hard(list []outSession) bool {
	for _, s := range list {
		if s.isHard() {
			return true
		}
	}
	return false
}

func has(list []outSession, kind string) bool {
	for _, s := range list {
		if s.Kind == kind {
			return true
		}
	}
	return false
}

// easy tells that no ride of the day is more than easy.
func (d *outDay) easy() bool {
	for _, s := range d.Sessions {
		if s.isRide() && s.Effort != "easy" {
			return false
		}
	}
	return true
}
