package care_test

import (
	"strings"
	"testing"

	"musette/planner/care"
)

// Phrasings that once did not stop a plan.
var phrasings = map[care.Level][]string{
	care.Emergency: {"lost consciousness", "blacked out", "heart attack", "coughing blood", "coughed up blood", "hard to breathe", "fainted", "passed out", "collapsed", "chest tightness", "pressure on my chest", "my chest hurts",
		"cannot catch my breath lying in bed", "seizure", "slurred speech", "my face is drooping", "sudden confusion on the ride", "heatstroke", "heat stroke"},
	care.Head:   {"banged my head", "knock to the head", "hit my head", "concussion", "cracked my helmet", "went over the bars and landed on my head"},
	care.Doctor: {"heart skips beats", "irregular heartbeat", "broken collarbone"},
}

func TestPhrasings(t *testing.T) {
	n := 0
	for level, texts := range phrasings {
		for _, text := range texts {
			n++
			for _, f := range []care.Finding{care.Read(text), care.Symptom(text)} {
				if f.Verdict != care.Stop || f.Level != level {
					t.Errorf("%q: %s, %s, want %s", text, f.Verdict, f.Level, level)
				}
			}
		}
	}
	if n != 28 {
		t.Errorf("%d phrasings, want 28", n)
	}
}

// Signs that must not wait reach the level of an emergency, and a knock to the head is
// known besides. Lines that only look like them find nothing.
func TestAcute(t *testing.T) {
	for _, text := range []string{"worst headache of my life, from one second to the next", "tearing pain between the shoulder blades", "temperature of 40 and I talk nonsense", "temp 40.3 after the ride in the heat",
		"hard swollen belly after a crash", "the handlebar hit my stomach, now it is rigid", "the pain goes to my jaw on climbs", "pain in the jaw and sweating", "i fainted in the shower", "coughing up blood",
		"my left side is weak since this morning", "half my face hangs down"} {
		if f := care.Read(text); f.Level != care.Emergency || f.Head {
			t.Errorf("%q: %v", text, f)
		}
	}
	for _, text := range []string{"hit my head and one pupil is bigger than the other", "fainted and hit my head on the floor"} {
		if f := care.Read(text); f.Level != care.Emergency || !f.Head {
			t.Errorf("%q: %v", text, f)
		}
	}
	for _, text := range []string{"tore up the climb, legs felt great", "34 degrees on sunday, how much do I drink", "stomach full of cake, no ride today", "jaw dropped at the entry fee", "no headache today"} {
		if f := care.Read(text); f.Verdict != care.Nothing {
			t.Errorf("%q: %v", text, f)
		}
	}
}

// Signs and figures of speech that once were read wrongly, with lines that only look like them.
func TestHeardAnew(t *testing.T) {
	for text, want := range map[string]string{
		"hip makes a grinding click and wont bear weight since i fell":   "stop doctor",
		"my ankle doesnt take any weight since the tumble":               "stop doctor",
		"the old rack wont take the weight of my panniers":               "nothing none",
		"calf is hot, red and tender after the flight":                   "stop doctor",
		"red socks and hot pink bar tape for the race, good idea?":       "nothing none",
		"coughing up green stuff and it hurts when i take a deep breath": "stop doctor",
		"hit by a wing mirror on the helmet":                             "ask head",
		"a van mirror hit me in the helmet":                              "ask head",
		"the little mirror on my helmet broke off":                       "nothing none",
		"nobody would notice if i just rode off the cliff":               "stop talk",
		"no one would mind if i went off the bridge":                     "stop talk",
		"nobody would notice if i rode ten minutes less today":           "nothing none",
		"lat flow test came back with two lines":                         "ask rest",
		"i had a heart attack on the hill":                               "ask emergency",
		"heart attack on the climb today":                                "ask emergency",
		"i think i had a heart attack on heart attack hill":              "ask emergency",
		"had an asthma attack on the climb":                              "ask emergency",
		"should i attack on the last climb":                              "nothing none",
		"my attack on the hill was too early":                            "nothing none",
	} {
		if f := care.Read(text); f.Verdict.String()+" "+f.Level.String() != want {
			t.Errorf("%q: %s %s, want %s", text, f.Verdict, f.Level, want)
		}
	}
}

