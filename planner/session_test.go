package planner_test

import (
	"testing"

	"musette/planner/typed"
)

func TestAssumedHard(t *testing.T) {
	for in, want := range map[string]int{
		"group 1h30": 30, "intervals 3h": 60, "hard 50min": 17, "group 1min": 0, "intervals 1h 5x3min": 0, "turbo 1h": 0, "turbo 1h 2x10min": 0, "race 1h": 0, "gym 1h": 0, "rest": 0,
	} {
		s, err := typed.Session(in)
		if err != nil || s.AssumedHard() != want {
			t.Errorf("%s: %d minutes count as hard, %v; want %d", in, s.AssumedHard(), err, want)
		}
	}
}
