package say

// Verbs parts a template into its verbs and the text beside them, as Linef does.
func Verbs(text string) (verbs, beside string) {
	for from := 0; from < len(text); {
		at, to := nextVerb(text, from)
		beside += text[from:at]
		verbs += text[at:to]
		from = to
	}
	return verbs, beside
}
