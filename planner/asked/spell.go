package asked

import (
	"slices"
	"strings"

	"musette/planner/asked/plain"
)

// shortForms are words as people write them in a hurry.
var shortForms = map[string]string{
	"u": "you", "r": "are", "ur": "your", "wot": "what", "wat": "what", "wats": "what is", "pls": "please", "plz": "please", "thx": "thanks", "ty": "thanks", "tnx": "thanks",
	"tmrw": "tomorrow", "tmw": "tomorrow", "tmr": "tomorrow", "tomoz": "tomorrow", "2moz": "tomorrow", "2moro": "tomorrow", "2mrw": "tomorrow", "2morrow": "tomorrow", "tomo": "tomorrow", "tomorow": "tomorrow", "tommorow": "tomorrow", "tommorrow": "tomorrow", "tomorro": "tomorrow",
	"2day": "today", "tday": "today", "tdy": "today", "2nite": "tonight", "tonite": "tonight", "yday": "yesterday", "ystrday": "yesterday", "ystd": "yesterday", "yest": "yesterday", "wk": "week", "wks": "weeks", "wkend": "weekend", "wknd": "weekend", "nxt": "next", "hrs": "hours", "mins": "min",
	"mon": "monday", "tue": "tuesday", "tues": "tuesday", "wed": "wednesday", "weds": "wednesday", "thu": "thursday", "thur": "thursday", "thurs": "thursday", "fri": "friday", "sat": "saturday", "sun": "sunday",
	"wensday": "wednesday", "wendsday": "wednesday", "wednsday": "wednesday", "thursdy": "thursday", "satday": "saturday",
	"gonna": "going to", "wanna": "want to", "gotta": "have to", "dunno": "do not know", "im": "i am", "ive": "i have", "ill": "ill", "id": "i would", "cant": "can not", "cannot": "can not", "dont": "do not", "doesnt": "does not",
	"didnt": "did not", "wont": "will not", "isnt": "is not", "couldnt": "could not", "wasnt": "was not", "arent": "are not", "havent": "have not", "shouldnt": "should not", "wouldnt": "would not", "whats": "what is", "whens": "when is", "hows": "how is",
	"wheres": "where is", "thats": "that is", "theres": "there is", "its": "it is", "were": "were", "youre": "you are", "lets": "let us", "b4": "before", "sched": "schedule", "sesh": "session", "comp": "competition", "cuz": "because", "cos": "because", "coz": "because",
	"bc": "because", "abt": "about", "hw": "how", "wen": "when", "whys": "why is", "wots": "what is", "y": "why", "k": "ok", "okay": "ok", "kk": "ok", "tho": "though", "rn": "now", "gd": "good", "trainin": "training", "ridin": "riding", "hafta": "have to", "shud": "should", "shld": "should", "cld": "could", "wld": "would",
	"afore": "before", "efter": "after", "o": "of", "tae": "to", "whit": "what", "dae": "do", "dinnae": "do not", "cannae": "can not", "didnae": "did not", "doon": "down", "wi": "with", "ma": "my",
	"satdy": "saturday", "satdee": "saturday", "satdi": "saturday", "satterday": "saturday", "sundee": "sunday", "sundy": "sunday", "mondee": "monday", "mundee": "monday", "toosday": "tuesday", "tuesdee": "tuesday", "chewsday": "tuesday", "tuseday": "tuesday", "wensdee": "wednesday", "wednesdee": "wednesday", "wendesday": "wednesday", "thursdee": "thursday", "thersday": "thursday", "fridee": "friday", "fryday": "friday", "frday": "friday", "frid": "friday",
	"jan": "january", "feb": "february", "apr": "april", "jun": "june", "jul": "july", "aug": "august", "sept": "september", "oct": "october", "nov": "november", "dec": "december", "sabbath": "sunday",
	"tomorra": "tomorrow", "tmorrow": "tomorrow", "tmoro": "tomorrow", "tmro": "tomorrow", "tomos": "tomorrow", "2mro": "tomorrow", "morro": "tomorrow", "overmorrow": "day after tomorrow", "tonit": "tonight", "2nyt": "tonight", "tnight": "tonight", "yesterdy": "yesterday", "ysterday": "yesterday", "yestrday": "yesterday", "ystday": "yesterday", "yesturday": "yesterday", "tody": "today",
	"crete": "crit", "crate": "crit", "creat": "crit", "tapir": "taper", "tapirs": "tapers", "wrest": "rest", "wresting": "resting", "jells": "gels", "jell": "gel", "squads": "squats", "lex": "legs", "tapor": "taper", "tayper": "taper",
	"n": "and", "w": "with", "da": "the", "nite": "night", "nites": "nights", "wkends": "weekends", "nah": "no", "nope": "no", "yep": "yes", "yeah": "yes", "atm": "now", "asap": "soon", "soz": "sorry", "sry": "sorry", "thru": "through", "til": "until", "till": "until", "enuf": "enough", "shuld": "should", "coud": "could", "woud": "would", "prio": "priority", "agen": "again", "wich": "which", "witch": "which", "thurz": "thursday", "bday": "birthday", "hol": "holiday", "hols": "holidays", "temp": "temperature", "calender": "calendar", "calander": "calendar", "callender": "calendar", "def": "definitely", "prob": "probably", "probs": "probably", "defo": "definitely", "owt": "anything", "nowt": "nothing", "summat": "something", "meself": "myself", "oot": "out", "aboot": "about", "kno": "know", "knw": "know", "ppl": "people", "msg": "message", "footie": "football", "footy": "football", "tummy": "stomach", "brekkie": "breakfast", "brekky": "breakfast", "cals": "calories", "med": "medicine", "meds": "medicine", "ibu": "ibuprofen", "para": "paracetamol", "docs": "doctor", "ez": "easy", "eazy": "easy", "rly": "really", "cud": "could", "cudnt": "could not", "hav": "have", "gimme": "give me", "lemme": "let me", "wana": "want to", "outta": "out of", "kinda": "kind of", "sorta": "sort of", "dnt": "do not", "cnt": "can not", "aint": "is not", "hadnt": "had not", "whn": "when", "wht": "what", "wher": "where", "whos": "who is",
	"intervalls": "intervals", "intervalles": "intervals", "excercise": "exercise", "taperring": "tapering", "tapper": "taper", "tappering": "tapering", "rac": "race", "leggs": "legs", "recup": "recovery", "wrkout": "workout", "ints": "intervals", "chaingang": "chaingang",
}

