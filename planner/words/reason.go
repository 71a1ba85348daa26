// Package words says what the engine has decided, in plain English: why a day is
// as it is, what a session asks for, what to be careful with, what could not be met.
package words

import (
	"fmt"
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/engine"
)

// Reason is why a day differs from the usual week: the rule's id, one plain
// sentence, and where the rule comes from ("common practice" where no study does).
type Reason struct {
	Rule, Text, Source string
}

// Why lists the reasons of a changed day, the deciding one first; an unchanged day has none.
func Why(d *engine.Day) []Reason {
	if !d.Changed() {
		return nil
	}
	out := make([]Reason, 0, len(d.Causes))
	for _, c := range d.Causes {
		out = append(out, reason(c, d))
	}
	return out
}

func reason(c engine.Cause, d *engine.Day) Reason {
	w := reasons[c.Code]
	if c.Code == engine.WhyTravel && d.Minutes() > 0 {
		w.text = "You travel on this day, so you ride short and easy at most."
	}
	return Reason{Rule: w.rule.id, Text: fill(w.text, c, d.Race), Source: w.rule.source}
}

// fill puts names into a sentence: RACE, DAY, %d for a number of days or per cent,
// TIME for one of minutes. more are pairs of such a word and its replacement.
func fill(text string, c engine.Cause, race *planner.Race, more ...string) string {
	name := "the race"
	switch {
	case c.Race != nil:
		name = c.Race.Name
	case race != nil:
		name = race.Name
	}
	return strings.NewReplacer(append(more, "RACE", name, "DAY", c.Day.Short(), "%d", strconv.Itoa(c.N), "TIME", planner.Duration(c.N))...).Replace(text)
}

const (
	commonPractice = "common practice"
	ourChoice      = "our choice"
	ownResults     = "your results, weighed by the model of docs/learning.md"
)

// What studies found best, in words.
var (
	StudiedDays = fmt.Sprintf("%d to %d", engine.StudiedMinDays, engine.StudiedMaxDays)
	StudiedCuts = fmt.Sprintf("%d to %d %%", engine.StudiedMinCut, engine.StudiedMaxCut)
)

// rule is a rule by its id, which plan files and docs/rules.md carry too, and where
// it comes from. docs/rules.md lists the papers in full.
type rule struct{ id, source string }

var (
	ruleLength   = rule{"taper.length", "Bosquet et al. 2007: " + StudiedDays + " days. The table by weekly hours is common practice"}
	ruleCut      = rule{"taper.cut", "Bosquet et al. 2007: best effect at a cut of " + StudiedCuts + " of the volume"}
	ruleHardDays = rule{"taper.hard-days", commonPractice}
	ruleSet      = rule{"taper.set", commonPractice}
	ruleDose     = rule{"taper.dose", "Bosquet et al. 2007, Hickson et al. 1985: keep intensity. How much of a set is left is our choice"}
	ruleOpeners  = rule{"taper.openers", commonPractice}
	ruleRest     = rule{"taper.rest", "Mujika & Padilla 2003: cut frequency by no more than 20 %"}
	ruleStrength = rule{"taper.strength", commonPractice}
	ruleMinutes  = rule{"taper.minutes", "Bosquet et al. 2007: cut volume, progressively. How much of a day is left is our choice"}
	ruleLighter  = rule{"taper.lighter", "the model of docs/model.md: no taper that it expects to be worse than none. The margin is our choice"}
	ruleRace     = rule{"race.day", commonPractice}
	ruleSameDay  = rule{"race.same-day", commonPractice}
	ruleHours    = rule{"race.hours", ourChoice}
	ruleLate     = rule{"race.late", commonPractice}
	ruleAfter    = rule{"race.after", commonPractice}
	ruleReturn   = rule{"race.return", "common practice. The shares are our choice"}
	ruleB        = rule{"b.days", commonPractice}
	ruleC        = rule{"c.days", commonPractice}
	ruleBlock    = rule{"block.days", "your own plan"}
	ruleUnload   = rule{"block.after", "Aubry et al. 2014: rest after overload. The number of days is our choice"}
	ruleClose    = rule{"season.close", commonPractice}
	ruleInside   = rule{"season.inside", commonPractice}
	ruleOff      = rule{"day.off", "your own entry"}
	ruleLimit    = rule{"day.limit", "your own entry"}
	ruleTravel   = rule{"day.travel", commonPractice}
	ruleLogged   = rule{"day.logged", "your own log"}
	ruleMoved    = rule{"day.moved", "your own wish"}
	rulePinned   = rule{"day.pinned", "set by hand"}
	rulePast     = rule{"day.past", "what you were told then"}
	ruleStop     = rule{"health.stop", "IOC consensus 2022 on acute respiratory illness, consensus on concussion in sport 2022"}
	ruleEasy     = rule{"health.easy", "IOC consensus 2022 on acute respiratory illness in athletes"}
	ruleBack     = rule{"health.return", "IOC consensus 2022: back step by step. The minutes are our choice"}
)

