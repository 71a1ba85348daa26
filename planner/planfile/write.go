package planfile

import (
	"encoding/json"
	"io"
	"math"
	"strings"

	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

type planJSON struct {
	Days     []dayJSON     `json:"days"`
	Tapers   []taperJSON   `json:"tapers"`
	Warnings []warningJSON `json:"warnings"`
}

type dayJSON struct {
	Date     string        `json:"date"`
	Weekday  string        `json:"weekday"`
	Phase    string        `json:"phase"`
	Race     *string       `json:"race"`
	Usual    []sessionJSON `json:"usual"`
	Sessions []sessionJSON `json:"sessions"`
	Why      []reasonJSON  `json:"why"`
	Cautions []string      `json:"cautions"`
}

type sessionJSON struct {
	Kind    string  `json:"kind"`
	Minutes int     `json:"minutes"`
	Effort  string  `json:"effort"`
	Sets    *string `json:"sets"`
	RPE     string  `json:"rpe"`
	Text    string  `json:"text"`
}

type reasonJSON struct {
	Rule   string `json:"rule"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// taperJSON has null for the model's figures where nothing is usually ridden.
type taperJSON struct {
	Race           string       `json:"race"`
	Priority       string       `json:"priority"`
	Days           int          `json:"days"`
	From           string       `json:"from"`
	CutPercent     float64      `json:"cut_percent"`
	UsualMinutes   int          `json:"usual_minutes"`
	PlannedMinutes int          `json:"planned_minutes"`
	UsualRides     int          `json:"usual_rides"`
	PlannedRides   int          `json:"planned_rides"`
	FitnessKept    *float64     `json:"fitness_kept"`
	FatigueShed    *float64     `json:"fatigue_shed"`
	Gain           *gainJSON    `json:"gain"`
	Why            []reasonJSON `json:"why"`
}

type gainJSON struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

type warningJSON struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// Write writes a plan as indented JSON. Lists are never null, and a day without
// training holds one rest session of 0 minutes. The error is that of w.
func Write(w io.Writer, p *engine.Plan) error {
	out := planJSON{
		Days:     make([]dayJSON, len(p.Days)),
		Tapers:   make([]taperJSON, len(p.Tapers)),
		Warnings: make([]warningJSON, len(p.Warnings)),
	}
	for i := range p.Days {
		out.Days[i] = dayOf(&p.Days[i])
	}
	for i := range p.Tapers {
		out.Tapers[i] = taperOf(p, &p.Tapers[i])
	}
	for i, warning := range words.Warnings(p) {
		out.Warnings[i] = warningJSON{Code: warning.Code, Text: warning.Text}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}

func dayOf(d *engine.Day) dayJSON {
	out := dayJSON{
		Date:     d.Date.String(),
		Weekday:  strings.ToLower(d.Date.Weekday().Short()),
		Phase:    d.Phase.String(),
		Usual:    sessionsOf(d.Usual, func(i int) string { return d.Usual[i].Label() }),
		Sessions: sessionsOf(d.Sessions, func(i int) string { return words.Session(d, i) }),
		Why:      []reasonJSON{},
		Cautions: append([]string{}, words.Cautions(*d)...),
	}
	if d.Race != nil {
		out.Race = &d.Race.Name
	}
	for _, r := range words.Why(d) {
		out.Why = append(out.Why, reasonJSON(r))
	}
	return out
}

// sessionsOf puts a rest session where there is none.
func sessionsOf(sessions []planner.Session, text func(i int) string) []sessionJSON {
	if len(sessions) == 0 {
		return []sessionJSON{sessionOf(planner.RestSession, planner.RestSession.Label())}
	}
	out := make([]sessionJSON, len(sessions))
	for i, s := range sessions {
		out[i] = sessionOf(s, text(i))
	}
	return out
}

func sessionOf(s planner.Session, text string) sessionJSON {
	out := sessionJSON{Kind: s.Kind.String(), Minutes: int(s.Minutes), Effort: s.Effort.String(), RPE: s.RPE(), Text: text}
	if !s.Sets.IsZero() {
		sets := s.Sets.String()
		out.Sets = &sets
	}
	return out
}

func taperOf(p *engine.Plan, t *engine.Taper) taperJSON {
	out := taperJSON{
		Race: t.Race.Name, Priority: t.Race.Priority.String(), Days: t.Days, From: t.From.String(), CutPercent: t.CutPercent,
		UsualMinutes: t.UsualMinutes, PlannedMinutes: t.PlanMinutes, UsualRides: t.UsualRides, PlannedRides: t.PlanRides,
		Why: []reasonJSON{reasonJSON(words.WhyLength(t))},
	}
	if e := season.Expect(p, p.Facts, t); e != nil {
		kept, shed := rounded(e.Kept, 1000), rounded(e.Shed, 1000)
		out.FitnessKept, out.FatigueShed = &kept, &shed
		out.Gain = &gainJSON{Low: rounded(e.Gain.Low, 10), Mid: rounded(e.Gain.Mid, 10), High: rounded(e.Gain.High, 10)}
	}
	return out
}

// rounded leaves as many steps between whole numbers as are told, and no minus zero.
func rounded(v, steps float64) float64 { return math.Round(v*steps)/steps + 0 }
