package bottest

import (
	"fmt"
	"testing"
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/storage"
)

// lived stores what the days before 1 June brought to the rider who speaks.
func (k *Talk) lived(story string) {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	id, may := who.Athlete.ID, func(day int) planner.Date { return planner.NewDate(2026, 5, day) }
	check := func(err error) {
		k.T.Helper()
		if err != nil {
			k.T.Fatal(err)
		}
	}
	ride := func(day, minutes int, rpe float64, note string) {
		check(k.DB.SetRide(k.T.Context(), id, may(day), storage.Ride{Ride: planner.Ride{Date: may(day), Minutes: minutes, RPE: rpe}, Note: note}))
	}
	switch story {
	case "Bruno":
		ride(26, 60, 8, "")
		ride(30, 60, 3, "")
		claimed, err := k.DB.Claim(k.T.Context(), []storage.Post{{Kind: storage.PostReminder, Key: who.Athlete.PostKey(), Day: may(31), Athlete: id, Club: who.Club.ID, Due: k.Who.Now}})
		check(err)
		check(k.DB.SettlePosts(k.T.Context(), []storage.Post{{ID: claimed[0].ID, State: storage.PostFailed, Reason: "direct messages are closed"}}))
	case "Farid":
		ride(26, 0, 0, "fever and a cough")
		ride(27, 0, 0, "")
		ride(31, 0, 0, "")
	case "Hugo":
		races, err := k.DB.Races(k.T.Context(), id)
		check(err)
		check(k.DB.SetResult(k.T.Context(), id, storage.Result{Race: races[1].ID, Feeling: 8, Place: "4th", Note: "sore throat before the start"}))
	}
}

// Wheelers is a club of made-up riders on Monday 1 June 2026: the first ones
// have stories, the others race now and then.
func Wheelers(t testing.TB, riders int) *Talk {
	t.Helper()
	k := NewTalk(t)
	stories := []struct {
		name  string
		lines []string
	}{
		{"Ines", []string{"/week share", `/race add name:"Hill Loop" date:2026-06-13 priority:A hours:3h30`, `/race add name:"Quarry Crit" date:2026-06-25 priority:A hours:1h`}},
		{"Bruno", []string{"/week share", `/race add name:"Hill Loop" date:2026-06-06 priority:A hours:3h30 start:10:30`, "/me set remind:always"}},
		{"Cleo", []string{`/race add name:"Mill Race" date:2026-06-07 priority:B hours:2`}},
		{"Dario", []string{"/week share", `/race add name:"Mill Race" date:2026-06-07 priority:C hours:2`}},
		{"Édith", []string{"/week share", `/race add name:"Pellow Tour" date:2026-07-10 priority:A hours:4 days:3`, `/race add name:"Pellow Prologue" date:2026-07-10 priority:B hours:0h30`}},
		{"Farid", []string{"/week share"}},
		{"Greta", []string{"/week share", "/tell away from:2026-08-20 to:2026-08-25", `/race add name:"Lake Day" date:2026-08-22 priority:A hours:5`}},
		{"Hugo", []string{"/week share", `/race add name:"Spring Cup" date:2026-05-31 priority:B hours:2`, `/race add name:"Harbour Ride" date:2026-05-30 priority:C hours:1`}},
	}
	k.Who.Now = At("2026-05-20T08:00:00Z")
	k.DB.Now = func() time.Time { return At("2026-05-31T20:00:00Z") }
	for i := range riders {
		story := stories[i%len(stories)]
		name := story.name
		if i >= len(stories) {
			name = fmt.Sprintf("%s %c.", story.name, 'A'+rune(i/len(stories)))
		}
		k.As(name)
		k.OK("/me set taper:14")
		for _, line := range story.lines {
			if line == "/week share" {
				line = "/week share week:" + say.Quote(InesWeek)
			}
			k.OK(line)
		}
		k.lived(story.name)
	}
	k.Who.Now = At("2026-06-01T06:00:00Z")
	k.As("Coach")
	k.Who.Coach = true
	return k
}