type sentence struct {
	rule rule
	text string
}

// reasons gives each cause its rule and one plain sentence.
var reasons = map[engine.Code]sentence{
	engine.WhyRace:     {ruleRace, "Race day: RACE takes the place of your usual day."},
	engine.WhyLogged:   {ruleLogged, "You rode TIME and logged it."},
	engine.WhyMissed:   {ruleLogged, "You logged that you did not ride. A missed session is never made up."},
	engine.WhyToldThen: {rulePast, "This day is over. It stays as you were told then."},
	engine.WhyPinned:   {rulePinned, "Your coach set this session."},
	engine.WhyMoved:    {ruleMoved, "You swapped this day with DAY."},
	engine.WhyBusy:     {ruleOff, "You can never ride on this weekday."},
	engine.WhyAway:     {ruleOff, "You said that you are away."},
	engine.WhyTravel:   {ruleTravel, "You travel on this day. Without minutes of your own it has no ride."},
	engine.WhyLimit:    {ruleLimit, "You have TIME on this day."},
	engine.WhyEased:    {ruleLimit, "You took the easier form of this day, at most TIME."},
	engine.WhyLimitSet: {ruleLimit, "Fewer repetitions fit into that time."},
	engine.WhyBlock:    {ruleBlock, "Your overload block has %d % more minutes than usual, with the usual repetitions."},

	engine.WhyIll:           {ruleEasy, "You are ill, so you do not train."},
	engine.WhyIllFree:       {ruleEasy, "You are free of symptoms, but rest two whole days before you ride again."},
	engine.WhyIllReturn:     {ruleBack, "You come back from an illness. Your rides are easy and get longer, and no day is hard yet."},
	engine.WhyHurt:          {ruleEasy, "You are injured, so you do not train."},
	engine.WhyHurtFree:      {ruleEasy, "You are free of pain, but rest two whole days before you ride again."},
	engine.WhyHurtReturn:    {ruleBack, "You come back from an injury. Your rides are easy and get longer, and no day is hard yet."},
	engine.WhyClearedReturn: {ruleBack, "A doctor has cleared you, so you come back in easy rides that get longer. No day is hard yet."},
	engine.WhyIllOpen:       {ruleEasy, "It is too early to say whether you can start RACE. That depends on when you are well."},
	engine.WhyIllRace:       {ruleEasy, "Do not start RACE: you have been well for too short a time. Ask a doctor before you race."},
	engine.WhyIllStart:      {ruleBack, "Start RACE only if you are well: no symptoms, and a normal pulse at rest."},
	engine.WhyIllHalf:       {ruleBack, "The first hard sets after an illness or injury are smaller than usual. Ride this one only if you are well."},
	engine.WhyIllNone:       {ruleBack, "You have only just come back from being ill, so no day before RACE is hard."},
	engine.WhyIllTest:       {ruleBack, "A few short repetitions test your legs, so that RACE is not your first hard effort after being ill. Ride them only if you are well: no symptoms, and a normal pulse at rest."},
	engine.WhyIllEnough:     {ruleBack, "One hard day is enough before this race, because you were ill or injured."},
	engine.WhyIllTwo:        {ruleBack, "This is one of two smaller hard days of your taper, because you were ill or injured. The first comes a week after your last ill day at the earliest. Ride it only if you are well: no symptoms, and a normal pulse at rest."},
	engine.WhyIllSoon:       {ruleBack, "You were ill or injured not long ago and have ridden little since, so this ride is shorter."},
	engine.WhyIllOne:        {ruleBack, "This is the one hard day of your taper, because you were ill or injured. Ride it only if you are well: no symptoms, and a normal pulse at rest."},
	engine.WhyHold:          {ruleStop, "These symptoms need a doctor. You do not train until a doctor clears you."},
	engine.WhyHeadRest:      {ruleStop, "After a knock on the head you rest that day and the next one, even when a doctor has cleared you."},
	engine.WhyHead:          {ruleStop, "After a knock on the head you come back in steps of a day. If any symptom returns, stop and see the doctor again."},

	engine.WhyHardKept:       {ruleHardDays, "This is your usual hard day, and it stays."},
	engine.WhyHardHalf:       {ruleDose, "You ride as hard as usual but with fewer repetitions, %d days before RACE. That keeps you sharp and lets you recover."},
	engine.WhyHardShort:      {ruleDose, "You ride as hard as usual but shorter, %d days before RACE. Long repetitions tire you most."},
	engine.WhyHardEve:        {ruleHardDays, "The hard session of DAY comes here, because you cannot ride it then. Only one comes early before days you lose, because those days are rest enough."},
	engine.WhyHardFromEve:    {ruleHardDays, "The hard session of DAY comes here, because that day is too near another hard day or the race."},
	engine.WhyHardTouch:      {ruleHardDays, "You ride one short hard session, because without any your legs would go flat before RACE."},
	engine.WhyHardTouchFree:  {ruleHardDays, "This is usually a free day. You ride one short hard session here, because the days around it are lost."},
	engine.WhyHardPattern:    {ruleHardDays, "You asked for hard days every %d days, counted back from RACE."},
	engine.WhyHardMovedAway:  {ruleHardDays, "The hard session of this day has moved to DAY."},
	engine.WhyHardNear:       {ruleHardDays, "You ride nothing hard but openers in the last two days before RACE."},
	engine.WhyHardNextHard:   {ruleHardDays, "This is usually a hard day, but DAY is hard already and two in a row would tire you."},
	engine.WhyHardNextRace:   {ruleHardDays, "This is usually a hard day, but RACE on DAY is hard enough."},
	engine.WhyHardPair:       {ruleHardDays, "This is usually a hard day. Of two in a row only DAY stays hard."},
	engine.WhyHardEnough:     {ruleHardDays, "This is usually a hard day, but this taper has enough hard work already."},
	engine.WhyHardHeavy:      {ruleLighter, "No hard session is added here: it would make your taper heavier than your usual week."},
	engine.WhyOpenersHeavy:   {ruleLighter, "You ride no openers: they would make your taper heavier than your usual week."},
	engine.WhyHardPatternOff: {ruleHardDays, "This is usually a hard day, but you asked for hard days every %d days."},
	engine.WhyHardRoom:       {ruleSet, "A hard session needs more time than this day has, so you ride easy."},
	engine.WhyHardAfterEve:   {ruleHardDays, "This is usually a hard day, but DAY, the day before your taper, is hard."},
	engine.WhySetShort:       {ruleSet, "So near to RACE you ride a shorter set of yours."},
	engine.WhySetBunch:       {ruleSet, "So near to RACE you ride repetitions by yourself. In a group others set how hard you ride."},
	engine.WhySetLong:        {ruleSet, "Your longer set comes first, and the shorter one nearer to RACE."},

	engine.WhyShorter:        {ruleMinutes, "This is shorter than usual: your taper cuts about %d % of your time, most of it near the race."},
	engine.WhyEasy:           {ruleMinutes, "In a taper every ride that is not hard is easy."},
	engine.WhyFall:           {ruleMinutes, "Rides get shorter towards the race."},
	engine.WhyTooShort:       {ruleRest, "What would be left is too short for a ride, so you rest."},
	engine.WhyOpeners:        {ruleOpeners, "You ride openers the day before RACE: an easy ride with a few short hard efforts wakes your legs."},
	engine.WhyOpenersLost:    {ruleOpeners, "You cannot ride on the two days before RACE, so the short hard efforts that wake your legs come here."},
	engine.WhyOpenersD2:      {ruleOpeners, "You ride openers two days before RACE, because DAY has no room for them."},
	engine.WhyOpenersFew:     {ruleOpeners, "You ride openers two days before RACE, because DAY is your free day and you ride few days a week."},
	engine.WhyOpenersWish:    {ruleOpeners, "You ride openers two days before RACE, as you prefer."},
	engine.WhyFreeEve:        {ruleOpeners, "You have a free day before RACE, as you prefer. Your openers come the day before it."},
	engine.WhyFreeMoved:      {ruleRest, "Your free day comes here, because you ride openers on DAY."},
	engine.WhyRestBeforeLong: {ruleRest, "You have a free day two days before so long a race. Sleep and eat well."},
	engine.WhySpin:           {ruleRest, "This is usually a free day. You ride easily here, because you could not ride on several days before."},
	engine.WhyFreeBefore:     {ruleRest, "You ride on all the days around this one. You take one day off before your openers."},
	engine.WhyFreeKept:       {ruleRest, "This is usually a free day, and it stays free."},

	engine.WhyStrengthLight: {ruleStrength, "Strength work is half as long and light in a taper."},
	engine.WhyStrengthEnds:  {ruleStrength, "You do no strength work so near to the race."},

	engine.WhyBlockAfter: {ruleUnload, "Easy days come first after your overload block."},
	engine.WhyBlockSet:   {ruleUnload, "This session is smaller, because it is the first one after your overload block."},
	engine.WhyAfterRest:  {ruleAfter, "You take a day off after RACE."},
	engine.WhyAfterEasy:  {ruleAfter, "You recover from RACE. Your rides are easy and get longer, and no day is hard yet."},
	engine.WhyReturnSet:  {ruleReturn, "You come back from RACE in steps, so this session has fewer repetitions."},
	engine.WhyReturnLong: {ruleReturn, "The first long ride after RACE is shorter."},

	engine.WhyBRecovery:    {ruleB, "Two days before RACE a recovery ride is enough."},
	engine.WhyBShort:       {ruleB, "Your hard session is smaller, so that you are fresh for RACE."},
	engine.WhyBMovedHere:   {ruleB, "The hard session of DAY comes here, because that day is too near RACE."},
	engine.WhySharp:        {ruleOpeners, "Nothing hard comes shortly before RACE, so a few short hard efforts stay in this ride and keep your legs awake."},
	engine.WhyBSharp:       {ruleB, "The hard session of this day is too near RACE, and no earlier day has room. A few short hard efforts stay, so that your legs stay awake."},
	engine.WhyBLeftOut:     {ruleB, "The hard session of this day is left out: it is too near RACE, and no earlier day has room."},
	engine.WhyBImportant:   {ruleB, "RACE is a B race, which gets half a week of easier days. You marked it as important, so it gets a few more, and this ride is shorter."},
	engine.WhyBOutgrows:    {ruleB, "RACE is longer than any ride of your usual week, so this ride is shorter."},
	engine.WhyBRaceDay:     {ruleB, "RACE is on a day that is usually hard, so its session comes here and you are not without one before the race."},
	engine.WhyBTouch:       {ruleB, "You cannot train on the days that follow, so a short hard set comes here. It keeps you sharp for RACE, and those days are rest enough."},
	engine.WhyBTold:        {ruleB, "You asked for a taper of %d days before RACE, so this ride is shorter."},
	engine.WhyBEase:        {ruleB, "The days before RACE are easier, so this ride is easy and a little shorter."},
	engine.WhyBRest:        {ruleB, "You take a day off after RACE."},
	engine.WhyBAfter:       {ruleB, "This day is easy, because it follows RACE."},
	engine.WhyBSoon:        {ruleB, "You ride nothing hard so soon after RACE."},
	engine.WhyBAfterEasy:   {ruleB, "You ride nothing hard two days after RACE."},
	engine.WhyInsideBefore: {ruleInside, "You ride nothing hard before RACE, which is inside this taper."},
	engine.WhyInsideAfter:  {ruleInside, "This day is easy, because it follows RACE, which is inside this taper."},
	engine.WhyCGives:       {ruleC, "RACE is this week's hard session, so this one is easy."},
	engine.WhyCOpeners:     {ruleC, "RACE is this week's hard session. This one becomes openers: an easy ride with a few short hard efforts."},
	engine.WhyLongHere:     {ruleC, "RACE takes the place of your long ride and is short, so you ride longer here."},
	engine.WhyCMovedHere:   {ruleC, "The hard session of DAY comes here, because RACE is next to that day."},
	engine.WhyCMovedAway:   {ruleC, "RACE is next to this day, so it is easy."},
	engine.WhyCShort:       {ruleC, "Your hard session is a little smaller two days before RACE."},
	engine.WhyCEvening:     {ruleC, "RACE was in the evening, so you ride short and easy the day after."},
	engine.WhyCAfter:       {ruleC, "RACE was long, so you ride short and easy."},
	engine.WhyCRest:        {ruleC, "RACE was your long ride of the week, so you take a day off."},
	engine.WhyCBefore:      {ruleC, "You race the day after, so this ride is shorter and easy."},
}

