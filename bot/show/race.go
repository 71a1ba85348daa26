package show

import (
	"fmt"
	"maps"
	"strconv"
	"strings"
	"time"

	"musette/bot/say"
	"musette/planner"
	"musette/planner/care"
	"musette/planner/raceday"
	"musette/storage"
)

// RaceLink is the command that shows a race's days: by its name, and its date
// too where another race is called the same.
func RaceLink(f *planner.Facts, race *planner.Race) say.Span {
	name := race.Name
	for i := range f.Races {
		if other := &f.Races[i]; SameName(other.Name, race.Name) && other.Date != race.Date {
			name = race.Name + " " + race.Date.String()
		}
	}
	return say.CommandLine("plan show", map[string]string{"race": name})
}

// NameAmong is a race's name, with its day where another race is called the same.
func NameAmong(f *planner.Facts, race *planner.Race) string {
	for i := range f.Races {
		if other := &f.Races[i]; SameName(other.Name, race.Name) && other.Date != race.Date {
			return race.Name + " on " + race.Date.Short()
		}
	}
	return race.Name
}

// SameName is the one rule for names in other capitals.
func SameName(a, b string) bool { return storage.Fold(a) == storage.Fold(b) }

// ZoneOf is the zone in which a race starts: its own, else the rider's.
func ZoneOf(race *planner.Race, rider *time.Location) *time.Location {
	if zone, err := time.LoadLocation(race.Zone); err == nil && race.Zone != "" {
		return zone
	}
	return rider
}

// StartOf is the instant at which a race begins, where the start is known and to come.
func StartOf(race *planner.Race, rider *time.Location, now time.Time) []say.Moment {
	at, ok := raceday.StartIn(race, ZoneOf(race, rider))
	if !ok || at.Before(now) {
		return nil
	}
	return []say.Moment{{Label: "Start", At: at}}
}

// RaceKey names a race to people, and to commands that they write.
func RaceKey(r *planner.Race) string { return r.Name + " " + r.Date.String() }

// RaceRef means a race whatever becomes of its name and date. Buttons carry it.
func RaceRef(r *planner.Race) string { return "#" + strconv.FormatInt(r.ID, 10) }

// RefID is the ID in a text of RaceRef.
func RefID(text string) (id int64, ok bool) {
	number, ok := strings.CutPrefix(text, "#")
	if !ok || number == "" || strings.Trim(number, "0123456789") != "" {
		return 0, false
	}
	id, err := strconv.ParseInt(number, 10, 64)
	return id, err == nil
}

// ByRace are the options of a button about a race; more are pairs of an option and its value.
func ByRace(r *planner.Race, more ...string) map[string]string { return raceOptions(RaceRef(r), more) }

func raceOptions(race string, more []string) map[string]string {
	options := map[string]string{"race": race}
	for i := 0; i+1 < len(more); i += 2 {
		options[more[i]] = more[i+1]
	}
	return options
}

// OfferRace is Offer of a command about a race: its line names the race, its button means it.
func OfferRace(reply *say.Reply, p *say.Page, label, command string, r *planner.Race, more ...string) {
	reply.Offer(p, label, command, raceOptions(RaceKey(r), more))
	Refer(reply, r)
}

// Refer makes the last button of a reply mean its race whatever becomes of the name.
func Refer(reply *say.Reply, r *planner.Race) {
	last := &reply.Buttons[len(reply.Buttons)-1]
	last.Options = maps.Clone(last.Options)
	last.Options["race"] = RaceRef(r)
}

// PlanButton shows a race's plan.
func PlanButton(race *planner.Race) say.Button {
	return say.Button{Label: "Show plan", Command: "plan show", Options: ByRace(race)}
}

// MostName is how much of a race's or a rider's name or of a placing stands in a line
// for coaches, in units of UTF-16.
const MostName = 60

// CutTo is a text with "..." where it is too long.
func CutTo(s string, most int) string {
	if short := say.Clip16(s, most); short != s {
		return say.Clip16(s, most-3) + "..."
	}
	return s
}

// RaceName is the name of a race, short enough for a line for coaches.
func RaceName(r *planner.Race) string { return CutTo(r.Name, MostName) }

// DescribeRace is a race in one line as it was understood.
func DescribeRace(r *planner.Race) string {
	parts := []string{fmt.Sprintf("%s race on %s", r.Priority, r.Date.Long())}
	if r.Days > 1 {
		parts = append(parts, fmt.Sprintf("%d days to %s", r.Days, r.Last().Short()))
	}
	if r.Kind != "" {
		parts = append(parts, r.Kind)
	}
	if r.Hours > 0 {
		length := planner.Duration(int(r.Hours*60 + 0.5))
		if r.Days > 1 {
			length += " a day"
		}
		parts = append(parts, length)
	}
	if r.Start != "" {
		parts = append(parts, "start "+r.Start)
	}
	if r.Place != "" {
		parts = append(parts, r.Place)
	}
	if r.Priority == planner.PriorityB && r.Emphasis != planner.NoEmphasis {
		parts = append(parts, r.Emphasis.String())
	}
	if r.TaperDays > 0 {
		parts = append(parts, "with its own taper of "+Count(r.TaperDays, "day"))
	}
	return strings.Join(parts, ", ")
}

// OutcomeWords is what happened to a race, "" of one that is planned.
func OutcomeWords(s planner.RaceStatus) string {
	return map[planner.RaceStatus]string{planner.Finished: "finished", planner.GaveUp: "gave up", planner.NotStarted: "did not start", planner.Cancelled: "cancelled"}[s]
}

// ComparedWords is how a race went beside what was expected, "" where that was not told.
func ComparedWords(c planner.Compared) string {
	return map[planner.Compared]string{planner.ComparedWorse: "worse than expected", planner.ComparedSame: "as expected", planner.ComparedBetter: "better than expected"}[c]
}

// AboutHealth reports a text that speaks of the rider's health, which coaches do
// not read. Names of races never do.
func AboutHealth(text string, names ...string) bool {
	return care.Read(text, names...).Verdict != care.Nothing || care.Symptom(text, names...).Verdict != care.Nothing
}
