package planner

import (
	"fmt"
	"strings"
	"testing"
)

// line is a planned day in one short line: weekday, then each session.
func line(d *Day) string {
	parts := []string{strings.ToLower(d.Date.Weekday().Short())}
	for _, s := range d.Sessions {
		part := s.Kind.String()
		if s.Minutes > 0 {
			part += fmt.Sprintf(" %d", s.Minutes)
		}
		if !s.Sets.IsZero() && s.Kind == Intervals {
			part += " " + s.Sets.String()
		}
		if s.Effort != s.Kind.UsualEffort() {
			part += " " + s.Effort.String()
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, " / ")
}

// The worked examples for a rider of 10 h 10 min. They are our own, made with the rules of
// docs/rules.md; source: common practice.
func TestWorkedExamples(t *testing.T) {
	sunday := mustDate(t, "2026-06-14")
	tests := []struct {
		name           string
		race           Race
		taper          Taper
		first          int // days before the race
		want           []string
		least, most    int // planned minutes of the window
		usual, usually int // usual minutes and rides
	}{
		{
			name: "A race, 7 days", race: Race{Priority: PriorityA, Date: sunday, Hours: 3.5}, taper: Taper{Days: 7}, first: 7,
			want: []string{
				"sun / intervals 65 2x8min", "mon / recovery 30", "tue / endurance 50 easy", "wed / intervals 60 3x3min",
				"thu / rest", "fri / recovery 40", "sat / openers 60", "sun / race 210", "mon / recovery 40",
				"tue / endurance 60 easy", "wed / endurance 105 easy", "thu / rest",
			},
			least: 290, most: 335, usual: 610, usually: 6,
		},
		{
			name: "A race, 10 days", race: Race{Priority: PriorityA, Date: sunday, Hours: 3.5}, taper: Taper{Days: 10}, first: 10,
			want: []string{
				"thu / rest", "fri / intervals 70 2x8min", "sat / endurance 110 easy", "sun / intervals 50 2x8min", "mon / recovery 30",
				"tue / endurance 35 easy", "wed / intervals 45 3x3min", "thu / rest", "fri / endurance 30 easy", "sat / openers 60", "sun / race 210",
			},
			least: 410, most: 455, usual: 865, usually: 8,
		},
		{
			name: "A race, 14 days by default", race: Race{Priority: PriorityA, Date: sunday, Hours: 3.5}, first: 14,
			want: []string{
				"sun / intervals 75 4x8min", "mon / recovery 40", "tue / intervals 55 5x3min", "wed / recovery 60", "thu / rest",
				"fri / intervals 55 2x8min", "sat / endurance 80 easy", "sun / intervals 50 2x8min", "mon / recovery 30",
				"tue / endurance 30 easy", "wed / intervals 45 3x3min", "thu / rest", "fri / endurance 30 easy", "sat / openers 60", "sun / race 210",
			},
			least: 580, most: 640, usual: 1220, usually: 12,
		},
		{
			name: "B race of 2 h", race: Race{Priority: PriorityB, Date: sunday, Hours: 2}, first: 5,
			want: []string{
				"tue / intervals 90 5x3min", "wed / endurance 105", "thu / rest", "fri / recovery 40", "sat / openers 60", "sun / race 120",
				"mon / recovery 40", "tue / intervals 90 5x3min",
			},
		},
		{
			name: "C race of 2 h takes Sunday's intervals", race: Race{Priority: PriorityC, Date: sunday, Hours: 2}, first: 5,
			want: []string{
				"tue / intervals 90 5x3min", "wed / endurance 105", "thu / rest", "fri / endurance 75", "sat / long 180", "sun / race 120",
				"mon / recovery 40", "tue / intervals 90 5x3min",
			},
		},
		{
			name: "C race of 5 h on Saturday", race: Race{Priority: PriorityC, Date: sunday - 1, Hours: 5}, first: 2,
			want: []string{"thu / rest", "fri / endurance 75", "sat / race 300", "sun / endurance 60 easy", "mon / recovery 40"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.race.Name, tt.race.Days, tt.race.Registered = "Gorge Circuit", 1, sunday-90
			f := &Facts{Weeks: []DatedWeek{{Week: mustWeek(t, inesWeek)}}, Races: []Race{tt.race}, Taper: tt.taper}
			p := Derive(tt.race.Date.AddDays(-tt.first), f)
			for i, want := range tt.want {
				if got := line(&p.Days[i]); got != want {
					t.Errorf("%s: got %q, want %q", p.Days[i].Date, got, want)
				}
			}
			if len(p.Warnings) > 0 {
				t.Errorf("warnings: got %v, want none", p.Warnings)
			}
			if tt.usual == 0 {
				return
			}
			s := p.Tapers[0]
			if s.PlanMinutes < tt.least || s.PlanMinutes > tt.most {
				t.Errorf("planned minutes: got %d, want %d to %d", s.PlanMinutes, tt.least, tt.most)
			}
			if s.UsualMinutes != tt.usual || s.UsualRides != tt.usually || s.PlanRides != tt.usually {
				t.Errorf("usual: got %d min, %d of %d rides, want %d min, %d rides", s.UsualMinutes, s.PlanRides, s.UsualRides, tt.usual, tt.usually)
			}
		})
	}
}
