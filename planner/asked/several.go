package asked

import (
	"math"
	"slices"
	"strings"

	"musette/planner/asked/plain"
)

// How sure the topic of a part must be to be answered with others: what is said around
// a question is often no question of its own.
const (
	partShare     = 0.4
	leastEvidence = -0.8
	leastPlain    = -1.6 // for a part that begins as a question and is surely about something
	leastSurely   = -2.4 // and for one that is as good as certain
	surely        = 0.95
	wholeWeek     = 0.6
	aloneShare    = 0.6 // to be answered for a whole that is not sure and about the same
	overShare     = 0.8 // to be answered in place of a whole that is about something else
	mostLeaning   = 8   // words
	bothSure      = 0.7
	askedShare    = 0.6  // of a question before another
	plainlyFirst  = 0.85 // of what stands before a question that says itself what it is about
	plainlyThen   = 0.75 // and of that question
	supportTwo    = 0.03
)

var pronouns = plain.Compile(` (?:it|them|that|this|these|those|they|so|one|things) `)

// tooMuch asks whether races fit together.
var tooMuch = plain.Compile(` (?:close|soon|near|much|many|wise|sensible) `)

// supportTwo is how likely the whole must make the topic of each half.

// says reports whether a part has words besides what was found in it.
func (p *Part) says() bool {
	n := 0
	for _, w := range p.words {
		if w.slot == "" && !smallInName[w.low] && !fillers[w.low] {
			n++
		}
	}
	return n > 0
}

// supports reports whether the whole makes a topic likely enough.
func (p *Part) supports(t Topic, least float64) bool {
	return p.shares == nil || p.shares[slices.Index(Topics, t)] >= least
}

// speaksFor is how much speaks for a part as a question of its own: how sure its topic is, how
// far the whole bears it out, how long it is and whether it begins as a question. The weights
// are those of a logistic regression on parts of lines that were not learned.
func (p *Part) speaksFor(whole *Part, pieces int, later, joined bool) float64 {
	sure := min(p.Confidence, 0.999)
	sum := 0.61*math.Log(sure/(1-sure)) + 0.15*float64(min(len(p.words), 10)) - 1.77
	if whole.shares != nil {
		sum += 0.51 * math.Log(whole.shares[slices.Index(Topics, p.Topic)]*float64(max(1, pieces-1))+0.001)
	}
	if opens(p.words) {
		sum += 1.29
	}
	if later {
		sum -= 1.39
	}
	if joined {
		sum += 1.66
	}
	return sum
}

// standsAlone reports whether a part is about something of its own.
func (p *Part) standsAlone(whole *Part) bool {
	if p.Confidence < partShare || !p.says() && (p.Topic != Rider || p.Rider == "") {
		return false
	}
	return p.Topic == RedFlag || p.Topic == whole.Topic || p.evidence >= leastEvidence || (p.evidence >= leastPlain && p.Confidence >= plainlyFirst || p.evidence >= leastSurely && p.Confidence >= surely) && opens(p.words) && !p.leans()
}

func (p *Part) leans() bool {
	return !(p.Topic == Season && tooMuch.MatchString(p.plain)) && len(p.words) <= mostLeaning && len(p.Dates) == 0 && p.Race == nil && pronouns.MatchString(p.plain) && !strings.Contains(p.plain, "LEN")
}

// bothSure is how sure the topics of two halves must be where nothing but a comma or an
// "and" parts them.
const mostCuts = 4

// halves are words that can join two things that are asked or told.
var halves = wordSet("and but plus also or then")

