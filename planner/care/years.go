package care

import "slices"

// years keeps a year as a sign of the past only where it says when: "in 2019",
// "collarbone 2018, plate out 2020". "Since 2024" is not over, and the "2026 league" is a thing.
func (t *text) years() {
	id := known().index["#year"]
	for i := range t.tokens {
		word := t.tokens[i].word
		before := ""
		if i > 0 {
			before = t.tokens[i-1].word
		}
		short := len(word) == 2 && number(word) && (word[0] == '0' || word[0] >= '8') && yearLeads[before] && t.ends(i)
		if !short && !year(word) {
			continue
		}
		t.tokens[i].is = slices.DeleteFunc(t.tokens[i].is, func(is int) bool { return is == id })
		if short || t.when(i, before) {
			t.tokens[i].is = append(t.tokens[i].is, id)
		}
	}
}

// when reports a year that says when something was.
func (t *text) when(i int, before string) bool {
	month := i > 1 && months[before] && lasting[t.tokens[i-2].word]
	if lasting[before] || month {
		return false
	}
	if i == 0 && len(t.tokens) > 1 && len(t.tokens[1].is) > 0 && !dated[t.tokens[1].word] && !placesAfter[t.tokens[1].word] {
		return true // "2014 broke my hip"
	}
	return yearLeads[before] || months[before] || t.ends(i)
}

// ends reports a word after which the thought ends or a new one begins.
func (t *text) ends(i int) bool {
	if t.lastOfClause(i) {
		return true
	}
	next := t.tokens[i+1].word
	return fillers[next] || contrast[next] || prepositions[next] || subjects[next] || yearTails[next]
}
