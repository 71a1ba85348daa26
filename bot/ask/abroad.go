package ask

import "musette/planner/asked"

// inTheirWords say that the bot understands English.
var inTheirWords = map[asked.Lang][]string{
	asked.Portuguese: {"Desculpa, só entendo inglês. Escreve em inglês, por exemplo: what do I ride tomorrow?", "Dor no peito, desmaio ou falta de ar: pára e liga 112."},
	asked.Spanish:    {"Lo siento, solo entiendo inglés. Escribe en inglés, por ejemplo: what do I ride tomorrow?", "Dolor en el pecho, desmayo o falta de aire: para y llama al 112."},
	asked.French:     {"Désolé, je ne comprends que l'anglais. Écris en anglais, par exemple : what do I ride tomorrow?", "Douleur à la poitrine, malaise ou mal à respirer : arrête et appelle le 112."},
	asked.German:     {"Entschuldige, ich verstehe nur Englisch. Schreib auf Englisch, zum Beispiel: what do I ride tomorrow?", "Brustschmerz, Ohnmacht oder Atemnot: hör auf und ruf 112."},
	asked.Italian:    {"Mi dispiace, capisco solo l'inglese. Scrivi in inglese, per esempio: what do I ride tomorrow?", "Dolore al petto, svenimento o fiato corto: fermati e chiama il 112."},
}
