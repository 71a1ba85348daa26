package plans

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/response"
	"musette/planner/season"
)

// Of a long season so many A races and clashes are shown.
const (
	mostGoals   = 8
	mostClashes = 3
)

func seasonCheck(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	return seasonReply(facts, req.Rider.Today), nil
}

// seasonReply weighs the season of a rider with a typical week.
func seasonReply(all desk.Ledger, today planner.Date) say.Reply {
	check, facts := season.NewCheck(today, all.All), all.Now
	if check == nil || len(check.Goals) == 0 {
		return noSeason(all, today)
	}
	var p say.Page
	p.Add(say.PlainLines(seasonVerdict(check, facts)...)...)
	p.Add(say.PlainLines(seasonCost(check)...)...)
	if check.Crowded {
		p.Addf("! More than 30 %% of the season's days are taper days: little time is left to train.")
	}
	p.Gap()
	p.Add(goalRows(check, today)...)
	if len(check.Clashes) > 0 {
		p.Gap()
		p.Add(clashRows(check, facts)...)
	}
	p.Gap()
	first := check.Goals[0].Race
	reply := say.Reply{Date: first.Date, Race: first.Name}
	if worthTelling(check) {
		addChange(&p, &reply, check, facts)
		p.Gap()
	}
	p.Addf("Advice, not an order. %s", show.Uncertain)
	p.Addf("%s", seasonMeant(check))
	p.Addf("Source: %s, all races at once. Size of gains: %s.", show.SourceLengths, show.SourceSize)
	if told := toldAs(facts, first); told != nil && check.Goals[0].Days > 0 && first.Date > today {
		reply.Offer(&p, "Compare lengths", "plan options", raceNamed(told))
	} else if told != nil {
		p.Addf("The days: %s", show.RaceLink(facts, told))
	}
	reply.Lines = p.Done()
	return reply
}

// noSeason says in a sentence why there is nothing to weigh, and what to do.
func noSeason(all desk.Ledger, today planner.Date) say.Reply {
	f := all.Now
	reply := say.Reply{Date: today}
	var ahead *planner.Race
	for i := range f.Races {
		if r := &f.Races[i]; r.Last() >= today && (ahead == nil || r.Date < ahead.Date) {
			ahead = r
		}
	}
	if stop := stopWarning(engine.Derive(today, all.All)); stop != "" {
		reply.Addf("No season to weigh now. %s", stop)
		return reply
	}
	switch {
	case ahead == nil:
		reply.Addf("No race to come, so there is no season to weigh. Register one: %s", desk.RaceExample(today))
	case !slices.ContainsFunc(f.Races, func(r planner.Race) bool { return r.Priority == planner.PriorityA && r.Last() >= today }):
		reply.Addf("No A race to come, so no taper takes fitness from your season. To make one: /race priority race:%s priority:A", say.Quote(raceNamed(ahead)["race"]))
	case len(f.Races) > 0 && weekMinutes(f, today) > 0:
		reply.Addf("No A race in the season of your next race, so no taper takes fitness from it. Its days: %s", show.RaceLink(f, ahead))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no season to weigh. Share a new one, for example /week share week:%s", say.Quote(desk.ExampleWeek))
	}
	return reply
}

// weekMinutes are those of the typical week that holds on a day.
func weekMinutes(f *planner.Facts, day planner.Date) int {
	sum := 0
	for _, d := range show.WeekOn(f, day).Week {
		for _, s := range d.Sessions {
			sum += int(s.Minutes)
		}
	}
	return sum
}

