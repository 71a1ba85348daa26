package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/planner"
	"musette/planner/response"
)

// Of a long season so many A races and clashes are shown.
const (
	mostGoals   = 12
	mostClashes = 6

	crowdedShare = 0.30 // of a season's days in tapers, from which on that is said
	sameFormDays = 14   // up to here the second of two A races lives off the first one's taper
)

func (b *Bot) seasonCheck(ctx context.Context, req Request) (Reply, error) {
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	if !planned(facts) {
		return req.needWeek(), nil
	}
	return seasonReply(facts, req.rider.today), nil
}

// seasonReply weighs the season of a rider with a typical week.
func seasonReply(facts *planner.Facts, today planner.Date) Reply {
	check := facts.CheckSeason(today)
	if check == nil || len(check.Goals) == 0 {
		return noSeason(facts, today)
	}
	var p page
	p.add(seasonCost(check), seasonVerdict(check, facts))
	if float64(check.TaperDays) > crowdedShare*float64(check.SeasonDays) {
		p.addf("! More than %.0f %% of the season's days are taper days: little time is left to train.", 100*crowdedShare)
	}
	p.gap()
	p.add(goalRows(check, today)...)
	if len(check.Clashes) > 0 {
		p.gap()
		p.add(clashRows(check, facts, today)...)
	}
	p.gap()
	first := check.Goals[0].Race
	reply := Reply{Date: first.Date, Race: first.Name}
	if check.Best != nil {
		p.add("With the change: " + tapersText(check.Best.Tapers, facts) + ".")
		if options := applying(check.Best, facts); len(options[optionMakeB]) <= maxRacesText {
			reply.offer(&p, "Apply it", "season apply", options)
		}
	}
	if average := stillOpen(check, today); len(average) > 0 {
		p.add("Expected values alone would choose: " + tapersText(average, facts) + ". Too close to call.")
	}
	p.gap()
	p.add("Advice, not an order. "+uncertain, "Source: "+sourceLengths+", all races at once; size of gains "+sourceSize+".")
	if told := toldAs(facts, first); told != nil && check.Goals[0].Days > 0 && first.Date > today {
		reply.offer(&p, "Compare lengths", "plan options", raceNamed(told))
	} else if told != nil {
		p.add("The days: " + showRace(facts, told))
	}
	reply.Text = p.String()
	return reply
}

