package words_test

import (
	"strings"
	"testing"

	"musette/planner/care"
	"musette/planner/words"
)

// Each level has its answer, the gravest ones in every language; all but the
// gentle levels name the emergency number.
func TestCareAnswers(t *testing.T) {
	seen := map[string]bool{}
	for lang := care.English; lang <= care.Italian; lang++ {
		for level := care.Easy; level <= care.Emergency; level++ {
			text := words.CareAnswer(care.Finding{Verdict: care.Stop, Level: level, Lang: lang})
			if text == "" || strings.Contains(text, ";") {
				t.Errorf("%s, %s: %q", lang, level, text)
			}
			if level > care.Rest && (!strings.Contains(text, "112") || seen[text]) {
				t.Errorf("%s, %s: %q", lang, level, text)
			}
			if level == care.Talk && (strings.ContainsAny(strings.ReplaceAll(text, "112", ""), "0123456789") || strings.Contains(strings.ToLower(text), "weight")) {
				t.Errorf("figures in %q", text)
			}
			seen[text] = true
		}
	}
	if text := words.CareAnswer(care.Finding{}); text != "" {
		t.Errorf("nothing found, but %q", text)
	}
}
