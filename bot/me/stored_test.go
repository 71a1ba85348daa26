package me_test

import (
	"encoding/json"
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"musette/bot/bottest"
	"musette/bot/me"
	"musette/bot/say"
	"musette/storage"
)

// exported is the file of /me export.
func exported(t *testing.T, r say.Reply) map[string]any {
	t.Helper()
	if len(r.Files) != 1 || r.Files[0].Name != "musette-export.json" || r.Files[0].Type != "application/json" || !r.Private {
		t.Fatalf("files %+v, private %t", r.Files, r.Private)
	}
	var all map[string]any
	if err := json.Unmarshal(r.Files[0].Data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// twoClubs is a rider of a platform with facts in two clubs.
func twoClubs(t *testing.T) *bottest.Talk {
	t.Helper()
	k := bottest.NewTalk(t)
	k.OnPlatform("8", "1")
	k.Who.Club = "Harbour Riders"
	k.OK(`/race add name:"Pier Race" date:2026-07-05 priority:B hours:2`)
	k.OnPlatform("9", "1")
	k.Who.Club = "Marrow Vale Wheelers"
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`, `/done 50 note:"windy coast"`)
	return k
}

func TestExportHasAllClubs(t *testing.T) {
	k := twoClubs(t)
	r := k.OK("/me export")
	bottest.Wants(t, r, "Harbour Riders and Marrow Vale Wheelers", "4 entries (1 usual week, 2 races and 1 ride or missed day)", "what coaches wrote about you", "/me erase")
	if all := exported(t, r); len(all["clubs"].([]any)) != 2 || !strings.Contains(string(r.Files[0].Data), "windy coast") {
		t.Errorf("export %s", r.Files[0].Data)
	}
}

// Nothing is erased before the second yes, then everything is, in all clubs and for good.
func TestEraseAsksFirst(t *testing.T) {
	k := twoClubs(t)
	k.DB.Now = func() time.Time { return k.Who.Now }
	before := k.Stored()
	for _, line := range []string{"/me erase", "/me export"} {
		k.OK(line)
	}
	asked := k.OK("/me erase")
	bottest.Wants(t, asked, "Do you want to erase all that I store about you, in Harbour Riders and Marrow Vale Wheelers?", "4 entries", "expire by Wednesday 1 July 2026",
		"stay in Discord", "/me export", "Erase everything: /me erase confirm:everything")
	if len(asked.Buttons) != 2 || !asked.Buttons[0].Danger || asked.Buttons[1].Command != "" || asked.Forget {
		t.Errorf("buttons %+v, forget %t", asked.Buttons, asked.Forget)
	}
	k.Refused("/me erase confirm:yes", "confirm")
	k.Who.Ask = true // what is typed where there are buttons is asked again
	if typed := k.OK("/me erase confirm:everything"); typed.Forget {
		t.Errorf("erased at once: %s", typed.Text())
	}
	if after := k.Stored(); len(after.([]any)) != len(before.([]any)) || len(k.Facts().Races) != 1 {
		t.Errorf("asking has erased something: %+v", after)
	}
	gone := k.Press(asked, "Erase everything")
	bottest.Wants(t, gone, "All that I stored about you in Harbour Riders and Marrow Vale Wheelers is erased.", "1 July 2026", "Discord", "start from nothing")
	if !gone.Forget || len(gone.Buttons) != 0 {
		t.Errorf("forget %t, buttons %+v", gone.Forget, gone.Buttons)
	}
	if _, err := k.DB.Export(t.Context(), storage.Whose{Key: k.Who.AthleteKey}); !errors.Is(err, storage.ErrNotFound) {
		t.Errorf("export after the erasure: %v", err)
	}
	data, err := os.ReadFile(k.Path)
	if err != nil || strings.Contains(string(data), "windy coast") {
		t.Errorf("the file still holds a note, %v", err)
	}
	for _, line := range []string{"/me erase", "/me export", "/me erase confirm:everything"} {
		if again := k.OK(line); again.Text() != "I store nothing about you." || len(again.Files) != 0 {
			t.Errorf("%s after the erasure: %s", line, again.Text())
		}
	}
	bottest.Wants(t, k.OK("/race list"), "No race is to come")
	k.OK(`/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`)
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Ines (A, you)")
}

// A namesake in another club, and others of the club, keep theirs.
func TestEraseOfOne(t *testing.T) {
	k := bottest.NewTalk(t)
	add := `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3`
	k.Who.Club = "Harbour Riders"
	k.OK(add)
	k.Who.Club = "Marrow Vale Wheelers"
	k.OK(add)
	k.As("Tomas")
	k.OK(add)
	k.As("Ines")
	asked := k.OK("/me erase")
	if strings.Contains(asked.Text(), "Harbour") || strings.Contains(asked.Text(), "Discord") {
		t.Errorf("of one known by name: %s", asked.Text())
	}
	k.Press(asked, "Erase everything")
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Tomas (A)\n")
	k.Who.Club = "Harbour Riders"
	bottest.Wants(t, k.OK("/race list"), "Hill Loop: Ines (A, you)\n")
}

// Each kind of entry that an export can have is named in words.
func TestEntriesHaveWords(t *testing.T) {
	data, err := os.ReadFile("../../storage/testdata/export.golden.json")
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	var kinds []string
	var walk func(map[string]any)
	walk = func(o map[string]any) {
		for name, value := range o {
			list, ok := value.([]any)
			if ok && name != "clubs" {
				kinds = append(kinds, name)
			}
			for _, entry := range list {
				walk(entry.(map[string]any))
			}
		}
	}
	walk(all)
	if len(kinds) < 10 {
		t.Fatalf("kinds %q", kinds)
	}
	for _, kind := range kinds {
		if !slices.ContainsFunc(me.EntryWords, func(w [3]string) bool { return w[0] == kind }) {
			t.Errorf("entries of %s have no words", kind)
		}
	}
}
