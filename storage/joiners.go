package storage

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/secure/precis"
	"golang.org/x/text/unicode/norm"
)

// The joiners and tags of Unicode: nobody sees them by themselves, and emoji and scripts need them.
const (
	nonJoiner = '\u200c'
	joiner    = '\u200d'
	blackFlag = '\U0001f3f4'
	tagEnd    = '\U000e007f'
)

func joins(r rune) bool { return r == nonJoiner || r == joiner }

func isTag(r rune) bool { return '\U000e0020' <= r && r <= tagEnd }

func selects(r rune) bool { return unicode.Is(unicode.Variation_Selector, r) }

// needsPlace tells what a name may hold in some places only.
func needsPlace(r rune) bool { return joins(r) || isTag(r) || selects(r) }

// withoutStray is a name without the joiners, tags and selectors that change nothing where they are.
func withoutStray(name string) string { return sift(name, false) }

// sift takes out what changes nothing where it is. Joiners beside letters of a script that
// uses them may stay: keyboards put them there, whether the letters need them or not.
func sift(name string, asTyped bool) string {
	for strings.ContainsFunc(name, needsPlace) {
		runes := []rune(name)
		kept := make([]rune, 0, len(runes))
		for i, r := range runes {
			switch {
			case joins(r) && asTyped && besideUser(runes, i):
				kept = append(kept, r)
			case joins(r) && !joinsPictures(runes, i) && !joinsLetters(runes, i):
			case isTag(r) && !inFlag(runes, i):
			case selects(r) && !variant(runes, i):
			default:
				kept = append(kept, r)
			}
		}
		if len(kept) == len(runes) { // else what is left may be stray by now
			break
		}
		name = string(kept)
	}
	return name
}

// joinsLetters reports a joiner that changes how its neighbours are written.
// Source: Unicode Standard Annex 31, section 2.3, and RFC 5892, appendix A.1 and A.2;
// for joiners before a mark and at the edge of a word the Unicode Standard.
func joinsLetters(runes []rune, at int) bool {
	before, after := lettersBefore(runes[:at]), lettersAfter(runes[at+1:])
	if behindVirama(before) || beforeMark(runes[at], before, after) {
		return true
	}
	left, right := joinsNext(before), joinsLast(after)
	if runes[at] == nonJoiner {
		return left && right // which would be written joined
	}
	return left != right // which is joined to nothing, and written as if it were
}

// users are the scripts in which people type joiners: their letters are joined, or
// stacked by a virama. Source: the Unicode Standard, chapters 9, 12 to 14, 16, 17 and 19.
var users = []*unicode.RangeTable{
	unicode.Arabic, unicode.Syriac, unicode.Mandaic, unicode.Mongolian, unicode.Phags_Pa, unicode.Nko, unicode.Adlam, unicode.Hanifi_Rohingya,
	unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati, unicode.Oriya, unicode.Tamil, unicode.Telugu, unicode.Kannada,
	unicode.Malayalam, unicode.Sinhala, unicode.Myanmar, unicode.Khmer, unicode.Tibetan, unicode.Javanese, unicode.Balinese, unicode.Sundanese,
}

// besideUser reports a joiner, or one of several in a row, beside a letter or mark of such a script.
func besideUser(runes []rune, at int) bool {
	before, after := at-1, at+1
	for before >= 0 && joins(runes[before]) {
		before--
	}
	for after < len(runes) && joins(runes[after]) {
		after++
	}
	uses := func(i int) bool {
		return i >= 0 && i < len(runes) && isLetter(runes[i]) && unicode.In(runes[i], users...)
	}
	return uses(before) || uses(after)
}

func isLetter(r rune) bool { return unicode.In(r, unicode.L, unicode.M) }

// lettersBefore are the letters and marks that a text ends with, lettersAfter those it begins with.
func lettersBefore(text []rune) []rune {
	from := len(text)
	for from > 0 && isLetter(text[from-1]) {
		from--
	}
	return withoutSelectors(text[from:])
}

func lettersAfter(text []rune) []rune {
	to := 0
	for to < len(text) && isLetter(text[to]) {
		to++
	}
	return withoutSelectors(text[:to])
}