// twoParts parts a text in two where each half is surely about something of its own, and the
// whole is about one of them: I missed Tuesday and my legs feel like lead.
func twoParts(all []word, whole Part, k Known) []Part {
	var best []Part
	tried := 0
	tale := whole.Topic == AddRace || whole.Topic == Week
	for i := 2; i+2 < len(all) && tried < mostCuts; i++ {
		joined := halves[all[i].low]
		if all[i-1].end == 0 && !joined {
			continue
		}
		if len(whole.words) == len(all) && joined && i+1 < len(all) && whole.words[i-1].slot == "DAY" && whole.words[i+1].slot == "DAY" {
			continue // what is on Friday and Saturday
		}
		tried++
		from := i
		for from < len(all)-2 && (halves[all[from].low] || fillers[all[from].low]) {
			from++
		}
		if tale && !opens(all[i:]) {
			continue // what is told of a race is all of it
		}
		a, b := read(all[:i], k, ""), read(all[from:], k, "")
		if onlyWhen.MatchString(a.plain) {
			continue
		}
		if a.Topic == TellRide && b.Topic == Hours && doneSince.MatchString(a.plain) {
			return []Part{read(all, k, Hours)}
		}
		if a.Topic == AddRace && ofItsOwn(&a) && len(a.Dates) > 0 && !opens(all[i:]) && !ofMe[all[from].low] {
			return []Part{read(all, k, AddRace)} // a new race, and more of it
		}
		asked := opens(all[:i]) && opens(all[i:]) && whole.Topic == b.Topic && b.Confidence >= plainlyFirst // both are questions
		if !asked && !ofItsOwn(&a) || !a.isOfItsOwn(askedShare) || !ofItsOwn(&b) || a.Topic == b.Topic || whole.Topic != a.Topic && whole.Topic != b.Topic {
			continue
		}
		plainly := asked || opens(all[i:]) && a.Confidence >= plainlyFirst && b.Confidence >= plainlyThen && saysItself[b.Topic]
		if !plainly && (!whole.supports(a.Topic, supportTwo) || !whole.supports(b.Topic, supportTwo) || b.leans()) {
			continue
		}
		if best == nil || min(a.Confidence, b.Confidence) > min(best[0].Confidence, best[1].Confidence) {
			b.inherit(&a)
			best = []Part{a, b}
		}
	}
	return best
}

// onlyWhen says when, and nothing else: after Fox Hill, what do I ride?
var onlyWhen = plain.Compile(`^ (?:(?:and|so|then|now|but) )*(?:(?:after|before|for|at|on|following|of|in|the|my|race|week|midweek|eve|morning|evening|night|day|DAY|SPAN) )*RACE (?:(?:week|day|eve|morning|DAY|SPAN) )*$`)

// doneSince tells of hours that were ridden since a day, and of no ride.
var doneSince = plain.Compile(` since (?:the )?DAY `)

// saysItself are topics whose questions have words of their own, so that "it" in them is no sign that
// they go on from what was said before.
var saysItself = map[Topic]bool{TaperStart: true, TaperLength: true, Food: true, Sleep: true, Medicine: true, Calendar: true, Strength: true, RaceLegs: true, Plan: true, Hours: true, RaceMorning: true, NextRace: true, WhoTapers: true, FlatLegs: true}

