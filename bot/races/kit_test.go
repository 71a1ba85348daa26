package races_test

import (
	"strings"
	"testing"

	"musette/bot/bottest"
)

// What a rider packs otherwise is kept for all races; a wrong entry loses nothing that was kept.
func TestKitIsKept(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3h start:10:30`, `/race add name:"Night Ride" date:2026-07-25 priority:B hours:9h start:21:00`)
	kit := func(line string) string {
		t.Helper()
		for text := range strings.Lines(k.OK(line).Text()) {
			if strings.HasPrefix(text, "Kit: ") {
				return text
			}
		}
		t.Fatalf("%s has no kit", line)
		return ""
	}
	usual := kit("/race morning hill")
	if !strings.Contains(usual, "gloves, glasses") {
		t.Fatal(usual)
	}
	changed := kit(`/race morning hill kit:"lights; NO gloves; no pump; a gel flask"`)
	if strings.Contains(changed, "gloves") || strings.Contains(changed, "pump") || !strings.Contains(changed, "a gel flask and lights.") {
		t.Error(changed)
	}
	if text := k.OK("/race morning hill").Text(); !strings.Contains(text, "That is your own list, for all races. Back to the usual one: /race morning kit:none") {
		t.Error(text)
	}
	if night := kit("/race morning night"); strings.Contains(night, "gloves") || strings.Count(night, "lights") != 1 || !strings.Contains(night, "a gel flask") {
		t.Error(night)
	}
	k.Refused(`/race morning hill kit:"`+strings.Repeat("x", 60)+`"`, "kit")
	if got := kit("/race morning hill"); got != changed {
		t.Errorf("kept %s, want %s", got, changed)
	}
	if got := kit(`/race morning hill kit:"gloves; no lights"`); !strings.Contains(got, "gloves") || strings.Contains(got, "lights") {
		t.Error(got)
	}
	kit("/race morning hill kit:lights")
	if got := kit("/race morning hill kit:usual"); got != usual {
		t.Errorf("back to the usual list: %s", got)
	}
	if got := kit("/race morning hill kit:none"); got != usual {
		t.Errorf("the usual list is %s, want %s", got, usual)
	}
	if got := k.OK("/race morning night").Text(); !strings.Contains(got, `To pack sunscreen too and leave gloves at home, for example: /race morning kit:"sunscreen; no gloves"`) {
		t.Errorf("lights are packed already:\n%s", got)
	}
	if got := kit(`/race morning hill kit:"lights, no gloves, no licence"`); strings.Contains(got, "no ") || strings.Contains(got, "gloves") || strings.Contains(got, "licence") || !strings.Contains(got, "and lights.") {
		t.Errorf("a list with commas: %s", got)
	}
	kit("/race morning hill kit:none")
	if got := kit(`/race morning hill kit:"+ lights; add a gel flask; - gloves; -pump; without pins"`); got != strings.NewReplacer(" pins,", "", " gloves,", "", " pump,", "", "phone and dry clothes for after", "phone, dry clothes for after, a gel flask and lights").Replace(usual) {
		t.Errorf("with signs: %s", got)
	}
	if got := kit("/race morning hill kit:auto"); got != usual {
		t.Errorf("the usual list is %s, want %s", got, usual)
	}
}
