package asked

import (
	"strings"
	"unicode"

	"musette/planner/asked/plain"
)

// word is a word of a text: as it was written and as it is read. A slot stands for
// what was found there: DAY, RACE, RIDER, LEN.
type word struct {
	raw, low string
	slot     string
	end      byte // what parts it from the next: 0, ',' or '.'
	asks     bool // a question mark stands behind it
	dash     bool // a dash stands before the next
	glued    bool // a hyphen joins it to the next
}

var accents = strings.NewReplacer("á", "a", "à", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "é", "e", "è", "e", "ê", "e", "ë", "e", "í", "i", "ì", "i", "î", "i", "ï", "i",
	"ó", "o", "ò", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ç", "c", "ñ", "n", "ß", "ss", "œ", "oe", "æ", "ae",
	"’", "'", "‘", "'", "`", "'", "´", "'", "“", `"`, "”", `"`, "–", "-", "—", " - ", "…", "... ")

// numeric are words that stay whole: dates, times, lengths.
var numeric = plain.Compile(`^\d+(?:[-/.:]\d+)+(?:[a-z]+)?$|^\d+(?:[.,]\d+)?%$`)

// escapes are what terminals put before colours and keys.
var escapes = plain.Compile(`\x1b\[[0-9;?]*[ -/]*[@-~]`)

// cut takes a text apart into words.
func cut(text string) []word {
	text = escapes.ReplaceAllString(text, " ")
	text = strings.Map(func(r rune) rune {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, text)
	text = plain.Days(accents.Replace(strings.ToValidUTF8(text, " ")))
	var out []word
	for _, line := range strings.Split(text, "\n") {
		for _, chunk := range strings.Fields(line) {
			if n := len(out); n > 0 && strings.Trim(chunk, "-") == "" {
				out[n-1].dash = true
			}
			out = append(out, cutChunk(chunk)...)
		}
		if n := len(out); n > 0 {
			out[n-1].end = '.'
		}
	}
	out = heard(out)
	for i := 1; i < len(out); i++ {
		switch before := out[i-1].low; {
		case partsOfDay[out[i].low] && (before == "this" || before == "last" || days[before]):
			out[i].low = strings.TrimSuffix(out[i].low, "s") // this morning's ride
		}
	}
	return out
}

// partsOfDay are parts of one day behind "this" or a day, without the sign of what is theirs.
var partsOfDay = wordSet("mornings evenings nights afternoons")

// cutChunk takes apart the text between two blanks.
func cutChunk(chunk string) []word {
	bare := strings.TrimFunc(chunk, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '%' })
	var end byte
	asks := false
	if i := strings.LastIndex(chunk, bare); i >= 0 {
		tail := chunk[i+len(bare):]
		asks = strings.Contains(tail, "?")
		switch {
		case strings.ContainsAny(tail, ".?!;"):
			end = '.'
		case strings.ContainsAny(tail, ",:-)"):
			end = ','
		}
	}
	if bare == "" {
		return nil
	}
	parts := []string{bare}
	if !numeric.MatchString(strings.ToLower(bare)) {
		parts = strings.FieldsFunc(bare, func(r rune) bool {
			return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '%' && r != '.'
		})
	}
	var out []word
	for _, p := range parts {
		if p = strings.Trim(p, ".'"); p == "" {
			continue
		}
		out = append(out, respelt(p)...)
	}
	for i := range out {
		out[i].glued = i+1 < len(out) && strings.Contains(bare, "-")
	}
	if len(out) > 0 {
		out[len(out)-1].end, out[len(out)-1].asks = end, asks
	}
	return out
}

// respelt is a word as it is read: short forms written out, slips mended.
func respelt(raw string) []word {
	low := strings.ReplaceAll(strings.ToLower(raw), "'", "")
	if one := strings.TrimSuffix(low, "s"); one != low && (days[one] || one == "crit" || one == "week" && strings.ContainsAny(raw, "'")) {
		low = one
	}
	full, ok := shortForms[low]
	switch {
	case ok:
	case tomorrowLike.MatchString(low):
		full, ok = "tomorrow", true
	case yesterdayLike.MatchString(low):
		full, ok = "yesterday", true
	}
	if ok {
		var out []word
		for _, w := range strings.Fields(full) {
			out = append(out, word{raw: w, low: w})
		}
		if weekdays[full] {
			out[0].raw = raw // "sat" may be no day, and names begin with capitals
		}
		return out
	}
	return []word{{raw: raw, low: mend(low)}}
}

func rawText(words []word) string {
	parts := make([]string, len(words))
	for i, w := range words {
		if parts[i] = w.raw; w.end != 0 && i+1 < len(words) {
			parts[i] += string(w.end)
		}
	}
	return strings.Join(parts, " ")
}

func lowText(words []word) string {
	parts := make([]string, len(words))
	for i, w := range words {
		parts[i] = w.low
	}
	return strings.Join(parts, " ")
}

// canonical are the words with slots in place of what was found, between blanks.
func (p *Part) canonical() string {
	var b strings.Builder
	b.WriteByte(' ')
	last := ""
	for _, w := range p.words {
		text := w.low
		if w.slot != "" {
			if w.slot == last {
				continue
			}
			text = w.slot
		}
		last = w.slot
		b.WriteString(text + " ")
	}
	return b.String()
}

