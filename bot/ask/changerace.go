package ask

import (
	"regexp"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/asked"
)

var (
	isOff    = regexp.MustCompile(`(?i)\b(?:cancell?ed|called off|is off|been scrapped)\b`)
	takesOut = regexp.MustCompile(`(?i)\b(?:cancel|remove|delete|withdraw|call off|scrap|pull out of|pulling out of|pulled out of|not (?:doing|racing|starting))\b`)
	putsOff  = regexp.MustCompile(`(?i)\b(?:moved?|postponed?|put off|rescheduled?|is now on|new date)\b`)
	onlyAsks = regexp.MustCompile(`(?i)^(?:is|was|has|did|does|do|how|why|when)\b|\b(?:should|shall|can|could|would|may|what if|wise|worth)\b`)
)

// ofRaces are topics under which somebody may tell that a race is off or has moved.
var ofRaces = map[asked.Topic]bool{asked.Races: true, asked.NextRace: true, asked.Season: true, asked.Unknown: true, asked.Help: true, asked.RaceMorning: true, asked.Away: true, asked.Missed: true, asked.AddRace: true}

// changesRace proposes what somebody tells of a race that they have: it is off, or on another day.
func (t *talk) changesRace(p *asked.Part) (say.Reply, bool, error) {
	race := p.Race
	if race == nil || race.Date < t.today || p.Any && len(p.Offers) == 0 || onlyAsks.MatchString(p.Text) || !ofRaces[p.Topic] && len(p.Offers) == 0 {
		return say.Reply{}, false, nil
	}
	switch day, dated := t.day(p); {
	case putsOff.MatchString(p.Text) && dated && day > t.today && day != race.Date:
		options := raceOption(race)
		options["date"] = day.String()
		return t.proposed(p, race, "Not saved yet. Move "+race.Name+" from "+race.Date.Long()+" to "+day.Long()+"?", "Move "+race.Name, "race change", options)
	case isOff.MatchString(p.Text) && t.has("race change", "status"):
		options := raceOption(race)
		options["status"] = "cancelled"
		return t.proposed(p, race, "Not saved yet. "+race.Name+" on "+race.Date.Long()+" is cancelled?", "It is cancelled", "race change", options)
	case takesOut.MatchString(p.Text):
		return t.proposed(p, race, "Not saved yet. Take "+race.Name+" on "+race.Date.Long()+" out of your races?", "Remove "+race.Name, "race remove", raceOption(race))
	}
	return say.Reply{}, false, nil
}

func (t *talk) proposed(p *asked.Part, race *planner.Race, line, label, command string, options map[string]string) (say.Reply, bool, error) {
	p.Offers = nil
	reply, err := t.propose(line, label, command, options, p)
	reply.Topic, reply.Date, reply.Race = string(asked.Races), race.Date, race.Name
	return reply, true, err
}
