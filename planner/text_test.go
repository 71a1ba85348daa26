package planner

import (
	"strings"
	"testing"
)

// Shorter events need a longer warm-up (Bishop 2003, from memory; common practice).
func TestWarmUpIsLongerForShorterRaces(t *testing.T) {
	last := 60
	for _, race := range []int{45, 120, 300} {
		got := warmUpMinutes(race, "road race")
		if got >= last || got < 5 {
			t.Errorf("race of %d min: warm-up %d min, before %d", race, got, last)
		}
		last = got
	}
	if got := warmUpMinutes(150, "hilly time trial"); got <= warmUpMinutes(150, "road race") {
		t.Errorf("a time trial warms up %d min, no longer than a road race", got)
	}
	if got := warmUpMinutes(100, "endurance ride"); got != 10 {
		t.Errorf("an endurance event warms up %d min, want 10", got)
	}
}

func TestSessionsInWords(t *testing.T) {
	race := &Race{Name: "Gorge Circuit", Start: "10:30", Days: 1}
	for want, d := range map[string]Day{
		"Rest day.":         {Sessions: restDay},
		"Rest and recover.": {Phase: Health, Sessions: restDay},
		"45min: 15 min warm-up, 3 x 3 min (2 min between) hard, as hard as usual": {Sessions: []Session{{Intervals, Hard, 45, Sets{{3, 180, 120}}}}},
		"1h: 15 min warm-up, the hard part as hard as usual":                      {Sessions: []Session{{Kind: Intervals, Effort: Hard, Minutes: 60}}},
		"Openers: 1h easy with 3 x 1 min and 3 x 10 s":                            {Sessions: []Session{{Kind: Openers, Effort: OpenersEffort, Minutes: 60}}},
		"Gorge Circuit, 3h30, start 10:30. Warm up 10 min":                        {Phase: RaceDay, Race: race, Sessions: []Session{{Kind: RaceRide, Effort: RaceEffort, Minutes: 210}}},
		"40min easy: you can talk":                                                {Sessions: []Session{{Kind: Recovery, Effort: Easy, Minutes: 40}}},
		"2h steady, as usual":                                                     {Sessions: []Session{{Kind: Endurance, Effort: Steady, Minutes: 120}}},
		"Strength, 30min.":                                                        {Sessions: []Session{{Kind: Strength, Effort: Steady, Minutes: 30}}},
	} {
		if got := d.Text(0); !strings.HasPrefix(got, want) {
			t.Errorf("got %q, want %q...", got, want)
		}
	}
}

func TestHardDaysCarryCautions(t *testing.T) {
	for _, effort := range []Effort{Hard, OpenersEffort, RaceEffort} {
		d := Day{Sessions: []Session{{Effort: effort}}}
		if got := d.Cautions(); len(got) < 2 || !strings.Contains(strings.Join(got, " "), "doctor") {
			t.Errorf("effort %s: cautions %q, want its own and the doctor's", effort, got)
		}
	}
	if got := (&Day{Sessions: []Session{{Effort: Easy}}}).Cautions(); got != nil {
		t.Errorf("an easy day: cautions %q, want none", got)
	}
	if got := (&Day{Phase: Health, Sessions: restDay}).Cautions(); len(got) != 1 || !strings.Contains(got[0], "emergency") {
		t.Errorf("a health day: cautions %q", got)
	}
}
