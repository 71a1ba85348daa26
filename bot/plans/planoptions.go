package plans

import (
	"context"
	"fmt"
	"math"
	"slices"

	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// shownLengths are the lengths of an answer, besides the planned one; its picture has all.
var shownLengths = [...]int{0, 4, 7, 10, 14, 21}

func planOptions(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today, until := req.Rider.Today, req.Rider.Today
	var race *planner.Race
	if req.Has("race") {
		found, err := b.RaceToPlan(ctx, req)
		if err != nil {
			return say.Reply{}, err
		}
		race, until = &found.Race, found.Last()
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	plan := engine.DeriveUntil(today, until, facts.All)
	if race == nil {
		race = nextTaper(plan, facts.Now)
	}
	if race == nil {
		return noTaperToCome(plan, facts.Now), nil
	}
	options, ok := season.NewOptions(today, facts.All, race.Name, race.Date)
	if !ok {
		return noOptions(plan, facts.Now, race), nil
	}
	taper := show.TaperOf(plan, show.RoleOf(plan, facts.Now, race))
	reply := say.Reply{Lines: optionLines(options, taper, today), Date: race.Date, Race: race.Name, Buttons: []say.Button{show.PlanButton(race)}}
	b.Attach(ctx, &reply, "taper-options.png", func() (picture.Picture, error) { return picture.TradeOff(tradeOf(options)) })
	return reply, nil
}

// optionLines compare tapers in words: the answer, lengths, cuts, and how far to trust it.
func optionLines(o *season.Options, taper *engine.Taper, today planner.Date) []say.Line {
	var p say.Page
	p.Add(say.PlainLines(optionsHead(o, taper, today)...)...)
	p.Gap()
	p.Add(lengthRows(o, today)...)
	p.Gap()
	p.Add(cutRows(o)...)
	p.Gap()
	if len(o.AfterBlock) > 0 {
		p.Add(blockRows(o)...)
		p.Gap()
	}
	p.Add(say.PlainLines(show.Uncertain, optionSources())...)
	return p.Done()
}

// nextTaper is the next race to come that has a taper, as it was told; nil: none has.
func nextTaper(plan *engine.Plan, f *planner.Facts) *planner.Race {
	var next *planner.Race
	for _, t := range plan.Tapers {
		if t.Race.Date > plan.Today && (next == nil || t.Race.Date < next.Date) {
			next = t.Race
		}
	}
	return show.ToldRace(plan, f, next)
}

// stopWarning is what forbids to plan at all, "" where nothing does.
func stopWarning(plan *engine.Plan) string {
	for i, w := range plan.Warnings {
		if w.Code == engine.WarnHold {
			return words.Warnings(plan)[i].Text
		}
	}
	return ""
}

// noTaperToCome says what to do where no race to come has a taper.
func noTaperToCome(plan *engine.Plan, f *planner.Facts) say.Reply {
	if stop := stopWarning(plan); stop != "" {
		return say.Reply{Lines: []say.Line{say.Linef("No tapers to compare now. %s", stop)}, Date: plan.Today}
	}
	running := -1
	for i := range f.Races {
		switch r := &f.Races[i]; {
		case r.Date <= plan.Today:
			if plan.Today <= r.Last() {
				running = i
			}
		case r.Priority == planner.PriorityA:
			return noOptions(plan, f, r)
		default:
			return say.Reply{Lines: []say.Line{say.Linef("No A race with a taper is to come. To make one: /race priority race:%s priority:A", say.Quote(raceNamed(r)["race"]))}, Date: plan.Today}
		}
	}
	if running >= 0 {
		return noOptions(plan, f, &f.Races[running])
	}
	return say.Reply{Lines: []say.Line{say.Linef("No A race with a taper is to come. Register one: %s", desk.RaceExample(plan.Today))}, Date: plan.Today}
}

// noOptions says in a sentence why a race has no tapers to compare, and what to do.
func noOptions(plan *engine.Plan, f *planner.Facts, race *planner.Race) say.Reply {
	reply := say.Reply{Date: race.Date, Race: race.Name}
	role := show.RoleOf(plan, f, race)
	switch stop := stopWarning(plan); {
	case race.Last() < plan.Today:
		reply.Addf("%s on %s is over: no taper is left to choose. What comes next: /plan show", race.Name, race.Date.Long())
	case stop != "":
		reply.Addf("No tapers to compare now. %s", stop)
	case race.Date < plan.Today:
		reply.Addf("%s is under way: no taper is left to choose. Its days: %s", race.Name, show.RaceLink(f, race))
	case race.Date == plan.Today:
		reply.Addf("%s is today: no taper is left to choose. Its days: %s", race.Name, show.RaceLink(f, race))
	case race.Priority != planner.PriorityA:
		reply.Addf("%s is a %s race and gets no taper to compare. To make it an A race: /race priority race:%s priority:A",
			race.Name, race.Priority, say.Quote(raceNamed(race)["race"]))
	case show.TaperOf(plan, role) == nil:
		reply.Addf("%s has no taper to compare. %s Its days: %s", race.Name, show.Window(plan, role, race), show.RaceLink(f, race))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no taper to compare. Share a new one, for example /week share week:%s", say.Quote(desk.ExampleWeek))
	}
	return reply
}

// optionsHead is the answer, the reason, and what the planned taper does to the next race.
func optionsHead(o *season.Options, taper *engine.Taper, today planner.Date) []string {
	name := fmt.Sprintf("%s (%s, %s)", show.RaceName(o.Race), o.Race.Priority, show.Dated(o.Race.Date, today))
	chosen := plannedOption(o)
	lines := []string{fmt.Sprintf("%s: %s planned. Expected: %s.", name, show.Count(o.Days, "day"), show.Compared(chosen.Gain, "faster", "slower", "than without a taper")),
		words.WhyLength(taper).Text}
	if o.Next == nil {
		lines = append(lines, "You have no later race, so it costs none.")
	} else {
		lines = append(lines, fmt.Sprintf("What it does to %s (%s, %s): %s.", show.RaceName(o.Next), o.Next.Priority, show.Dated(o.Next.Date, today), show.Compared(chosen.Next, "faster", "slower", "")))
	}
	if n := o.Race.Date.AddDays(-o.Days).DaysUntil(today); n > 0 {
		lines = append(lines, fmt.Sprintf("Its first %s over and count as planned. Other lengths differ from today on.", areOver(n)))
	}
	return lines
}

func areOver(days int) string {
	if days == 1 {
		return "day is"
	}
	return fmt.Sprintf("%d days are", days)
}

// plannedOption is the planned one of the lengths.
func plannedOption(o *season.Options) *season.Option {
	for i := range o.Lengths {
		if o.Lengths[i].Planned {
			return &o.Lengths[i]
		}
	}
	return &season.Option{Days: o.Days, Cut: o.Cut}
}

// lengthRows compares lengths, a row each.
func lengthRows(o *season.Options, today planner.Date) []say.Line {
	columns := "Each line: faster (+) or slower (-) than without a taper (80 % range), then fitness kept / fatigue gone"
	if o.Next != nil {
		columns += ", then about what " + show.RaceName(o.Next) + " gains or loses"
	}
	lines := []say.Line{say.Headingf("Lengths, with a cut of %d %%:", o.Cut), say.Linef("%s.", columns)}
	over, noRoom := []string{}, []string{}
	for n := 0; n <= max(o.Days, shownLengths[len(shownLengths)-1]); n++ {
		if n != o.Days && !slices.Contains(shownLengths[:], n) {
			continue
		}
		k := slices.IndexFunc(o.Lengths, func(l season.Option) bool { return l.Days == n })
		switch {
		case k >= 0:
			lines = append(lines, say.Linef("%s", lengthRow(o, &o.Lengths[k])))
		case n > o.Days && o.Race.Date.AddDays(-n) < today:
			over = append(over, fmt.Sprint(n))
		default:
			noRoom = append(noRoom, fmt.Sprint(n))
		}
	}
	if len(over) > 0 {
		lines = append(lines, say.Linef("Left out, since their first days are over: %s days.", say.OrList(over)))
	}
	if len(noRoom) > 0 {
		lines = append(lines, say.Linef("Left out, since it does not fit with what comes before: %s days.", say.OrList(noRoom)))
	}
	return lines
}

func lengthRow(o *season.Options, l *season.Option) string {
	name := "none"
	if l.Days > 0 {
		name = show.Count(l.Days, "day")
	}
	if l.Planned {
		name += ", planned"
	}
	return tradeRow(o, name, show.Figure(l.Gain), l)
}

// tradeRow is the figures of one taper. Nothing is aligned: clients show it in
// letters of any width, and phones fold it.
func tradeRow(o *season.Options, name, gain string, l *season.Option) string {
	row := fmt.Sprintf("%s: %s, %.0f / %.0f %%", name, gain, 100*l.Kept, 100*l.Shed)
	if o.Next != nil {
		row += ", " + show.PlusMinus(l.Next.Mid) + " %"
	}
	return row
}

// against is how a taper differs from the planned one.
func against(l *season.Option) string {
	if l.Planned {
		return "as planned"
	}
	return show.Difference(l.Gain)
}

// blockRows compares lengths once more where an overload block comes before.
func blockRows(o *season.Options) []say.Line {
	lines := []say.Line{say.Headingf("Lengths out of your overload block:"),
		say.Linef("Each line: faster (+) or slower (-) than with the %s planned (80 %% range), by the same model as the cuts.", show.Count(o.Days, "day"))}
	for i := range o.AfterBlock {
		l := &o.AfterBlock[i]
		lines = append(lines, say.Linef("%s: %s", show.Count(l.Days, "day"), against(l)))
	}
	return append(lines, say.Linef("After a block allow 14 days at least: its best taper is longer (Thomas & Busso 2005)."))
}

// cutRows compares cuts, a row each.
func cutRows(o *season.Options) []say.Line {
	lines := []say.Line{say.Headingf("Cuts, over %s:", show.Count(o.Days, "day")),
		say.Linef("Each line: faster (+) or slower (-) than with the planned cut (80 %% range), then fitness kept / fatigue gone. The first is of a second model, made for comparing cuts (Busso 2003). Where your week does not allow the cut, the last figure is the one that fits.")}
	for from := 0; from < len(o.Cuts); {
		to := from + 1
		for to < len(o.Cuts) && sameCut(&o.Cuts[from], &o.Cuts[to]) {
			to++
		}
		lines = append(lines, say.Linef("%s", cutRow(o, o.Cuts[from:to])))
		from = to
	}
	return append(lines, say.Linef("Trials found 41 to 60 %% best (Bosquet et al. 2007)."))
}

// sameCut reports cuts of which the least lengths of rides leave the same.
func sameCut(a, b *season.Option) bool {
	return show.Figure(a.Gain) == show.Figure(b.Gain) && math.Round(a.Removed) == math.Round(b.Removed)
}

// cutRow is one row for cuts that come to the same.
func cutRow(o *season.Options, cuts []season.Option) string {
	shown, last := &cuts[0], &cuts[len(cuts)-1]
	name := fmt.Sprint(shown.Cut)
	if last != shown {
		name += fmt.Sprintf("-%d", last.Cut)
	}
	if i := slices.IndexFunc(cuts, func(c season.Option) bool { return c.Planned }); i >= 0 {
		shown = &cuts[i]
	}
	row := tradeRow(o, name+" %", against(shown), shown)
	if !slices.ContainsFunc(cuts, func(c season.Option) bool { return math.Abs(c.Removed-float64(c.Cut)) <= 2 }) {
		row += fmt.Sprintf(", fits %.0f %%", shown.Removed)
	}
	return row
}

// optionSources names the models and where their figures come from.
func optionSources() string {
	return "Sources: lengths " + show.SourceLengths + ", cuts " + show.SourceCuts + ", size of gains " + show.SourceSize + "."
}

// tradeOf is what the picture shows of the lengths.
func tradeOf(o *season.Options) picture.Trade {
	t := picture.Trade{Race: o.Race.Name, Chosen: o.Days}
	for _, l := range o.Lengths {
		t.Points = append(t.Points, picture.Point{Days: l.Days, Kept: l.Kept, Shed: l.Shed, Low: l.Gain.Low, Mid: l.Gain.Mid, High: l.Gain.High})
	}
	return t
}