// noSeason says in a sentence why there is nothing to weigh, and what to do.
func noSeason(f *planner.Facts, today planner.Date) Reply {
	reply := Reply{Date: today}
	var ahead *planner.Race
	for i := range f.Races {
		if r := &f.Races[i]; r.Last() >= today && (ahead == nil || r.Date < ahead.Date) {
			ahead = r
		}
	}
	if stop := stopWarning(planner.Derive(today, f)); stop != "" {
		reply.Text = "No season to weigh now. " + stop
		return reply
	}
	switch {
	case ahead == nil:
		reply.Text = "No race to come, so there is no season to weigh. Register one: " + raceExample(today)
	case !slices.ContainsFunc(f.Races, func(r planner.Race) bool { return r.Priority == planner.PriorityA && r.Last() >= today }):
		reply.Text = "No A race to come, so no taper takes fitness from your season. To make one: /race priority race:" + Quote(raceNamed(ahead)["race"]) + " priority:A"
	case len(f.Races) > 0 && weekMinutes(f, today) > 0:
		reply.Text = "No A race in the season of your next race, so no taper takes fitness from it. Its days: " + showRace(f, ahead)
	default:
		reply.Text = "Nothing is ridden in your usual week, so there is no season to weigh. Share a new one, for example /week share week:" + Quote(exampleWeek)
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
func seasonCost(c *planner.SeasonCheck) string {
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
	share := fmt.Sprintf("%d of the season's %d days are taper days.", c.TaperDays, c.SeasonDays)
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

// seasonVerdict is what would be better, and by how much over all races.
func seasonVerdict(c *planner.SeasonCheck, f *planner.Facts) string {
	const counted = ", where A counts 1, B 0.4 and C 0.1."
	if c.Best == nil {
		return "Nothing clearly better was found, in sum over all races" + counted
	}
	lead := "Better: "
	if !c.Best.Sure {
		lead = "Perhaps better, but not clear: "
	}
	return lead + changeText(c.Best, f) + "; expected " + compared(c.Best.Total, "better", "worse", "in sum over all races") + counted
}

// changeText is what a change does, as an order.
func changeText(c *planner.SeasonChange, f *planner.Facts) string {
	var parts []string
	names := make([]string, len(c.ToB))
	for i, r := range c.ToB {
		names[i] = shortRace(f, r)
	}
	switch n := len(names); {
	case n == 1:
		parts = append(parts, "make "+names[0]+" a B race")
	case n > 3:
		parts = append(parts, "make "+numberWord(n)+" of them B races, named below")
	case n > 0:
		parts = append(parts, "make "+andList(names)+" B races")
	}
	if c.Automatic {
		parts = append(parts, "let the lengths be automatic")
	}
	return strings.Join(parts, " and ")
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
func goalRows(c *planner.SeasonCheck, today planner.Date) []string {
	rows := "Rows: expected gain in the race (range)"
	if slices.ContainsFunc(c.Goals, func(g planner.SeasonGoal) bool { return g.Later != response.Range{} }) {
		rows += "; what later races gain or lose by its taper, in sum"
	}
	lines := []string{"Your A races:", rows + "."}
	for i, g := range c.Goals {
		if i == mostGoals {
			lines = append(lines, fmt.Sprintf("and %d more: /race list", len(c.Goals)-mostGoals))
			break
		}
		head := fmt.Sprintf("%s, %s: ", raceName(g.Race), dated(g.Race.Date, today))
		if g.Days == 0 {
			lines = append(lines, head+"no days for a taper")
			continue
		}
		row := "  " + figure(g.Gain)
		if g.Later != (response.Range{}) {
			row += "; later races " + figure(g.Later)
		}
		lines = append(lines, head+count(g.Days, "day"), row)
	}
	return lines
}

// clashRows are the A races that are close together and what either as a B race would change.
func clashRows(c *planner.SeasonCheck, f *planner.Facts, today planner.Date) []string {
	lines := []string{"Close together:", "Rows: what one as a B race changes (range): in it, in the other, in sum over all races."}
	for i, clash := range c.Clashes {
		if i == mostClashes {
			lines = append(lines, fmt.Sprintf("and %d more", len(c.Clashes)-mostClashes))
			break
		}
		head := fmt.Sprintf("%s and %s, %s apart", shortRace(f, clash.First), shortRace(f, clash.Second), count(clash.Days, "day"))
		if clash.Days <= sameFormDays {
			head += ": the second lives off the first taper"
		}
		lines = append(lines, head)
		for _, choice := range clash.Choices {
			if choice.Race.Date <= today {
				continue // it is too late for that
			}
			lines = append(lines, fmt.Sprintf("  %s as B: %s; other %s; sum %s", shortRace(f, choice.Race), figure(choice.Own), figure(choice.Other), figure(choice.Total)))
		}
	}
	return lines
}

// stillOpen is what the average alone would choose for races that begin later
// than today, none where that is what is planned or advised.
func stillOpen(c *planner.SeasonCheck, today planner.Date) []planner.SeasonTaper {
	var open []planner.SeasonTaper
	differs := false
	for i, t := range c.Average {
		if t.Race.Date <= today {
			continue
		}
		open = append(open, t)
		differs = differs || t.AsB || t.Days != c.Goals[i].Days
	}
	if !differs || c.Best != nil && slices.Equal(c.Best.Tapers, c.Average) {
		return nil
	}
	return open
}

// tapersText tells what each A race would get, those with the same together.
func tapersText(tapers []planner.SeasonTaper, f *planner.Facts) string {
	const asB = "half a week at most, as B races, for "
	var kinds []string
	names := map[string][]string{}
	for _, t := range tapers {
		kind := count(t.Days, "day") + " for "
		switch {
		case t.AsB:
			kind = asB
		case t.Days == 0:
			kind = "no taper for "
		}
		if names[kind] == nil {
			kinds = append(kinds, kind)
		}
		names[kind] = append(names[kind], shortRace(f, t.Race))
	}
	for i, kind := range kinds {
		list := names[kind]
		if kind == asB && len(list) == 1 {
			kinds[i] = "half a week at most, as a B race, for "
		}
		kinds[i] += andList(list)
	}
	return strings.Join(kinds, "; ")
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
