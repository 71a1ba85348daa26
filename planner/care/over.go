package care

import (
	"regexp"
	"strings"
)

// What tells of an illness that was and is over: what it was, when it was, and that all is well now.
var (
	overWhat = regexp.MustCompile(`\b(?:stomach|tummy|belly|guts?|bug|sick|ill|unwell|poorly|rough|ropey|queasy|nauseous|threw up|thrown up|throwing up|vomited|puked|the runs|the squits|the trots|diarrh?oea|diarrhea|cold|throat|nose|sniffles?|flu|fever|temperature|virus|lurgy|cough|under the weather|off colou?r|crook|peaky)\b`)
	overThen = regexp.MustCompile(`\b(?:yesterday|yday|yest|weekend|(?:on|last|since|until|till) (?:mon|tues?|weds?|wednes|thurs?|thu|fri|satur|sat|sun)(?:day)?|(?:mon|tues|wednes|thurs|fri|satur|sun)day(?:s)?|last week|week before|earlier this week|start of the week|beginning of the week|other day|(?:\d|two|three|four|five|six|few|couple of|couple) days (?:ago|back)|a week ago|weeks ago)\b`)
	overNow  = regexp.MustCompile(`\b(?:right as rain(?: now| today| again)?|back to (?:normal|myself)(?: now| today| again)?|(?:fine|ok|okay|good|well|great|grand|right|normal|sorted|clear|cleared|gone|myself|100|perfect|healthy) (?:now|again|today|since|this morning)|now (?:i am|im|i feel|its|it is|all|feeling|feel|am|is|everything|everything is)? ?(?:fine|ok|okay|good|well|great|grand|normal|sorted|clear|gone|100|perfect|healthy)|(?:all|completely|fully|totally) (?:fine|ok|okay|good|better|gone|clear|cleared|sorted|over|well|recovered|right)|better again|over it|it is over|its over|recovered|(?:feel|feeling) (?:fine|great|good|ok|okay|normal|well)|today (?:fine|ok|okay|good|great|normal|nothing|perfect)|100 per ?cent|is gone|has gone|has passed|passed now)\b`)

	// lately is the last night and day: too near to be over. What may take days more is not over the day after either.
	lately    = regexp.MustCompile(`\b(?:last night|overnight|in the night|during the night|this morning|this afternoon|today|tonight|earlier|hours? ago|just now)\b`)
	takesDays = regexp.MustCompile(`\b(?:fever|temperature|flu|cough|virus|covid)\b`)
	oneDayAgo = regexp.MustCompile(`\b(?:yesterday|yday|yest)\b`)

	// notOver says that it is not, or not quite, over.
	notOver = regexp.MustCompile(`\b(?:not|isnt|wasnt|arent|no better|never|nearly|almost|mostly|bit|half|sort|kind|still|yet|except|keeps?|comes back|came back|coming back|on and off|until i|if|hope|hopefully|should be|will be|would|apart from|or so i think|i think|i guess|maybe|probably|worse|weak|wobbly|tired|drained|shaky|empty|lingering|little)\b`)
	// graver is whatever else must be looked at.
	graver   = regexp.MustCompile(`\b(?:chest\w*|heart|pulse|palpit\w*|breath\w*|faint\w*|dizz\w*|light ?headed|lightheaded|collaps\w*|passed out|black\w*|head|headaches?|migraine|knock\w*|concuss\w*|vision|sight|eyes?|numb\w*|tingl\w*|blood\w*|bleed\w*|seizure|a fit|fits|stroke|speech|jaw|arms?|face|neck|stiff|rash|spots|swollen|swell\w*|lump|rock hard|gone hard|is hard|crash\w*|fell|fall|hit|hospital|ambulance|antibiotics?|abx|doctor|doc|gp|pneumonia|infect\w*|lungs?|wheez\w*|yellow|jaundice|pains?|painful|agony|severe|cramps?|stabbing|dehydrat\w*|pee|peed|urine|toilet|purg\w*|laxatives?|weigh\w*|kg|kilos?|myself|make me|makes me|thin|lose|eat\w*|food|ate|dinner|meals?|calories|period|pregnant|covid|confus\w*|shak\w*|collarbone|ribs?|\d\d\.?\d?)\b`)
	mostOver = 40 // words
)

// isOver reports an illness of a few days ago that its writer says is over, with nothing graver beside it.
func (t *text) isOver() bool {
	if len(t.tokens) > mostOver {
		return false
	}
	words := make([]string, len(t.tokens))
	for i, tok := range t.tokens {
		words[i] = tok.word
	}
	said := strings.ReplaceAll(strings.Join(words, " "), "head cold", "cold")
	if !overWhat.MatchString(said) || !overNow.MatchString(said) || !overThen.MatchString(said) {
		return false
	}
	told := overNow.ReplaceAllString(said, " ")
	if graver.MatchString(told) {
		return false
	}
	if told = asksAhead.ReplaceAllString(told, " "); notOver.MatchString(told) || lately.MatchString(told) {
		return false
	}
	return !takesDays.MatchString(told) || !oneDayAgo.MatchString(told)
}

// asksAhead is a question about a day to come, which is no day of the illness: what is on today, may I do the hard ride?
var asksAhead = regexp.MustCompile(`\b(?:what|whats|which|when|can|could|may|should|shall|do|is it|am i|are we|session|ride|race|how)\b.*$`)
