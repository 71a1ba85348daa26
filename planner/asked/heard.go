package asked

import (
	"slices"
	"strings"
)

// misheard are words in a row that dictation writes for one, and that one.
var misheard = map[string]string{
	"tape her": "taper", "tape a": "taper", "tape or": "taper", "tay per": "taper", "taper ring": "tapering", "tape ring": "tapering", "tape erring": "tapering",
	"are pee ee": "rpe", "are pee e": "rpe", "our pea ee": "rpe", "our pee ee": "rpe", "are pea ee": "rpe", "are p e": "rpe", "our p e": "rpe", "r p e": "rpe", "ar pee e": "rpe", "are pea e": "rpe", "our pea e": "rpe",
	"i see s": "ics", "i c s": "ics", "eye see s": "ics", "eye see ess": "ics", "eye c s": "ics", "i see ess": "ics",
	"open her": "opener", "open hers": "openers", "open ers": "openers", "inter vals": "intervals", "into vals": "intervals", "inner vals": "intervals", "in her vals": "intervals", "interval's": "intervals",
	"by sickle": "bicycle", "bi cycle": "bicycle", "buy sickle": "bicycle", "car bs": "carbs", "over load": "overload", "cross fit": "crossfit", "thresh hold": "threshold", "de trained": "detrained",
	"chain gang": "chaingang", "vee oh two": "vo2", "v o 2": "vo2", "v o two": "vo2", "tea tea": "tt", "para set a mole": "paracetamol", "eye bew pro fen": "ibuprofen",
	"warm mup": "warmup", "calf eine": "caffeine", "cough ee": "coffee", "band list": "banned list",
	"more past her": "more pasta", "eat past her": "eat pasta", "of past her": "of pasta", "have past her": "have pasta",
	"week end": "weekend", "to morrow": "tomorrow", "two morrow": "tomorrow", "yes today": "yesterday", "yester day": "yesterday", "race is please": "races please", "my race is please": "my races please",
}

// longestMisheard is how many words the longest of these has.
const longestMisheard = 5

// inPlace are words that sound like others, the words before or behind which they are those,
// and what they are.
var inPlace = []struct {
	word, becomes string
	before, after map[string]bool
}{
	{word: "weak", becomes: "week", before: wordSet("this next last race the per every whole crit loop all load hard easy rest taper usual normal typical recovery"), after: wordSet("after before of plan")},
	{word: "weaks", becomes: "weeks", before: wordSet("two three four five six few many")},
	{word: "ours", becomes: "hours", before: wordSet("many total much two three four five six seven eight nine ten few couple"), after: wordSet("sleep on in this next a per of total left")},
	{word: "our", becomes: "hour", before: wordSet("an half one each")},
	{word: "saw", becomes: "sore", before: wordSet("saddle knee knees throat leg legs back is are bit still very so really feels feel")},
	{word: "waits", becomes: "weights", before: wordSet("lift lifting do doing the my with of heavy drop stop gym"), after: wordSet("room in")},
	{word: "wait", becomes: "weight", after: wordSet("lifting training room lift")},
	{word: "necks", becomes: "next", before: wordSet("is my the"), after: wordSet("race for week one event monday tuesday wednesday thursday friday saturday sunday")},
	{word: "sea", becomes: "c", before: wordSet("priority"), after: wordSet("race")},
	{word: "see", becomes: "c", before: wordSet("priority"), after: wordSet("race")},
	{word: "bee", becomes: "b", before: wordSet("priority"), after: wordSet("race")},
	{word: "aloud", becomes: "allowed", before: wordSet("is am i that this it be still")},
	{word: "hole", becomes: "whole", after: wordSet("morning day week plan thing afternoon evening weekend time season")},
	{word: "worm", becomes: "warm", after: wordSet("up ups")},
	{word: "probably", becomes: "properly", before: wordSet("train"), after: wordSet("again")},
	{word: "one", becomes: "won", before: wordSet("who")},
	{word: "ate", becomes: "eight", after: wordSet("hours weeks o'clock oclock rides")},
	{word: "rode", becomes: "road", before: wordSet("the on mill")},
	{word: "road", becomes: "rode", before: wordSet("i we")},
	{word: "sundaes", becomes: "sunday"}, {word: "sundae", becomes: "sunday"}, {word: "fry", becomes: "friday", before: wordSet("on this next"), after: wordSet("day")},
	{word: "legs's", becomes: "legs"}, {word: "brakefast", becomes: "breakfast"}, {word: "breakfirst", becomes: "breakfast"},
	{word: "an", becomes: "and", after: wordSet("what how when which why can could may might will would should shall do does did is are am have has i we my the then also if where wots")},
}