// pairs are two things that are asked or told in one breath, with nothing that parts them.
var pairs = []struct {
	first, second Topic
	either        bool // the form has both, so that it counts whichever the text is about
	form          *plain.Pattern
}{
	{AddRace, Season, false, plain.Compile(` (?:is|does|do|will|would|stands?|are|or) (?:that|it|this|they|these|does that) .*(?:close|near|soon|many|much|tight|fit|clash|together|wise) | too (?:close|near|soon|tight|much|many) | enough (?:time|room|rest|space|days|distance) | how many (?:tapers|a races|big races) `)},
	{Races, Season, true, plain.Compile(` (?:which|what) (?:letter|grade|priority|importance|class|rank) (?:\w+ ){0,5}RACE | (?:which|what) (?:letter|grade|priority|rank) (?:did|do|have|has) | RACE (?:is|has|was|got|gets) (?:\w+ ){0,2}(?:which|what) (?:letter|grade|priority|rank) | RACE (?:as |is |was |it |an |a |the |in )*[abc] or (?:as |is |an |a |the )*[abc] | (?:is|was) (?:the |my )?RACE (?:definitely |defo |rightly |really |truly |surely |still )?(?:an |a |as )*[abc] (?:race )?(?:$|and |what |or ) | (?:which|what) (?:\w+ ){0,3}(?:races?|events?) (?:\w+ ){0,3}(?:is|are|was|have|has|carry|carries|got|marked|down) (?:\w+ ){0,3}(?:grade|graded|letter|marked|an|as) (?:an )?[abc] `)},
	{Missed, MayI, false, plain.Compile(` (?:can|may|could|might|shall|should) i (?:\w+ ){0,4}(?:DAY|another day|tomorrow) (?:ride )?instead `)},
	{Missed, Ride, false, plain.Compile(` (?:what is|what have i got|what have i|what do i ride|what am i riding|what do i do) (?:on |for |it |up |next |planned |then )*DAY `)},
	{Ride, Food, true, plain.Compile(` what is (?:on )?(?:the )?DAY .*(?:and|plus) (?:also )?(?:what|how much|how) (?:\w+ ){0,3}(?:eat|scoff|munch|dinner|supper|breakfast|lunch|food|drink|fuel) `)},
	{TaperLength, RaceLegs, true, plain.Compile(` (?:how long|how many days|length) .*taper .*(?:and|plus) (?:\w+ ){0,3}(?:will|do|am|would) i (?:\w+ ){0,3}(?:slow|fresh|fast|quick|rusty|sharp|stale|form|fitness|sluggish) `)},
	{Away, Plan, true, plain.Compile(` (?:away|abroad|gone|no bike|can not ride|out|travelling) .*(?:set out|lay out|show|sort|arrange|build|plan|write|put|fit|shape|order) (?:\w+ ){0,3}(?:rest|remainder|week|days|plan) `)},
	{WhoTapers, Rider, true, plain.Compile(` (?:just|only|except|besides|apart from|other than) RIDER (?:\w+ ){0,4}(?:taper|tapering|easing|resting|cutting|winding|backing) | (?:taper|tapering|easing|resting|cutting|winding|backing) (?:\w+ ){0,6}(?:just|only|except|besides|apart from|other than) RIDER `)},
	{TellRide, FlatLegs, true, plain.Compile(` (?:did|rode|done|finished|completed|managed|LEN) .*why (?:\w+ ){0,4}legs (?:\w+ )?(?:as|like|made|so|of|feel|heavy|dead|flat|tired) `)},
	{NextRace, TaperStart, true, plain.Compile(` (?:when|what|which|how (?:many|long|far)) .*(?:race|event) .*(?:and|plus|then) (?:\w+ ){0,4}(?:taper|tapering|cut|ease|easing) | next race .*(?:and|plus) (?:\w+ ){0,3}(?:taper|tapering|ease|easing) (?:\w+ ){0,3}(?:when|from|start|starts|begin|begins) `)},
	{Races, Season, true, plain.Compile(` when is (?:the )?RACE .*(?:and|or) (?:should|ought|is|could|can) (?:not )?(?:it|that|i) (?:not )?(?:\w+ ){0,2}(?:be |an? )+(?:an? )?[abc] `)},
	{Races, Calendar, true, plain.Compile(` (?:list|show|give|send|tell|which|what) .*races .*(?:and|also|plus) .*(?:calendar|diary|agenda|export|ics|phone) `)},
	{Away, Plan, true, plain.Compile(` (?:gone|away|abroad|no bike|can not ride|without (?:a |my )?bike|not here|on holiday) .*(?:show|give|see|send|write) .*(?:plan|schedule|week|days) | (?:can not|no bike|away|gone|off) .*(?:redo|rework|rejig|rearrange|replan|adapt|adjust|re do|juggle) (?:\w+ ){0,2}(?:week|plan|schedule|rest|days|SPAN) `)},
	{Away, Plan, true, plain.Compile(` (?:can not|no bike|away|abroad|gone|out|off) .*what (?:does|do|will|would|is|becomes of) (?:\w+ ){0,3}(?:rest|remainder|other|others|SPAN|week|plan|days) .*(?:look|like|then|be|of it) `)},
	{Sleep, RaceMorning, true, plain.Compile(` (?:sleep|slept|night) .*(?:do|should|shall|can|may|must) i (?:\w+ ){0,4}(?:warm up|warming up|breakfast) `)},
	{Plan, Calendar, true, plain.Compile(` (?:show|give|read|tell) (?:me )?(?:please )?(?:next|this|the|my|SPAN|DAY|all) .*(?:and|then|also|plus) .*(?:calendar|diary|agenda|export|ics) `)},
	{Ride, HowHard, true, plain.Compile(` what .*(?:ride|do|on|riding|have|got|session|DAY) .*and (?:at what|at which|on what|on which|with what|with which|how hard|how easy|what|which|how) .*(?:hard|effort|easy|intensity|pulse|heart|rpe|pace|hurt) `)},
	{Ride, Why, true, plain.Compile(` what (?:is|do|have|am|have i got) (?:\w+ ){0,3}DAY .*why $`)},
	{Ride, Food, true, plain.Compile(` what (?:do|should|am|can|shall) i (?:ride|riding|do|doing) .*(?:and|plus) (?:also )?what .*(?:eat|dinner|supper|breakfast|lunch|food|drink) `)},
	{TaperStart, TaperLength, true, plain.Compile(` taper .*(?:start|begin|beginning|from when|first day) (?:date |day )?(?:and |plus |then )?(?:its |the )?(?:length|how long|how many days|duration) `)},
	{RaceMorning, Food, true, plain.Compile(` (?:when|what time|which hour|which LEN|which time|how early) .*(?:up|wake|rise|start|leave|alarm|arrive|warm) .*(?:and|plus) .*(?:eat|breakfast|carbs|food|drink|gel|fuel) | (?:eat|breakfast|food) .*and (?:when|what time|at what time) `)},
	{TellRide, FlatLegs, true, plain.Compile(` (?:did|rode|done|finished|completed|managed) .*legs .*(?:heavy|dead|flat|tired|lead|empty|cement|bricks|wood|cooked|shot|gone|awful|nothing) `)},
	{Missed, FlatLegs, true, plain.Compile(` (?:missed|skipped|did not do|bailed) .*(?:because|as|since|for) .*legs `)},
	{Missed, MayI, true, plain.Compile(` (?:missed|skipped|did not do|could not do|left out|bailed) .*(?:can|may|could) i (?:go|do|join|swim|run|play|come) .*(?:instead|make up|in its place|in place of|to replace) | (?:missed|skipped|did not do|could not do|did not) .*(?:can|may|could) i .*(?:instead|do it|move it|ride it) `)},
	{Missed, Hours, true, plain.Compile(` (?:missed|skipped) .*how (?:many|much) .*hours? `)},
	{Missed, Ride, true, plain.Compile(` (?:missed|skipped|did not do) .*what (?:do|should|am) i (?:ride|do|riding) (?:on )?(?:DAY|now|instead) | (?:missed|skipped|did not do) .*what is (?:it |on )?DAY `)},
	{Sick, MayI, true, plain.Compile(` (?:sniffles?|cold|cough|throat|ill|sick|bug|snot|nose) .*(?:can|may|could) i (?:still )?(?:go|join|come|meet|do) .*(?:group|cafe|club|lads|bunch|chaingang|mates|friends) | (?:cold|cough|throat|ill|sick|bug|sniffles?) .*(?:group|cafe|club|lads|bunch|chaingang|mates|friends) .*(?:can|may|could) i (?:still )?(?:go|join|come|meet|do|ride) `)},
	{Sick, MayI, true, plain.Compile(` (?:cold|cough|throat|bug|sniffles?|nose|snot) .*(?:can|may|could) i (?:(?:nevertheless|anyway|even so|all the same|yet|just) )+(?:on )?(?:DAY )?(?:go|join|come|meet|do|accompany|ride) | (?:cold|cough|throat|bug|sniffles?|nose|snot) .*(?:can|may|could) i (?:\w+ )?accompany `)},
	{Sick, Ride, false, plain.Compile(` what (?:do|should|am|can) i (?:ride|do|riding) (?:on )?DAY | what is (?:on )?(?:for )?DAY `)},
	{TellRide, Ride, false, plain.Compile(` (?:what have i got|what is on|what is|what do i ride|what is next) (?:on |for )?DAY `)},
	{Sick, Missed, true, plain.Compile(` (?:cold|ill|sick|bug|flu|fever) .*(?:missed|skipped|never happened|did not ride|did not do|make (?:it|them|em) up) `)},
	{Hours, Plan, true, plain.Compile(` how (?:many|much) .*(?:hours|time|minutes) .*(?:and|also) .*(?:plan|days|schedule) `)},
	{Hours, Plan, true, plain.Compile(` how (?:many|much) hours? .*(?:and|also|then|plus) .*(?:each day|every day|day by day|by day|per day|day for day) | hours? .*(?:and|also|plus) (?:can you |could you |please )?(?:give|show|list|tell) (?:me )?(?:each|every|the|all) days? `)},
	{Hours, Calendar, true, plain.Compile(` how (?:many|much) .*hours? .*(?:and|also|plus) .*(?:calendar|diary|agenda|export|ics) `)},
	{Hours, MayI, true, plain.Compile(` how (?:many|much|long) .*(?:hours?|time|riding|volume) .*(?:and|also|plus) (?:can|may|could) i (?:\w+ )?(?:do|ride|put|fit|make|take|have|split|cram) `)},
	{AfterRace, Strength, true, plain.Compile(` (?:after|following) (?:the |my )?RACE .*(?:and|when|then|also) .*(?:gym|weights|lift|lifting|strength|squats|squat|deadlifts?) `)},
	{TellRide, HowHard, true, plain.Compile(` (?:done|did|rode|finished|completed) .*(?:should|was|is|ought) (?:it|that|they) (?:to )?(?:be |been |have been |meant to be |supposed to be |really )*(?:so |that |this |too |as )(?:hard|easy|tough|high) `)},
	{AddRace, Season, false, plain.Compile(` (?:make|put|give|call|have|be) (?:it )?(?:as )?(?:an? )?[abc] or (?:an? )?[abc] | (?:which|what) (?:letter|priority|importance) `)},
	{Away, Plan, true, plain.Compile(` (?:unable to ride|can not ride|can not|away|no bike|gone) .*(?:see|know|show) .*(?:rest of|remainder of|what is left of|that|the) (?:\w+ )?(?:week|plan|days) .*(?:look|looks|be|stay|then) | (?:can not ride|can not train|away|no bike) .*how (?:\w+ ){0,2}(?:stays?|looks?|is|becomes|goes|remains) .*(?:week|plan|schedule) `)},
	{Injury, Medicine, true, plain.Compile(` (?:knee|back|neck|hip|shoulder|calf|achilles|ankle|wrist|hamstring|shin|foot|elbow)s? (?:hurts?|pulls?|aches?|is sore|are sore|is stiff|bothers|pain|twinges) .*(?:and|also|or) .*(?:ibuprofen|paracetamol|painkillers?|tablets?|pills?|gel|cream) `)},
	{RaceMorning, Sleep, true, plain.Compile(` (?:get up|wake|rise|alarm|up) .*and .*(?:not slept|have not slept|can not sleep|do not sleep|sleep badly|slept badly) | (?:warm up|get up|rise|alarm) .*and (?:at what (?:hour|time)|what time|when) .*(?:retire|bed|sleep) `)},
	{Sleep, Food, true, plain.Compile(` how (?:much|long|many) .*sleep .*and what (?:(?:do|should|can|shall|am) i (?:to )?eat|(?:is |do i have |should i have )?(?:for )?(?:dinner|supper|tea|breakfast)) `)},
	{NextRace, TaperLength, true, plain.Compile(` next race .*(?:and|plus) (?:how long|how many days|what length) .*(?:taper|tapering|ease|easing|wind) `)},
	{TellRide, MayI, true, plain.Compile(` (?:did|rode|done|finished|LEN) .*(?:is it (?:ok|all right|alright|fine|allowed) (?:if|when|that) i|(?:may|can|could) i) (?:still |also |then )+(?:go |ride |do |go out |out |on |train )+DAY `)},
	{Why, HowHard, true, plain.Compile(` why .*and (?:how (?:hard|easy|strong|gentle)|at what (?:effort|pace|rpe)) `)},
	{Why, Season, true, plain.Compile(` (?:why|how come|what for) (?:\w+ ){0,3}` + raceForm + `(?:\w+ ){0,3}(?:an?|as|only|just) [abc] (?:$|and |or |who |what |not |race )| (?:why|how come) (?:only |just |is it |not )*(?:an? )[abc] .*RACE `)},
	{AfterRace, NextRace, true, plain.Compile(` after ` + raceForm + `(?:done |then )?(?:the next|comes|which (?:one|race)|what race|is the next) `)},
	{RaceMorning, Food, true, plain.Compile(` (?:coffee|coffees|espresso|caffeine) .*(?:start|gun|race day|race morning|morning of) | (?:race day|race morning|morning of) .*(?:coffee|coffees|espresso|caffeine) `)},
	{MayI, HowHard, true, plain.Compile(` (?:may|can|could) i .*and .*how hard `)},
	{Away, Strength, false, plain.Compile(` (?:gym|squats|weights|strength|core) `)},
	{Sleep, Medicine, true, plain.Compile(` (?:not|badly|never|hardly|barely|can not) .*sle.*(?:tablets?|pills?|melatonin) `)},
}

