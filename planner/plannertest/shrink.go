package plannertest

import (
	"encoding/json"
	"strings"
)

// Shrink drops parts from a plan file for as long as fails holds for what is
// left. fails must hold for input, and not for files that cannot be read.
func Shrink(input []byte, fails func([]byte) bool) []byte {
	best := input
	for again := true; again; {
		again = false
		for _, try := range smaller(best) {
			if fails(try) {
				best, again = try, true
				break
			}
		}
	}
	return best
}

// smaller gives every plan file that lacks one key, entry or session of data.
func smaller(data []byte) (list [][]byte) {
	var file any
	if json.Unmarshal(data, &file) != nil {
		return nil
	}
	tryLess(file, func(less any) {
		if m, ok := less.(object); ok {
			list = append(list, encode(m))
		}
	})
	return list
}

// tryLess calls use with each version of v that lacks one part.
func tryLess(v any, use func(any)) {
	switch v := v.(type) {
	case object:
		for key, old := range v {
			delete(v, key)
			use(v)
			v[key] = old
			tryLess(old, func(less any) { v[key] = less; use(v); v[key] = old })
		}
	case []any:
		for i := range v {
			use(append(append([]any{}, v[:i]...), v[i+1:]...))
			old := v[i]
			tryLess(old, func(less any) { v[i] = less; use(v); v[i] = old })
		}
	case string:
		if parts := strings.SplitN(v, ";", 2); len(parts) == 2 {
			use(strings.TrimSpace(parts[0]))
			use(strings.TrimSpace(parts[1]))
		}
	}
}
