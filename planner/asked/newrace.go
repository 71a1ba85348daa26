package asked

import (
	"strings"
	"unicode"

	"musette/planner/asked/plain"
)

var (
	calledName  = plain.Compile(`(?i)\b(?:called|named|name is|with name|calls itself)\s+(?:the\s+)?["“]?([^,.;"”\n]+)`)
	listedName  = plain.Compile(`(?i)^(?:new )?(?:race|name|event)\s*[,:]\s*([^,.;\n]+)`)
	enteredName = plain.Compile(`(?i)\b(?:new race:?|register(?: the)?(?: race)?|add(?: the)?(?: race)?|entered|enter|sign me up for|signed up for|signed up to|spot in|put|target race is|main race is|racing(?: at)?|race(?: is)?|booked|in for|do|doing|got|theres)\s+(?:in\s+)?(?:the\s+|a\s+)?([^,.;\n]+)`)
	behindName  = plain.Compile(`(?i)\s+(?:do not know|dont know|not sure|no idea|i have|i am|we have|i|date|are|was|on|at|it's|its|it|is|priority|prio|as|in|takes?|for|which|and|this|next|some ?time|somewhere|the \d.*|\d{1,2}(?:st|nd|rd|th)?(?:\s+(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b.*|\s+(?:[abc]|of|at|as|for|prio|priority|please|pls|it|its|is|and|c|in)\b.*)?|today|tomorrow|soonish|soon|too|also|(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)|[abc])(?:\s.*)?$|(?i)\s+(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?(?:\s+(?:\d|the|this|next|at|in|of|on|it|its|is|as|week|morning|evening|afternoon|night|priority|prio|[abc]\b|for|i|and|please)\b.*|\s+\d.*)?$`)
	idleName    = plain.Compile(`(?i)^(?:a|an|the|my|new|race|races|event|competition|one|it|that|this|time trial|crit|please|me|saturday|sunday|on|just|training|another|for|i|want|to|in|up|b|c|something|place|talked|into)(?:\s+(?:race|event|one|competition|on|the|a|i|want|to|do|me|training|for|into|it|this|by))*$`)
	smallInName = wordSet("of the and de du da do la le les des del dei della delle dello degli der den dem zum zur van von am an to for on in upon by")
	notInName   = wordSet("racing doing riding entering signing i please add new race got my the a an we it note enter entered kindly can could would have on next last and in there so register sign put one is as at if for just b c prio priority oh okay hi hello also want just add: note: take will race: coach")
)

// newRace is the name of a race that somebody announces, "" for none.
func (p *Part) newRace() string {
	for _, form := range []*plain.Pattern{calledName, listedName} {
		if name := cleanName(firstMatch(form, p.Text)); name != "" {
			return name
		}
	}
	if name := p.capitalName(); name != "" {
		return name
	}
	if name := p.nameBeforeDay(); name != "" {
		return name
	}
	if name := p.nameAfterDay(); name != "" {
		return name
	}
	return cleanName(firstMatch(enteredName, p.Text))
}

// ofDistance are names that end with how far they go: Old Pier 25.
var ofDistance = plain.Compile(`(?i)^([a-z][a-z' ]+[a-z]) (10|20|25|30|40|50|60|80|100|150|200)(?:\s+(?:on|for|at|in)\b.*)?$`)

// ownRace are names that end with the word race.
var ownRace = plain.Compile(`(?i)\b(?:road|evening|night|street|circuit|stage|gravel|hill|mountain|relay|boat) race$`)

