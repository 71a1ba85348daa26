package say_test

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"musette/bot"
	"musette/bot/command"
	"musette/bot/say"
	"musette/planner"
)

func TestSay(t *testing.T) {
	words := func(s string) say.Span { return say.Span{Text: s} }
	command := func(text, name string) say.Span { return say.Span{Kind: say.CommandSpan, Text: text, Command: name} }
	for _, tc := range []struct {
		line  say.Line
		text  string
		kind  say.LineKind
		spans []say.Span
	}{
		{say.Linef("Noted."), "Noted.", say.Plain, []say.Span{words("Noted.")}},
		{say.Linef(""), "", say.Plain, nil},
		{say.Linef("! %s", "! /ride"), "! ! /ride", say.Warning, []say.Span{words("! /ride")}},
		{say.Linef("- %s", "why"), "- why", say.Reason, []say.Span{words("why")}},
		{say.Linef("  %d of %d", 1, 2), "  1 of 2", say.Detail, []say.Span{words("1 of 2")}},
		{say.Linef("  ! %s", "x"), "  ! x", say.Caution, []say.Span{words("x")}},
		{say.Linef("%s", "  ! x"), "  ! x", say.Plain, []say.Span{words("  ! x")}},
		{say.Headingf("The next %d days", 7), "The next 7 days", say.Heading, []say.Span{words("The next 7 days")}},
		{say.Dayf("Tue 2 Jun ", "%s", "rest"), "Tue 2 Jun  rest", say.Day, []say.Span{words("rest")}},
		{say.Linef("%.1f %%, %g, %-3s|", 1.25, 7.5, "a"), "1.2 %, 7.5, a  |", say.Plain, []say.Span{words("1.2 %, 7.5, a  |")}},
		{say.Linef("See /ride."), "See /ride.", say.Plain, []say.Span{words("See "), command("/ride", "ride"), words(".")}},
		{say.Linef("%s: /plan show race:%s, or", "/ride", `"/me show"`), `/ride: /plan show race:"/me show", or`, say.Plain,
			[]say.Span{words("/ride: "), command(`/plan show race:"/me show"`, "plan show"), words(", or")}},
		{say.Linef("The next one comes /ride %s", planner.NewDate(2026, 6, 2)), "The next one comes /ride 2026-06-02", say.Plain, []say.Span{words("The next one comes "), command("/ride 2026-06-02", "ride")}},
		{say.Linef("/help %s", "x"), "/help x", say.Plain, []say.Span{command("/help x", "help")}},
		{say.Linef("/me show: %s", "x"), "/me show: x", say.Plain, []say.Span{command("/me show", "me show"), words(": x")}},
		{say.Linef("/ride day:today. /week change day:tue"), "/ride day:today. /week change day:tue", say.Plain,
			[]say.Span{command("/ride day:today", "ride"), words(". "), command("/week change day:tue", "week change")}},
		{say.Linef("/var/lib, and/ride, 1/2, /2"), "/var/lib, and/ride, 1/2, /2", say.Plain, []say.Span{words("/var/lib, and/ride, 1/2, /2")}},
		{say.Linef("  %s: %s.", say.Linef("! /ride %s", "x"), say.Span{Kind: say.Reference, Text: "<#1>"}), "  /ride x: <#1>.", say.Detail,
			[]say.Span{command("/ride x", "ride"), words(": "), {Kind: say.Reference, Text: "<#1>"}, words(".")}},
		{say.Linef("%s and %s", "one"), "one and %!s(MISSING)", say.Plain, []say.Span{words("one and %!s(MISSING)")}},
	} {
		if tc.line.String() != tc.text || tc.line.Kind != tc.kind || !reflect.DeepEqual(tc.line.Spans, tc.spans) {
			t.Errorf("got %q, kind %d, %+v\nwant %q, kind %d, %+v", tc.line, tc.line.Kind, tc.line.Spans, tc.text, tc.kind, tc.spans)
		}
	}
	flagged := say.Line{Kind: say.Day, Lead: "Mon ", Flag: true, Spans: []say.Span{words("long 3h")}}
	if got := say.TextOf([]say.Line{flagged, {Kind: say.Gap}, say.Linef("x"), {Kind: say.Gap}}); got != "Mon  long 3h !\n\nx" {
		t.Errorf("got %q", got)
	}
}

