package planner

import "testing"

func ill(t *testing.T, from, to string, symptoms ...string) Illness {
	t.Helper()
	i := Illness{From: mustDate(t, from), Symptoms: symptoms}
	if to != "" {
		i.To = mustDate(t, to)
	}
	return i
}

// Fever: no training until two days free of it, then easy days at half the time or less
// (IOC consensus 2022; the number of easy days is common practice).
func TestFever(t *testing.T) {
	f := ines(t, goal(t, "Gorge Circuit", "2026-07-12"))
	f.Ill = []Illness{ill(t, "2026-06-08", "2026-06-10", "fever")}
	p := Derive(mustDate(t, "2026-06-08"), f)
	for date, want := range map[string]string{
		"2026-06-08": "mon / rest", "2026-06-10": "wed / rest", "2026-06-12": "fri / rest",
		"2026-06-13": "sat / endurance 90 easy", "2026-06-14": "sun / endurance 60 easy", "2026-06-15": "mon / recovery 20",
		"2026-06-16": "tue / intervals 90 5x3min",
	} {
		if got := dayLine(t, p, date); got != want {
			t.Errorf("%s: got %q, want %q", date, got, want)
		}
	}
	if !hasWarning(p, "health.easy", "doctor") || len(p.Tapers) != 1 {
		t.Errorf("warnings %v, %d tapers; want health.easy and the taper", p.Warnings, len(p.Tapers))
	}
}

// A head cold: half the time at most, easy. Still ill means every day.
func TestHeadCold(t *testing.T) {
	f := ines(t)
	f.Ill = []Illness{ill(t, "2026-06-08", "", "runny nose")}
	p := Derive(mustDate(t, "2026-06-08"), f)
	for i := range p.Days {
		d := &p.Days[i]
		if d.Phase != Health || d.IsHard() || 2*d.Minutes() > rideMinutes(d.Usual) {
			t.Errorf("%s: phase %s, %q", d.Date, d.Phase, line(d))
		}
	}
}

// Red flags end the plan from their date on (IOC consensus 2022; concussion consensus 2017).
func TestRedFlag(t *testing.T) {
	for _, symptom := range []string{"chest pain", "fainted in the shower", "breathless at rest", "Palpitations", "hit my head"} {
		f := ines(t, goal(t, "Gorge Circuit", "2026-06-14"))
		f.Ill = []Illness{ill(t, "2026-06-10", "2026-06-11", symptom)}
		p := Derive(mustDate(t, "2026-06-08"), f)
		for i := range p.Days {
			d := &p.Days[i]
			if stopped := d.Date >= mustDate(t, "2026-06-10"); stopped && (d.Phase != Health || d.Minutes() > 0) {
				t.Errorf("%s, %s: phase %s, %q", symptom, d.Date, d.Phase, line(d))
			} else if !stopped && d.Phase == Health {
				t.Errorf("%s, %s, before the symptom: phase health", symptom, d.Date)
			}
		}
		if len(p.Tapers) != 0 || len(p.Warnings) != 1 || p.Warnings[0].Code != "health.stop" {
			t.Errorf("%s: tapers %v, warnings %v; want no taper and health.stop alone", symptom, p.Tapers, p.Warnings)
		}
	}
}

// A race within three days of a fever comes with the advice not to start; on an ill day it is not ridden.
func TestRaceAfterFever(t *testing.T) {
	for days, want := range map[int]struct {
		ridden, warned bool
	}{0: {false, true}, 2: {false, true}, 3: {true, true}, 10: {true, false}} {
		race := goal(t, "Gorge Circuit", "2026-06-20")
		race.Date = mustDate(t, "2026-06-10").AddDays(days)
		f := ines(t, race)
		f.Ill = []Illness{ill(t, "2026-06-08", "2026-06-10", "fever")}
		p := Derive(mustDate(t, "2026-06-08"), f)
		d, _ := p.Day(race.Date)
		if ridden := d.Minutes() > 0; ridden != want.ridden {
			t.Errorf("race %d days after fever: ridden is %v", days, ridden)
		}
		if warned := hasWarning(p, "health.easy", "Do not start Gorge Circuit"); warned != want.warned {
			t.Errorf("race %d days after fever: warned is %v: %v", days, warned, p.Warnings)
		}
	}
}
