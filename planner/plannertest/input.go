package plannertest

import (
	"encoding/json"
	"fmt"
	"sort"
	"strings"
)

type inputFile struct {
	Today   string            `json:"today"`
	Zone    string            `json:"zone,omitempty"`
	Week    map[string]string `json:"week"`
	Races   []inputRace       `json:"races"`
	Taper   map[string]any    `json:"taper,omitempty"`
	Blocks  []span            `json:"blocks,omitempty"`
	Away    []span            `json:"away,omitempty"`
	Limits  []limit           `json:"limits,omitempty"`
	Sick    []span            `json:"sick,omitempty"`
	Done    []logged          `json:"done,omitempty"`
	Results []map[string]any  `json:"results,omitempty"`
}

type inputRace struct {
	Name       string  `json:"name"`
	Date       string  `json:"date"`
	Priority   string  `json:"priority"`
	Hours      float64 `json:"hours,omitempty"`
	Kind       string  `json:"kind,omitempty"`
	Days       int     `json:"days,omitempty"`
	Start      string  `json:"start,omitempty"`
	Emphasis   string  `json:"emphasis,omitempty"`
	Registered string  `json:"registered,omitempty"`
}

type span struct {
	From     string   `json:"from"`
	To       string   `json:"to,omitempty"`
	Percent  int      `json:"percent,omitempty"`
	Kind     string   `json:"kind,omitempty"`
	Symptoms []string `json:"symptoms,omitempty"`
	from, to day
}

func (s span) has(d day) bool { return s.from <= d && d <= s.to }

type limit struct {
	Date    string `json:"date"`
	Minutes int    `json:"minutes"`
}

type logged struct {
	Date    string `json:"date"`
	Minutes int    `json:"minutes"`
	RPE     int    `json:"rpe,omitempty"`
}

// race is an input race with its days resolved; hours is 0 where not told.
type race struct {
	inputRace
	date, last, registered day
}

func (r *race) rank() int     { return strings.Index("CBA", r.Priority) }
func (r *race) on(d day) bool { return r.date <= d && d <= r.last }
func (r *race) length() float64 {
	if r.Hours == 0 {
		return 2
	}
	return r.Hours
}

// recovery is the number of days after an A race without hard or steady rides.
func (r *race) recovery() int {
	h := r.length()
	switch {
	case r.last > r.date || h > 8:
		return 7
	case h > 5:
		return 5
	case h > 3:
		return 3
	case h >= 1.5:
		return 2
	}
	return 1
}

// openEnd stands for an end that is not told.
const openEnd = day(1 << 30)

func parseSpans(spans []span) error {
	for i := range spans {
		s := &spans[i]
		var err error
		if s.from, err = parseDay(s.From); err != nil {
			return err
		}
		s.to = openEnd
		if s.To != "" {
			if s.to, err = parseDay(s.To); err != nil {
				return err
			}
		}
	}
	return nil
}

func parseInput(data []byte) (inputFile, []*race, error) {
	var in inputFile
	if err := json.Unmarshal(data, &in); err != nil {
		return in, nil, fmt.Errorf("input: %w", err)
	}
	for _, spans := range [][]span{in.Blocks, in.Away, in.Sick} {
		if err := parseSpans(spans); err != nil {
			return in, nil, fmt.Errorf("input: %w", err)
		}
	}
	var races []*race
	for _, ir := range in.Races {
		r := &race{inputRace: ir}
		var err error
		if r.date, err = parseDay(ir.Date); err != nil {
			return in, nil, fmt.Errorf("input: %w", err)
		}
		r.last = r.date + day(max(ir.Days, 1)) - 1
		reg := ir.Registered
		if reg == "" {
			reg = in.Today
		}
		if r.registered, err = parseDay(reg); err != nil {
			return in, nil, fmt.Errorf("input: %w", err)
		}
		races = append(races, r)
	}
	sort.SliceStable(races, func(i, j int) bool { return races[i].date < races[j].date })
	return in, races, nil
}