// warnings gives those that need but one sentence, as reasons does, with OTHER for
// another race and DAYS for a number of days.
var warnings = map[engine.Code]sentence{
	engine.WarnLateB:       {ruleLate, "RACE was registered DAYS before the race. Its easier days no longer fit."},
	engine.WarnBlockLength: {ruleUnload, "RACE comes right after an overload block, so its taper takes DAYS and not the length you set. The fatigue of the block needs them."},
	engine.WarnCloseB:      {ruleClose, "OTHER and RACE are B races within DAYS, so you train through RACE. Mark the one that counts as important."},
	engine.WarnInside:      {ruleInside, "RACE is DAYS before OTHER and inside its taper. Riding it tires you, so the days around it are easy."},
	engine.WarnInRecovery:  {ruleInside, "RACE on DAY is in the recovery days after OTHER. Ride it easily or leave it out."},
	engine.WarnNoHard:      {ruleHardDays, "Your usual week has no hard day, so the taper for RACE has none but openers."},
	engine.WarnNoTouch:     {ruleHardDays, "The taper for RACE has no hard day, because no day before it has room for one."},
	engine.WarnHardMissed:  {ruleHardDays, "The taper for RACE has no hard day left, because what you missed or rode easily is not made up."},
	engine.WarnCutRange:    {ruleCut, "RACE: you asked for a cut of %d %. Studies found " + StudiedCuts + " best."},
	engine.WarnLongTaper:   {ruleLength, "RACE: a taper of DAYS is longer than any that studies support. " + StudiedDays + " days help most, and longer ones cost fitness."},
	engine.WarnRaceAway:    {ruleOff, "RACE is on DAY, a day on which you are away. The race stays in the plan. Change one of them."},
	engine.WarnNoHours:     {ruleHours, "How long will RACE take you? I count TIME until you tell me."},
	engine.WarnPinDropped:  {rulePinned, "What your coach set for DAY no longer fits, so it is left out."},
}
