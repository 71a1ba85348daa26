package planner_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
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
	allowed := map[string]bool{"fmt": true, "math": true, "slices": true, "strconv": true, "strings": true, "time": true, "unicode": true, "unicode/utf8": true, "cmp": true, "errors": true, "musette/planner/response": true}
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
	}
}

// No planner source reads the clock or waits, and only planfile looks up zones.
func TestNoClockInPlanner(t *testing.T) {
	banned := map[string]bool{"Now": true, "Since": true, "Until": true, "After": true, "AfterFunc": true, "Tick": true, "NewTimer": true, "NewTicker": true, "Sleep": true, "Local": true}
	seen := 0
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		seen++
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			pkg, ok := sel.X.(*ast.Ident)
			if !ok || pkg.Name != "time" {
				return true
			}
			if banned[sel.Sel.Name] || sel.Sel.Name == "LoadLocation" && !strings.HasPrefix(path, "planfile") {
				t.Errorf("%s uses time.%s", path, sel.Sel.Name)
			}
			return true
		})
		return nil
	})
	if err != nil || seen < 20 {
		t.Fatalf("%d files read: %v", seen, err)
	}
}

// Imports go one way: cmd to bot, storage and planner; bot to storage and
// planner; storage to planner. Each outside library has one room.
func TestImportsGoOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "musette/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	rooms := map[string]string{ // a room may have rooms of its own
		"github.com/mattn/go-sqlite3":   "musette/storage",
		"github.com/pressly/goose/v3":   "musette/storage",
		"github.com/knadh/koanf":        "musette/cmd/musette",
		"github.com/alecthomas/kong":    "musette/cmd",
		"github.com/peterh/liner":       "musette/bot/terminal",
		"github.com/hbollon/go-edlib":   "musette/bot",
		"github.com/bwmarrin/discordgo": "musette/bot/discord",
		"github.com/robfig/cron":        "musette/bot/post",
		"github.com/go-analyze/charts":  "musette/bot/picture",
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
				if strings.HasPrefix(to, library) && from != room && !strings.HasPrefix(from, room+"/") {
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