// What a text says beside the words of danger decides how they are meant.
func TestMeant(t *testing.T) {
	for text, want := range map[string]string{
		"no fever but chest hurts":                        "stop emergency",
		"no chest pain but i fainted":                     "stop emergency",
		"none of the chest pain went away":                "stop emergency",
		"no relief from the chest pain":                   "ask emergency",
		"not riding today, chest pain":                    "stop emergency",
		"had covid in 2021, now chest hurts":              "stop emergency",
		"my mate crashed into me and i hit my head":       "stop head",
		"wife says i fainted":                             "stop emergency",
		"chest🔥pain":                                      "stop emergency",
		"is it too hot to race at 38 degrees":             "nothing none",
		"38 degrees on sunday, is it too hot":             "nothing none",
		"i was 38 degrees on sunday":                      "ask emergency",
		"i want to kill this interval session":            "nothing none",
		"i want to kill myself":                           "stop talk",
		"I have a chest cough":                            "stop rest",
		"chest coughing all night, intervals today?":      "stop rest",
		"chest cough and my chest hurts":                  "stop emergency",
		"chest cough, hard to breathe":                    "stop emergency",
		"chest cough with blood in it":                    "stop emergency",
		"CHESTPAIN":                                       "stop emergency",
		"chset pian":                                      "stop emergency",
		"i cant breath":                                   "stop emergency",
		"keine Brustschmerzen":                            "nothing none",
		"no tengo fiebre":                                 "nothing none",
		"dor no peito":                                    "stop emergency",
		"sem dor no peito":                                "nothing none",
		"no chest pain":                                   "nothing none",
		"i dont think i fainted":                          "nothing none",
		"chest pain: none":                                "nothing none",
		"no fever, cough or aches":                        "nothing none",
		"my brother broke his wrist":                      "nothing none",
		"broke my wrist ten years ago":                    "nothing none",
		"what if i faint":                                 "ask emergency",
		"doing Heart Attack Hill on sunday":               "nothing none",
		"got chest pain on the hill":                      "stop emergency",
		"got a head cold":                                 "stop easy",
		"im confused, which day is easy?":                 "nothing none",
		"":                                                "nothing none",
		"🤕":                                               "nothing none",
		"making myself sick after dinner":                 "stop talk",
		"tengo un dolor en el pecho":                      "stop emergency",
		"temp of 38.4 and aching all over":                "stop rest",
		"pneumonia and fever, and i fainted this morning": "stop emergency",
	} {
		f := care.Read(text)
		if got := f.Verdict.String() + " " + f.Level.String(); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// The rider's own names never stop, unless the words say what the rider has.
func TestNames(t *testing.T) {
	for text, want := range map[string]care.Verdict{
		"how do i warm up for Chest Pain?": care.Nothing, "is the COLLAPSE on sunday": care.Nothing, "i have chest pain": care.Stop, "collapse sunday and i fainted": care.Stop,
	} {
		if f := care.Read(text, "Chest Pain", "Collapse", ""); f.Verdict != want {
			t.Errorf("%q with names: %s, want %s", text, f.Verdict, want)
		}
	}
}

// A list of symptoms is read word by word; talk of other things is not.
func TestSymptom(t *testing.T) {
	for symptom, want := range map[string]care.Level{
		"faint": care.Emergency, "arm pain": care.Emergency, "jaw pain": care.Emergency, "palpitations": care.Doctor, "dizzy": care.Rest, "tired": care.Rest, "severe": care.Rest, "cold": care.Easy, "nose": care.Easy,
		"fever": care.Rest, "knock on the head": care.Head, "odd feeling": care.None, "no fever": care.None, "swollen knee": care.Rest, "confused": care.Emergency, "breathless at rest": care.Emergency, "chest": care.Emergency,
		"chest cough": care.Rest, "chest cough and chest pain": care.Emergency,
	} {
		if f := care.Symptom(symptom); f.Level != want {
			t.Errorf("symptom %q: %s, want %s", symptom, f.Level, want)
		}
	}
}

func TestWords(t *testing.T) {
	if s := strings.Join([]string{care.Ask.String(), care.Talk.String(), care.German.String()}, " "); s != "ask talk de" {
		t.Error(s)
	}
}

// FuzzRead: no text breaks it, and shouting changes nothing.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"chest pain", "İstanbul ſeizure", "38,5 fièvre", "no no no", "ẞ ß", "my mate's head hurts"} {
		f.Add(s, "Heart Attack Hill")
	}
	f.Fuzz(func(t *testing.T, text, name string) {
		want := care.Read(text, name)
		for _, s := range []string{strings.ToUpper(text), strings.ToLower(text)} {
			if got := care.Read(s, name); got != want {
				t.Errorf("%q: %v, but %q: %v", text, want, s, got)
			}
		}
		if want.Verdict == care.Nothing && want != (care.Finding{}) {
			t.Errorf("%q: nothing, but %v", text, want)
		}
		care.Symptom(text)
	})
}

// BenchmarkRead reads 200 characters with misspellings in them.
func BenchmarkRead(b *testing.B) {
	text := strings.Repeat("did 40 mnutes then my chset went tihgt, eased off wen i stoped at the cofee plce, still ok for sundy? ", 2)[:200]
	care.Read(text)
	for b.Loop() {
		care.Read(text, "Hill Loop", "Heart Attack Hill")
	}
}

// What is found, what is meant otherwise and what is plainly something else is no doubt.
func TestDoubts(t *testing.T) {
	for _, text := range []string{"doing Heart Attack Hill on sunday", "no chest pain at all", "my brother broke his wrist", "i had a heart attack in 2009", "i have chest pain", "what if i faint",
		"what do i ride tomorrow", "skipping friday, too much on at work", "my head unit crashed again on the way", "giving blood on tuesday, does it matter"} {
		if care.Doubts(text) {
			t.Errorf("%q is doubted", text)
		}
	}
	if care.Doubts("riding the chest pain loop on sunday", "chest pain loop") {
		t.Error("a name of the rider's own is doubted")
	}
}

// In a list of symptoms the names of places, and the rider's own of races, are no
// symptoms, however they are written. What happened there is one, and so is a word that a race is called by.
func TestSymptomOfAName(t *testing.T) {
	own := []string{"Heart Attack 100", "Fever", "Chest Pain"}
	for _, text := range []string{"Heart Attack Hill", "heart attack hill", "HEART ATTACK HILL", "collapse corner", "heart attack 100", "Heart attack 100"} {
		if f := care.Symptom(text, own...); f.Verdict != care.Nothing {
			t.Errorf("%q: %v", text, f)
		}
	}
	for text, level := range map[string]care.Level{"heart attack": care.Emergency, "chest pain on heart attack hill": care.Emergency, "chest pain hill": care.Emergency, "chest hurts hills": care.Emergency,
		"passed out on heart attack 100": care.Emergency, "fever": care.Rest, "chest pain": care.Emergency, "fainted hill": care.Emergency, "palpitations hill": care.Doctor, "fever hill": care.Rest} {
		if f := care.Symptom(text, own...); f.Verdict == care.Nothing || f.Level != level {
			t.Errorf("%q: %v", text, f)
		}
	}
}
