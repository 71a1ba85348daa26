package races

import (
	"context"
	"fmt"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// mostListed is how many races the calendar shows at once.
const mostListed = 40

// clubRace is a race of the calendar with all who ride it. Where riders tell
// different lengths it lasts as long as the longest.
type clubRace struct {
	planner.Race
	riders []string
	mine   bool // the rider who asks is one of them
}

// calendar gathers the races that are not over, the first one first.
func calendar(all []storage.ClubRace, who *desk.Rider) []clubRace {
	var out []clubRace
	for _, r := range all {
		if n := len(out); n == 0 || out[n-1].Date != r.Date || !show.SameName(out[n-1].Name, r.Name) {
			out = append(out, clubRace{Race: r.Race.Race})
		}
		last := &out[len(out)-1]
		last.riders = append(last.riders, r.Athlete+" "+r.Priority.String())
		last.Days = max(last.Days, r.Days)
		last.mine = last.mine || who.Known() && r.AthleteID == who.Athlete.ID
	}
	ahead := out[:0]
	for _, r := range out {
		if r.Last() >= who.Today {
			ahead = append(ahead, r)
		}
	}
	return ahead
}

func raceList(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	all, err := b.DB.ClubRaces(ctx, req.Rider.Club.ID)
	if err != nil {
		return say.Reply{}, err
	}
	today, club := req.Rider.Today, req.Rider.Club.Name
	races := calendar(all, req.Rider)
	if len(races) == 0 {
		return say.Reply{Lines: []say.Line{say.Linef("No race to come in %s.", club), say.Linef("Add one: %s", desk.RaceExample(today))}}, nil
	}
	var p say.Page
	next := &races[0]
	if next.Date < today {
		p.Addf("%s: %s is under way. Races to come or under way: %d.", club, next.Name, len(races))
	} else {
		p.Addf("%s: %s to come, next %s on %s.", club, show.Count(len(races), "race"), next.Name, next.Date.Short())
	}
	for i := range races {
		if i == mostListed {
			p.Addf("and %d more", len(races)-mostListed)
			break
		}
		p.Add(say.Dayf(raceDate(&races[i].Race, today)+" ", "%s%s: %s", races[i].Name, lasting(&races[i].Race, today), strings.Join(races[i].riders, ", ")))
	}
	p.Add(nextStep(races, today))
	return say.Reply{Lines: p.Done(), Date: next.Date, Race: next.Name}, nil
}

// lasting tells of a stage race how long it is and whether it runs.
func lasting(r *planner.Race, today planner.Date) string {
	if r.Days == 1 {
		return ""
	}
	text := " (" + show.Count(r.Days, "day")
	if r.Date < today {
		text += ", under way"
	}
	return text + ")"
}

// nextStep offers the days of the rider's first race, else to join the club's next.
func nextStep(races []clubRace, today planner.Date) say.Line {
	for _, r := range races {
		if r.mine {
			return say.Linef("Your days for %s: /plan show race:%s", r.Name, say.Quote(r.Name+" "+r.Date.String()))
		}
	}
	for _, r := range races {
		if r.Date >= today {
			return say.Linef("Join one: /race add name:%s date:%s priority:B", say.Quote(r.Name), r.Date)
		}
	}
	return say.Linef("Add one: %s", desk.RaceExample(today))
}

// raceDate is weekday and day, with the year when it is not near.
func raceDate(r *planner.Race, today planner.Date) string {
	if today.DaysUntil(r.Date) > 300 {
		return r.Date.Short() + " " + r.Date.String()[:4]
	}
	return fmt.Sprintf("%-10s", r.Date.Short())
}
