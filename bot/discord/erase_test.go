package discord

import (
	"errors"
	"strings"
	"testing"

	"musette/bot/discord/discordtest"
	"musette/storage"
)

// Who is in no club any more can still take out and erase what is stored, in
// direct messages; nothing comes back by that.
func TestEraseAfterLeaving(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.withHarbour()
	s.give(s.in("Ines"), "race add", "name", strings.Repeat("Long ", 15)+"Loop", "date", "2026-07-26", "priority", "A")
	s.app.riders.forget()
	s.double.Fail(discordtest.Rule{Method: "GET", Path: "/guilds/*/members/*", Status: 404, Code: 10007, Times: -1})
	s.shows(s.give(s.direct("Ines"), "ride"), "do not know yet")
	s.shows(s.give(s.direct("Ines"), "me export"), "Harbour Riders", "Marrow Vale Wheelers", "musette-export.json")
	asked := s.give(s.direct("Ines"), "me erase", "confirm", "everything")
	s.shows(asked, "Do you want to erase", "stay in Discord")
	gone := s.press(s.direct("Ines"), asked, "Erase everything")
	s.shows(gone, "is erased")
	key := personKey(s.club.UserID("Ines"))
	if _, err := s.db.Export(t.Context(), storage.Whose{Key: key}); !errors.Is(err, storage.ErrNotFound) {
		t.Errorf("something is stored after the erasure: %v", err)
	}
	s.shows(s.press(s.direct("Ines"), asked, "Erase everything"), "I store nothing about you.")
	s.shows(s.give(s.in("Tomas"), "race list"), "No race is to come")
}

// A rider of two clubs is not asked which is meant, and in a club's server only they see the answer.
func TestExportOfTwoClubs(t *testing.T) {
	s := newStage(t, discordtest.Options{})
	s.withHarbour()
	s.shows(s.give(s.direct("Ines"), "me export"), "Marrow Vale Wheelers and Harbour Riders")
	a := s.give(s.in("Ines"), "me export")
	if !a.Ephemeral() {
		t.Errorf("others see the export: %s", a.Text())
	}
	s.shows(s.press(s.in("Ines"), s.give(s.in("Ines"), "me erase"), "Erase everything"), "is erased")
}

// A button whose words are kept goes with the person whom it was made for.
func TestKeptButtonsHaveOwners(t *testing.T) {
	b := buttons{store: &shelf{}}
	long := map[string]string{"race": strings.Repeat("x", 100)}
	if _, err := b.id(t.Context(), press{Action: actionCommand, Owner: "77", Command: "race remove", Options: long}, 0); err != nil {
		t.Fatal(err)
	}
	for _, kept := range b.store.(*shelf).kept {
		if kept.Owner != personKey("77") {
			t.Errorf("owner %v", kept.Owner)
		}
	}
}
