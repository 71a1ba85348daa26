package typed

import (
	"strings"
	"unicode/utf8"
)

// Nearest is the word that a mistyped one most likely means: one that starts
// with it, else the one with the fewest wrong, missing, extra or swapped
// letters. It is "" where nothing is near; ties go to the first in the list.
func Nearest(word string, among []string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	length := utf8.RuneCountInString(word)
	if length < 2 || length > 40 {
		return ""
	}
	for _, w := range among {
		if strings.HasPrefix(strings.ToLower(w), word) {
			return w
		}
	}
	best, least := "", max(1, length/3)+1
	for _, w := range among {
		if d := editDistance([]rune(word), []rune(strings.ToLower(w))); d < least {
			best, least = w, d
		}
	}
	return best
}

// soleNear is the one long word that a mistyped long word must mean: one letter is
// wrong, missing, extra or swapped, and no other word is as near. It is "" else.
func soleNear(word string, among []string) string {
	const least = 5
	n := utf8.RuneCountInString(word)
	if n < least || n > 40 {
		return ""
	}
	near := ""
	for _, w := range among {
		if length := utf8.RuneCountInString(w); len(w) < least || w == near || length < n-1 || length > n+1 || editDistance([]rune(word), []rune(w)) > 1 {
			continue
		}
		if near != "" {
			return ""
		}
		near = w
	}
	return near
}

// editDistance counts insertions, deletions, substitutions and swaps of neighbours.
func editDistance(a, b []rune) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(a)][len(b)]
}