// seasonCost is what the present choice of tapers costs.
func seasonCost(c *season.Check) []string {
	if c.Tapers == 0 {
		return []string{"No taper takes fitness from your season: its A races have no days for one."}
	}
	who, leave, cost := numberWord(c.Tapers)+" tapers", "leave", "cost"
	var lengths []int
	for _, g := range c.Goals {
		if g.Days > 0 {
			lengths = append(lengths, g.Days)
		}
	}
	if len(lengths) == c.Tapers && slices.Min(lengths) == slices.Max(lengths) {
		who = fmt.Sprintf("%s %s tapers", numberWord(c.Tapers), longWord(lengths[0]))
	}
	if c.Tapers == 1 {
		who, leave, cost = strings.TrimPrefix(strings.TrimSuffix(who, "s"), "one "), "leaves", "costs"
	}
	kind := "are taper days"
	if c.TaperDays == 1 {
		kind = "is a taper day"
	}
	share := fmt.Sprintf("%d of the season's %d days %s.", c.TaperDays, c.SeasonDays, kind)
	if c.Lost.Mid < 0.5 {
		return []string{fmt.Sprintf("Your %s %s next to no fitness by %s.", who, cost, show.RaceName(c.Last)), share}
	}
	return []string{fmt.Sprintf("The riding that your %s %s out would be about %.0f %% of your fitness at %s (%.0f to %.0f %%).",
		who, leave, c.Lost.Mid, show.RaceName(c.Last), c.Lost.Low, c.Lost.High),
		"A taper still pays in its own race, as the list shows. " + share}
}

func numberWord(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// longWord is a length as an adjective.
func longWord(days int) string {
	if days%7 == 0 {
		return numberWord(days/7) + "-week"
	}
	return fmt.Sprintf("%d-day", days)
}

// shortRace is a race's name, with its day where another one is called the same.
func shortRace(f *planner.Facts, race *planner.Race) string {
	for i := range f.Races {
		if other := &f.Races[i]; show.SameName(other.Name, race.Name) && (race.Date < other.Date || other.Last() < race.Date) {
			return show.RaceName(race) + " (" + race.Date.Short() + ")"
		}
	}
	return show.RaceName(race)
}

// goalRows are the A races to come with what their tapers bring and cost.
func goalRows(c *season.Check, today planner.Date) []say.Line {
	rows := "Under each race: how much faster you are expected to be in it than without its taper (80 % range)"
	if slices.ContainsFunc(c.Goals, func(g season.Goal) bool { return g.Later != response.Range{} }) {
		rows += ", then what its taper does to later races on average"
	}
	lines := []say.Line{say.Headingf("Your A races:"), say.Linef("%s.", rows)}
	for i, g := range c.Goals {
		if i == mostGoals {
			lines = append(lines, say.Linef("and %d more: /race list", len(c.Goals)-mostGoals))
			break
		}
		head := fmt.Sprintf("%s, %s: ", show.RaceName(g.Race), show.Dated(g.Race.Date, today))
		if g.Days == 0 {
			lines = append(lines, say.Linef("%sno days for a taper", head))
			continue
		}
		row := show.Figure(g.Gain)
		if g.Later != (response.Range{}) {
			row += ", later races " + show.Difference(over(g.Later, g.LaterWeight))
		}
		lines = append(lines, say.Linef("%s%s", head, show.Count(g.Days, "day")), say.Linef("  %s", row))
	}
	return lines
}

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *season.Check, f *planner.Facts) []say.Line {
	lines := []say.Line{say.Headingf("Close together:")}
	if slices.ContainsFunc(c.Clashes, func(clash season.Clash) bool { return len(clash.Choices) > 0 }) {
		lines = append(lines, say.Linef("If you rode one of the two as a B race, the change expected in that race, in the other, and on average over your races (80 %% range):"))
	}
	for i, clash := range c.Clashes {
		if i == mostClashes {
			lines = append(lines, say.Linef("and %d more", len(c.Clashes)-mostClashes))
			break
		}
		head := fmt.Sprintf("%s and %s, %s apart", shortRace(f, clash.First), shortRace(f, clash.Second), show.Count(clash.Days, "day"))
		if clash.Carried {
			head += ": there is no time for a second taper"
		}
		lines = append(lines, say.Linef("%s", head))
		for _, choice := range clash.Choices {
			lines = append(lines, say.Linef("  %s as B: %s, other %s, average %s", shortRace(f, choice.Race),
				show.Difference(choice.Own), show.Difference(choice.Other), show.Difference(average(choice.Total, c))))
		}
	}
	return lines
}

// toldAs is a planned race as it was told: one that lost days to another starts later now.
func toldAs(f *planner.Facts, race *planner.Race) *planner.Race {
	for i := range f.Races {
		if r := &f.Races[i]; r.Name == race.Name && r.Date <= race.Date && race.Date <= r.Last() {
			return r
		}
	}
	return nil
}
