package planner

import (
	"strconv"
	"strings"
)

// Reason is why a day differs from the usual week: the rule's id, one plain
// sentence, and where the rule comes from ("common practice" where no study does).
type Reason struct {
	Rule, Text, Source string
}

// maxNotes is how many reasons a day can carry; later ones are dropped.
const maxNotes = 6

// note is a reason before it is put into words.
type note struct {
	code noteCode
	x    int16
}

type noteCode uint8

const (
	noteRaceDay noteCode = iota
	noteBlock
	noteOpeners
	noteOpenersWished
	noteOpenersEarly
	noteOpenersNoD2
	noteEveFree
	noteNoOpeners
	noteRestDisplaced
	noteRestHere
	noteRideMoved
	noteTooShort
	noteHardHalved
	noteHardPart
	noteHardFull
	noteHardFar
	noteFullOverload
	noteHardKept
	noteHardLast
	noteHardHere
	noteHardGivesWay
	noteHardFewer
	noteHardLonger
	notePolar
	noteStrengthEnds
	noteAfterFull
	noteAfterRest
	noteOpening
	noteVolume
	noteAfterDay
	noteAfterEasy
	noteAfterCap
	noteHalfRecovery
	noteHalfImportant
	noteHalfMovedHere
	noteHalfMovedAway
	noteHalfLeftOut
	noteThroughGives
	noteThroughAfter
	noteOff
	noteLimit
	noteTravel
	noteIllRace
	noteIll
	noteSymptomFree
	noteCold
	noteReturn
	noteStop
	noteMoved
	noteLogged
	noteNotRidden
)

