package plans

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// Option of /season check.
const (
	optionNumbers = "numbers"
	numbersAll    = "all"
)

// How much the first answer names.
const (
	mostNamed      = 3   // races in a list
	mostList       = 70  // bytes of a list
	mostEffects    = 4   // of one sign that are all named
	mostEffectList = 100 // bytes of them at most
	mostPair       = 45  // bytes of two names beside which a reason has room
	mostRaceName   = 24  // of a name, in units of UTF-16
	leastName      = 12  // of a name that has its day beside it
	mostKeys       = 2   // races that a line to type names, not by their days alone
	mostKey        = 40  // characters of a name and its day in a line to type
)

func seasonCheck(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today := req.Rider.Today
	if reply, ok := desk.NotTraining(facts.Now, today); ok {
		return reply, nil
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	reply := seasonReply(facts, today, req.Get(optionNumbers) == numbersAll)
	if plan := engine.Derive(today, facts.All); len(reply.Buttons) > 0 && len(seasonFlags(plan)) > 0 {
		b.Attach(ctx, &reply, "season.png", func() (picture.Picture, error) { return picture.Season(seasonCard(plan)) })
	}
	return reply, nil
}

// seasonReply weighs the season of a rider with a typical week.
func seasonReply(all desk.Ledger, today planner.Date, numbers bool) say.Reply {
	check, facts := season.NewCheck(today, all.All), all.Now
	if check == nil || len(check.Goals) == 0 {
		return noSeason(all, today)
	}
	first := check.Goals[0].Race
	back := comingBack(engine.Derive(today, all.All))
	block, blockBrief := blockDecides(check, all, today)
	build := func(room room) say.Reply {
		if room == narrowest {
			block = blockBrief
		}
		reply := say.Reply{Date: first.Date, Race: first.Name}
		var p say.Page
		if !back.IsZero() {
			p.Addf("! %s", healthFirst(back, room))
		}
		if numbers && firstStep(check) != nil {
			p.Addf("%s", wholeChange(check, facts))
		} else {
			p.Addf("%s", seasonVerdict(check, facts, room))
		}
		if numbers {
			seasonNumbers(&p, &reply, check, all, today)
		} else {
			seasonBrief(&p, &reply, check, all, today, room, block, rough(back))
		}
		reply.Lines = p.Done()
		return reply
	}
	reply := build(wide)
	for room := narrow; room <= narrowest && !numbers && utf8.RuneCountInString(reply.Text()) > mostReply; room++ {
		reply = build(room)
	}
	return reply
}

// room is how much the first answer may say.
type room int

// A wide answer says all. A narrow one names one race a side and takes tapers as known. The narrowest
// leaves out besides what needs no decision.
const (
	wide room = iota
	narrow
	narrowest
)

// healthFirst is for who is on the way back to training.
func healthFirst(back planner.Date, room room) string {
	if room == narrowest {
		return fmt.Sprintf("Your health comes first. The season can wait until %s.", back.Short())
	}
	return fmt.Sprintf("Your health comes first: you are coming back step by step, until %s. The season can wait until then.", back.Short())
}

// rough says what figures are, and what comes first where nothing has said that yet.
func rough(back planner.Date) string {
	if !back.IsZero() {
		return "Rough estimates."
	}
	return "Rough estimates. Health comes first."
}

// comingBack is the last day on which health still bounds the days from today on, zero where it does not.
func comingBack(plan *engine.Plan) (last planner.Date) {
	for day := plan.Today; ; day++ {
		if d, ok := plan.Day(day); !ok || d.Phase != planner.Health {
			return last
		}
		last = day
	}
}

const mostReply = 700 // characters of the first answer

const sourceTapers = "What tapers bring: Mujika & Padilla 2003."

const keepIt = "Keep your season as it is: I found no change that makes you clearly faster."

// seasonVerdict is the one change that is worth it, or that none is.
func seasonVerdict(c *season.Check, f *planner.Facts, room room) string {
	terse := room > wide
	switch {
	case c.Best == nil:
		return keepIt
	case show.HelpsItselfAlone(c):
		return keepForNoOther(c, f)
	case !show.WorthIt(c):
		return fmt.Sprintf("Keep your season as it is: the best change would make you only %s %% faster on average.", season.Tenths(show.Average(c.Best.Total, c).Mid))
	}
	if step := firstStep(c); step != nil {
		easier := ", with only a few easier days"
		if room == narrowest {
			easier = ""
		}
		return fmt.Sprintf("Too many full tapers%s. Begin with %s: make it a B race%s.", whatTapersAre(terse), briefRace(f, step.ToB[0]), easier)
	}
	if n := len(c.Best.ToB); n > mostSteps {
		text := changeText(c, f)
		if room == narrowest {
			text, _, _ = strings.Cut(text, easierDays)
		}
		return fmt.Sprintf("Too many full tapers: %s.", text)
	}
	return "One change is worth it: " + changeText(c, f) + "."
}

// seasonBrief is the first answer, read in ten seconds: what the change or its first step
// brings and costs, or what the tapers do as they are, then one button and one to the numbers.
func seasonBrief(p *say.Page, reply *say.Reply, c *season.Check, all desk.Ledger, today planner.Date, room room, block, rough string) {
	f, terse := all.Now, room > wide
	if step := firstStep(c); step != nil {
		p.Add(say.PlainLines(changeEffect(c, step, f, room)...)...)
		p.Addf("%s", allAtOnce(c, f, terse))
		offerChange(p, reply, "Make it a B race", step, f)
	} else if show.WorthIt(c) {
		p.Add(say.PlainLines(changeEffect(c, c.Best, f, room)...)...)
		offerChange(p, reply, applyLabel(c), c.Best, f)
	} else {
		tapers, most := asPlanned(c, f, terse), roomKept(c, block, rough)
		p.Addf("%s", tapers)
		addWhereRoom(p, insideTapers(c, f, false), most)
		if room < narrowest {
			p.Add(say.PlainLines(closeRaces(c, f, strings.HasSuffix(tapers, trainLess+"."))...)...)
		} else {
			addWhereRoom(p, notRidden(all, today), most)
		}
		addWhereRoom(p, otherRaces(c, all, today), most)
	}
	if block != "" {
		p.Addf("%s.", block)
	}
	if room < narrowest {
		p.Add(say.PlainLines(notRidden(all, today)...)...)
	}
	if crowd := crowded(c); crowd != "" {
		p.Addf("! %s", crowd)
	}
	if show.WorthIt(c) {
		whereRoom(p, c, f)
	}
	p.Addf("%s", lastLine(c, rough))
	reply.Offer(p, "Show the numbers", "season check", map[string]string{optionNumbers: numbersAll})
}

// lastLine says what figures are, and where they come from.
func lastLine(c *season.Check, rough string) string {
	last := rough + " " + sourceTapers
	if show.WorthIt(c) && len(bySize(c.Best.Effects)) > 1 {
		return last
	}
	return show.PerCent + " " + last
}

// crowded warns of many taper days, unless the advice is to have fewer.
func crowded(c *season.Check) string {
	if fewer := show.WorthIt(c) && len(c.Best.ToB) > 0; !c.Crowded || fewer || len(c.Goals) < 2 {
		return ""
	}
	return taperDays(c) + " Fewer A races leave more time to train."
}

// addWhereRoom adds the lines for which an answer of so many characters has room.
func addWhereRoom(p *say.Page, lines []string, most int) {
	for _, line := range lines {
		if roomLeft(p, most) > utf8.RuneCountInString(line) {
			p.Addf("%s", line)
		}
	}
}

// taperDays is how much of a season its tapers take.
func taperDays(c *season.Check) string {
	return fmt.Sprintf("Your tapers take %d of the season's %d days.", c.TaperDays, c.SeasonDays)
}

// applyLabel is what the button of a whole change says.
func applyLabel(c *season.Check) string {
	if firstStep(c) != nil {
		return fmt.Sprintf("Make all %d B races", len(c.Best.ToB))
	}
	return "Apply it"
}

// offerChange adds the button that makes a change, where a command can name all its races.
func offerChange(p *say.Page, reply *say.Reply, label string, change *season.Change, f *planner.Facts) {
	options := func(name naming) map[string]string {
		return applying(change, f, func(r *planner.Race) string { return dayKey(f, r, name(r), len(change.ToB) > mostKeys) })
	}
	if len(options(show.RaceKey)[optionMakeB]) <= maxRacesText {
		offerSeason(p, reply, label, options)
	}
}

// dayKey is the day alone of a race whose name is long, or one of many, where no other race is on it.
func dayKey(f *planner.Facts, race *planner.Race, key string, many bool) string {
	if _, dated := desk.CutDate(key); dated.IsZero() || !many && utf8.RuneCountInString(key) <= mostKey {
		return key
	}
	for i := range f.Races {
		if other := &f.Races[i]; other.Date == race.Date && !other.Is(race) {
			return key
		}
	}
	return race.Date.String()
}

// asPlanned is what the tapers do as they are, with what they cost later races taken off:
// to the A races, and to the others where it can be told.
func asPlanned(c *season.Check, f *planner.Facts, terse bool) string {
	if !slices.ContainsFunc(c.Goals, func(g season.Goal) bool { return g.Days > 0 }) {
		if len(c.Goals) == 1 {
			return "Your A race has no days for a taper, so there is nothing to weigh."
		}
		return "Your A races have no days for a taper, so there is nothing to weigh."
	}
	var touched []raceEffect
	for _, g := range c.Goals {
		touched = append(touched, raceEffect{name: briefRace(f, g.Race), mid: g.Net.Mid})
	}
	with := withTapers(c, terse)
	for _, e := range c.Touched {
		if told(e.Change.Mid) {
			touched = append(touched, raceEffect{name: lettered(f, e.Race), mid: e.Change.Mid})
		}
	}
	text := effectsText(touched, terse)
	if slowed(touched) {
		text += trainLess
	}
	return fmt.Sprintf("What %s: %s.", with, text)
}

const trainLess = ", because you train less in a taper"

// slowed reports that the last ones told of some races lose, which asks for a reason.
func slowed(touched []raceEffect) bool {
	return slices.ContainsFunc(touched, func(e raceEffect) bool { return e.mid < 0 && told(e.mid) }) &&
		!slices.ContainsFunc(touched, func(e raceEffect) bool { return !told(e.mid) })
}

// withTapers is what figures are of, and what they are compared with: tapers that are over
// count no more.
func withTapers(c *season.Check, terse bool) string {
	are := whatTapersAre(terse)
	switch {
	case c.Over && len(c.Goals) > 1:
		return "the tapers you still have" + are + " should bring you, compared with none of them"
	case c.Over:
		return "the taper you still have" + are + " should bring you, compared with none"
	case len(c.Goals) > 1:
		return "your tapers" + are + " should bring you on race day, compared with a season without any taper"
	}
	return "your taper" + are + " should bring you on race day, compared with a season without any taper"
}

// whatTapersAre says it to newcomers where there is room.
func whatTapersAre(terse bool) string {
	if terse {
		return ""
	}
	return " (days of less riding before an A race)"
}

// told reports an effect that rounds to a figure.
func told(mid float64) bool { return season.Tenths(mid) != "0" }

// lettered is a race's name, with its letter where it is no A race.
func lettered(f *planner.Facts, r *planner.Race) string {
	if r.Priority == planner.PriorityA {
		return briefRace(f, r)
	}
	name := briefRace(f, r)
	if dated, ok := strings.CutSuffix(name, " ("+r.Date.Short()+")"); ok {
		return fmt.Sprintf("%s (%s, %s)", dated, r.Priority, r.Date.Short())
	}
	return fmt.Sprintf("%s (%s)", name, r.Priority)
}

// otherRaces names those to come that nothing was said of: they have no taper to weigh.
// Those that are not ridden at all are told by notRidden.
func otherRaces(c *season.Check, all desk.Ledger, today planner.Date) []string {
	f, last, lost := all.Now, c.Goals[len(c.Goals)-1].Race, lostRaces(all, today)
	var names []string
	for i := range f.Races {
		if r := &f.Races[i]; r.Priority != planner.PriorityA && r.Date >= today && r.Date <= last.Date && r.Status.Counts() && !c.Touches(r) &&
			!slices.ContainsFunc(c.Inside, func(i season.Inside) bool { return i.Race.Is(r) && told(i.Cost.Mid) }) &&
			!slices.ContainsFunc(lost, func(l planner.RaceRole) bool { return l.Race.Is(r) }) {
			names = append(names, lettered(f, r))
		}
	}
	switch len(names) {
	case 0:
		return nil
	case 1:
		return []string{names[0] + " has no full taper, so it has no figure here. Leave it as it is."}
	}
	return []string{fewNames(names) + " have no full taper, so they have no figure here. Leave them as they are."}
}

// insideTapers says what races inside a taper cost the race of that taper: its figure leaves that out.
func insideTapers(c *season.Check, f *planner.Facts, ranges bool) (lines []string) {
	for i := range c.Inside {
		in := &c.Inside[i]
		if !told(in.Cost.Mid) {
			continue
		}
		cost := in.Cost
		if !ranges {
			cost.Low, cost.High = cost.Mid, cost.Mid
		}
		lines = append(lines, fmt.Sprintf("Riding %s makes you %s, because it is inside the taper for that race. The figures above do not count that.",
			lettered(f, in.Race), show.Compared(cost, "faster", "slower", "in "+briefRace(f, in.Host))))
	}
	return lines
}

// closeRaces says of A races that are close together what the first one's taper costs the
// second, and why where that is not said yet, and that both may stay A races.
func closeRaces(c *season.Check, f *planner.Facts, reasoned bool) []string {
	clash, before := dearestClash(c)
	switch {
	case clash == nil:
		return nil
	case before >= 0 || !told(before):
		return []string{clashText(clash, f) + ". That is close, but no change would help: keep both as A races."}
	}
	because := trainLess
	first, second := briefRace(f, clash.First), briefRace(f, clash.Second)
	both := first + " and " + second
	if len(first)+len(second) > mostPair/2 {
		both = "it and " + first
	}
	if reasoned || len(first)+len(second) > mostPair {
		because = ""
	}
	return []string{fmt.Sprintf("Tapers for earlier races cost you about %s %% in %s%s. The figures above count that. Keep %s as A races.",
		season.Tenths(-before), second, because, both)}
}

// dearestClash is the pair whose second race loses most by earlier tapers, and how much; of those
// that lose nothing the first one; nil where none was weighed.
func dearestClash(c *season.Check) (dearest *season.Clash, before float64) {
	for i := range c.Clashes {
		clash := &c.Clashes[i]
		if len(clash.Choices) == 0 {
			continue
		}
		cost := 0.0
		if k := slices.IndexFunc(c.Goals, func(g season.Goal) bool { return g.Race.Is(clash.Second) }); k >= 0 && clash.Days > 0 {
			cost = c.Goals[k].Before.Mid
		}
		if dearest == nil || cost < before {
			dearest, before = clash, cost
		}
	}
	return dearest, before
}

// clashText is a pair of A races and how far apart they are.
func clashText(clash *season.Clash, f *planner.Facts) string {
	pair := briefRace(f, clash.First) + " and " + briefRace(f, clash.Second)
	if clash.Days <= 0 {
		return pair + " share days"
	}
	return fmt.Sprintf("%s are %s apart", pair, show.Count(clash.Days, "day"))
}

// notRidden names the first race to come that has lost its days to another one.
func notRidden(all desk.Ledger, today planner.Date) []string {
	for _, lost := range lostRaces(all, today) {
		return []string{fmt.Sprintf("%s is on the same days as %s, so ride only one of them. These sums are for %[2]s.", briefRace(all.Now, lost.Race), briefRace(all.Now, lost.Host))}
	}
	return nil
}

// lostRaces are those to come that have lost their days to another one.
func lostRaces(all desk.Ledger, today planner.Date) []planner.RaceRole {
	return slices.DeleteFunc(slices.Clone(engine.Derive(today, all.All).Races), func(role planner.RaceRole) bool {
		return role.Role != planner.Outranked || role.Race.Last() < today || role.Host == nil
	})
}

// noSeason says in a sentence why there is nothing to weigh, and what to do.
func noSeason(all desk.Ledger, today planner.Date) say.Reply {
	f := all.Now
	reply := say.Reply{Date: today}
	ahead := f.NextRace(today)
	if stop := stopWarning(engine.Derive(today, all.All)); stop != "" {
		reply.Addf("No season to weigh now. %s", stop)
		return reply
	}
	if stop := startWarning(engine.Derive(today, all.All), ahead); stop != "" {
		reply.Date, reply.Race = ahead.Date, ahead.Name
		reply.Addf("! %s", stop)
		reply.Addf("So there is no season to weigh before that.")
		return reply
	}
	switch {
	case ahead == nil:
		reply.Addf("You have no race to come, so there is no season to weigh. Register one: %s", desk.RaceExample(today))
	case !slices.ContainsFunc(f.Races, func(r planner.Race) bool { return r.Priority == planner.PriorityA && r.Last() >= today }):
		reply.Addf("You have no A race to come, so there is no taper to weigh. To make one: /race priority race:%s priority:A", say.Quote(show.RaceKey(ahead)))
	case len(f.Races) > 0 && weekMinutes(f, today) > 0:
		reply.Addf("The season of your next race has no A race, so there is no taper to weigh. Its days: %s", show.RaceLink(f, ahead))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no season to weigh. Share a new one, for example /week share week:%s", say.Quote(desk.ExampleWeek))
	}
	return reply
}

// startWarning is what health says of the start of a race that the plan leaves out, "" for one that it has.
func startWarning(plan *engine.Plan, race *planner.Race) string {
	if race == nil {
		return ""
	}
	if d, ok := plan.Day(race.Date); !ok || d.Phase != planner.Health {
		return ""
	}
	for i, w := range plan.Warnings {
		if w.Code == engine.WarnDoNotStart && w.Race != nil && w.Race.Is(race) {
			return words.Warnings(plan)[i].Text
		}
	}
	return ""
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
