package planfile

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"musette/planner"
	"musette/planner/engine"
)

const wantPlan = `{
  "days": [
    {
      "date": "2026-05-21",
      "weekday": "thu",
      "phase": "taper",
      "race": "Hill <Loop>",
      "usual": [
        {
          "kind": "rest",
          "minutes": 0,
          "effort": "rest",
          "sets": null,
          "rpe": "-",
          "text": "rest"
        }
      ],
      "sessions": [
        {
          "kind": "rest",
          "minutes": 0,
          "effort": "rest",
          "sets": null,
          "rpe": "-",
          "text": "rest"
        }
      ],
      "why": [],
      "cautions": []
    }
  ],
  "tapers": [
    {
      "race": "Hill <Loop>",
      "priority": "A",
      "days": 10,
      "from": "2026-05-13",
      "cut_percent": 49.5,
      "usual_minutes": 800,
      "planned_minutes": 404,
      "usual_rides": 8,
      "planned_rides": 7,
      "fitness_kept": null,
      "fatigue_shed": null,
      "gain": null,
      "why": [
        {
          "rule": "taper.length",
          "text": "The taper has 10 days: with about 8 hours a week you carry fatigue for about that long.",
          "source": "Bosquet et al. 2007: 8 to 14 days. The table by weekly hours is common practice"
        }
      ]
    }
  ],
  "warnings": [
    {
      "code": "race.hours",
      "text": "How long will Hill <Loop> take you? I count 2h until you tell me."
    }
  ]
}
`

func TestWriteExactly(t *testing.T) {
	race := &planner.Race{Name: "Hill <Loop>", Date: mustDate(t, "2026-05-23"), Days: 1}
	plan := &engine.Plan{
		Today:    mustDate(t, "2026-05-21"),
		Days:     []engine.Day{{Date: mustDate(t, "2026-05-21"), Phase: planner.Tapering, Race: race}},
		Tapers:   []engine.Taper{{Race: race, Days: 10, From: mustDate(t, "2026-05-13"), CutPercent: 49.5, UsualMinutes: 800, PlanMinutes: 404, UsualRides: 8, PlanRides: 7, WeekHours: 8}},
		Warnings: []engine.Warning{{Code: engine.WarnNoHours, Race: race, N: 120}},
		Facts:    &planner.Facts{},
	}
	var got bytes.Buffer
	if err := Write(&got, plan); err != nil {
		t.Fatal(err)
	}
	if got.String() != wantPlan {
		t.Errorf("got\n%s\nwant\n%s", got.String(), wantPlan)
	}
}

func TestWriteEmptyListsAreNotNull(t *testing.T) {
	var got bytes.Buffer
	if err := Write(&got, &engine.Plan{Facts: &planner.Facts{}}); err != nil {
		t.Fatal(err)
	}
	want := "{\n  \"days\": [],\n  \"tapers\": [],\n  \"warnings\": []\n}\n"
	if got.String() != want {
		t.Errorf("got %s, want %s", got.String(), want)
	}
}

// A derived plan keeps the contract: every session has text, changed days have
// reasons, the others none.
func TestWriteDerivedPlan(t *testing.T) {
	today, facts, faults := Read([]byte(`{"today": "2026-05-04",
	 "week": {"mon": "recovery 40min; strength 30min", "tue": "intervals 1h30 5x3min", "wed": "endurance 1h45", "thu": "off",
	          "fri": "endurance 1h15", "sat": "long 3h", "sun": "intervals 2h 4x8min"},
	 "races": [{"name": "Hill Loop", "date": "2026-05-24", "priority": "A", "hours": 3.5}]}`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	plan := engine.Derive(today, facts)
	var buf bytes.Buffer
	if err := Write(&buf, plan); err != nil {
		t.Fatal(err)
	}
	var got planJSON
	dec := json.NewDecoder(&buf)
	dec.DisallowUnknownFields()
	if err := dec.Decode(&got); err != nil {
		t.Fatal(err)
	}
	if len(got.Days) != len(plan.Days) || len(got.Tapers) != 1 || got.Tapers[0].Race != "Hill Loop" {
		t.Fatalf("got %d days and tapers %+v, want %d days and one taper for Hill Loop", len(got.Days), got.Tapers, len(plan.Days))
	}
	weekdays := []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
	changed := 0
	for i, d := range got.Days {
		if want := today.AddDays(i).String(); d.Date != want || d.Weekday != weekdays[i%7] {
			t.Errorf("day %d is %s %s, want %s %s", i, d.Weekday, d.Date, weekdays[i%7], want)
		}
		if d.Weekday == "thu" && (len(d.Usual) != 1 || d.Usual[0] != (sessionJSON{Kind: "rest", Effort: "rest", RPE: "-", Text: "rest"})) {
			t.Errorf("%s: got usual %+v, want one rest", d.Date, d.Usual)
		}
		for _, s := range append(d.Usual, d.Sessions...) {
			if s.Text == "" || s.RPE == "" || (s.Kind == "rest") != (s.Minutes == 0) || s.Sets != nil && !strings.Contains(*s.Sets, "x") {
				t.Errorf("%s: got session %+v", d.Date, s)
			}
		}
		if plan.Days[i].Changed() {
			changed++
		}
		if plan.Days[i].Changed() != (len(d.Why) > 0) || d.Why == nil || d.Cautions == nil {
			t.Errorf("%s: changed is %t, got why %v, cautions %v", d.Date, plan.Days[i].Changed(), d.Why, d.Cautions)
		}
		for _, r := range d.Why {
			if r.Rule == "" || r.Text == "" || r.Source == "" {
				t.Errorf("%s: got reason %+v with an empty part", d.Date, r)
			}
		}
	}
	if changed == 0 {
		t.Error("no day is changed before an A race")
	}
}

type brokenWriter struct{}

var errBroken = errors.New("broken")

func (brokenWriter) Write([]byte) (int, error) { return 0, errBroken }

func TestWriteReportsItsWriter(t *testing.T) {
	if err := Write(brokenWriter{}, &engine.Plan{Facts: &planner.Facts{}}); !errors.Is(err, errBroken) {
		t.Errorf("got %v, want %v", err, errBroken)
	}
}
