package remind_test

import (
	"testing"

	"musette/bot/bottest"
)

// The start of a race is an instant by the rider's own clock, summer time or not.
func TestStartIsAMoment(t *testing.T) {
	for _, tc := range []struct{ zone, date, start, want string }{
		{"Europe/Lisbon", "2026-03-28", "10:30", "2026-03-28T10:30:00Z"}, {"Europe/Lisbon", "2026-03-29", "10:30", "2026-03-29T09:30:00Z"}, // the clock goes forward
		{"Europe/Lisbon", "2026-03-29", "0:30", "2026-03-29T00:30:00Z"}, {"Europe/Lisbon", "2026-10-24", "10:30", "2026-10-24T09:30:00Z"},
		{"Europe/Lisbon", "2026-10-25", "10:30", "2026-10-25T10:30:00Z"}, {"Europe/Lisbon", "2026-10-25", "0:30", "2026-10-24T23:30:00Z"}, // and back
		{"America/New_York", "2026-03-07", "10:30", "2026-03-07T15:30:00Z"}, {"America/New_York", "2026-03-08", "10:30", "2026-03-08T14:30:00Z"},
		{"America/New_York", "2026-11-01", "23:59", "2026-11-02T04:59:00Z"}, {"Asia/Kathmandu", "2026-06-14", "9:05", "2026-06-14T03:20:00Z"},
		{"Pacific/Kiritimati", "2026-06-14", "0:00", "2026-06-13T10:00:00Z"},
	} {
		k := bottest.NewTalk(t)
		k.Who.Now, k.Who.Zone = bottest.At("2026-03-01T08:00:00Z"), ""
		k.OK("/me set zone:" + tc.zone)
		add := "/race add name:Loop date:" + tc.date + " priority:C start:" + tc.start
		for _, line := range []string{add, "/race change race:loop kind:gravel", "/race change race:loop kind:gravel", "/race priority race:loop priority:B"} {
			got := k.OK(line).Moments
			if len(got) != 1 || got[0].Label != "Start" || !got[0].At.Equal(bottest.At(tc.want)) {
				t.Errorf("%s, %s: got %v, want %s", tc.zone, line, got, tc.want)
			}
		}
	}
}

func TestNoMomentOfAnUnknownOrPastStart(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-06-01T08:00:00Z") // nine o'clock in Lisbon
	for line, want := range map[string]int{
		"/race add name:A date:2026-06-14 priority:C": 0, "/race add name:B date:today priority:C start:8:59": 0,
		"/race add name:C date:today priority:C start:9:00": 1, "/race add name:D date:today priority:C start:9:01": 1,
	} {
		if got := k.OK(line).Moments; len(got) != want {
			t.Errorf("%s: moments %v, want %d", line, got, want)
		}
	}
	if got := k.OK("/race change race:D start:none").Moments; len(got) != 0 {
		t.Errorf("a start that was forgotten is at %v", got)
	}
	k.Who.Now = bottest.At("2026-06-03T08:00:00Z")
	if got := k.OK("/race change race:C kind:gravel").Moments; len(got) != 0 {
		t.Errorf("a race that is over starts at %v", got)
	}
}

// A plan, the race day's session and its eve's show the start, too; other days do not.
func TestPlanAndRaceDayShowTheStart(t *testing.T) {
	k := bottest.NewTalk(t)
	k.Who.Now = bottest.At("2026-06-01T08:00:00Z")
	k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:Tour date:2026-06-14 priority:A start:10:30 days:2")
	for line, want := range map[string]int{"/plan show": 1, "/plan show race:Tour": 1, "/ride 2026-06-14": 1, "/ride 2026-06-13": 1, "/ride 2026-06-12": 0, "/ride 2026-06-15": 0} {
		if got := k.OK(line).Moments; len(got) != want {
			t.Errorf("%s: moments %v, want %d", line, got, want)
		}
	}
}