// pairOf answers both of a pair where the text is about one of them and has the form of both.
func pairOf(all []word, p *Part, k Known) []Part {
	for _, pair := range pairs {
		if len(p.Offers) > 0 && (!pair.either || !slices.Contains(p.Offers[:min(2, len(p.Offers))], pair.first) && !slices.Contains(p.Offers[:min(2, len(p.Offers))], pair.second)) {
			continue
		}
		if (p.Topic == pair.first || pair.either && p.Topic == pair.second) && pair.form.MatchString(p.plain) {
			return []Part{read(all, k, pair.first), read(all, k, pair.second)}
		}
	}
	return nil
}

// ofMe are words with which somebody begins to tell of something else.
var ofMe = wordSet("i my we me our")

// ofItsOwn reports whether half a text is surely about something.
func ofItsOwn(p *Part) bool { return p.isOfItsOwn(bothSure) }

func (p *Part) isOfItsOwn(least float64) bool {
	return p.Confidence >= least && p.says() && len(p.Offers) == 0 && !p.Follow && p.Topic != Unknown && p.Topic != Thanks && p.Topic != Help && p.Topic != RedFlag
}

var (
	fromWhen = plain.Compile(` (?:when|start|starts|begin|begins|which day|what day) .*(?:(?:and|,) |how )`)
	howLong  = plain.Compile(`how (?:long|many days) (?:is|does|do|will|lasts?|takes?|goes)`)
)

