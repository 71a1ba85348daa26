package asked

import (
	"slices"
	"strings"

	"musette/planner/asked/plain"
	"musette/planner/care"
)

// Topic is what a question is about, by its id.
type Topic string

// The topics.
const (
	Ride        Topic = "ride"
	Plan        Topic = "plan"
	TaperStart  Topic = "taper-start"
	TaperLength Topic = "taper-length"
	Hours       Topic = "hours"
	MayI        Topic = "may-i"
	Why         Topic = "why"
	HowHard     Topic = "how-hard"
	NextRace    Topic = "next-race"
	Races       Topic = "races"
	Missed      Topic = "missed"
	Sick        Topic = "sick"
	Injury      Topic = "injury"
	RedFlag     Topic = "red-flag"
	Away        Topic = "away"
	Season      Topic = "season"
	Overload    Topic = "overload"
	FlatLegs    Topic = "flat-legs"
	AfterRace   Topic = "after-race"
	RaceMorning Topic = "race-morning"
	Strength    Topic = "strength"
	Sleep       Topic = "sleep"
	Food        Topic = "food"
	RaceLegs    Topic = "race-legs"
	AddRace     Topic = "add-race"
	WhoTapers   Topic = "who-tapers"
	Rider       Topic = "rider"
	Calendar    Topic = "calendar"
	Medicine    Topic = "medicine"
	Thanks      Topic = "thanks"
	Help        Topic = "help"
	TellRide    Topic = "tell-ride"
	Week        Topic = "tell-week"
	Unknown     Topic = "unknown"
)

// Topics are all topics, in the order of the weights.
var Topics = []Topic{Ride, Plan, TaperStart, TaperLength, Hours, MayI, Why, HowHard, NextRace, Races, Missed, Sick, Injury, RedFlag, Away, Season, Overload,
	FlatLegs, AfterRace, RaceMorning, Strength, Sleep, Food, RaceLegs, AddRace, WhoTapers, Rider, Calendar, Medicine, Thanks, Help, TellRide, Week, Unknown}

// With writes a text with its topic, as a button that was offered asks it.
func (t Topic) With(text string) string { return string(t) + ": " + text }

// cutTopic takes the topic off a text that With made.
func cutTopic(text string) (Topic, string) {
	head, rest, ok := strings.Cut(text, ": ")
	if ok && slices.Contains(Topics, Topic(head)) && head != string(Week) {
		return Topic(head), rest
	}
	return "", text
}

// What is sure enough to be answered without asking, by counts on writers whose
// lines were not learned (docs/answers.md).
const (
	sureMargin  = 0.35 // between the first topic and the second
	sureShare   = 0.40 // of the first topic
	leastOffer  = 0.02
	dangerShare = 0.25 // from here on danger is among what is asked about
	thanksShare = 0.25
	sureThanks  = 0.95 // where no word is known

	notDanger = 20 // takes danger out of the topics
)

// riderAlone is a text that names a rider and says nothing of them.
var riderAlone = plain.Compile(`^ (?:(?:coach|about|and|show|me|athlete|my|rider|what|please) )*RIDER (?:please |now )?$`)

// strangerAsked asks how somebody is or what they ride.
var strangerAsked = plain.Compile(`^ (?:and |so |hi |hey |coach )*(?:how (?:is|are)|how) RIDER (?:doing |getting on |going |now |today )*$|^ (?:and |so |hi |hey |coach )*what (?:does|is|will) RIDER (?:ride|riding|do|doing|on|got|have|up to|training|train) `)

// mayStart asks for leave to start in a race, and says nothing else.
var mayStart = plain.Compile(`^ (?:(?:so|and|ok|hi|hey|coach|but|then|please) )*(?:(?:can|may|could|might) i|am i (?:ok|okay|allowed|fit|safe|good|well enough|fit enough|able) to|is it (?:ok|okay|safe|fine|alright|wise) (?:for me )?(?:to|if i)|are you (?:ok|happy|fine) (?:with me|for me to)) (?:(?:still|even|really|now|nevertheless) )*(?:race|racing|start|starting|do|ride|riding|enter|run|line up|take part|compete) (?:(?:in|at|for|the|my|this) )*RACE (?:(?:at all|then|now|with it|with this|with that|anyway|as planned|or not|like this|please|still|already|yet) )*$`)

// AsksStart reports a part that asks for leave to start in its race.
func (p *Part) AsksStart() bool { return mayStart.MatchString(p.plain) }

// swapDays asks for two days to change places.
var swapDays = plain.Compile(`^ (?:(?:so|and|ok|hi|hey|coach|but|then|please|can|could|may|might|i|we|you|want|wanna|would|like|need|have|to|let|me|us) )*(?:swap|switch|exchange|trade) (?:(?:round|over|around|the|my) )*DAY (?:(?:and|with|for|against|to|the|my) )+DAY (?:(?:over|round|around|please|ok|about|then|thanks) )*$`)

// skipDay asks for leave to leave a day's ride out.
var skipDay = plain.Compile(`^ (?:(?:so|and|ok|hi|hey|coach|but|then|please) )*(?:can|may|could|might) i (?:(?:just|maybe|please|also|simply) )*(?:skip|bin|bin off|leave out|drop|miss) (?:(?:the|my|on) )*DAY (?:(?:ride|session|rides|training|intervals|efforts|one|workout|spin) )?`)

// AsksToSkip reports a part that asks for leave to leave a day out.
func (p *Part) AsksToSkip() bool { return skipDay.MatchString(p.plain) }

