package typed

import (
	"errors"
	"regexp"
	"testing"
	"time"

	"musette/planner"
)

// Who copies the example of a refusal gets a day that the field can use: to come, or
// over where the field looks back.
func TestExamplesOfDays(t *testing.T) {
	iso, named := regexp.MustCompile(`\d{4}-\d\d-\d\d`), regexp.MustCompile(`like (\d+ \w+)`)
	for today := planner.NewDate(2026, time.November, 1); today < planner.NewDate(2028, time.March, 10); today++ {
		for name, read := range map[string]func(string, planner.Date) (planner.Date, error){"to come": DateComing, "over": DateBack} {
			_, err := read("someday", today)
			if err == nil {
				t.Fatal("someday is a day")
			}
			text := err.Error()
			for _, example := range []string{iso.FindString(text), append(named.FindStringSubmatch(text), "", "")[1]} {
				got, err := read(example, today)
				if open := (*Ambiguous)(nil); errors.As(err, &open) || err != nil {
					t.Fatalf("%s: %q of %q: %v", today, example, text, err)
				}
				if away := today.DaysUntil(got); name == "to come" && (away < 1 || away > 14) || name == "over" && (away > -1 || away < -14) {
					t.Fatalf("%s: %q of a field for what is %s is %s", today, example, name, got)
				}
			}
		}
	}
}