// asksLength reports whether a text that asks when a taper starts asks in the same breath
// how long it is.
func (p *Part) asksLength() bool {
	at := howLong.FindStringIndex(p.plain)
	return p.Topic == TaperStart && len(p.Offers) == 0 && at != nil && fromWhen.MatchString(p.plain[:at[0]]+"how ")
}

// thanksFirst is a text that begins with thanks.
var thanksFirst = plain.Compile(`^ (?:(?:amazing|nice|cool|wonderful|grand|fab|excellent|splendid|right|ok|great|perfect|brilliant|lovely|super|ah|oh|well|good|many) )*(?:thanks|thank|thankyou|cheers|merci|danke|gracias|obrigado|grazie|tha+nks|ta (?:for|mate|pal|love|very|muchly|then)|much obliged|nice one) `)

// thanksLast is a text that ends with thanks for something: all done, thank you for the plan.
var thanksLast = plain.Compile(` (?:thank you|thanks|cheers|thankyou) (?:so much |very much |a lot |again )?for (?:the |your |my |all |this |that |everything |it |being )*(?:\w+ )?(?:though |tho |anyway |mate |pal |man )?$`)

// afterThanks answers both thanks and the question that follows them, or what was told before them.
func afterThanks(all []word, parts []Part, k Known) []Part {
	if len(parts) == 0 {
		return parts
	}
	text, first := " "+lowText(all)+" ", parts[0]
	asks := len(first.Offers) == 0 && first.Topic != Thanks && first.Topic != Unknown
	if !thanksFirst.MatchString(text) {
		if len(parts) == 1 && asks && thanksLast.MatchString(text) {
			return append(parts, read(all, k, Thanks))
		}
		if len(parts) == 1 && (first.Topic == Thanks || len(first.Offers) > 0 && thanksLast.MatchString(text)) {
			return beforeThanks(all, parts, k)
		}
		return parts
	}
	thanks := read(all, k, Thanks)
	if len(parts) > 1 || asks {
		if !asks {
			return parts
		}
		return append([]Part{thanks}, parts...)
	}
	for i := 2; i+2 < len(all); i++ {
		if all[i-1].end == 0 && !halves[all[i].low] {
			continue
		}
		if rest := read(all[i:], k, ""); ofItsOwn(&rest) && (first.Topic == Thanks || slices.Contains(first.Offers, rest.Topic)) {
			return []Part{thanks, rest}
		}
	}
	return parts
}

