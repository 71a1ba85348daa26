package plannertest

import (
	"encoding/json"
	"strings"
)

// Shrink drops races, events, settings and sessions from a plan file for as
// long as fails holds for what is left. fails must hold for input.
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

// smaller gives every plan file that lacks one thing of data.
func smaller(data []byte) [][]byte {
	var list [][]byte
	edit := func(change func(map[string]any)) {
		var file map[string]any
		if json.Unmarshal(data, &file) != nil {
			return
		}
		change(file)
		if out, err := json.MarshalIndent(file, "", " "); err == nil && string(out) != string(data) {
			list = append(list, out)
		}
	}
	var file map[string]any
	if json.Unmarshal(data, &file) != nil {
		return nil
	}
	for _, key := range []string{"results", "done", "sick", "limits", "away", "blocks", "taper", "zone"} {
		edit(func(f map[string]any) { delete(f, key) })
	}
	for _, key := range []string{"races", "done", "sick", "limits", "away", "blocks"} {
		entries, _ := file[key].([]any)
		for i := range entries {
			edit(func(f map[string]any) { f[key] = without(f[key].([]any), i) })
		}
	}
	if taper, ok := file["taper"].(map[string]any); ok {
		for key := range taper {
			edit(func(f map[string]any) { delete(f["taper"].(map[string]any), key) })
		}
	}
	races, _ := file["races"].([]any)
	for i := range races {
		for _, key := range []string{"start", "kind", "emphasis", "days"} {
			edit(func(f map[string]any) { delete(f["races"].([]any)[i].(map[string]any), key) })
		}
	}
	dropSessions(file, edit)
	return list
}

// dropSessions edits away one session of a day.
func dropSessions(file map[string]any, edit func(func(map[string]any))) {
	week, _ := file["week"].(map[string]any)
	for _, name := range weekdays {
		text, _ := week[name].(string)
		parts := strings.Split(text, ";")
		for i := range parts {
			rest := strings.Join(append(append([]string{}, parts[:i]...), parts[i+1:]...), ";")
			if rest == "" {
				rest = "rest"
			}
			edit(func(f map[string]any) { f["week"].(map[string]any)[name] = strings.TrimSpace(rest) })
		}
	}
}

func without(list []any, i int) []any {
	return append(append([]any{}, list[:i]...), list[i+1:]...)
}
