package bot_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"musette/bot/bottest/rounds"
)

// joins is a semicolon that joins two clauses. Between sessions and days it is what
// people type.
var (
	joins  = regexp.MustCompile(`[\p{L}\d%)."]; [\p{L}%]`)
	typing = regexp.MustCompile(`\d+(?:min|h\d*)(?: \d+x\d+min)?; (?:\w+ )?(?:\w+ \d|rest|off)|(?:rest|off); (?:\w+ )?(?:\w+ \d|rest|off)|lights; no gloves|Hill Loop(?: [\d-]+)?; Quarry Crit|; charset=|text/plain; version=`)
)

// Nothing that riders, coaches, admins and operators read joins two sentences by a
// semicolon. Log lines may.
func TestNoSentenceHasASemicolon(t *testing.T) {
	rounds.Skip(t, "that no sentence in code has a semicolon")
	seen := 0
	for _, room := range []string{".", "../planner", "../storage", "../cmd/musette"} {
		err := filepath.WalkDir(room, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() && (d.Name() == "testdata" || d.Name() == "discordtest" || d.Name() == "bottest" || d.Name() == "plannertest") {
				return skipped(d, err)
			}
			if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if call, ok := n.(*ast.CallExpr); ok && logs(call) {
					return false
				}
				lit, ok := n.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				text, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				if strings.Contains(text, " ") {
					seen++
				}
				if joins.MatchString(typing.ReplaceAllString(text, " ")) {
					t.Errorf("%s: %q", set.Position(lit.Pos()), text)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 3000 {
		t.Errorf("only %d texts were read", seen)
	}
	for text, bad := range map[string]bool{"It is over; choose another day": true, "mon recovery 40min; tue rest": false, "You ride %s; then rest": true} {
		if joins.MatchString(typing.ReplaceAllString(text, " ")) != bad {
			t.Errorf("%q is taken wrongly", text)
		}
	}
}

func skipped(d fs.DirEntry, err error) error {
	if err == nil && d.Name() != "." {
		return fs.SkipDir
	}
	return err
}

// logs reports a call that writes a log line.
func logs(call *ast.CallExpr) bool {
	name, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	switch name.Sel.Name {
	case "Debug", "Info", "Warn", "Error", "LogAttrs", "ErrorContext", "WarnContext", "InfoContext":
		return true
	}
	return false
}