// thankful are words with which somebody thanks.
var thankful = wordSet("thanks thank thankyou cheers ta")

// beforeThanks answers what is told before thanks as well: I have a cold so I skip it, thanks for the plan.
func beforeThanks(all []word, parts []Part, k Known) []Part {
	for i := 3; i < len(all); i++ {
		if !thankful[all[i].low] || all[i-1].end == 0 {
			continue
		}
		if told := read(all[:i], k, ""); ofItsOwn(&told) {
			return []Part{told, read(all, k, Thanks)}
		}
	}
	return parts
}

// goalIs begins to tell of a race.
var goalIs = plain.Compile(`^ (?:(?:my|the|our) )?(?:main |big |only |next |a )*(?:goal|target|race|event) (?:for the year |this year )?(?:is|will be) `)

// weekAndRace reads a new race beside a week in one message: racing Fen Ten on 21 June, week: Tue 1h, Sun 3h.
// Of several places to part them the one counts where the race has one day only, and the week all that it can have.
func weekAndRace(all []word, k Known) (both []Part) {
	for i := 3; i+3 < len(all); i++ {
		if all[i-1].end == 0 && !joins[all[i].low] {
			continue
		}
		from := i
		for from < len(all)-2 && (halves[all[from].low] || fillers[all[from].low]) {
			from++
		}
		a, b := read(all[:i], k, ""), read(all[from:], k, "")
		switch {
		case a.isNewRace() && b.Topic == Week && len(b.Offers) == 0:
			if both = []Part{a, b}; len(a.Dates) == 1 {
				return both
			}
		case a.Topic == Week && len(a.Offers) == 0 && b.isNewRace():
			if both == nil || len(b.Dates) == 1 {
				both = []Part{a, b}
			}
		case goalIs.MatchString(b.plain):
			if b = read(all[from:], k, AddRace); b.isNewRace() {
				return []Part{read(all[:i], k, Week), b}
			}
		}
	}
	return both
}

// holdsWeek reports whether what is read as a new race names two weekdays and the length of a ride, as a usual week does.
func (p *Part) holdsWeek() bool {
	days := 0
	for _, w := range p.words {
		if weekdays[w.low] {
			days++
		}
	}
	return p.Topic == AddRace && days > 1 && p.Minutes > 0
}

// isNewRace reports a new race with its day and its name.
func (p *Part) isNewRace() bool {
	return p.Topic == AddRace && p.Confidence >= bothSure && len(p.Offers) == 0 && p.NewRace != "" && len(p.Dates) > 0
}