var days = wordSet("monday tuesday wednesday thursday friday saturday sunday tomorrow yesterday today tonight weekend tues weds thurs fri sat sun mon wed")

// tomorrowLike are ways to write tomorrow in a hurry: tmrrw, 2morra, tommoro.
var tomorrowLike = plain.Compile(`^(?:too?|2|t)m{1,2}[oa]?(?:r{1,2}[oae]*w?|w|z)s?$`)

// yesterdayLike are ways to write yesterday: ystrdy, yesty, yestadays.
var yesterdayLike = plain.Compile(`^ye?st(?:e?r?|[aiu]r?)(?:d[aeiy]*)?(?:ie|y)?s?$`)

// mend is the known word that a slip of the pen is nearest to, else the word itself.
func mend(w string) string {
	if len(w) < 5 || len(w) > 24 || learned().known[w] || strings.ContainsAny(w, "0123456789") {
		return w
	}
	most := 1
	if len(w) >= 8 {
		most = 2
	}
	best, least := w, most+1
	for day := range weekdays {
		if len(w) < 10 && w[0] == day[0] && distance(w, day, least) == 1 {
			return day // before money for mondy
		}
	}
	for n := len(w) - most; n <= len(w)+most; n++ {
		for _, known := range learned().byLength[n] {
			if known[0] != w[0] && (len(w) < 6 || known[1] != w[1]) {
				continue
			}
			if d := distance(w, known, least); d < least {
				best, least = known, d
			}
		}
	}
	return best
}

// distance is how many letters are wrong, lacking, too many or swapped; at least
// limit where it is not less.
func distance(a, b string, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	prev2, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		row := i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
			row = min(row, cur[j])
		}
		if row >= limit {
			return limit
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}

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
		if parts[i] = folded(w.raw); i+1 < len(words) && w.end != 0 || weekdays[w.low] {
			return "" // and Tuesday I am: no antihistamine
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
