package asked

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
