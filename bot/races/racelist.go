package races

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// mostListed is how many races the calendar shows at once.
const mostListed = 40

// mostJoins is how many races the calendar offers to join.
const mostJoins = 5

// clubRace is a race of the calendar with all who ride it. Where riders tell
// different lengths it lasts as long as the longest.
type clubRace struct {
	planner.Race
	riders []string
	mine   bool     // the rider who asks is one of them
	off    []string // those for whom it is cancelled
}

// calendar gathers the races that are not over, the first one first.
func calendar(all []storage.ClubRace, who *desk.Rider) []clubRace {
	var out []clubRace
	for _, r := range all {
		if r.Status == planner.NotStarted || r.Status == planner.GaveUp && r.Ended < who.Today {
			continue
		}
		if n := len(out); n == 0 || out[n-1].Date != r.Date || !show.SameName(out[n-1].Name, r.Name) {
			out = append(out, clubRace{Race: r.Race.Race})
		}
		last := &out[len(out)-1]
		mine := ""
		if who.Known() && r.AthleteID == who.Athlete.ID {
			last.mine, mine = true, ", you"
		}
		if !r.Status.Counts() {
			last.off = append(last.off, r.Athlete+mine)
			continue
		}
		last.riders = append(last.riders, fmt.Sprintf("%s (%s%s)", r.Athlete, r.Priority, mine))
		last.Days = max(last.Days, r.Days)
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
		return say.Reply{Lines: []say.Line{say.Linef("No race is to come in %s.", club), say.Linef("Add one: %s", desk.RaceExample(today))}}, nil
	}
	var p say.Page
	standing := 0
	for i := range races {
		standing += min(1, len(races[i].riders))
	}
	next := &races[max(0, slices.IndexFunc(races, func(r clubRace) bool { return len(r.riders) > 0 }))]
	switch {
	case standing == 0:
		p.Addf("No race is to come in %s: all are cancelled.", club)
	case next.Date < today:
		p.Addf("Races of %s: %s is under way. To come or under way: %d.", club, next.Name, standing)
	default:
		p.Addf("Races of %s: %d to come, next %s on %s.", club, standing, next.Name, next.Date.Short())
	}
	for i := range races {
		if i == mostListed {
			p.Addf("and %d more", len(races)-mostListed)
			break
		}
		p.Add(say.Dayf(raceDate(&races[i].Race, today)+" ", "%s%s: %s", races[i].Name, lasting(&races[i].Race, today), races[i].who()))
	}
	p.Add(nextStep(races, today))
	reply := say.Reply{Lines: p.Done(), Date: next.Date, Race: next.Name}
	offered := map[string]bool{} // of a series the first race
	for i := range races {
		r := &races[i]
		if name := storage.Fold(r.Name); !r.mine && r.Date >= today && len(r.riders) > 0 && !offered[name] && len(reply.Buttons) < mostJoins {
			offered[name] = true
			reply.Buttons = append(reply.Buttons, joinButton(&r.Race))
		}
	}
	return reply, nil
}

// who are a race's riders, and those for whom it is cancelled.
func (r *clubRace) who() string {
	switch {
	case len(r.off) == 0:
		return strings.Join(r.riders, ", ")
	case len(r.riders) == 0:
		return "cancelled (" + strings.Join(r.off, ", ") + ")"
	}
	return strings.Join(r.riders, ", ") + ". Cancelled for " + strings.Join(r.off, ", ")
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
		if r.mine && len(r.riders) > 0 {
			return say.Linef("Your days for %s: /plan show race:%s", r.Name, say.Quote(r.Name+" "+r.Date.String()))
		}
	}
	for _, r := range races {
		if r.Date >= today && len(r.riders) > 0 {
			return say.Linef("Ride one of them too: /race join race:%s", say.Quote(r.Name+" "+r.Date.String()))
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
