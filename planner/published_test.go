package planner

import (
	"encoding/json"
	"os"
	"testing"
)

// published reads one figure of testdata/published.json, which names its paper.
func published(t *testing.T, id string, into any) {
	t.Helper()
	data, err := os.ReadFile("../testdata/published.json")
	if err != nil {
		t.Fatal(err)
	}
	var all []struct {
		ID    string
		Value json.RawMessage
	}
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		if e.ID == id {
			if err := json.Unmarshal(e.Value, into); err != nil {
				t.Fatalf("%s: %v", id, err)
			}
			return
		}
	}
	t.Fatalf("no figure %s", id)
}

// weeks of different riders; invented.
var riders = map[string]string{
	"10 h, two hard days":   inesWeek,
	"6 h, one hard day":     "tue intervals 1h15 4x4min; thu endurance 1h15; sat endurance 1h30; sun long 2h; wed off; mon off",
	"15 h, three hard days": "mon recovery 1h; tue intervals 2h 5x5min; wed endurance 2h30; thu intervals 1h45 6x3min; fri rest; sat long 5h; sun intervals 2h45 3x12min",
	"12 h, Thursday off":    "mon recovery 1h; tue intervals 1h30 5x4min; wed endurance 2h; thu off; fri endurance 1h30; sat long 4h; sun endurance 2h",
}

// Bosquet et al. 2007 (abstract): the largest effects at a volume cut of 41-60 %, without a cut
// of intensity or frequency, over 8-14 days. Mujika & Padilla 2003: frequency down by 20 % at most.
// The default taper of every rider, on every race weekday, lies inside all four.
func TestDefaultTaperLiesInPublishedRanges(t *testing.T) {
	var frequencyCut float64
	published(t, "mp03.frequency_cut_max", &frequencyCut)
	for name, text := range riders {
		week := mustWeek(t, text)
		for k := range 7 {
			race := Race{Name: "Gorge Circuit", Date: mustDate(t, "2026-06-08").AddDays(k), Hours: 3, Days: 1}
			p := Derive(race.Date.AddDays(-20), &Facts{Weeks: []DatedWeek{{Week: week}}, Races: []Race{race}})
			s := p.Tapers[0]
			if s.CutPercent < 41 || s.CutPercent > 60 {
				t.Errorf("%s, race on %s: cut %.1f %%, want 41-60", name, race.Date.Weekday(), s.CutPercent)
			}
			if s.Days < 8 || s.Days > 14 {
				t.Errorf("%s, race on %s: %d days, want 8-14", name, race.Date.Weekday(), s.Days)
			}
			if least := float64(s.UsualRides) * (100 - frequencyCut) / 100; float64(s.PlanRides) < least || s.PlanRides > s.UsualRides {
				t.Errorf("%s, race on %s: %d of %d rides, want at least %.1f", name, race.Date.Weekday(), s.PlanRides, s.UsualRides, least)
			}
			if !keepsIntensity(p, week) {
				t.Errorf("%s, race on %s: a repetition changed its length", name, race.Date.Weekday())
			}
		}
	}
}

// keepsIntensity reports whether every hard session of the plan has repetitions of the usual week.
func keepsIntensity(p *Plan, week Week) bool {
	usual := map[int16]bool{}
	for _, day := range week {
		for _, s := range day.Sessions {
			usual[s.Sets[0].Work] = true
		}
	}
	for i := range p.Days {
		if s, ok := hardSession(p.Days[i].Sessions); ok && s.Kind == Intervals && !usual[s.Sets[0].Work] {
			return false
		}
	}
	return true
}

// Mujika & Padilla 2003: tapers of 4 to 28 days are on record; these are the bounds of the setting.
func TestTaperBoundsArePublished(t *testing.T) {
	var want struct{ Min, Max int }
	published(t, "mp03.duration", &want)
	if MinTaperDays != want.Min || MaxTaperDays != want.Max {
		t.Errorf("bounds: got %d-%d, want %d-%d", MinTaperDays, MaxTaperDays, want.Min, want.Max)
	}
}

// Foster 1998: load is session rating times minutes. The week of the check figures,
// logged against an equal usual week, is no overload; 10 % more is.
func TestLoggedOverloadUsesFosterLoad(t *testing.T) {
	var want struct{ Total float64 }
	published(t, "foster.week.A", &want)
	minutes, ratings := []int{0, 100, 70, 60, 60, 75, 144}, []float64{0, 3, 6, 4, 6, 2, 5}
	total := 0.0
	monday := mustDate(t, "2026-05-04")
	f := &Facts{Weeks: []DatedWeek{{Week: mustWeek(t, "mon endurance 730min")}}} // 730 x 3 = 2190
	for i := range minutes {
		total += float64(minutes[i]) * ratings[i]
		f.Done = append(f.Done, Ride{Date: monday.AddDays(i), Minutes: minutes[i], RPE: ratings[i]})
	}
	if total != want.Total || f.usualLoad(monday) != want.Total {
		t.Fatalf("load: got %v logged, %v usual, want %v", total, f.usualLoad(monday), want.Total)
	}
	if got := f.loggedBlocks(); len(got) != 0 {
		t.Errorf("usual load: got blocks %v, want none", got)
	}
	f.Done[6].Minutes += 44 // 220 more: 110.05 %
	if got := f.loggedBlocks(); len(got) != 1 || got[0].From != monday || got[0].To != monday.AddDays(6) {
		t.Errorf("110 %% of usual load: got blocks %v, want the week", got)
	}
}

// Every symptom of the International Olympic Committee's do-not-start list (Schwellnus et al.
// 2022) stops training; the clearance list of the American College of Sports Medicine
// (Riebe et al. 2015) does so too.
func TestStopListsAreKnown(t *testing.T) {
	for _, id := range []string{"illness.ioc.start_stop_list", "acsm.symptoms"} {
		var symptoms []string
		published(t, id, &symptoms)
		for _, s := range symptoms {
			if got, _ := gravity([]string{s}); got < noTraining {
				t.Errorf("%s: %q is read as a head cold", id, s)
			}
		}
	}
	for symptom, want := range map[string]severity{
		"pain in chest": redFlag, "chest hurts": redFlag, "crushing chest discomfort": redFlag, "trouble breathing": redFlag, "can't breathe": redFlag,
		"concussed": redFlag, "seizure": redFlag, "heart pounding": redFlag, "chest pain/pressure/tightness": redFlag, "dizziness or palpitations at rest": redFlag,
		"chest cold": noTraining, "head-cold": headCold, "chest pain": redFlag, "Fainting": redFlag, "breathlessness at rest": redFlag, "palpitations": redFlag, "concussion": redFlag,
		"head knock": redFlag, "fever": noTraining, "chest": noTraining, "stomach bug": noTraining, "body aches": noTraining,
		"head cold": headCold, "runny nose": headCold, "sore throat": headCold, "purple spots": noTraining,
	} {
		if got, _ := gravity([]string{symptom}); got != want {
			t.Errorf("%q: got severity %d, want %d", symptom, got, want)
		}
	}
	if _, known := gravity([]string{"fever", "purple spots"}); known {
		t.Error("an unknown symptom passes as known")
	}
}
