package typed

import (
	"strings"
	"testing"

	"musette/planner"
)

// Wherever a time, a day or a number belongs, a distance is named as one.
func TestDistancesAreNamed(t *testing.T) {
	today := planner.NewDate(2026, 6, 2)
	for far, example := range map[string]string{"120km": "4h30", "80 miles": "4h45", "100 k": "3h45", "about 60 km": "2h15", "42,5 km": "1h30"} {
		_, minutes := Minutes(far)
		_, hours := Hours(far, 1)
		_, date := Date(far, today)
		_, back := DateBack(far, today)
		_, number := Whole(far, 1, 20, "10")
		for name, err := range map[string]error{"minutes": minutes, "hours": hours, "date": date, "date back": back, "number": number} {
			if err == nil || !strings.Contains(err.Error(), " is a distance") {
				t.Errorf("%s as %s: %v", far, name, err)
			}
		}
		if minutes != nil && !strings.HasSuffix(minutes.Error(), "for example "+example) {
			t.Errorf("%s: %v, want %s", far, minutes, example)
		}
	}
	for _, text := range []string{"90 minutes", "1h30", "soon", "13 June", "3x"} {
		if far, _, ok := Distance(text); ok {
			t.Errorf("%s is a distance of %s", text, far)
		}
	}
}
