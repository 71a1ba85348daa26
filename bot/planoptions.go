package bot

import (
	"context"
	"fmt"
	"math"
	"slices"

	"musette/bot/picture"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
	"musette/planner/words"
)

// shownLengths are the lengths of an answer, besides the planned one; its picture has all.
var shownLengths = [...]int{0, 4, 7, 10, 14, 21}

func (b *Base) planOptions(ctx context.Context, req Request) (Reply, error) {
	facts, err := b.facts(ctx, req.rider)
	if err != nil {
		return Reply{}, err
	}
	today, until := req.rider.today, req.rider.today
	var race *planner.Race
	if req.has("race") {
		found, err := b.raceOf(ctx, req)
		if err != nil {
			return Reply{}, err
		}
		race, until = &found.Race, found.Last()
	}
	if !planned(facts.now) {
		return req.needWeek(), nil
	}
	plan := engine.DeriveUntil(today, until, facts.all)
	if race == nil {
		race = nextTaper(plan, facts.now)
	}
	if race == nil {
		return noTaperToCome(plan, facts.now), nil
	}
	options, ok := season.NewOptions(today, facts.all, race.Name, race.Date)
	if !ok {
		return noOptions(plan, facts.now, race), nil
	}
	taper := taperOf(plan, roleOf(plan, facts.now, race))
	reply := Reply{Lines: optionLines(options, taper, today), Date: race.Date, Race: race.Name, Buttons: []Button{planButton(race)}}
	b.attach(ctx, &reply, "taper-options.png", func() (picture.Picture, error) { return picture.TradeOff(tradeOf(options)) })
	return reply, nil
}

// optionLines compare tapers in words: the answer, lengths, cuts, and how far to trust it.
func optionLines(o *season.Options, taper *engine.Taper, today planner.Date) []Line {
	var p page
	p.add(plainLines(optionsHead(o, taper, today)...)...)
	p.gap()
	p.add(lengthRows(o, today)...)
	p.gap()
	p.add(cutRows(o)...)
	p.gap()
	if len(o.AfterBlock) > 0 {
		p.add(blockRows(o)...)
		p.gap()
	}
	p.add(plainLines(uncertain, optionSources())...)
	return p.done()
}

// nextTaper is the next race to come that has a taper, as it was told; nil: none has.
func nextTaper(plan *engine.Plan, f *planner.Facts) *planner.Race {
	var next *planner.Race
	for _, t := range plan.Tapers {
		if t.Race.Date > plan.Today && (next == nil || t.Race.Date < next.Date) {
			next = t.Race
		}
	}
	return toldRace(plan, f, next)
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
func noTaperToCome(plan *engine.Plan, f *planner.Facts) Reply {
	if stop := stopWarning(plan); stop != "" {
		return Reply{Lines: []Line{Say("No tapers to compare now. %s", stop)}, Date: plan.Today}
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
			return Reply{Lines: []Line{Say("No A race with a taper is to come. To make one: /race priority race:%s priority:A", Quote(raceNamed(r)["race"]))}, Date: plan.Today}
		}
	}
	if running >= 0 {
		return noOptions(plan, f, &f.Races[running])
	}
	return Reply{Lines: []Line{Say("No A race with a taper is to come. Register one: %s", raceExample(plan.Today))}, Date: plan.Today}
}

// noOptions says in a sentence why a race has no tapers to compare, and what to do.
func noOptions(plan *engine.Plan, f *planner.Facts, race *planner.Race) Reply {
	reply := Reply{Date: race.Date, Race: race.Name}
	role := roleOf(plan, f, race)
	switch stop := stopWarning(plan); {
	case race.Last() < plan.Today:
		reply.Addf("%s on %s is over: no taper is left to choose. What comes next: /plan show", race.Name, race.Date.Long())
	case stop != "":
		reply.Addf("No tapers to compare now. %s", stop)
	case race.Date < plan.Today:
		reply.Addf("%s is under way: no taper is left to choose. Its days: %s", race.Name, showRace(f, race))
	case race.Date == plan.Today:
		reply.Addf("%s is today: no taper is left to choose. Its days: %s", race.Name, showRace(f, race))
	case race.Priority != planner.PriorityA:
		reply.Addf("%s is a %s race and gets no taper to compare. To make it an A race: /race priority race:%s priority:A",
			race.Name, race.Priority, Quote(raceNamed(race)["race"]))
	case taperOf(plan, role) == nil:
		reply.Addf("%s has no taper to compare. %s Its days: %s", race.Name, window(plan, role, race), showRace(f, race))
	default:
		reply.Addf("Nothing is ridden in your usual week, so there is no taper to compare. Share a new one, for example /week share week:%s", Quote(exampleWeek))
	}
	return reply
}