// eveRide asks what is done on a day before a race.
var eveRide = plain.Compile(`^ (?:(?:so|and|ok|hi|hey|coach|but|then|please|remind me) )*what (?:do|should|shall|must|have|am) i (?:(?:supposed|meant|to|do|have|got|ride|riding|on|for|just) )+(?:the )?(?:(?:\d|two|three) days|day|eve) (?:before|ahead of|of) (?:the |my )?(?:RACE|race|crit) (?:(?:please|then|now|exactly) )*$`)

// howLongToTaper asks how long a taper is, as what somebody does.
var howLongToTaper = plain.Compile(`^ (?:(?:so|and|ok|hi|hey|coach|but|then|please|also) )*(?:for )?how (?:long|many days|many weeks) (?:do|should|shall|must|will|would|am|have) i (?:(?:have|to|be|meant|supposed) )*(?:taper|tapering|ease off|easing off|wind down|winding down) (?:(?:for|before|it|that|this|the|my|one|race|RACE|please|then) )*$`)

var leave = plain.Compile(`^ (?:can|may|could) i (?:still |also )?(?:do|ride|go|join|run|race|add|play|swim) `)

var enters = plain.Compile(`^ (?:hi |hello |hey |so |well |ok |coach )*(?:(?:i|we) )?(?:have |just |now )*(?:entered|signed up|signed me up|registered|booked|enrolled) `)

// plainForm is the topic of a few plain forms that decide by themselves.
func (p *Part) plainForm() Topic {
	switch {
	case mayStart.MatchString(p.plain), swapDays.MatchString(p.plain), skipDay.MatchString(p.plain):
		return MayI
	case eveRide.MatchString(p.plain):
		return Ride
	case howLongToTaper.MatchString(p.plain):
		return TaperLength
	case strangerAsked.MatchString(p.plain), p.Rider != "" && riderAlone.MatchString(p.plain):
		return Rider
	}
	return ""
}

// judge finds the topic.
func (p *Part) judge(k Known) {
	if p.follows(k) {
		return
	}
	if t := p.plainForm(); t != "" {
		p.Topic, p.Confidence = t, 1
		return
	}
	sums := learned().sums(p)
	if known := p.knownShare(); known < 0.5 {
		sums[slices.Index(Topics, Unknown)] += 3
	}
	danger := slices.Index(Topics, RedFlag)
	share, heard := shares(sums), false
	if share[danger] >= leastOffer/2 { // else it is neither answered nor asked about
		heard = !k.Judged && care.Read(p.Text, k.names()...).Level >= care.Doctor
	}
	if !heard && (share[danger] < leastOffer/2 || !care.Doubts(p.Text, k.names()...)) { // what is danger is decided there
		sums[danger] = -notDanger
		share = shares(sums)
	}
	p.shares = share
	order := make([]int, len(Topics))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case share[a] > share[b]:
			return -1
		case share[a] < share[b]:
			return 1
		}
		return 0
	})
	best, ahead := share[order[0]], share[order[0]]-share[order[1]]
	p.Topic, p.Confidence = Topics[order[0]], best
	if ahead < sureMargin && (Topics[order[0]] == MayI || Topics[order[1]] == MayI) && len(p.Dates) > 0 && leave.MatchString(p.plain) {
		p.Topic, p.Confidence = MayI, best // it begins as somebody asks who may do something on a day
		return
	}
	if add := share[slices.Index(Topics, AddRace)]; ahead < sureMargin*2 && add >= leastOffer && add >= best/4 && len(p.Dates) > 0 && p.Race == nil && enters.MatchString(p.plain) && !opens(p.words) {
		p.Topic, p.Confidence = AddRace, best // it tells what was entered, and when that is
		return
	}
	if ahead < sureMargin && (p.Topic == Week || Topics[order[1]] == Week) && p.manyWeekdays() {
		p.Topic, p.Confidence = Week, best
		return
	}
	if p.Topic == Thanks && best < sureThanks && p.knownShare() == 0 {
		p.Topic, p.Confidence = Unknown, 0
		return
	}
	switch {
	case share[slices.Index(Topics, RedFlag)] >= dangerShare:
		p.Topic, p.Confidence = RedFlag, share[slices.Index(Topics, RedFlag)]
		if heard {
			return
		}
		p.Offers = []Topic{RedFlag}
	case ahead >= sureMargin && best >= sureShare, p.Topic == Thanks && best >= thanksShare:
		return
	}
	for _, i := range order[:mostOffers] {
		if t := Topics[i]; share[i] >= leastOffer && t != Thanks && !slices.Contains(p.Offers, t) {
			p.Offers = append(p.Offers, t)
		}
	}
	p.Offers = p.Offers[:min(len(p.Offers), mostOffers)]
	if len(p.Offers) == 0 || len(p.Offers) == 1 && p.Offers[0] == Unknown {
		p.Topic, p.Offers = Unknown, nil
	}
}

// knownShare is how many of the words are known, as a share.
func (p *Part) knownShare() float64 {
	n, known := 0, 0
	for _, w := range strings.Fields(p.plain) {
		n++
		if w != strings.ToLower(w) || learned().known[w] || strings.ContainsAny(w, "0123456789") {
			known++
		}
	}
	if n == 0 {
		return 0
	}
	return float64(known) / float64(n)
}

// manyWeekdays reports three weekdays and no other day, as a usual week has.
func (p *Part) manyWeekdays() bool {
	return len(p.Dates) >= 3 && !slices.ContainsFunc(p.Dates, func(s Span) bool { return s.Ask != nil || !p.bareWeekday(s) })
}
