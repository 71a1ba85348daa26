package say

import (
	"strings"
	"unicode/utf16"
)

// Clip16 is the text, cut where it is longer than that many units of UTF-16, by
// which some clients count.
func Clip16(s string, most int) string {
	for i, r := range s {
		if most -= utf16.RuneLen(r); most < 0 {
			return strings.TrimSpace(s[:i])
		}
	}
	return s
}