// A refusal is the planner's kind of fault to others, and keeps its command.
func TestRefusedIsInputError(t *testing.T) {
	err := say.InField("race", say.Refuse("", "none is like %s; see /race list", "/ride"))
	var in *planner.InputError
	if !errors.As(err, &in) || in.Field != "race" || in.Msg != "none is like /ride; see /race list" || err.Error() != "race: "+in.Msg {
		t.Errorf("got %v as %+v", err, in)
	}
	fault, _ := say.UserError(err, "", false)
	reply := say.Refusal(fault.Field, "%s", fault.Line)
	if reply.Text() != err.Error() || reply.Err.Message != in.Msg || len(reply.Err.Line.Spans) != 2 || reply.Err.Line.Spans[1].Command != "race list" {
		t.Errorf("got %+v", reply)
	}
	if err := say.InField("x", errors.New("/ride broke")); err.Error() != "x: /ride broke" {
		t.Errorf("got %v", err)
	}
	if say.InField("x", nil) != nil {
		t.Error("no error is refused")
	}
}

// templateAt is which argument of a function is a template.
var templateAt = map[string]int{"Linef": 0, "Headingf": 0, "Offeredf": 0, "Addf": 0, "said": 0, "noPlace": 0, "Refuse": 1, "Refusal": 1, "Dayf": 1}

// Templates stand in the source, as constants, with an argument for each verb; none
// is made of a text that is known only when the program runs.
func TestTemplatesOfTheSource(t *testing.T) {
	seen := 0
	rooms, err := filepath.Glob("../*")
	if err != nil {
		t.Fatal(err)
	}
	for _, dir := range append(rooms, "..") {
		set, files, constants := sources(t, dir)
		for _, file := range files {
			ast.Inspect(file, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok {
					return true
				}
				name := nameOf(call.Fun)
				if name == "Template" {
					t.Errorf("%s: a text is made a template", set.Position(call.Pos()))
				}
				at, ok := templateAt[name]
				if !ok || len(call.Args) <= at || call.Ellipsis.IsValid() {
					return true
				}
				seen++
				text, ok := constantOf(call.Args[at], constants)
				verbs, rest := say.Verbs(text)
				verbs = strings.ReplaceAll(verbs, "%%", "")
				checkCommands(t, set.Position(call.Pos()), say.Linef(say.Template(text)))
				if args := len(call.Args) - at - 1; !ok || strings.Count(verbs, "%") != args || strings.ContainsAny(rest, "%\n") {
					t.Errorf("%s: template %q (%v) has verbs %s and %d arguments", set.Position(call.Pos()), text, ok, verbs, args)
				}
				return true
			})
		}
	}
	if seen < 250 {
		t.Errorf("found %d templates only", seen)
	}
}

// checkCommands asks that the commands of a template are in the table, with their options.
func checkCommands(t *testing.T, at token.Position, l say.Line) {
	table := bot.Commands()
	for _, s := range l.Spans {
		if s.Kind != say.CommandSpan {
			continue
		}
		i := slices.IndexFunc(table, func(c command.Command) bool { return c.Name == s.Command })
		if i < 0 {
			t.Errorf("%s: there is no command /%s", at, s.Command)
			continue
		}
		options := strings.Fields(strings.TrimPrefix(s.Text, "/"+s.Command))
		for _, o := range options {
			name, _, named := strings.Cut(o, ":")
			if known := table[i].OptionNames(); named && !slices.Contains(known, name) || len(known) == 0 {
				t.Errorf("%s: %s has no option %q", at, s, o)
			}
		}
	}
}

// sources are the files of a package that are no tests, and its text constants.
func sources(t *testing.T, dir string) (*token.FileSet, []*ast.File, map[string]string) {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	set, constants := token.NewFileSet(), map[string]string{}
	var files []*ast.File
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
		for _, d := range file.Decls {
			decl, ok := d.(*ast.GenDecl)
			if !ok || decl.Tok != token.CONST {
				continue
			}
			for _, s := range decl.Specs {
				spec := s.(*ast.ValueSpec)
				for i, value := range spec.Values {
					if text, ok := constantOf(value, constants); ok {
						constants[spec.Names[i].Name] = text
					}
				}
			}
		}
	}
	return set, files, constants
}

// nameOf is the name of a function or method that is called.
func nameOf(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// constantOf is the text of literals and constants put together.
func constantOf(e ast.Expr, constants map[string]string) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil && e.Kind == token.STRING
	case *ast.Ident:
		text, ok := constants[e.Name]
		return text, ok
	case *ast.BinaryExpr:
		left, ok := constantOf(e.X, constants)
		right, fine := constantOf(e.Y, constants)
		return left + right, ok && fine
	}
	return "", false
}
