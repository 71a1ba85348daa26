package storage

import (
	"strings"
	"testing"
)

// joinerNames are names with joiners, tags and selectors of variants: where emoji and scripts have them they
// are part of the name, where they change nothing they are refused. The words are
// common ones of their languages. "Standard" is the core specification of Unicode.
var joinerNames = []struct {
	name   string
	taken  bool
	source string
}{
	{"\U0001f6b4\u200d\u2640\ufe0f Tour", true, "UTS 51, ED-16: a cyclist"},
	{"\U0001f6b4\U0001f3fd\u200d\u2642\ufe0f", true, "UTS 51, ED-16: with a colour of skin"},
	{"\U0001f3f3\ufe0f\u200d\U0001f308 Ride", true, "UTS 51, ED-16: two pictures"},
	{"\U0001f469\u200d\u2764\ufe0f\u200d\U0001f48b\u200d\U0001f468", true, "UTS 51, ED-16: four pictures"},
	{"\U0001f642\u200d\u2194\ufe0f", true, "UTS 51, ED-16: an arrow"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f Cup", true, "UTS 51, ED-14a: gbeng"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0073\U000e0063\U000e0074\U000e007f", true, "UTS 51, ED-14a: gbsct"},
	{"Tour \U0001f3f4\U000e0067\U000e0062\U000e0077\U000e006c\U000e0073\U000e007f", true, "UTS 51, ED-14a: gbwls"},
	{"\U0001f3f4\U000e0075\U000e0073\U000e0063\U000e0061\U000e007f", true, "UTS 51, annex C: usca, valid"},
	{"\U0001f3f4\U000e0066\U000e0072\U000e0036\U000e0039\U000e007f", true, "UTS 51, annex C: fr69, valid"},
	{"\U0001f3f4\U000e0034\U000e0031\U000e0039\U000e007f", true, "UTS 51, annex C: 419, three digits"},
	{"\u0645\u06cc\u200c\u0631\u0648\u0645", true, "UAX 31, A1: Persian, I go"},
	{"\u0645\u06cc\u0651\u200c\u0631\u0648\u0645", true, "UAX 31, A1: with a mark between"},
	{"\u0647\u200d 1405", true, "Standard 9.2: heh of the Hijri calendar"},
	{"\u200d\u0647 1405", true, "Standard 9.2: the final form alone"},
	{"\u05d0\u05b2\u200d\u05bd\u05e0\u05b4\u05d9", true, "Standard 9.1: meteg within hataf patah"},
	{"\u05d0\u05b7\u200c\u05bd\u05d1", true, "Standard 9.1: meteg to the left"},
	{"\u0915\u094d\u200d\u0937 Cup", true, "UAX 31, B, Standard 12.1: a half ka"},
	{"\u0915\u094d\u200c\u0937", true, "UAX 31, A2, Standard 12.1: a virama that is seen"},
	{"\u0926\u0930\u094d\u200d\u092f\u093e", true, "UAX 31, B, Standard 12.1: Marathi, eyelash ra"},
	{"\u0915\u094d\u0951\u200d\u0937", true, "UAX 31, B: a tone on top of the virama"},
	{"\u09b0\u200d\u09cd\u09af\u09be\u09ac", true, "Standard 12.2: Bengali, ya-phalaa behind ra"},
	{"\u09b0\u200d\u09cd\u09af\u09be\u09b2\u09bf 2026", true, "Standard 12.2: Bengali, rally"},
	{"\u0989\u09a4\u09cd\u200d\u09b8\u09ac", true, "UAX 31, B, Standard 12.2: khanda ta as it was before"},
	{"\u0cb0\u200d\u0ccd\u0caf\u0cbe\u0cb2\u0cbf", true, "Standard 12.8: Kannada, ra that is no repha, rally"},
	{"\u0cb8\u0cc2\u0cb0\u200d\u0ccd\u0caf", true, "Standard 12.8: Kannada, sun"},
	{"\u0c86\u0cb0\u0ccd\u200c\u0c9f\u0ccd", true, "UAX 31, A2: Kannada, art"},
	{"\u0d05\u0d35\u0d28\u0d4d\u200d", true, "Standard 12.9: Malayalam, chillu as it was before"},
	{"\u0d05\u0d35\u0d28\u0d4d\u200d 2026", true, "Standard 12.9: the same before a blank"},
	{"\u0d15\u200c\u0d41", true, "Standard 12.9: Malayalam, u beside its letter"},
	{"\u0dc1\u0dca\u200d\u0dbb\u0dd3 \u0dbd\u0d82\u0d9a\u0dcf", true, "Standard 13.2: Sinhala, Sri Lanka"},
	{"\u0db6\u0dd4\u0daf\u200d\u0dca\u0db0", true, "Standard 13.2: Sinhala, letters that touch"},
	{"\u1798\u17c9\u17b6", true, "Khmer without any"},
	{"\u1794\u17d2\u179a\u200c\u17ca\u17b8", true, "Standard 16.4: Khmer, a shifter that keeps its shape"},
	{"\u1820\u182f\u180b\u200d", true, "Standard 13.5: Mongolian, a form as within a word"},
	{"Stage 1\ufe0f\u20e3", true, "UTS 51, ED-20: a keycap"},
	{"\u00a9\ufe0f \u2600\ufe0e", true, "emoji-variation-sequences.txt"},
	{"\u8fbb\U000e0100", true, "UTS 37: an ideograph's variant"},
	{"\u1000\ufe00", true, "StandardizedVariants.txt: Myanmar with a dot"},

	{"Hill\ufe0f Loop", false, "a letter has no variant"},
	{"\ufe0fHill", false, "nothing before it"},
	{"Loop 1\ufe0f", false, "a digit without its cap"},
	{"\u2600\ufe0f\ufe0f", false, "twice"},
	{"\u2600\ufe01", false, "another selector"},
	{"A\u180b", false, "a letter of another script"},
	{"A\u200dB", false, "Latin joins nothing"},
	{"A\u200cB", false, "Latin joins nothing"},
	{"Hill Loop\u200d", false, "at the end"},
	{"\u200d\U0001f6b4", false, "before a picture"},
	{"\U0001f6b4\u200d", false, "behind a picture"},
	{"\U0001f6b4\u200d\u200d\u2640", false, "twice"},
	{"\U0001f6b4\u200c\u2640", false, "the other joiner"},
	{"\U0001f6b4\u200dA", false, "a picture and a letter"},
	{"\u0645\u06cc\u200c\u0631 \U0001f6b4\u200dA", false, "one is in its place, one is not"},
	{"\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f", false, "tags without a flag"},
	{"A\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f", false, "tags behind a letter"},
	{"\U0001f6b4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f", false, "tags behind another picture"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067", false, "without an end"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067 \U000e007f", false, "the end is apart"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f\U000e007f", false, "two ends"},
	{"\U0001f3f4\U000e007f", false, "an end alone"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e007f", false, "a country alone has another flag"},
	{"\U0001f3f4\U000e0047\U000e0042\U000e0045\U000e004e\U000e0047\U000e007f", false, "capitals"},
	{"\U0001f3f4\U000e0067\U000e0031\U000e0065\U000e006e\U000e0067\U000e007f", false, "no country"},
	{"\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e0065\U000e0065\U000e007f", false, "too long for a part of a country"},
}

// typedNames have joiners that change nothing, in scripts whose keyboards have a key for them.
// They are taken as typed, and are the same as without.
var typedNames = []struct{ name, why string }{
	{"\u0633\u0641\u0631\u200c\u0647\u0627", "Persian, journeys: reh joins nothing behind it, and many write the joiner before each plural"},
	{"\u0646\u06cc\u0631\u0648\u200c\u06af\u0627\u0647", "Persian, power station: waw joins nothing behind it"},
	{"\u0645\u06cc\u200c\u200c\u0631\u0648\u0645", "Persian, I go: the key was pressed twice"},
	{"\u0645\u0633\u0627\u0628\u0642\u0647\u200c Cup", "Persian, race: at the end of a word"},
	{"\u06af\u06d5\u0634\u062a \u0633\u0627\u06b5\u0647\u200c", "Kurdish: heh with a non-joiner for ae, as older keyboards type it"},
	{"\u200c\u062f\u0648\u0631 2026", "Persian, tour: at the beginning"},
	{"\u0938\u0948\u0930\u200c2026", "Hindi, outing: before a number"},
	{"\u0926\u094c\u0921\u093c\u200d \u0915\u092a", "Hindi, race: behind a mark"},
	{"\u09ac\u09be\u0982\u09b2\u09be\u200c\u09a6\u09c7\u09b6", "Bengali: between two words that are one"},
	{"\u0627\u200c\u0628", "alef joins nothing behind it"},
	{"\u0628\u200d\u0627", "they are joined without it"},
	{"\u0627\u200d\u0621", "neither of them joins there"},
	{"\u0915\u200d\u0937", "no virama"},
	{"\u0915\u200d\u094d", "no letter behind the virama"},
	{"\u0915\u200d\u09cd\u0937", "a virama of another script"},
	{"\u09b0\u200d\u09cd A", "no letter behind the virama"},
	{"\u09b0\u200c\u09cd\u09af", "the other joiner"},
	{"\u200d\u09cd\u09af", "no letter before it"},
	{"a\u200d\u09cd\u09af", "a letter of another script"},
	{"\u0b95\u200d\u0bcd\u0bb7", "Tamil has none"},
	{"\u0d15\u200d\u0d41", "the other joiner"},
}

func TestJoinersAsTyped(t *testing.T) {
	for _, tc := range typedNames {
		plain := withoutStray(tc.name)
		if err := CheckName("name", tc.name, "Hill Loop"); err != nil {
			t.Errorf("%+q (%s): %v", tc.name, tc.why, err)
		}
		if plain == tc.name || Fold(tc.name) != Fold(plain) {
			t.Errorf("%+q (%s) is not the same as without", tc.name, tc.why)
		}
		if got := ShownName(tc.name, "A rider"); got != plain {
			t.Errorf("%+q (%s) is shown as %+q", tc.name, tc.why, got)
		}
	}
	// Where a joiner is seen, it makes another name.
	if with := "\u0646\u0627\u0645\u0647\u200c\u0627\u06cc"; Fold(with) == Fold(strings.ReplaceAll(with, "\u200c", "")) {
		t.Error("a letter and names are one word")
	}
}

// Each script that may have joiners as typed has letters that join, or a virama.
func TestScriptsOfJoiners(t *testing.T) {
	for _, script := range users {
		reason := false
		for _, rs := range script.R16 {
			for r := rune(rs.Lo); r <= rune(rs.Hi); r += rune(rs.Stride) {
				reason = reason || class(r) == virama || joinsNext([]rune{r})
			}
		}
		for _, rs := range script.R32 {
			for r := rune(rs.Lo); r <= rune(rs.Hi); r += rune(rs.Stride) {
				reason = reason || class(r) == virama || joinsNext([]rune{r})
			}
		}
		if !reason {
			t.Errorf("a script of %d ranges has neither", len(script.R16)+len(script.R32))
		}
	}
}

func TestJoiners(t *testing.T) {
	for _, tc := range joinerNames {
		err := CheckName("name", tc.name, "Hill Loop")
		if got := err == nil; got != tc.taken {
			t.Errorf("%+q (%s): %v, want taken %t", tc.name, tc.source, err, tc.taken)
		}
		if shown := ShownName(tc.name, "A rider"); (shown == tc.name) != tc.taken || CheckName("name", shown, "") != nil {
			t.Errorf("%+q (%s) is shown as %+q", tc.name, tc.source, shown)
		}
	}
	for name, want := range map[string]string{
		"A\u200cB":        `name: holds a character that cannot be seen and changes nothing: U+200C behind "A". Leave it out. For example Hill Loop`,
		"\u200bHill":      "U+200B at the beginning",
		"Hill Loop\u200d": `U+200D behind "Hill Loop"`,
		"\u0645\u06cc\u200c\u0631 Cup\u202e 2026":                    `U+202E behind "` + "\u0645\u06cc\u200c\u0631 Cup" + `"`,
		strings.Repeat("a", 90) + "\u200c" + strings.Repeat("b", 90): `behind "` + strings.Repeat("a", 20) + `"`,
		"Hill\xff": "bytes that are no text",
	} {
		if err := CheckName("name", name, "Hill Loop"); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+q: got %v, want %q", name, err, want)
		}
	}
	// What is in its place stays when the rest goes.
	for name, want := range map[string]string{
		"\u09b0\u200d\u09cd\u09af x\u200dy":                        "\u09b0\u200d\u09cd\u09af xy",
		"\u0628\u200c\u064e\u200d\u0628":                           "\u0628\u064e\u0628", // the second is stray without the first
		"\U0001f3f4\U000e0067\U000e0062\u200dA \u06cc\u200c\u0631": "\U0001f3f4A \u06cc\u200c\u0631",
	} {
		if got := ShownName(name, "A rider"); got != want {
			t.Errorf("%+q is shown as %+q, want %+q", name, got, want)
		}
	}
}
