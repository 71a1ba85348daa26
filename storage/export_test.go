package storage

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The structure is kept: scripts and people read it. What differs between runs is cut.
func TestExportIsTheGoldenOne(t *testing.T) {
	path, person, _ := lives(t)
	db := mustOpen(t, path)
	db.Now = fixedNow("2026-06-01T08:00:00Z")
	got := string(must(db.Export(context.Background(), person)))
	golden := filepath.Join("testdata", "export.golden.json")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(string(must(os.ReadFile(golden))), got); diff != "" {
		t.Errorf("export. Run go test ./storage -run Export -update and look at the change (-want +got):\n%s", diff)
	}
	if !json.Valid([]byte(got)) || regexp.MustCompile(`"\w*_?id":|_ms"`).MatchString(got) {
		t.Errorf("no JSON, or numbers that say nothing:\n%s", got)
	}
	for _, word := range secrets {
		if word != strings.ToUpper(word) && !strings.Contains(got, word) {
			t.Errorf("%s is not in the export", word)
		}
	}
	if strings.Contains(got, "Bea") {
		t.Error("the export holds another rider")
	}
}

func TestExportOfNobody(t *testing.T) {
	ctx, db := context.Background(), newTestDB(t)
	for _, w := range []Whose{{}, {Key: PlatformKey("discord", "1")}, {NameKey("me"), 1}} {
		if _, err := db.Export(ctx, w); !errors.Is(err, ErrNotFound) {
			t.Errorf("%+v: got %v", w, err)
		}
	}
	me := mustAthlete(t, db, "home", "me")
	mustAthlete(t, db, "away", "me")
	if got := string(must(db.Export(ctx, me.Whose()))); !strings.Contains(got, `"club": "home"`) || strings.Contains(got, "away") {
		t.Errorf("export of a name:\n%s", got)
	}
}
