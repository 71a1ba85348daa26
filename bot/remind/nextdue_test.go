package remind_test

import (
	"strings"
	"testing"
	"time"

	"musette/bot/bottest"
	"musette/bot/say"
	"musette/storage"
)

// The answer names the next reminder by the rider's own clock.
func TestNextReminder(t *testing.T) {
	for _, tc := range []struct{ now, say, want string }{
		{"2026-06-23T05:00:00Z", "remind:06:30", "The next one comes today 06:30 (Europe/Lisbon), by direct message."},
		{"2026-06-23T05:30:00Z", "remind:06:30", "The next one comes tomorrow 06:30 (Europe/Lisbon),"}, // it is half past six
		{"2026-06-23T05:00:00Z", "remind:6.30am zone:Asia/Kathmandu", "The next one comes tomorrow 06:30 (Asia/Kathmandu),"},
		{"2026-06-23T05:00:00Z", "remind:06:30 zone:Pacific/Kiritimati", "The next one comes tomorrow 06:30 (Pacific/Kiritimati),"},
		{"2026-06-23T05:00:00Z", "remind:06:30 zone:Pacific/Pago_Pago", "The next one comes tomorrow 06:30 (Pacific/Pago_Pago),"},
		{"2026-06-02T05:00:00Z", "remind:06:30", "The next one comes Sun 21 Jun 06:30 (Europe/Lisbon),"}, {"2026-06-02T05:00:00Z", "remind:always", "The next one comes Sun 14 Jun 06:30 (Europe/Lisbon),"},
		{"2026-06-22T05:00:00Z", "remind:06:30 pause:3", "To end the pause: /me set pause:0\nThe next one comes Fri 26 Jun 06:30"}, // Thursday is as usual
		{"2026-06-22T06:00:00Z", "remind:06:30 pause:3", "To end the pause: /me set pause:0\nThe next one comes Fri 26 Jun 06:30"},
		{"2026-06-22T06:00:00Z", "remind:06:30 pause:0", "The next one comes tomorrow 06:30"}, {"2026-06-22T06:00:00Z", "remind:06:30 remind-by:thread", "in a private thread."},
		{"2026-06-22T06:00:00Z", "remind:06:30 remind-by:ride", "I will send nothing"}, {"2026-06-22T06:00:00Z", "pause:3", "You get no reminders from Marrow Vale Wheelers.\nTurn them on: /me set remind:06:30"},
		{"2026-07-13T06:00:00Z", "remind:06:30", "The next one comes at 06:30 (Europe/Lisbon) once a race is near"},
	} {
		k := withPlan(t)
		k.Who.Now = bottest.At(tc.now)
		bottest.Wants(t, k.OK("/me set "+tc.say), tc.want)
		if r := reminders(k); !r.Since.Equal(k.Who.Now) {
			t.Errorf("%s: since %s", tc.say, r.Since)
		}
	}
}

// The clocks go on a night of March and back on one of October.
func TestNextReminderWhenClocksChange(t *testing.T) {
	for _, tc := range []struct{ race, now, want string }{
		{"2026-03-30", "2026-03-28T12:00:00Z", "The next one comes tomorrow 03:00 (Europe/Berlin),"}, {"2026-10-26", "2026-10-24T12:00:00Z", "The next one comes tomorrow 02:30 (Europe/Berlin),"},
		{"2026-10-26", "2026-10-25T00:30:00Z", "The next one comes tomorrow 02:30 (Europe/Berlin),"}, // the second half past two is none
	} {
		k := bottest.NewTalk(t)
		k.Who.Now = bottest.At("2026-01-01T12:00:00Z")
		k.OK("/week share week:\""+bottest.InesWeek+"\"", "/race add name:X date:"+tc.race+" priority:C")
		k.Who.Now = bottest.At(tc.now)
		bottest.Wants(t, k.OK("/me set remind:02:30 zone:Europe/Berlin"), tc.want)
	}
}

