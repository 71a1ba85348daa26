package care

import (
	"fmt"
	"os"
	"testing"
)

func TestDebug(t *testing.T) {
	s := os.Getenv("CARE")
	if s == "" {
		t.Skip()
	}
	x := cut(s)
	x.hide(&known().figures)
	names := map[int]string{}
	for w, id := range known().index {
		names[id] = w
	}
	sc := x.scopes(allLangs)
	for i, k := range x.tokens {
		var is []string
		for _, id := range k.is {
			is = append(is, names[id])
		}
		m := ""
		for n, l := range map[string][]bool{"not": sc.not, "others": sc.others, "self": sc.self, "past": sc.past, "now": sc.now, "over": sc.over, "unsure": sc.unsure, "effort": sc.effort} {
			if l[i] {
				m += " " + n
			}
		}
		fmt.Printf("%-14s s%d c%d hid=%v %q%s\n", k.word, k.sentence, k.clause, k.hidden, is, m)
	}
	x.each(&known().meanings, func(m *meaning, at span) {
		fmt.Println("M", at, m.level, m.verdict, m.lang, "neg", x.negated(sc, m, at), "named", x.named(at), "past", x.past(sc, at), "whose", x.whose(sc, at))
	})
	fmt.Println(Read(s))
}
