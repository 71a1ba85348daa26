package plans_test

import (
	"strconv"
	"strings"
	"testing"

	"musette/bot/bottest"
)

// given is an entry of a calendar file as far as these tests look.
type given struct {
	sequence      int
	status, start string
}

// givenBy are the entries of the file that a line is answered with.
func givenBy(k *bottest.Talk, line string) map[string]given {
	k.T.Helper()
	out, uid := map[string]given{}, ""
	for part := range strings.Lines(unfolded(calendarOf(k.T.(*testing.T), k.OK(line)))) {
		name, value, _ := strings.Cut(strings.TrimSpace(part), ":")
		e := out[uid]
		switch strings.Split(name, ";")[0] {
		case "UID":
			uid = value
			continue
		case "SEQUENCE":
			e.sequence, _ = strconv.Atoi(value)
		case "STATUS":
			e.status = value
		case "DTSTART":
			e.start = value
		}
		if uid != "" {
			out[uid] = e
		}
	}
	return out
}

// follows holds a file to the one before: nothing is missing, and what is not confirmed any more has a higher
// sequence. It counts those that fell away.
func follows(t *testing.T, when string, was, is map[string]given) (fell int) {
	t.Helper()
	for uid, old := range was {
		now, ok := is[uid]
		switch {
		case !ok:
			t.Errorf("%s: %s is missing", when, uid)
		case now.status != old.status && now.sequence <= old.sequence, now.sequence < old.sequence:
			t.Errorf("%s: %s was %+v, is %+v", when, uid, old, now)
		case now.status == "CANCELLED" && old.status == "CONFIRMED":
			fell++
		}
	}
	return fell
}

// A race that is added, given out and removed on one day leaves nothing in the facts.
func TestCalendarOfARaceRemovedOnItsDay(t *testing.T) {
	k := withGoals(t, "Hill Loop")
	first := givenBy(k, "/plan calendar")
	k.OK("/race remove race:\"Hill Loop\"")
	bottest.Wants(t, k.OK("/plan calendar"), "no day is left, the file takes ")
	gone := givenBy(k, "/plan calendar")
	if fell := follows(t, "removed", first, gone); fell != len(first) || len(gone) != len(first) || fell < 10 {
		t.Errorf("%d of %d are cancelled, %d in the file", fell, len(first), len(gone))
	}
	k.Who.Now = k.Who.Now.AddDate(0, 0, 1)
	for uid, e := range givenBy(k, "/plan calendar") {
		if e.status != "CANCELLED" || e != gone[uid] {
			t.Errorf("on the next day %s is %+v, was %+v", uid, e, gone[uid])
		}
	}
	k.OK(`/race add name:"Lake Race" date:2026-07-12 priority:A hours:3`)
	if fell := follows(t, "another race", gone, givenBy(k, "/plan calendar")); fell != 0 {
		t.Errorf("%d fell away twice", fell)
	}
	for uid, e := range givenBy(k, "/plan calendar race:lake") {
		if _, old := gone[uid]; old || e.status != "CONFIRMED" {
			t.Errorf("in the other race's file: %s, %+v", uid, e)
		}
	}
	k.Who.Now = bottest.At("2026-08-20T08:00:00Z")
	if r := k.OK("/plan calendar"); len(r.Files) != 0 {
		t.Errorf("more than four weeks after the days there is still a file:\n%s", r.Text())
	}
}

// What a longer taper added and its undoing took away is cancelled, and comes back.
func TestCalendarOfATaperChangedAndBack(t *testing.T) {
	for name, lines := range map[string][2]string{
		"taper":   {"/race change race:hill taper:21", "/race change race:hill taper:auto"},
		"second":  {`/race add name:"Lake Race" date:2026-07-26 priority:A hours:3`, "/race remove race:\"Lake Race\""},
		"illness": {"/tell sick symptoms:fever", "/tell sick symptoms:none since:2026-06-01"},
	} {
		k := withGoals(t, "Hill Loop")
		first := givenBy(k, "/plan calendar")
		k.OK(lines[0])
		changed := givenBy(k, "/plan calendar")
		follows(t, name, first, changed)
		k.OK(lines[1])
		back := givenBy(k, "/plan calendar")
		fell := follows(t, name+" and back", changed, back)
		if len(changed) > len(first) && fell == 0 {
			t.Errorf("%s: %d entries more, none is cancelled", name, len(changed)-len(first))
		}
		if name != "illness" && len(changed) <= len(first) {
			t.Errorf("%s adds no day", name)
		}
		if name == "taper" {
			k.OK(lines[0])
			again := givenBy(k, "/plan calendar")
			for uid, e := range changed {
				if now := again[uid]; now.status != e.status || back[uid].status != e.status && now.sequence <= back[uid].sequence {
					t.Errorf("taper once more: %s was %+v, %+v, is %+v", uid, e, back[uid], now)
				}
			}
			k.OK(lines[1])
			back = givenBy(k, "/plan calendar")
		}
		k.Who.Now = k.Who.Now.AddDate(0, 0, 1)
		follows(t, name+" on the next day", upcoming(back, "20260602"), givenBy(k, "/plan calendar"))
	}
}

// upcoming are the entries that start on a day or later.
func upcoming(all map[string]given, from string) map[string]given {
	out := map[string]given{}
	for uid, e := range all {
		if e.start >= from {
			out[uid] = e
		}
	}
	return out
}

// Days that took place are not cancelled afterwards, those that fell away before are.
func TestCalendarOfDaysThatAreOver(t *testing.T) {
	k := withGoals(t, "Hill Loop")
	k.Who.Now = bottest.At("2026-06-20T08:00:00Z")
	first := givenBy(k, "/plan calendar")
	k.Who.Now = bottest.At("2026-06-24T08:00:00Z")
	k.OK("/race remove race:\"Hill Loop\"")
	k.Who.Now = bottest.At("2026-06-30T08:00:00Z")
	later := givenBy(k, "/plan calendar")
	over, fell := 0, 0
	for uid, e := range first {
		now, there := later[uid]
		if e.start[:8] < "20260624" {
			if over++; there {
				t.Errorf("%s took place, but is %+v", uid, now)
			}
		} else if fell++; now.status != "CANCELLED" || now.sequence <= e.sequence {
			t.Errorf("%s fell away, but is %+v, was %+v", uid, now, e)
		}
	}
	if over == 0 || fell == 0 {
		t.Errorf("%d days are over, %d fell away", over, fell)
	}
}
