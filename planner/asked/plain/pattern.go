package plain

import (
	"regexp"
	"regexp/syntax"
	"strings"
	"sync"
)

// Pattern is a regular expression that is not tried on a text that holds none of the strings
// of which all that it matches holds one. Most texts hold none, and to look for these is quick.
// It is compiled when it is first tried: a program that nobody asks in words has no use for it.
type Pattern struct {
	expr string
	one  func() []string // in small letters; nil where nothing is known
	re   func() *regexp.Regexp
}

// compiled are all patterns, for the test that compiles each.
var compiled []*Pattern

// Compile makes a pattern of a regular expression for the life of the program. It is called
// before anything is read; a wrong expression panics when it is first tried.
func Compile(expr string) *Pattern {
	p := &Pattern{expr: expr, one: sync.OnceValue(func() []string { return heldBy(expr) }),
		re: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })}
	compiled = append(compiled, p)
	return p
}

// CompileAll compiles each pattern of the program, or panics.
func CompileAll() (patterns int) {
	for _, p := range compiled {
		p.re()
	}
	return len(compiled)
}

// String is the expression.
func (p *Pattern) String() string { return p.expr }

func heldBy(expr string) []string {
	tree, err := syntax.Parse(expr, syntax.Perl)
	if err != nil {
		panic(err)
	}
	return held(tree)
}

// may reports whether a text can match.
func (p *Pattern) may(text string) bool {
	one := p.one()
	if one == nil {
		return true
	}
	text = small(text)
	for _, s := range one {
		if strings.Contains(text, s) {
			return true
		}
	}
	return false
}

// small is a text in small letters.
func small(text string) string {
	return strings.ReplaceAll(strings.ToLower(text), "ſ", "s") // they are one letter where case does not count
}

// MatchString is that of the expression, as all below.
func (p *Pattern) MatchString(text string) bool { return p.may(text) && p.re().MatchString(text) }

// ReplaceAllString replaces what matches.
func (p *Pattern) ReplaceAllString(text, with string) string {
	if !p.may(text) {
		return text
	}
	return p.re().ReplaceAllString(text, with)
}

// ReplaceAllStringFunc replaces what matches by what f makes of it.
func (p *Pattern) ReplaceAllStringFunc(text string, f func(string) string) string {
	if !p.may(text) {
		return text
	}
	return p.re().ReplaceAllStringFunc(text, f)
}

// FindString is the first match.
func (p *Pattern) FindString(text string) string {
	if !p.may(text) {
		return ""
	}
	return p.re().FindString(text)
}

// FindStringSubmatch is the first match and its groups.
func (p *Pattern) FindStringSubmatch(text string) []string {
	if !p.may(text) {
		return nil
	}
	return p.re().FindStringSubmatch(text)
}

// FindStringIndex is where the first match lies.
func (p *Pattern) FindStringIndex(text string) []int {
	if !p.may(text) {
		return nil
	}
	return p.re().FindStringIndex(text)
}

// FindStringSubmatchIndex is where the first match and its groups lie.
func (p *Pattern) FindStringSubmatchIndex(text string) []int {
	if !p.may(text) {
		return nil
	}
	return p.re().FindStringSubmatchIndex(text)
}

// FindAllStringSubmatch is up to n matches and their groups.
func (p *Pattern) FindAllStringSubmatch(text string, n int) [][]string {
	if !p.may(text) {
		return nil
	}
	return p.re().FindAllStringSubmatch(text, n)
}

// FindAllStringSubmatchIndex is where up to n matches and their groups lie.
func (p *Pattern) FindAllStringSubmatchIndex(text string, n int) [][]int {
	if !p.may(text) {
		return nil
	}
	return p.re().FindAllStringSubmatchIndex(text, n)
}

const (
	mostStrings = 40 // that are looked for
	longEnough  = 5  // to be in few texts
)

// held are strings of which each match holds one, nil where none are known: of several such
// lists one of few and long strings.
func held(re *syntax.Regexp) []string {
	best := whole(re)
	if shortest(best) == 0 {
		best = nil
	}
	take := func(list []string) {
		n, most := min(shortest(list), longEnough), min(shortest(best), longEnough)
		if n > most || n == most && n > 0 && len(list) < len(best) {
			best = list
		}
	}
	switch re.Op {
	case syntax.OpCapture, syntax.OpPlus:
		take(held(re.Sub[0]))
	case syntax.OpRepeat:
		if re.Min > 0 {
			take(held(re.Sub[0]))
		}
	case syntax.OpConcat:
		for i, sub := range re.Sub {
			take(held(sub))
			run := []string{""}
			for _, next := range re.Sub[i:] {
				if run = crossed(run, whole(next)); run == nil {
					break
				}
				take(run)
			}
		}
	case syntax.OpAlternate:
		var all []string
		for _, sub := range re.Sub {
			list := held(sub)
			if list == nil || len(all)+len(list) > mostStrings {
				return best
			}
			all = append(all, list...)
		}
		take(all)
	}
	return best
}

// whole are all strings that an expression matches, nil where they are too many.
func whole(re *syntax.Regexp) []string {
	switch re.Op {
	case syntax.OpEmptyMatch, syntax.OpBeginText, syntax.OpEndText, syntax.OpBeginLine, syntax.OpEndLine, syntax.OpWordBoundary, syntax.OpNoWordBoundary:
		return []string{""}
	case syntax.OpLiteral:
		return []string{strings.ToLower(string(re.Rune))}
	case syntax.OpCharClass:
		return ofClass(re.Rune)
	case syntax.OpCapture:
		return whole(re.Sub[0])
	case syntax.OpQuest:
		if list := whole(re.Sub[0]); list != nil && len(list) < mostStrings {
			return append([]string{""}, list...)
		}
	case syntax.OpConcat:
		out := []string{""}
		for _, sub := range re.Sub {
			if out = crossed(out, whole(sub)); out == nil {
				return nil
			}
		}
		return out
	case syntax.OpAlternate:
		var out []string
		for _, sub := range re.Sub {
			list := whole(sub)
			if list == nil || len(out)+len(list) > mostStrings {
				return nil
			}
			out = append(out, list...)
		}
		return out
	}
	return nil
}

// ofClass are the letters of a class, each in small.
func ofClass(pairs []rune) (out []string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		if int(pairs[i+1]-pairs[i])+len(out) >= mostStrings {
			return nil
		}
		for r := pairs[i]; r <= pairs[i+1]; r++ {
			if r != 'ſ' {
				out = append(out, strings.ToLower(string(r)))
			}
		}
	}
	return out
}

// crossed joins each string of one list with each of another, nil where they are too many.
func crossed(a, b []string) (out []string) {
	if b == nil || len(a)*len(b) > mostStrings {
		return nil
	}
	for _, s := range a {
		for _, t := range b {
			out = append(out, s+t)
		}
	}
	return out
}

// shortest is how long the shortest string of a list is, 0 for none.
func shortest(list []string) int {
	if len(list) == 0 {
		return 0
	}
	n := len(list[0])
	for _, s := range list {
		n = min(n, len(s))
	}
	return n
}
