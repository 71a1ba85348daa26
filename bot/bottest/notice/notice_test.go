package notice

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A plain go test of tests that skip says what they did not check.
func TestGoTestSaysWhatIsUnchecked(t *testing.T) {
	cmd := exec.Command("go", "test", "-count=1", "-run", "Payloads", "musette/bot/discord/discordtest/lint")
	cmd.Env = slices.DeleteFunc(os.Environ(), func(v string) bool { return strings.HasPrefix(v, "MUSETTE_DISCORD_OPENAPI=") })
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s%s", err, out, errs.String())
	}
	const want = "NOT CHECKED: payloads against Discord's API description: MUSETTE_DISCORD_OPENAPI is not set"
	if strings.Count(errs.String(), want) != 1 || !strings.HasPrefix(string(out), "ok") {
		t.Errorf("go test says\n%s%s", out, errs.String())
	}
}

// It stays in a file to which all of the output goes.
func TestUncheckedInAFile(t *testing.T) {
	out, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	cmd := exec.Command("go", "test", "-count=1", "-run", "Payloads", "musette/bot/discord/discordtest/lint")
	cmd.Env = slices.DeleteFunc(os.Environ(), func(v string) bool { return strings.HasPrefix(v, "MUSETTE_DISCORD_OPENAPI=") })
	cmd.Stdout, cmd.Stderr = out, out
	err = cmd.Run()
	text, _ := os.ReadFile(out.Name())
	if err != nil || !strings.HasPrefix(string(text), "NOT CHECKED: payloads") || !strings.Contains(string(text), "\nok ") {
		t.Errorf("%v: the file holds\n%s", err, text)
	}
}

// No test skips without a word in the output of go test.
func TestEverySkipSaysSo(t *testing.T) {
	seen := 0
	err := filepath.WalkDir("../../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "notice/notice.go") {
			return err
		}
		seen++
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.SelectorExpr)
			if !ok || !slices.Contains([]string{"Skip", "Skipf", "SkipNow", "Short"}, call.Sel.Name) {
				return true
			}
			if of, ok := call.X.(*ast.Ident); ok && (of.Name == "t" || of.Name == "b" || of.Name == "tb" || of.Name == "testing") || call.Sel.Name != "Skip" && call.Sel.Name != "Short" {
				t.Errorf("%s: %s says nothing in the output of go test; notice.Skip does", set.Position(n.Pos()), call.Sel.Name)
			}
			return true
		})
		return nil
	})
	if err != nil || seen < 200 {
		t.Fatalf("%d files read: %v", seen, err)
	}
}