// optionsHead is the answer, the reason, and what the planned taper does to the next race.
func optionsHead(o *season.Options, taper *engine.Taper, today planner.Date) []string {
	name := fmt.Sprintf("%s (%s, %s)", raceName(o.Race), o.Race.Priority, dated(o.Race.Date, today))
	chosen := plannedOption(o)
	lines := []string{fmt.Sprintf("%s: %s planned. Expected: %s.", name, count(o.Days, "day"), compared(chosen.Gain, "better", "worse", "than without a taper")),
		words.WhyLength(taper).Text}
	if o.Next == nil {
		lines = append(lines, "You have no later race, so it costs none.")
	} else {
		lines = append(lines, fmt.Sprintf("What it does to %s (%s, %s): %s.", raceName(o.Next), o.Next.Priority, dated(o.Next.Date, today), compared(chosen.Next, "better", "worse", "")))
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
func lengthRows(o *season.Options, today planner.Date) []Line {
	columns := "Each line: faster (+) or slower (-) than without a taper (80 % range), then fitness kept / fatigue gone"
	if o.Next != nil {
		columns += ", then about what " + raceName(o.Next) + " gains or loses"
	}
	lines := []Line{headingOf("Lengths, with a cut of %d %%:", o.Cut), Say("%s.", columns)}
	over, noRoom := []string{}, []string{}
	for n := 0; n <= max(o.Days, shownLengths[len(shownLengths)-1]); n++ {
		if n != o.Days && !slices.Contains(shownLengths[:], n) {
			continue
		}
		k := slices.IndexFunc(o.Lengths, func(l season.Option) bool { return l.Days == n })
		switch {
		case k >= 0:
			lines = append(lines, Say("%s", lengthRow(o, &o.Lengths[k])))
		case n > o.Days && o.Race.Date.AddDays(-n) < today:
			over = append(over, fmt.Sprint(n))
		default:
			noRoom = append(noRoom, fmt.Sprint(n))
		}
	}
	if len(over) > 0 {
		lines = append(lines, Say("Left out, since their first days are over: %s days.", orList(over)))
	}
	if len(noRoom) > 0 {
		lines = append(lines, Say("Left out, since it does not fit with what comes before: %s days.", orList(noRoom)))
	}
	return lines
}

func lengthRow(o *season.Options, l *season.Option) string {
	name := "none"
	if l.Days > 0 {
		name = count(l.Days, "day")
	}
	if l.Planned {
		name += ", planned"
	}
	return tradeRow(o, name, figure(l.Gain), l)
}

// tradeRow is the figures of one taper. Nothing is aligned: clients show it in
// letters of any width, and phones fold it.
func tradeRow(o *season.Options, name, gain string, l *season.Option) string {
	row := fmt.Sprintf("%s: %s, %.0f / %.0f %%", name, gain, 100*l.Kept, 100*l.Shed)
	if o.Next != nil {
		row += ", " + plusMinus(l.Next.Mid) + " %"
	}
	return row
}

// against is how a taper differs from the planned one.
func against(l *season.Option) string {
	if l.Planned {
		return "as planned"
	}
	return difference(l.Gain)
}

// blockRows compares lengths once more where an overload block comes before.
func blockRows(o *season.Options) []Line {
	lines := []Line{headingOf("Lengths out of your overload block:"),
		Say("Each line: faster (+) or slower (-) than with the %s planned (80 %% range), by the same model as the cuts.", count(o.Days, "day"))}
	for i := range o.AfterBlock {
		l := &o.AfterBlock[i]
		lines = append(lines, Say("%s: %s", count(l.Days, "day"), against(l)))
	}
	return append(lines, Say("After a block allow 14 days at least: its best taper is longer (Thomas & Busso 2005)."))
}

// cutRows compares cuts, a row each.
func cutRows(o *season.Options) []Line {
	lines := []Line{headingOf("Cuts, over %s:", count(o.Days, "day")),
		Say("Each line: faster (+) or slower (-) than with the planned cut (80 %% range), then fitness kept / fatigue gone. The first is of a second model, made for comparing cuts (Busso 2003). Where your week does not allow the cut, the last figure is the one that fits.")}
	for from := 0; from < len(o.Cuts); {
		to := from + 1
		for to < len(o.Cuts) && sameCut(&o.Cuts[from], &o.Cuts[to]) {
			to++
		}
		lines = append(lines, Say("%s", cutRow(o, o.Cuts[from:to])))
		from = to
	}
	return append(lines, Say("Trials found 41 to 60 %% best (Bosquet et al. 2007)."))
}

// sameCut reports cuts of which the least lengths of rides leave the same.
func sameCut(a, b *season.Option) bool {
	return figure(a.Gain) == figure(b.Gain) && math.Round(a.Removed) == math.Round(b.Removed)
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
	return "Sources: lengths " + sourceLengths + ", cuts " + sourceCuts + ", size of gains " + sourceSize + "."
}

// tradeOf is what the picture shows of the lengths.
func tradeOf(o *season.Options) picture.Trade {
	t := picture.Trade{Race: o.Race.Name, Chosen: o.Days}
	for _, l := range o.Lengths {
		t.Points = append(t.Points, picture.Point{Days: l.Days, Kept: l.Kept, Shed: l.Shed, Low: l.Gain.Low, Mid: l.Gain.Mid, High: l.Gain.High})
	}
	return t
}
