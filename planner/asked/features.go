package asked

import (
	"slices"
	"strings"
)

func sortStrings(list []string) { slices.Sort(list) }

// Features are what the classifier sees of a part: its words, what they mean, pairs
// of either, and pieces of long words.
func features(plain string) []string {
	words := strings.Fields(plain)
	seen := map[string]bool{}
	var out []string
	put := func(f string) {
		if !seen[f] {
			seen[f] = true
			out = append(out, f)
		}
	}
	put("bias")
	meanings := make([][]string, len(words))
	for i, w := range words {
		put("w:" + w)
		meanings[i] = concepts()[w]
		for _, c := range meanings[i] {
			put("c:" + c)
		}
		if n := len(w); n >= 6 && w == strings.ToLower(w) {
			put("p:" + w[:4])
			put("s:" + w[n-4:])
		}
	}
	for i := range words {
		for gap := 1; gap <= 2 && i+gap < len(words); gap++ {
			a, b := words[i], words[i+gap]
			if gap == 1 {
				put("b:" + a + " " + b)
			}
			for _, x := range meanings[i] {
				put("d:" + x + " " + b)
				for _, y := range meanings[i+gap] {
					put("e:" + x + " " + y)
				}
			}
			for _, y := range meanings[i+gap] {
				put("d:" + a + " " + y)
			}
		}
	}
	if len(words) > 0 {
		put("first:" + words[0])
		for _, c := range meanings[0] {
			put("first:$" + c)
		}
	}
	put("n:" + []string{"1", "2", "3", "4", "6", "6", "10", "10", "10", "10", "more"}[max(0, min(len(words)-1, 10))])
	return out
}
