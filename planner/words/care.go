package words

import (
	"musette/planner"
	"musette/planner/care"
)

// The emergency words are the same wherever they are said.
const (
	emergencySigns = "Chest pain, fainting, trouble breathing, confusion"
	emergencyCall  = "stop and call the emergency number (" + localNumber + ")"
	localNumber    = "112 in Europe, else your local one"
	emergencyLine  = emergencySigns + ": " + emergencyCall + "."
)

// WellFor is how long riders are free of symptoms before they train: engine.FreeAfterIll days.
const WellFor = "two days"

// Emergency is the emergency words as a sentence, Call what to do in one.
const (
	Emergency = emergencyLine
	Call      = "In an emergency call the emergency number: " + localNumber + "."
)

// doubtful answers what may be an illness or a hard day's tiredness.
const doubtful = "If you feel ill, do not train: rest until you have been well for " + WellFor + ", then start easily. If you are only tired, an easy ride or a day off is enough."

// answers are the sentences for each level of danger. They name no
// illness and no medicine (IOC consensus 2022, consensus on concussion;
// the words to who may harm themselves are our own).
var answers = map[care.Lang]map[care.Level]string{
	care.English: {
		care.Emergency: "Stop riding now and call the emergency number: " + localNumber + ". Do not wait to see if it passes, and do not travel alone. You do not train until a doctor has cleared you.",
		care.Head:      "Stop riding and have your head checked by a doctor today, even if you feel fine. Do not stay alone tonight. If you vomit, get confused or drowsy, or a headache comes or gets worse, call the emergency number (" + localNumber + ").",
		care.Doctor:    "Do not ride until a doctor has seen this. " + emergencyLine,
		care.Rest:      "Do not train with this. Rest until you have been well for " + WellFor + ", then start easily. See a doctor if it is severe, gets worse or lasts.",
		care.Easy:      "With a head cold only, you may ride easily instead of resting, if you feel like it. If you get a fever, a cough or aches, stop training.",
		care.Talk: "Thank you for telling me. I am only a program, and this deserves a person who listens. Please talk to somebody today: someone you trust, your doctor, or a crisis line, which is free in most countries. " +
			"If you are in danger now, call the emergency number (" + localNumber + ") and stay with someone. Training can wait. Your coach is not told.",
	},
	care.Portuguese: {
		care.Emergency: "Pára já e liga para o número de emergência: 112 na Europa, ou o número local.",
		care.Head:      "Pára e vai hoje ao médico, mesmo que te sintas bem. Não fiques sozinho esta noite. Se piorar, liga 112 ou o número de emergência local.",
		care.Doctor:    "Não pedales antes de um médico ver isto. Dor no peito, desmaio, falta de ar ou confusão: liga 112 ou o número de emergência local.",
		care.Talk:      "Obrigado por me contares. Fala hoje com alguém em quem confies, com um médico ou com uma linha de apoio. Se estás em perigo agora, liga 112 ou o número de emergência local.",
	},
	care.Spanish: {
		care.Emergency: "Para ya y llama al número de emergencias: el 112 en Europa, o el número local.",
		care.Head:      "Para y que te vea hoy un médico, aunque te sientas bien. No pases la noche a solas. Si empeora, llama al 112 o al número de emergencias local.",
		care.Doctor:    "No montes hasta que te vea un médico. Dolor en el pecho, desmayo, falta de aire o confusión: llama al 112 o al número de emergencias local.",
		care.Talk:      "Gracias por contármelo. Habla hoy con alguien de confianza, con un médico o con una línea de ayuda. Si estás en peligro ahora, llama al 112 o al número de emergencias local.",
	},
	care.French: {
		care.Emergency: "Arrête tout de suite et appelle les urgences : le 112 en Europe, sinon le numéro local.",
		care.Head:      "Arrête et vois un médecin aujourd'hui, même si tu te sens bien. Ne reste pas sans personne cette nuit. Si cela empire, appelle le 112 ou le numéro d'urgence local.",
		care.Doctor:    "Ne roule pas avant d'avoir vu un médecin. Douleur à la poitrine, malaise, mal à respirer ou confusion : appelle le 112 ou le numéro d'urgence local.",
		care.Talk:      "Merci de me le dire. Parle aujourd'hui à quelqu'un de confiance, à un médecin ou à une ligne d'écoute. Si tu es en danger maintenant, appelle le 112 ou le numéro d'urgence local.",
	},
	care.German: {
		care.Emergency: "Hör sofort auf und ruf den Notruf: 112 in Europa, sonst die örtliche Nummer.",
		care.Head:      "Hör auf und lass dich heute ärztlich untersuchen, auch wenn es dir gut geht. Bleib heute Nacht nicht allein. Wird es schlimmer, ruf 112 oder den örtlichen Notruf.",
		care.Doctor:    "Fahr erst, wenn das ärztlich untersucht ist. Brustschmerz, Ohnmacht, Atemnot oder Verwirrtheit: ruf 112 oder den örtlichen Notruf.",
		care.Talk:      "Danke, dass du mir das sagst. Sprich heute mit jemandem, dem du vertraust, mit einem Arzt oder mit einer Krisenhilfe. Bist du jetzt in Gefahr, ruf 112 oder den örtlichen Notruf.",
	},
	care.Italian: {
		care.Emergency: "Fermati subito e chiama il numero di emergenza: il 112 in Europa, o il numero locale.",
		care.Head:      "Fermati e fatti visitare oggi da un medico, anche se ti senti bene. Stanotte non restare senza compagnia. Se peggiora, chiama il 112 o il numero di emergenza locale.",
		care.Doctor:    "Non pedalare finché un medico non ti ha visto. Dolore al petto, svenimento, fiato corto o confusione: chiama il 112 o il numero di emergenza locale.",
		care.Talk:      "Grazie per avermelo detto. Parla oggi con una persona di fiducia, con un medico o con una linea di ascolto. Se sei in pericolo adesso, chiama il 112 o il numero di emergenza locale.",
	},
}

