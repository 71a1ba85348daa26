package plannertest

import (
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
	Gain           *outGain `json:"gain"`
	Why            []outWhy `json:"why"`
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

func parseOutput(data []byte) (*outFile, error) {
	var raw any
	if err := json.Unmarshal(data, &raw); err != nil {
		return nil, fmt.Errorf("output: %w", err)
	}
	out := &outFile{}
	if err := sameKeys("output", raw, reflect.TypeOf(*out)); err != nil {
		return nil, err
	}
	if err := json.Unmarshal(data, out); err != nil {
		return nil, fmt.Errorf("output: %w", err)
	}
	return out, nil
}

// sameKeys compares raw JSON with a type: all keys, no other, no list that is null.
func sameKeys(at string, raw any, t reflect.Type) error {
	switch t.Kind() {
	case reflect.Pointer:
		if raw == nil {
			return nil
		}
		return sameKeys(at, raw, t.Elem())
	case reflect.Slice:
		list, ok := raw.([]any)
		if !ok {
			return fmt.Errorf("%s is no list", at)
		}
		for i, e := range list {
			if err := sameKeys(fmt.Sprintf("%s[%d]", at, i), e, t.Elem()); err != nil {
				return err
			}
		}
	case reflect.Struct:
		m, _ := raw.(map[string]any)
		if len(m) != t.NumField() {
			return fmt.Errorf("%s has %d keys, want %d", at, len(m), t.NumField())
		}
		for i := range t.NumField() {
			key := t.Field(i).Tag.Get("json")
			e, ok := m[key]
			if !ok {
				return fmt.Errorf("%s has no %q", at, key)
			}
			if err := sameKeys(at+"."+key, e, t.Field(i).Type); err != nil {
				return err
			}
		}
	default:
		if raw == nil {
			return fmt.Errorf("%s is null", at)
		}
	}
	return nil
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