// Settings that are left alone leave what is due alone; there is one a day.
func TestSinceAndOneADay(t *testing.T) {
	k := withPlan(t)
	k.Who.Now = bottest.At("2026-06-23T05:00:00Z")
	k.OK("/me set remind:06:30")
	since := reminders(k).Since
	k.Who.Now = bottest.At("2026-06-23T06:00:00Z")
	if k.OK("/me set cut:45 announce:off"); !reminders(k).Since.Equal(since) {
		t.Errorf("since %s, was %s", reminders(k).Since, since)
	}
	bottest.Wants(t, k.OK("/me set remind:18:00"), "The next one comes today 18:00")
	who, err := k.Base.Rider(t.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	k.DB.Now = func() time.Time { return k.Who.Now }
	_, err = k.DB.Claim(t.Context(), []storage.Post{{Kind: storage.PostReminder, Key: who.Athlete.PostKey(), Day: day(t, "2026-06-23"),
		Athlete: who.Athlete.ID, Club: who.Club.ID, Due: k.Who.Now, State: storage.PostClaimed}})
	if err != nil {
		t.Fatal(err)
	}
	bottest.Wants(t, k.OK("/me set remind:19:00"), "The next one comes tomorrow 19:00")
}

// The answer says why the next reminder is not today's or tomorrow's.
func TestWhyTheNextReminderIsLater(t *testing.T) {
	for _, tc := range []struct{ now, say, want string }{
		{"2026-06-23T05:31:00Z", "remind:\"always 06:30\"", "The next one comes tomorrow 06:30 (Europe/Lisbon), by direct message.\nIt is past 06:30 now, so nothing comes today.\nStop:"},
		{"2026-06-23T05:00:00Z", "remind:\"always 06:30\"", "The next one comes today 06:30 (Europe/Lisbon), by direct message.\nStop:"},
		{"2026-06-02T05:00:00Z", "remind:\"always 06:30\"", "The next one comes Sun 14 Jun 06:30 (Europe/Lisbon), by direct message.\nBefore that no race is near. Reminders begin a week before a taper,"},
		{"2026-06-02T09:00:00Z", "remind:06:30", "The next one comes Sun 21 Jun 06:30 (Europe/Lisbon), by direct message.\nBefore that no day near a race differs from your usual week, so none is due.\nStop:"},
		{"2026-06-13T09:00:00Z", "remind:\"always 06:30\"", "The next one comes tomorrow 06:30 (Europe/Lisbon), by direct message.\nStop:"},
		{"2026-06-22T05:00:00Z", "remind:\"always 06:30\" pause:1", "To end the pause: /me set pause:0\nThe next one comes tomorrow 06:30 (Europe/Lisbon), by direct message.\nStop:"},
	} {
		k := withPlan(t)
		k.Who.Now = bottest.At(tc.now)
		bottest.Wants(t, k.OK("/me set "+tc.say), tc.want)
	}
}

// A rider of two clubs gets one reminder a day: the answer names the club that sends it.
func TestNextReminderOfTwoClubs(t *testing.T) {
	k := withClubs(t)
	k.OnPlatform("100", "77")
	bottest.Wants(t, k.OK("/me set remind:06:30"), "The next one comes tomorrow 06:30 (Europe/Lisbon), by direct message.\nIt is past 06:30 now, so nothing comes today.\nStop:")
	k.Who.Club = "Elm Lane"
	k.OnPlatform("200", "77")
	later := k.OK("/me set remind:07:00")
	bottest.Wants(t, later, "The next one comes tomorrow 07:00", "You get one reminder a day, and that day's comes from Marrow Vale Wheelers.")
	earlier := k.OK("/me set remind:06:00")
	bottest.Wants(t, earlier, "The next one comes tomorrow 06:00")
	same := k.OK("/me set remind:06:30") // sent for the club that came first
	bottest.Wants(t, same, "comes from Marrow Vale Wheelers.")
	who, err := k.Base.Rider(t.Context(), k.Who)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.DB.ChooseClub(t.Context(), k.Who.AthleteKey, who.Club.ID); err != nil { // direct messages speak of it
		t.Fatal(err)
	}
	chosen := k.OK("/me set remind:07:00")
	k.OnPlatform("100", "77")
	k.Who.Club = "Marrow Vale Wheelers"
	bottest.Wants(t, k.OK("/me set remind:05:00"), "that day's comes from Elm Lane.")
	k.OnPlatform("200", "77")
	k.OK("/me set pause:9") // the other club is quiet
	k.OnPlatform("100", "77")
	quiet := k.OK("/me set remind:05:00")
	for _, r := range []say.Reply{earlier, chosen, quiet} {
		if strings.Contains(r.Text(), "one reminder a day") {
			t.Errorf("another club's is promised:\n%s", r.Text())
		}
	}
}

// withClubs is one rider with the same plan in two clubs, on a day of the taper.
func withClubs(t *testing.T) *bottest.Talk {
	k := bottest.NewTalk(t)
	for _, club := range [][2]string{{"Marrow Vale Wheelers", "100"}, {"Elm Lane", "200"}} {
		k.Who.Club = club[0]
		k.OnPlatform(club[1], "77")
		k.OK("/week share week:\""+bottest.InesWeek+"\"", hillLoop)
	}
	k.Who.Club, k.Who.Now = "Marrow Vale Wheelers", bottest.At("2026-06-23T08:00:00Z")
	return k
}