// CareAnswer is the first answer to what care has found: in its language
// where there are such words, else in English. "" where nothing was found.
func CareAnswer(f care.Finding) string {
	if f.Verdict == care.Ask && f.Level == care.Rest {
		return doubtful
	}
	if own := answers[f.Lang][f.Level]; own != "" {
		return own
	}
	return answers[care.English][f.Level]
}

// StopAnswer is what a rider reads while a stop of that level holds.
func StopAnswer(level planner.Level) string {
	return answers[care.English][map[planner.Level]care.Level{
		planner.LevelEasy: care.Easy, planner.LevelRest: care.Rest, planner.LevelDoctor: care.Doctor, planner.LevelHead: care.Head, planner.LevelEmergency: care.Emergency}[level]]
}

// TroubleAnswer is what a rider reads while an illness or an injury of that level goes on.
func TroubleAnswer(level planner.Level, injury bool) string {
	if injury {
		return "No training with an injury that hurts in riding, until you have been free of pain for " + WellFor + ". Then easy days come before hard ones. See a doctor if it is severe, gets worse or lasts."
	}
	if level == planner.NoLevel { // what is not known is treated like fever
		level = planner.LevelRest
	}
	return StopAnswer(level)
}

// What a coach reads who has written of a rider in danger.
const CareForOther = "Thank you for telling me. I am only a program, and this deserves a person who listens. Please talk to the rider today, or ask somebody near them to. " +
	"If they are in danger now, call the emergency number (" + localNumber + ") and stay with them. A doctor or a crisis line can say more."

// StopAnswerFor is what a coach is told to do for a rider, at that level.
func StopAnswerFor(level planner.Level, name string) string {
	switch level {
	case planner.LevelEmergency:
		return name + " must stop now. Call the emergency number: " + localNumber + ". Do not wait to see if it passes."
	case planner.LevelHead:
		return name + " must stop, be checked by a doctor today and not be alone tonight. " + emergencyLine
	}
	return name + " must not ride until a doctor has seen this. " + emergencyLine
}

// held is what a hold says, by the gravest thing that was entered.
func held(level care.Level) string {
	const until = " There is no plan and no race until a doctor has cleared you."
	switch level {
	case care.Emergency:
		return emergencyLine + " Stop training now and see a doctor, even if it has passed." + until
	case care.Head:
		return "Stop training now and have your head checked by a doctor today. Do not ride, and do not stay alone tonight. " + emergencyLine + until
	}
	return "Stop training now and see a doctor. " + emergencyLine + until
}
