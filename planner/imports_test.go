package planner_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms are the planner's rooms and which of its rooms each may import.
// plannertest, which checks plans from outside, reads plan files and knows nothing of the engine.
var rooms = map[string][]string{
	"musette/planner":             nil,
	"musette/planner/typed":       {"musette/planner"},
	"musette/planner/care":        nil,
	"musette/planner/engine":      {"musette/planner", "musette/planner/care"},
	"musette/planner/words":       {"musette/planner", "musette/planner/care", "musette/planner/engine", "musette/planner/raceday"},
	"musette/planner/raceday":     {"musette/planner"},
	"musette/planner/ics":         nil,
	"musette/planner/asked":       {"musette/planner", "musette/planner/care", "musette/planner/typed", "musette/planner/asked/plain"},
	"musette/planner/asked/plain": nil,
	"musette/planner/response":    nil,
	"musette/planner/learn":       {"musette/planner", "musette/planner/response"},
	"musette/planner/season":      {"musette/planner", "musette/planner/engine", "musette/planner/response", "musette/planner/learn"},
	"musette/planner/planfile":    {"musette/planner", "musette/planner/typed", "musette/planner/engine", "musette/planner/words", "musette/planner/season"},
	"musette/planner/plannertest": {"musette/planner", "musette/planner/typed", "musette/planner/planfile"},
}

// botRooms are the rooms of the conversation that may import other ones than a room
// of commands may, which imports roomOfCommands.
var botRooms = map[string][]string{
	"say":     nil,
	"picture": nil,
	"show":    {"say"},
	"desk":    {"say", "show", "picture"},
	"command": {"say", "desk"},
	"coach":   {"say", "show", "desk", "command", "races", "weeks", "life", "picture"},
	"plans":   {"say", "show", "desk", "command", "remind", "picture"},
	"me":      {"say", "show", "desk", "command", "remind"},
}

var roomOfCommands = []string{"say", "show", "desk", "command"}

// joining are the packages of bot that put its rooms together: transports, senders
// and what tests use.
var joining = []string{"bottest", "discord", "meter", "post", "terminal"}

// botMay is which rooms of bot one of them may import; all is true for those that
// put rooms together.
func botMay(room string) (allowed []string, all bool) {
	first, _, _ := strings.Cut(room, "/")
	if first == "" || slices.Contains(joining, first) {
		return nil, true
	}
	if allowed, is := botRooms[first]; is {
		return allowed, false
	}
	return roomOfCommands, false
}

// pure are the packages of the standard library that reach for nothing outside.
var pure = []string{"bytes", "cmp", "embed", "encoding/json", "errors", "fmt", "maps", "math", "math/bits", "math/rand/v2", "reflect", "regexp", "regexp/syntax", "slices", "sort", "strconv", "strings",
	"sync", "time", "unicode", "unicode/utf8"}

// libraries have one room each, which may have rooms of its own.
var libraries = map[string]string{
	"github.com/mattn/go-sqlite3":   "musette/storage",
	"github.com/pressly/goose/v3":   "musette/storage",
	"github.com/knadh/koanf":        "musette/cmd/musette",
	"github.com/alecthomas/kong":    "musette/cmd",
	"github.com/peterh/liner":       "musette/bot/terminal",
	"github.com/hbollon/go-edlib":   "musette/bot",
	"github.com/bwmarrin/discordgo": "musette/bot/discord",
	"github.com/robfig/cron":        "musette/bot/post",
	"github.com/go-analyze/charts":  "musette/bot/picture",
	"github.com/VictoriaMetrics":    "musette/bot/meter",
}

// imported are the imports of each package, tests apart.
func imported(t *testing.T) map[string][]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "musette/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	all := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		fields := strings.Fields(line)
		all[fields[0]] = fields[1:]
	}
	if len(all) < 15 {
		t.Fatalf("go list found only %d packages", len(all))
	}
	return all
}

// under reports whether a package is a room or one of its own rooms.
func under(path, room string) bool { return path == room || strings.HasPrefix(path, room+"/") }

// may reports whether one package of the project may import another.
func may(from, to string) bool {
	switch {
	case under(from, "musette/planner"):
		return slices.Contains(rooms[from], to)
	case under(from, "musette/storage"):
		return under(to, "musette/storage") || to == "musette/planner" || to == "musette/planner/typed"
	case under(from, "musette/bot"):
		if allowed, all := botMay(strings.TrimPrefix(strings.TrimPrefix(from, "musette/bot"), "/")); !all && under(to, "musette/bot") {
			return slices.Contains(allowed, strings.TrimPrefix(to, "musette/bot/"))
		}
		_, room := rooms[to]
		return room && to != "musette/planner/plannertest" || under(to, "musette/storage") || under(to, "musette/bot")
	}
	return under(from, "musette/cmd") && to != "musette/planner/plannertest"
}

// mostFiles is how many files of code a folder of bot or planner may hold.
const mostFiles = 20

func TestFoldersStaySmall(t *testing.T) {
	for _, dir := range []string{".", "../bot"} {
		files := map[string]int{}
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err == nil && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
				files[filepath.Dir(path)]++
			}
			return err
		})
		if err != nil || len(files) < 5 {
			t.Fatalf("%d folders read: %v", len(files), err)
		}
		for folder, n := range files {
			if n > mostFiles {
				t.Errorf("%s has %d files", folder, n)
			}
		}
	}
}

// Imports go one way: cmd to bot, storage and the planner's rooms; bot to storage
// and these rooms, its own rooms one way too; storage to the planner's facts and what people type. Each
// outside library has one room.
func TestImportsGoOneWay(t *testing.T) {
	for from, imports := range imported(t) {
		if _, known := rooms[from]; under(from, "musette/planner") && !known {
			t.Errorf("%s is a room that this test does not know", from)
		}
		for _, to := range imports {
			if strings.HasPrefix(to, "musette/") && !may(from, to) {
				t.Errorf("%s imports %s", from, to)
			}
			for library, room := range libraries {
				if strings.HasPrefix(to, library) && !under(from, room) {
					t.Errorf("%s imports %s, which belongs into %s", from, to, room)
				}
			}
		}
	}
}

// The planner knows no input or output: of outside packages it imports gonum and
// the pure part of the standard library. Plan files are written to a writer.
func TestPlannerIsPure(t *testing.T) {
	for from, imports := range imported(t) {
		if !under(from, "musette/planner") {
			continue
		}
		for _, to := range imports {
			own, gonum := strings.HasPrefix(to, "musette/"), strings.HasPrefix(to, "gonum.org/v1/gonum/")
			writer := to == "io" && from == "musette/planner/planfile"
			if !own && !gonum && !writer && !slices.Contains(pure, to) {
				t.Errorf("%s imports %s", from, to)
			}
		}
	}
}

// No source of the planner reads the clock or waits, and only planfile looks up zones.
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
		for _, imp := range file.Imports {
			if name, _ := strconv.Unquote(imp.Path.Value); name == "time" && imp.Name != nil {
				t.Errorf("%s gives package time another name", path)
			}
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
	if err != nil || seen < 40 {
		t.Fatalf("%d files read: %v", seen, err)
	}
}

// Nothing runs before main or behind a caller's back: no package has an init function.
func TestNoInitFunctions(t *testing.T) {
	seen := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") {
			return err
		}
		seen++
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, decl := range file.Decls {
			if f, is := decl.(*ast.FuncDecl); is && f.Recv == nil && f.Name.Name == "init" {
				t.Errorf("%s has an init function", path)
			}
		}
		return nil
	})
	if err != nil || seen < 200 {
		t.Fatalf("%d files read: %v", seen, err)
	}
}
