package asked

import (
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