func withoutSelectors(text []rune) []rune {
	return slices.DeleteFunc(slices.Clone(text), selects)
}

// class is the canonical combining class of a character: 9 for a virama, 0 for letters.
func class(r rune) uint8 { return norm.NFC.PropertiesString(string(r)).CCC() }

const virama = 9

// behindVirama reports letters that end with a virama, but for marks on top.
func behindVirama(text []rune) bool {
	at := len(text) - 1
	for at > 0 && class(text[at]) != 0 && class(text[at]) != virama {
		at--
	}
	return at >= 0 && class(text[at]) == virama
}

// beforeMark reports a joiner that changes how the mark behind it is written.
func beforeMark(r rune, before, after []rune) bool {
	if len(before) == 0 || len(after) == 0 {
		return false
	}
	mark := after[0]
	if class(mark) == virama {
		script := conjuncts(mark)
		return r == joiner && script != nil && unicode.Is(script, before[len(before)-1]) && len(after) > 1 &&
			unicode.Is(unicode.Lo, after[1]) && unicode.Is(script, after[1])
	}
	for _, m := range marks {
		if slices.Contains(m.joiners, r) && unicode.Is(m.script, before[len(before)-1]) && unicode.Is(m.script, mark) && slices.Contains(m.marks, mark) {
			return true
		}
	}
	return false
}

// conjuncts is the script of a virama before which a joiner keeps the letter and
// changes the next: ya-phalaa behind ra, ra that is no repha, touching letters.
// Source: the Unicode Standard, sections 12.2 (Bengali), 12.8 (Kannada) and 13.2
// (Sinhala); for the others https://www.unicode.org/L2/L2004/04328-leca-pr37.html.
func conjuncts(mark rune) *unicode.RangeTable {
	for _, script := range []*unicode.RangeTable{unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati, unicode.Oriya,
		unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala} {
		if unicode.Is(script, mark) {
			return script
		}
	}
	return nil
}

// marks are those that a joiner before them puts elsewhere or parts from their letter.
var marks = []struct {
	script  *unicode.RangeTable
	joiners []rune
	marks   []rune
}{
	// The Unicode Standard, section 12.9: signs of u, uu and vocalic r that are not one shape with their letter.
	{unicode.Malayalam, []rune{nonJoiner}, []rune{'\u0d41', '\u0d42', '\u0d43'}},
	// Section 16.4: the shifters of a consonant keep their shape.
	{unicode.Khmer, []rune{nonJoiner}, []rune{'\u17c9', '\u17ca'}},
	// Section 9.1: meteg to the left of its vowel, or within it.
	{unicode.Hebrew, []rune{nonJoiner, joiner}, []rune{'\u05bd'}},
}

// scripts knows between which letters a script needs a non-joiner, since they would
// be written joined. Source: RFC 8264 with RFC 5892, appendix A.1.
var scripts = precis.NewFreeform()

const beh = "\u0628" // joins on both sides

// joinsNext reports letters of which the last would be joined to a next one, joinsLast
// such that would be joined to one before them.
func joinsNext(letters []rune) bool { return needsNonJoiner(string(letters), beh) }
func joinsLast(letters []rune) bool { return needsNonJoiner(beh, string(letters)) }

func needsNonJoiner(before, after string) bool {
	_, err := scripts.String(before + string(nonJoiner) + after)
	return err == nil
}

// inFlag reports a tag that is part of a flag: a black flag, then what has a flag of
// its own, the code of a part of a country or three digits, and the end of tags.
// Source: https://www.unicode.org/reports/tr51/#valid-emoji-tag-sequences
func inFlag(runes []rune, at int) bool {
	from, to := at, at
	for from > 0 && isTag(runes[from-1]) && runes[from-1] != tagEnd {
		from--
	}
	for to < len(runes)-1 && isTag(runes[to]) && runes[to] != tagEnd {
		to++
	}
	if from == 0 || runes[from-1] != blackFlag || runes[to] != tagEnd {
		return false
	}
	code := make([]byte, 0, to-from)
	for _, r := range runes[from:to] {
		code = append(code, byte(r-'\U000e0000'))
	}
	return isFlagCode(string(code))
}

