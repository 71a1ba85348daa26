package storage

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

// No name, however it is written, finds somebody of a platform.
func TestNameNeverFindsAPlatformsRider(t *testing.T) {
	names := []string{"discord:123", "DISCORD:123", "Discord:123", " discord:123 ", "ｄiscord:123", "ᴅiscord:123", "diſcord:123", "123", ":123", ""}
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		runes := []rune("discord:123")
		for range 1 + random.IntN(4) {
			runes[random.IntN(len(runes))] = rune(random.IntN(unicode.MaxRune))
		}
		names = append(names, string(runes))
	}
	for _, name := range names {
		for _, id := range []string{"123", ""} {
			if NameKey(name) == PlatformKey("discord", id) {
				t.Errorf("the name %q is the key of a platform's %q", name, id)
			}
		}
		if id, ok := NameKey(name).ID("discord"); ok {
			t.Errorf("the name %q is number %q of a platform", name, id)
		}
	}
}

func TestKey(t *testing.T) {
	key := PlatformKey("Discord", "123")
	for _, platform := range []string{"discord", "Discord"} {
		if id, ok := key.ID(platform); id != "123" || !ok || key != PlatformKey(platform, "123") {
			t.Errorf("%s: got number %q, %v", platform, id, ok)
		}
	}
	if id, ok := key.ID("other"); ok {
		t.Errorf("number %q of a platform that the key is not of", id)
	}
	if key == PlatformKey("discord", "124") || key == PlatformKey("other", "123") {
		t.Error("keys of two are the same")
	}
	if key.IsZero() || NameKey("a").IsZero() || !(Key{}).IsZero() || !NameKey(" ").IsZero() {
		t.Error("IsZero is not of missing keys alone")
	}
}

// Riders are told apart by their keys, whatever they are called.
func TestSameNameUnderTwoKeys(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	club := must(db.EnsureClub(ctx, PlatformKey("discord", "9"), "Marrow Vale Wheelers", "UTC"))
	one := must(db.EnsureAthlete(ctx, club.ID, PlatformKey("discord", "1"), "Ana"))
	two := must(db.EnsureAthlete(ctx, club.ID, PlatformKey("discord", "2"), "Ana"))
	typed := must(db.EnsureAthlete(ctx, club.ID, NameKey("Ana"), "Ana"))
	if one.ID == two.ID || one.ID == typed.ID || two.ID == typed.ID {
		t.Fatalf("riders %d, %d and %d share a number", one.ID, two.ID, typed.ID)
	}
	mustAddRace(t, db, one.ID, raceOn(t, "Hill Loop", "2026-06-13"))
	if err := db.RenameAthlete(ctx, one.ID, "Anabel"); err != nil {
		t.Fatal(err)
	}
	if err := db.RenameClub(ctx, club.ID, "Marrow Vale Riders"); err != nil {
		t.Fatal(err)
	}
	one.Name, club.Name = "Anabel", "Marrow Vale Riders"
	if diff := diff(one, must(db.EnsureAthlete(ctx, club.ID, one.Key, "Somebody"))); diff != "" {
		t.Errorf("renamed rider (-want +got):\n%s", diff)
	}
	if diff := diff(two, must(db.FindAthlete(ctx, club.ID, two.Key))); diff != "" {
		t.Errorf("rider with the old name (-want +got):\n%s", diff)
	}
	if diff := diff(club, must(db.FindClub(ctx, club.Key))); diff != "" {
		t.Errorf("renamed club (-want +got):\n%s", diff)
	}
	if races := must(db.ClubRaces(ctx, club.ID)); len(races) != 1 || races[0].Athlete != "Anabel" || races[0].AthleteID != one.ID {
		t.Errorf("races %+v, want one of Anabel", races)
	}
	for _, key := range []Key{{}, PlatformKey("discord", "3"), NameKey("Anabel")} {
		_, err := db.FindAthlete(ctx, club.ID, key)
		wantError(t, err, ErrNotFound)
	}
}

func TestShownName(t *testing.T) {
	for name, want := range map[string]string{
		"Ana": "Ana", "  Ana \t de\n\nLuz ": "Ana de Luz", "": "A rider", " \n ": "A rider", "\u200b\u200d\u2060": "A rider",
		"A\u200bn\u202ea\u00ad": "Ana", "a\x00b\x07": "ab", "a\xffb\ufffd": "ab", "\u3164\u115f\uffa0": "A rider", "\u2800\u2800": "A rider",
		"\ufe0f": "A rider", "\u0301": "A rider", "e\u0301": "\u00e9", "e\u200d\u0301": "\u00e9", "\u2028Ana\u2029": "Ana", "🚲": "🚲", "!": "!", "李": "李",
		strings.Repeat("ü", 300): strings.Repeat("ü", maxShown), strings.Repeat("a ", 300): strings.TrimSpace(strings.Repeat("a ", maxShown/2)),
	} {
		if got := ShownName(name, "A rider"); got != want {
			t.Errorf("%q is shown as %q, want %q", name, got, want)
		}
	}
}

// Whatever a platform shows can be stored, and is not cut a second time.
func FuzzShownName(f *testing.F) {
	for _, name := range []string{"Ana", "\u200b", strings.Repeat("ab ", 100), "\xff\xfe", "Zo\u0301e\ufe0f", "\u2800"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		shown := ShownName(name, "A rider")
		if err := CheckName("rider", shown, "Ines"); err != nil || utf8.RuneCountInString(shown) > maxShown {
			t.Fatalf("%q is shown as %q: %v", name, shown, err)
		}
		if diff := cmp.Diff(shown, ShownName(shown, "other")); diff != "" {
			t.Fatalf("%q is not shown as it is:\n%s", shown, diff)
		}
	})
}
