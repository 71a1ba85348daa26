package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

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

func (b *Base) seasonCheck(ctx context.Context, req Request) (Reply, error) {
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	if !planned(facts.now) {
		return req.needWeek(), nil
	}
	return seasonReply(facts, req.rider.today), nil
}

// seasonReply weighs the season of a rider with a typical week.
func seasonReply(all ledger, today planner.Date) Reply {
	check, facts := season.NewCheck(today, all.all), all.now
	if check == nil || len(check.Goals) == 0 {
		return noSeason(all, today)
	}
	var p page
	p.add(plainLines(seasonCost(check), seasonVerdict(check, facts))...)
	if check.Crowded {
		p.addf("! More than 30 %% of the season's days are taper days: little time is left to train.")
	}
	p.gap()
	p.add(goalRows(check, today)...)
	if len(check.Clashes) > 0 {
		p.gap()
		p.add(clashRows(check, facts)...)
	}
	p.gap()
	first := check.Goals[0].Race
	reply := Reply{Date: first.Date, Race: first.Name}
	if check.Best != nil {
		addChange(&p, &reply, check, facts)
		p.gap()
	}
	p.addf("Advice, not an order. %s", uncertain)
	p.addf("%s", seasonMeant(check))
	p.addf("Source: %s, all races at once; size of gains %s.", sourceLengths, sourceSize)
	if told := toldAs(facts, first); told != nil && check.Goals[0].Days > 0 && first.Date > today {
		reply.offer(&p, "Compare lengths", "plan options", raceNamed(told))
	} else if told != nil {
		p.addf("The days: %s", showRace(facts, told))
	}
	reply.Lines = p.done()
	return reply
}

// noSeason says in a sentence why there is nothing to weigh, and what to do.
func noSeason(all ledger, today planner.Date) Reply {
	f := all.now
	reply := Reply{Date: today}
	var ahead *planner.Race
	for i := range f.Races {
		if r := &f.Races[i]; r.Last() >= today && (ahead == nil || r.Date < ahead.Date) {
			ahead = r
		}
	}
	if stop := stopWarning(engine.Derive(today, all.all)); stop != "" {
		reply.Addf("No season to weigh now. %s", stop)
		return reply
	}
	switch {
	case ahead == nil:
		reply.Addf("No race to come, so there is no season to weigh. Register one: %s", raceExample(today))
	case !slices.ContainsFunc(f.Races, func(r planner.Race) bool { return r.Priority == planner.PriorityA && r.Last() >= today }):
		reply.Addf("No A race to come, so no taper takes fitness from your season. To make one: /race priority race:%s priority:A", Quote(raceNamed(ahead)["race"]))
	case len(f.Races) > 0 && weekMinutes(f, today) > 0:
		reply.Addf("No A race in the season of your next race, so no taper takes fitness from it. Its days: %s", showRace(f, ahead))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no season to weigh. Share a new one, for example /week share week:%s", Quote(exampleWeek))
	}
	return reply
}

// weekMinutes are those of the typical week that holds on a day.
func weekMinutes(f *planner.Facts, day planner.Date) int {
	sum := 0
	for _, d := range weekOn(f, day).Week {
		for _, s := range d.Sessions {
			sum += int(s.Minutes)
		}
	}
	return sum
}

// seasonCost is what the present choice of tapers costs.
func seasonCost(c *season.Check) string {
	if c.Tapers == 0 {
		return "No taper takes fitness from your season: its A races have no days for one."
	}
	who, verb := numberWord(c.Tapers)+" tapers", "take"
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
		who, verb = strings.TrimPrefix(strings.TrimSuffix(who, "s"), "one "), "takes"
	}
	kind := "are taper days"
	if c.TaperDays == 1 {
		kind = "is a taper day"
	}
	share := fmt.Sprintf("%d of the season's %d days %s.", c.TaperDays, c.SeasonDays, kind)
	if c.Lost.Mid < 0.5 {
		return fmt.Sprintf("Your %s %s no fitness worth telling by %s; %s", who, verb, raceName(c.Last), share)
	}
	return fmt.Sprintf("Your %s %s about %.0f %% of your fitness by %s (%.0f to %.0f %%); %s",
		who, verb, c.Lost.Mid, raceName(c.Last), c.Lost.Low, c.Lost.High, share)
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
		if other := &f.Races[i]; sameName(other.Name, race.Name) && (race.Date < other.Date || other.Last() < race.Date) {
			return raceName(race) + " (" + race.Date.Short() + ")"
		}
	}
	return raceName(race)
}

// goalRows are the A races to come with what their tapers bring and cost.
func goalRows(c *season.Check, today planner.Date) []Line {
	rows := "Rows: expected gain in the race (range)"
	if slices.ContainsFunc(c.Goals, func(g season.Goal) bool { return g.Later != response.Range{} }) {
		rows += "; what later races gain or lose by its taper, on average"
	}
	lines := []Line{headingOf("Your A races:"), Say("%s.", rows)}
	for i, g := range c.Goals {
		if i == mostGoals {
			lines = append(lines, Say("and %d more: /race list", len(c.Goals)-mostGoals))
			break
		}
		head := fmt.Sprintf("%s, %s: ", raceName(g.Race), dated(g.Race.Date, today))
		if g.Days == 0 {
			lines = append(lines, Say("%sno days for a taper", head))
			continue
		}
		row := figure(g.Gain)
		if g.Later != (response.Range{}) {
			row += "; later races " + difference(over(g.Later, g.LaterWeight))
		}
		lines = append(lines, Say("%s%s", head, count(g.Days, "day")), Say("  %s", row))
	}
	return lines
}

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *season.Check, f *planner.Facts) []Line {
	lines := []Line{headingOf("Close together:")}
	if slices.ContainsFunc(c.Clashes, func(clash season.Clash) bool { return len(clash.Choices) > 0 }) {
		lines = append(lines, Say("Rows: what one as a B race changes (range): in it; in the other; on average over your races."))
	}
	for i, clash := range c.Clashes {
		if i == mostClashes {
			lines = append(lines, Say("and %d more", len(c.Clashes)-mostClashes))
			break
		}
		head := fmt.Sprintf("%s and %s, %s apart", shortRace(f, clash.First), shortRace(f, clash.Second), count(clash.Days, "day"))
		if clash.Carried {
			head += ": the second lives off the first taper"
		}
		lines = append(lines, Say("%s", head))
		for _, choice := range clash.Choices {
			lines = append(lines, Say("  %s as B: %s; other %s; average %s", shortRace(f, choice.Race),
				difference(choice.Own), difference(choice.Other), difference(average(choice.Total, c))))
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
