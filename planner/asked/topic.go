package asked

import (
	"slices"
	"strings"
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
