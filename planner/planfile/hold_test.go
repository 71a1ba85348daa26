package planfile

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"musette/planner"
)

func TestHolds(t *testing.T) {
	read := func(hold string) ([]planner.Hold, []planner.InputError) {
		_, f, faults := Read(fmt.Appendf(nil, `{"today": "2026-05-10", "week": {"tue": "endurance 1h"}, "races": [], "holds": [{%s}]}`, hold))
		if f == nil {
			return nil, faults
		}
		return f.Holds, faults
	}
	date := func(text string) planner.Date {
		d, err := planner.ParseISODate(text)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	first, last := date("2026-05-01"), date("2026-05-04")
	stands := planner.Hold{Date: first, Level: planner.LevelHead, Told: planner.Told{On: first}}
	ended := stands
	ended.Withdrawn = last
	cleared := planner.Hold{Date: first, Level: planner.LevelHead, Cleared: last, Told: planner.Told{On: last}}
	for text, want := range map[string][]planner.Hold{
		`"date": "2026-05-01", "level": "head"`:                            {stands},
		`"date": "2026-05-01", "level": "head", "withdrawn": "2026-05-04"`: {ended},
		`"date": "2026-05-01", "level": "head", "cleared": "2026-05-04"`:   {cleared, ended},
	} {
		if got, faults := read(text); !reflect.DeepEqual(got, want) || len(faults) > 0 {
			t.Errorf("%s: got %+v, %v", text, got, faults)
		}
	}
	for text, field := range map[string]string{
		`"date": "2026-05-11", "level": "head"`:                                                     "date",
		`"date": "2026-05-01", "level": "rest"`:                                                     "level",
		`"level": "head"`:                                                                           "date",
		`"date": "2026-05-01"`:                                                                      "level",
		`"date": "2026-05-01", "level": "head", "cleared": "2026-04-30"`:                            "cleared",
		`"date": "2026-05-01", "level": "head", "cleared": "2026-05-11"`:                            "cleared",
		`"date": "2026-05-01", "level": "head", "cleared": "2026-05-03", "withdrawn": "2026-05-03"`: "cleared",
		`"date": "2026-05-01", "level": "head", "withdrawn": "2026-04-03"`:                          "withdrawn",
		`"date": "2026-05-01", "level": "head", "symptoms": ["fever"]`:                              "symptoms",
	} {
		if _, faults := read(text); len(faults) != 1 || !strings.Contains(faults[0].Field, field) {
			t.Errorf("%s: faults %v, want one of %s", text, faults, field)
		}
	}
}