// isFlagCode reports the code of a region, of two letters or three digits, with that
// of its part behind it, of one to four letters or digits; three digits have a flag alone.
func isFlagCode(code string) bool {
	const digits, letters = "0123456789", "abcdefghijklmnopqrstuvwxyz"
	if strings.Trim(code, digits+letters) != "" || len(code) < 3 {
		return false
	}
	if strings.Trim(code[:3], digits) == "" {
		return len(code) <= 7
	}
	return strings.Trim(code[:2], letters) == "" && len(code) <= 6
}

// variants are the characters of which Unicode has variants; a picture may be shown as one
// or as a sign, and the signs of keycaps have their cap behind the selector.
// Source: https://www.unicode.org/Public/UCD/latest/ucd/StandardizedVariants.txt,
// emoji/emoji-variation-sequences.txt, and UTS 37 for ideographs.
var variants = []struct {
	from, to rune
	of       []*unicode.RangeTable
}{
	{'\ufe00', '\ufe02', []*unicode.RangeTable{unicode.Han, unicode.Myanmar, unicode.Phags_Pa, unicode.Manichaean, unicode.Egyptian_Hieroglyphs, unicode.Sm}},
	{'\ufe0e', '\ufe0f', []*unicode.RangeTable{pictures, signs}},
	{'\u180b', '\u180f', []*unicode.RangeTable{unicode.Mongolian}},
	{'\U000e0100', '\U000e01ef', []*unicode.RangeTable{unicode.Han}},
}

// signs have a variant as a picture, and are outside of the blocks of pictures.
var signs = &unicode.RangeTable{R16: []unicode.Range16{{0xa9, 0xae, 5}, {0x203c, 0x2049, 13}, {0x2122, 0x2139, 23}, {0x24c2, 0x24c2, 1},
	{0x25aa, 0x25ab, 1}, {0x25b6, 0x25c0, 10}, {0x25fb, 0x25fe, 1}, {0x2934, 0x2935, 1}, {0x3030, 0x303d, 13}, {0x3297, 0x3299, 2}}, LatinOffset: 1}

// variant reports a selector that makes a variant of the character before it.
func variant(runes []rune, at int) bool {
	const keycap = '\u20e3'
	if at == 0 {
		return false
	}
	if keys := "0123456789#*"; runes[at] == '\ufe0f' && strings.ContainsRune(keys, runes[at-1]) {
		return at+1 < len(runes) && runes[at+1] == keycap
	}
	for _, v := range variants {
		if v.from <= runes[at] && runes[at] <= v.to {
			return unicode.In(runes[at-1], v.of...)
		}
	}
	return false
}

// joinsPictures reports a joiner that makes one picture of two, of which the first
// may have a colour of skin or be marked as a picture.
// Source: https://www.unicode.org/reports/tr51/#def_emoji_zwj_sequence
func joinsPictures(runes []rune, at int) bool {
	before := at - 1
	for before > 0 && (runes[before] == '\ufe0f' || '\U0001f3fb' <= runes[before] && runes[before] <= '\U0001f3ff') {
		before--
	}
	return runes[at] == joiner && before >= 0 && at+1 < len(runes) && unicode.Is(pictures, runes[before]) && unicode.Is(pictures, runes[at+1])
}

// pictures are the blocks that hold what Unicode calls Extended_Pictographic, and of
// single characters those that sequences have.
// Source: https://www.unicode.org/Public/UCD/latest/ucd/emoji/emoji-data.txt
var pictures = &unicode.RangeTable{
	R16: []unicode.Range16{{0x2190, 0x21ff, 1}, {0x2300, 0x23ff, 1}, {0x2600, 0x27bf, 1}, {0x2b00, 0x2bff, 1}},
	R32: []unicode.Range32{{0x1f000, 0x1f1e5, 1}, {0x1f200, 0x1f3fa, 1}, {0x1f400, 0x1faff, 1}},
}