func firstMatch(form *plain.Pattern, text string) string {
	if m := form.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

// cleanName is a name without what follows it.
func cleanName(name string) string {
	name = strings.TrimSpace(name)
	distance := ""
	if m := ofDistance.FindStringSubmatch(name); m != nil {
		name, distance = m[1], " "+m[2]
	}
	for range 6 {
		first := ""
		if beginsName(name) {
			first, name, _ = strings.Cut(name, " ")
			first += " "
		}
		name = strings.TrimSpace(first + strings.TrimSpace(behindName.ReplaceAllString(" "+name, "")))
	}
	name += distance
	if name == strings.ToLower(name) && !ownRace.MatchString(name) {
		name = strings.TrimSuffix(name, " race")
	}
	if len(name) < 3 || idleName.MatchString(name) {
		return ""
	}
	return capital(name)
}

// capital writes each word of a name that was typed in small letters with a capital.
func capital(name string) string {
	if name != strings.ToLower(name) {
		return name
	}
	parts := strings.Fields(name)
	for i, w := range parts {
		if r := []rune(w); !smallInName[w] || i == 0 {
			r[0] = unicode.ToUpper(r[0])
			parts[i] = string(r)
		}
	}
	return strings.Join(parts, " ")
}

func isCapital(raw string) bool {
	for _, r := range raw {
		return unicode.IsUpper(r) || unicode.IsDigit(r)
	}
	return false
}

// capitalName is the longest run of words with capitals that are no ordinary words.
func (p *Part) capitalName() string {
	best := []string(nil)
	for i := 0; i < len(p.words); i++ {
		if !p.inName(i) || !unicode.IsUpper([]rune(p.words[i].raw)[0]) && !unicode.IsDigit([]rune(p.words[i].raw)[0]) {
			continue
		}
		var run []string
		letters := false
		j := i
		for ; j < len(p.words) && len(run) < 8; j++ {
			w := p.words[j]
			if !p.inName(j) && !p.smallInside(j) && !(j > i && strings.EqualFold(w.raw, "race") && isCapital(w.raw)) {
				break
			}
			if n := len(run); n > 0 && p.words[j-1].glued {
				run[n-1] += "-" + w.raw
			} else {
				run = append(run, w.raw)
			}
			letters = letters || unicode.IsUpper([]rune(w.raw)[0])
			if w.end != 0 {
				j++
				break
			}
		}
		if letters && (len(run) > len(best)) && (len(run) > 1 || i > 0 && len(run[0]) > 3) {
			best = run
		}
		i = j - 1
	}
	return strings.Join(best, " ")
}

// smallInside reports whether a word is a small one within a name: of the.
func (p *Part) smallInside(j int) bool {
	for ; j > 0 && j+1 < len(p.words) && smallInName[p.words[j].low] && p.words[j].end == 0; j++ {
		if p.inName(j + 1) {
			return true
		}
	}
	return false
}

// inName reports whether a word can be one of a name with capitals.
func (p *Part) inName(i int) bool {
	w := p.words[i]
	if i+1 < len(p.words) && p.words[i+1].low == "of" && (w.raw == "Race" || w.raw == "Tour") {
		return true
	}
	if w.raw == "Last" && i > 0 && p.words[i-1].low == "the" && i+1 < len(p.words) && isCapital(p.words[i+1].raw) && p.words[i+1].slot == "" {
		return true // the Last Leaf
	}
	if (w.raw == "One" || w.raw == "Last" || w.raw == "Next" || w.raw == "B" || w.raw == "C") && i > 0 && w.slot == "" && i+1 < len(p.words) && isCapital(p.words[i+1].raw) && p.words[i+1].slot == "" {
		return true // One Tree Hill
	}
	if w.slot != "" && w.slot != "RACE" || !isCapital(w.raw) || notInName[strings.ToLower(w.raw)] || w.raw == "A" {
		return false
	}
	return (i > 0 && p.words[i-1].end != '.') || !learned().known[strings.ToLower(w.raw)] || i+1 < len(p.words) && w.end == 0 && isCapital(p.words[i+1].raw) && (p.words[i+1].slot == "" || p.words[i+1].slot == "RACE") && !notInName[p.words[i+1].low]
}

var beforeName = wordSet("you note write jot pencil log mark pop stick me us down have has do did a an the my got add added entered enter in for called doing do doin race new register up put racing theres there at to on into this that and i am we have got by as just another one event it is booked signed please then")

// nameBeforeDay is the name before the day of a race in a text without capitals.
func (p *Part) nameBeforeDay() string {
	for i, w := range p.words {
		if w.slot != "DAY" {
			continue
		}
		end := i
		for end > 0 && (p.words[end-1].low == "on" || p.words[end-1].low == "the" || p.words[end-1].low == "is" || p.words[end-1].low == "this" || p.words[end-1].low == "its" || p.words[end-1].low == "of") {
			end--
		}
		from := end
		for from > 0 && end-from < 5 && p.words[from-1].slot != "DAY" && p.words[from-1].slot != "LEN" && (!beforeName[p.words[from-1].low] || from == end && p.words[from-1].low == "race") && (from == end || p.words[from-1].end == 0) {
			from--
		}
		var run []string
		for _, w := range p.words[from:end] {
			run = append(run, w.raw)
		}
		if name := cleanName(strings.Join(run, " ")); len(run) > 1 && name != "" {
			return name
		}
	}
	return ""
}

// behindWhole are words that end a name.
var behindWhole = wordSet("its it is as a b c prio priority just for and which i so please pls called with")

// beforeAnnounced are words between a day and the name of a race: on 19 July there is the Street GP.
var beforeAnnounced = wordSet("the a at in there is i am we doing racing riding entered have got do")

// nameAfterDay is the name after the day of a race: 28 June Bridge Sprint, it's a B.
func (p *Part) nameAfterDay() string {
	for i := 1; i < len(p.words); i++ {
		if p.words[i-1].slot != "DAY" || p.words[i].slot == "DAY" {
			continue
		}
		var run []string
		for j := i; j < len(p.words) && len(run) < 6 && p.words[j].slot != "LEN" && p.words[j].slot != "DAY"; j++ {
			low := p.words[j].low
			if len(run) == 0 && beforeAnnounced[low] {
				continue
			}
			if behindWhole[low] {
				break
			}
			run = append(run, p.words[j].raw)
			if p.words[j].end != 0 {
				break
			}
		}
		if name := cleanName(strings.Join(run, " ")); len(run) > 1 && name != "" {
			return name
		}
	}
	return ""
}