// longWords are words that dictation takes apart in many ways.
var longWords = strings.Fields("paracetamol ibuprofen carbohydrate carbohydrates criterium antihistamine magnesium electrolytes physiotherapist recovery calendar schedule hamstring achilles temperature concussion")

// shortNames are words with which none of these begins.
var shortNames = wordSet("crit")

// heard puts in place of what dictation has written what was said. It looks at the words alone: what
// stands beside them decides.
func heard(words []word) []word {
	for i := 0; i < len(words); i++ {
		for n := 2; n <= min(longestMisheard, len(words)-i); n++ {
			if said := soundsLike(words[i : i+n]); said != "" {
				words = joinedAt(words, i, n, said)
				break
			}
		}
	}
	for i := range words {
		for _, h := range inPlace {
			if words[i].low != h.word && folded(words[i].raw) != h.word {
				continue
			}
			free := h.before == nil && h.after == nil
			if free || i > 0 && words[i-1].end == 0 && h.before[words[i-1].low] || i+1 < len(words) && words[i].end == 0 && h.after[words[i+1].low] {
				words[i].low, words[i].raw = h.becomes, h.becomes
				break
			}
		}
	}
	return words
}

// joinedAt puts words in place of n of them.
func joinedAt(words []word, at, n int, said string) []word {
	last := words[at+n-1]
	var put []word
	for _, w := range strings.Fields(said) {
		put = append(put, word{raw: w, low: w})
	}
	put[len(put)-1].end, put[len(put)-1].asks, put[len(put)-1].dash = last.end, last.asks, last.dash
	return append(append(append([]word(nil), words[:at]...), put...), words[at+n:]...)
}

// soundsLike is the word as which words in a row sound, "" for none.
func soundsLike(words []word) string {
	parts := make([]string, len(words))
	for i, w := range words {
		if parts[i] = folded(w.raw); i+1 < len(words) && w.end != 0 {
			return ""
		}
	}
	if said := misheard[strings.Join(parts, " ")]; said != "" {
		return said
	}
	whole := strings.Join(parts, "")
	if shortNames[parts[0]] {
		return ""
	}
	if len(whole) < 7 || strings.ContainsAny(whole, "0123456789") {
		return ""
	}
	for _, long := range longWords {
		if whole[0] != long[0] || len(whole) > len(long)+4 || len(long) > len(whole)+4 || sound(whole) != soundOf[long] {
			continue
		}
		if !slices.ContainsFunc(parts, func(part string) bool { return len(sound(part))+1 >= len(soundOf[long]) }) {
			return long // else it was heard rightly, and another word stands beside it
		}
	}
	return ""
}

// soundOf is how each of these sounds.
var soundOf = func() map[string]string {
	out := map[string]string{}
	for _, w := range longWords {
		out[w] = sound(w)
	}
	return out
}()

// alike are letters that sound as others do.
var alike = strings.NewReplacer("ph", "f", "ck", "k", "ce", "s", "ci", "s", "cy", "s", "c", "k", "q", "k", "x", "ks", "z", "s", "v", "f", "d", "t")

// sound is how a word sounds, by its consonants.
func sound(w string) string {
	text := alike.Replace(w)
	out := make([]byte, 0, len(text))
	for i := range len(text) {
		if n := len(out); strings.IndexByte("aeiouhwy", text[i]) < 0 && (n == 0 || out[n-1] != text[i]) {
			out = append(out, text[i])
		}
	}
	return string(out)
}