// opening are words with which a new question begins.
var opening = wordSet("what whats when whens where wheres which who whos whose why how hows can could may should shall would is are am do does did will has have tell show give explain also")

// piece is a part of a text. One that is joined has "and" before it.
type piece struct {
	words  []word
	joined bool
}

var joins = wordSet("and also plus")

// split parts a text into questions: at the ends of sentences, and where behind
// "and" or a comma another question begins.
func split(words []word) []piece {
	var out []piece
	from, joined := 0, false
	put := func(to int) {
		if to > from {
			out = append(out, piece{words[from:to], joined || joins[words[from].low]})
		}
		from, joined = to, false
	}
	for i := range words {
		switch {
		case words[i].end == '.':
			put(i + 1)
		case words[i].end == ',' && i+1 < len(words) && i+1-from >= 2 && opens(words[i+1:]):
			put(i + 1)
		case words[i].low == "and" && i+1 < len(words) && i-from >= 2 && opens(words[i+1:]):
			put(i)
			from, joined = i+1, true
		}
	}
	put(len(words))
	for i := len(out) - 2; i > 0; i-- { // one, two and three: what "and" joins to the last is joined itself
		before := out[i-1].words
		out[i].joined = out[i].joined || out[i+1].joined && opens(out[i].words) && before[len(before)-1].end == ','
	}
	return out
}

// fillers are words before those with which a question begins.
var fillers = wordSet("and um so then also please but")

// opens reports whether words begin with those of a question and go on.
func opens(words []word) bool {
	for len(words) > 0 && fillers[words[0].low] {
		words = words[1:]
	}
	if len(words) > 2 && beforeAsking[words[0].low] && (asking[words[1].low] || words[1].low == "which" && !smallInName[words[0].low]) {
		return true // from when do I taper
	}
	return len(words) >= 2 && opening[words[0].low]
}

var (
	beforeAsking = wordSet("from at to on in for since until by with")
	asking       = wordSet("when what how whom")
)

func wordSet(words string) map[string]bool { return plain.WordSet(words) }

// folded is a word without apostrophes, in small letters.
func folded(raw string) string { return strings.ReplaceAll(strings.ToLower(raw), "'", "") }

// Lang is a language in which a message was written.
type Lang uint8

// The languages that are recognised.
const (
	English Lang = iota
	Portuguese
	Spanish
	French
	German
	Italian
)

// foreignWords are frequent words of a language that English does not have.
var foreignWords = [...]map[string]bool{
	Portuguese: wordSet("que o os as um uma amanha hoje eu meu minha nao sim treino treinar pedalar posso devo quando quanto como para por com na no do da quinta sexta sabado domingo segunda terca corrida prova semana fazer estou tenho e de qual obrigado ola bicicleta minhas pernas doente"),
	Spanish:    wordSet("que el los las un una manana hoy yo mi mis no si entreno entrenar puedo debo cuando cuanto como para por con en del la jueves viernes sabado domingo lunes martes miercoles carrera semana hacer estoy tengo y de cual gracias hola bici bicicleta piernas enfermo rodar toca"),
	French:     wordSet("que quoi le les un une demain aujourdhui je mon ma mes ne pas oui dois peux puis quand combien comment pour par avec en dans du la des jeudi vendredi samedi dimanche lundi mardi mercredi course semaine faire suis ai et de quel quelle est ce cest merci bonjour salut velo rouler jambes malade entrainement sortie"),
	German:     wordSet("was ich morgen heute mein meine nicht ja soll kann darf wann wie viel warum fur mit im am der die das ein eine donnerstag freitag samstag sonntag montag dienstag mittwoch rennen woche machen bin habe und von welche danke hallo fahren fahre rad beine krank ist lange trainieren wieviel fuer muss mich zu"),
	Italian:    wordSet("che il lo gli i un una domani oggi io mio mia miei non si devo posso quando quanto come per con in nel del la giovedi venerdi sabato domenica lunedi martedi mercoledi gara settimana fare sono ho e di quale grazie ciao bici bicicletta gambe malato allenamento allenarmi cosa"),
}

// foreign is the language of a text, where most of its words are of another than
// English.
func foreign(words []word) Lang {
	english, hits, own := 0, [len(foreignWords)]int{}, [len(foreignWords)]bool{}
	seen := map[string]bool{}
	for _, w := range words {
		low := folded(w.raw)
		if seen[low] {
			continue
		}
		seen[low] = true
		if isEnglish(low) {
			english++
		}
		for lang, known := range foreignWords {
			if known[low] {
				hits[lang]++
				own[lang] = own[lang] || !both[low]
			}
		}
	}
	best := English
	for lang, n := range hits {
		if n > hits[best] {
			best = Lang(lang)
		}
	}
	if n := hits[best]; !own[best] {
		return English // can i come
	} else if n >= 2 && n > english || n == 1 && english == 0 && len(words) <= 2 && len(words[0].raw) > 2 && !isEnglish(folded(words[0].raw)) {
		return best
	}
	return English
}

// both are words of English and of another language.
var both = wordSet("no on me a i in as is was die man war so do am an es war mit how per come")

func isEnglish(low string) bool { return (learned().known[low] || days[low]) && !both[low] }