// noteTexts gives each note its rule and one plain sentence. RACE stands for
// the race's name, %d for the note's number.
var noteTexts = [...]struct{ rule, text string }{
	noteRaceDay:       {ruleRaceDay, "Race day: RACE takes the place of the usual day."},
	noteBlock:         {ruleOverload, "Overload block: the usual minutes plus %d %%, with the same hard efforts."},
	noteOpeners:       {ruleOpeners, "Openers the day before RACE: an easy ride with a few short hard efforts wakes the legs without tiring them."},
	noteOpenersWished: {ruleOpeners, "Openers two days before RACE and a free day before it, as you prefer."},
	noteOpenersEarly:  {ruleOpeners, "The day before RACE has no room for a ride, so the openers come two days before."},
	noteOpenersNoD2:   {ruleOpeners, "You prefer openers two days before RACE, but that day has no room: they come the day before."},
	noteEveFree:       {ruleOpeners, "No ride the day before RACE: your openers are two days before, as you prefer."},
	noteNoOpeners:     {ruleOpeners, "No openers: you cannot train on the days before RACE. Warm up longer on the day."},
	noteRestDisplaced: {ruleFrequency, "Usually a rest day: the rest moves to another day so that the number of rides stays."},
	noteRestHere:      {ruleFrequency, "Rest moved here so that the week keeps to its number of rides and its minutes."},
	noteRideMoved:     {ruleFrequency, "The ride of the free day before RACE moves here, to keep enough riding days."},
	noteTooShort:      {ruleLeast, "What would be left is too short to be worth a ride: rest instead."},
	noteHardHalved:    {ruleIntensity, "Just as hard as usual but with half the repetitions: intensity keeps you sharp, less of it lets fatigue go."},
	noteHardPart:      {ruleIntensity, "Just as hard as usual but with half of the hard part: intensity keeps you sharp, less of it lets fatigue go."},
	noteHardFull:      {ruleTwoWeek, "More than ten days out or first of the taper: the hard session keeps all its repetitions."},
	noteHardFar:       {rulePattern, "More than two weeks out: the usual hard session stays whole."},
	noteFullOverload:  {ruleOverload, "One full hard session after the first easy days that follow the overload block."},
	noteHardKept:      {ruleOneWeek, "Your usual hard day %d days before the race stays."},
	noteHardLast:      {rulePattern, "The last hard day before RACE, %d days out: near enough to keep sharp, far enough to be fresh."},
	noteHardHere:      {rulePattern, "One of the hard days of the taper, counted back from the race: this one is %d days out."},
	noteHardGivesWay:  {rulePattern, "Usually a hard day: %d days out it would stand too near another hard day or the race, so it is easy."},
	noteHardFewer:     {rulePattern, "Usually a hard day: this taper has fewer of them, so that its minutes and rides come out right."},
	noteHardLonger:    {ruleIntensity, "Longer than this day usually is: warm-up, repetitions and cool-down need the time."},
	notePolar:         {rulePolar, "A taper leaves out in-between riding: what is not hard is easy."},
	noteStrengthEnds:  {rulePolar, "No heavy strength work from three days before the race on."},
	noteAfterFull:     {ruleTwoWeek, "A longer recovery ride after the full hard session of the day before."},
	noteAfterRest:     {ruleOneWeek, "After the rest day the legs wake up with a recovery ride."},
	noteOpening:       {ruleOverload, "The taper opens easy, because the overload block has just ended."},
	noteVolume:        {ruleVolume, "Shorter than usual: the taper removes about %d %% of the usual minutes, most of them near the race."},
	noteAfterDay:      {ruleRaceAfter, "The day after RACE: easy and short, so that the body can repair."},
	noteAfterEasy:     {ruleRaceAfter, "Still recovering from RACE: nothing hard or steady, long rides halved."},
	noteAfterCap:      {ruleRaceAfter, "The race the day before caps this ride."},
	noteHalfRecovery:  {ruleHalf, "Two days before RACE a recovery ride is enough."},
	noteHalfImportant: {ruleHalf, "RACE is marked important: three days before it the ride is cut like a taper day."},
	noteHalfMovedHere: {ruleHalf, "The hard session that stood just before RACE is ridden here instead."},
	noteHalfMovedAway: {ruleHalf, "The hard session of this day stands too near RACE and has moved to an earlier day."},
	noteHalfLeftOut:   {ruleHalf, "The hard session of this day stands too near RACE and no earlier day has room: it is left out."},
	noteThroughGives:  {ruleThrough, "RACE is this week's hard session, so the usual one gives way."},
	noteThroughAfter:  {ruleThroughEnd, "The day after RACE, a long one: half the usual minutes, easy."},
	noteOff:           {ruleOff, "You cannot train on this day."},
	noteLimit:         {ruleLimit, "You have %d minutes on this day."},
	noteTravel:        {ruleTravel, "A travel day: at most an easy ride of 45 minutes."},
	noteIllRace:       {ruleEasy, "Do not start RACE: you are ill, or well for too short a time. Ask a doctor before you race again."},
	noteIll:           {ruleEasy, "You are ill: no training until two days free of these symptoms."},
	noteSymptomFree:   {ruleEasy, "Free of symptoms, but not for two days yet: no training."},
	noteCold:          {ruleEasy, "A head cold: half the time at most, easy; stop if it gets worse."},
	noteReturn:        {ruleEasy, "Coming back from illness: easy days before hard days, with less volume."},
	noteStop:          {ruleStop, "These symptoms need a doctor: no training until you are cleared."},
	noteMoved:         {ruleMoved, "Swapped with another day by your wish."},
	noteLogged:        {ruleLogged, "Already ridden: %d minutes, as you logged."},
	noteNotRidden:     {ruleLogged, "Logged as not ridden; a missed session is never made up."},
}

func (n note) reason(d *Day) Reason {
	t := noteTexts[n.code]
	return Reason{Rule: t.rule, Text: fillIn(t.text, d.raceName(), int(n.x)), Source: sources[t.rule]}
}

// fillIn puts a race's name and a number into a sentence of noteTexts.
func fillIn(text, race string, x int) string {
	return strings.NewReplacer("RACE", race, "%d", strconv.Itoa(x), "%%", "%").Replace(text)
}

func (d *Day) raceName() string {
	if d.Race == nil {
		return "the race"
	}
	return d.Race.Name
}

// note adds a reason once.
func (d *Day) note(code noteCode, x ...int) {
	n := note{code: code}
	if len(x) > 0 {
		n.x = int16(x[0])
	}
	for i := 0; i < d.noted; i++ {
		if d.notes[i].code == code {
			return
		}
	}
	if d.noted < maxNotes {
		d.notes[d.noted] = n
		d.noted++
	}
}

// renote starts the day's reasons anew with one that overrules all before.
func (d *Day) renote(code noteCode, x ...int) {
	d.noted = 0
	d.note(code, x...)
}

// noteOff says why a usual day cannot be ridden.
func (s *slot) noteOff() { s.renote(noteOff) }
