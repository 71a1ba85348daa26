package bot

import (
	"context"
	"fmt"
	"strings"

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
func calendar(all []storage.ClubRace, who *rider) []clubRace {
	var out []clubRace
	for _, r := range all {
		if n := len(out); n == 0 || out[n-1].Date != r.Date || !sameName(out[n-1].Name, r.Name) {
			out = append(out, clubRace{Race: r.Race.Race})
		}
		last := &out[len(out)-1]
		last.riders = append(last.riders, r.Athlete+" "+r.Priority.String())
		last.Days = max(last.Days, r.Days)
		last.mine = last.mine || who.known() && r.AthleteID == who.athlete.ID
	}
	ahead := out[:0]
	for _, r := range out {
		if r.Last() >= who.today {
			ahead = append(ahead, r)
		}
	}
	return ahead
}

func (b *Base) raceList(ctx context.Context, req Request) (Reply, error) {
	all, err := b.db.ClubRaces(ctx, req.rider.club.ID)
	if err != nil {
		return Reply{}, err
	}
	today, club := req.rider.today, req.rider.club.Name
	races := calendar(all, req.rider)
	if len(races) == 0 {
		return Reply{Lines: []Line{Say("No race to come in %s.", club), Say("Add one: %s", raceExample(today))}}, nil
	}
	var p page
	next := &races[0]
	if next.Date < today {
		p.addf("%s: %s is under way; races to come or under way: %d.", club, next.Name, len(races))
	} else {
		p.addf("%s: %s to come, next %s on %s.", club, count(len(races), "race"), next.Name, next.Date.Short())
	}
	for i := range races {
		if i == mostListed {
			p.addf("and %d more", len(races)-mostListed)
			break
		}
		p.add(dayOf(raceDate(&races[i].Race, today)+" ", "%s%s: %s", races[i].Name, lasting(&races[i].Race, today), strings.Join(races[i].riders, ", ")))
	}
	p.add(nextStep(races, today))
	return Reply{Lines: p.done(), Date: next.Date, Race: next.Name}, nil
}

// lasting tells of a stage race how long it is and whether it runs.
func lasting(r *planner.Race, today planner.Date) string {
	if r.Days == 1 {
		return ""
	}
	text := " (" + count(r.Days, "day")
	if r.Date < today {
		text += ", under way"
	}
	return text + ")"
}

// nextStep offers the days of the rider's first race, else to join the club's next.
func nextStep(races []clubRace, today planner.Date) Line {
	for _, r := range races {
		if r.mine {
			return Say("Your days for %s: /plan show race:%s", r.Name, Quote(r.Name+" "+r.Date.String()))
		}
	}
	for _, r := range races {
		if r.Date >= today {
			return Say("Join one: /race add name:%s date:%s priority:B", Quote(r.Name), r.Date)
		}
	}
	return Say("Add one: %s", raceExample(today))
}

// raceDate is weekday and day, with the year when it is not near.
func raceDate(r *planner.Race, today planner.Date) string {
	if today.DaysUntil(r.Date) > 300 {
		return r.Date.Short() + " " + r.Date.String()[:4]
	}
	return fmt.Sprintf("%-10s", r.Date.Short())
}
