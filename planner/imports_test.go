package planner_test

import (
	"bytes"
	"go/parser"
	"go/token"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The planner knows no clock, no input or output and no other package of the
// project: standard library only, and of that nothing that reaches outside.
func TestPlannerIsPure(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("no source found: %v", err)
	}
	allowed := map[string]bool{"fmt": true, "math": true, "slices": true, "strconv": true, "strings": true, "time": true, "unicode": true, "unicode/utf8": true, "cmp": true, "errors": true}
	fset := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, imp := range file.Imports {
			path, _ := strconv.Unquote(imp.Path.Value)
			if !allowed[path] {
				t.Errorf("%s imports %s", name, path)
			}
		}
		for _, use := range file.Unresolved {
			if use.Name == "print" || use.Name == "println" {
				t.Errorf("%s prints", name)
			}
		}
	}
	clock, err := exec.Command("grep", "-lE", `time\.(Now|Since|Until|Sleep|Local)\b`, "-r", "--include=*.go", "--exclude=*_test.go", ".").Output()
	if len(bytes.TrimSpace(clock)) > 0 {
		t.Errorf("the clock is read in %s (%v)", clock, err)
	}
}

// Imports go one way: cmd to bot, storage and planner; bot to storage and
// planner; storage to planner. Each outside library has one room.
func TestImportsGoOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "musette/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	rooms := map[string]string{
		"github.com/mattn/go-sqlite3":   "musette/storage",
		"github.com/pressly/goose/v3":   "musette/storage",
		"github.com/knadh/koanf":        "musette/cmd/musette",
		"github.com/alecthomas/kong":    "musette/cmd/musette",
		"github.com/peterh/liner":       "musette/bot/terminal",
		"github.com/hbollon/go-edlib":   "musette/bot",
		"github.com/bwmarrin/discordgo": "musette/bot/discord",
		"github.com/robfig/cron":        "musette/bot/post",
	}
	forbidden := map[string][]string{
		"musette/planner": {"musette/storage", "musette/bot", "musette/cmd"},
		"musette/storage": {"musette/bot", "musette/cmd"},
		"musette/bot":     {"musette/cmd"},
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) < 6 {
		t.Fatalf("go list found only %d packages", len(lines))
	}
	for _, line := range lines {
		fields := strings.Fields(line)
		from := fields[0]
		for _, to := range fields[1:] {
			for library, room := range rooms {
				if strings.HasPrefix(to, library) && from != room {
					t.Errorf("%s imports %s, which belongs into %s", from, to, room)
				}
			}
			for room, others := range forbidden {
				for _, other := range others {
					if strings.HasPrefix(from, room) && strings.HasPrefix(to, other) {
						t.Errorf("%s imports %s", from, to)
					}
				}
			}
		}
	}
}
