package plans

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/season"
)

const (
	optionTry = "try"
	tryNo     = "no"

	mostTried = 6 // races in an answer
)

func taperHistory(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	h := season.NewHistory(req.Rider.Today, facts.All)
	if req.Get(optionTry) == tryNo {
		return notTried(h, req.Rider.Today), nil
	}
	return historyReply(h, facts.Now, req.Rider.Today), nil
}

// historyReply is what was learned and how surely, what was tried, and what to try next.
func historyReply(h *season.History, f *planner.Facts, today planner.Date) say.Reply {
	reply := say.Reply{Date: today}
	var p say.Page
	p.Add(say.PlainLines(show.LengthLines(h, true)...)...)
	if len(h.Tried) == 0 {
		p.Addf("After each race, tell me how your legs were, from 1 (empty) to 10 (never better), and whether it went worse than you expected, the same or better: /race result")
	}
	_, unwell := desk.NotTraining(f, today)
	lines, trusted := legsLines(h)
	p.Add(lines...)
	triedRows(&p, h)
	unrated := unratedRace(h)
	if unrated != nil {
		p.Addf("You have not said yet how %s went, compared with what you expected.", show.CutTo(unrated.Name, mostRaceName))
	}
	p.Gap()
	if unwell {
		p.Addf("Nothing to try now: your health comes first.")
	} else if trusted > 0 { // one advice at a time
		trustLegs(&p, &reply, h, trusted)
	} else {
		proposal(&p, &reply, h, f)
	}
	if unrated != nil {
		reply.Buttons = append(reply.Buttons, comparedButtons(unrated)...)
	}
	if h.Proposal != nil && h.Proposal.Tries() && trusted == 0 && !unwell {
		p.Addf("One race shows little: luck on the day changes more than a few days of taper do. Health comes first.")
	}
	reply.Lines = p.Done()
	return reply
}

// triedRows lists the last races, the newest first.
func triedRows(p *say.Page, h *season.History) {
	if len(h.Tried) == 0 {
		return
	}
	p.Gap()
	head := "Your races, their tapers and what you said after them:"
	if slices.ContainsFunc(h.Tried, func(t season.Tried) bool { return t.Days == 0 && !t.Ill }) {
		head = "Your races, their tapers and what you said after them (a race without a taper counts too):"
	}
	p.Headingf("%s", head)
	for i, t := range slices.Backward(h.Tried) {
		if len(h.Tried)-i > mostTried {
			p.Addf("and %d more before", i+1)
			break
		}
		p.Addf("%s", show.TriedLine(&t))
	}
}

// unratedRace is the last race shown that was not compared with what the rider expected, nil for none.
func unratedRace(h *season.History) *planner.Race {
	for i, t := range slices.Backward(h.Tried) {
		if len(h.Tried)-i <= mostTried && !t.Ill && t.Compared == planner.ComparedNot && t.Race.Status != planner.GaveUp {
			return t.Race
		}
	}
	return nil
}

// comparedButtons say how a race went, compared with what the rider expected.
func comparedButtons(race *planner.Race) []say.Button {
	var out []say.Button
	for _, c := range [...]planner.Compared{planner.ComparedWorse, planner.ComparedSame, planner.ComparedBetter} {
		label := show.CutTo(race.Name, mostRaceName) + ": " + show.ComparedWords(c)
		out = append(out, say.Button{Label: label, Command: "race result", Options: show.ByRace(race, "compared", c.String())})
	}
	return out
}

const (
	leastLegs    = 3   // races after which legs are compared by length
	leastAlike   = 2   // races of a length that may be preferred
	leastApart   = 1.5 // points of legs by which it must be ahead
	alike        = 0.5 // points within which lengths are as good
	mostByLength = 4   // lengths that are named
)

// byLength is the average of legs after tapers of one length, 0 days for none.
type byLength struct {
	days, races int
	legs        float64
}

// legsByLength are averages of legs by length of taper, the best first.
func legsByLength(h *season.History) (out []byLength, races int) {
	for _, t := range h.Tried {
		if t.Ill || t.Legs == 0 {
			continue
		}
		k := slices.IndexFunc(out, func(l byLength) bool { return l.days == t.Days })
		if k < 0 {
			k = len(out)
			out = append(out, byLength{days: t.Days})
		}
		l := &out[k]
		l.legs = (l.legs*float64(l.races) + float64(t.Legs)) / float64(l.races+1)
		l.races, races = l.races+1, races+1
	}
	slices.SortStableFunc(out, func(a, b byLength) int { return cmp.Or(cmp.Compare(b.legs, a.legs), a.days-b.days) })
	return out, races
}

// legsLines say which legs came after which length, where there is something to compare.
// trusted is a length that was far better than another one, 0 for none.
func legsLines(h *season.History) (lines []say.Line, trusted int) {
	lengths, races := legsByLength(h)
	if races < leastLegs || len(lengths) < 2 {
		return nil, 0
	}
	if len(lengths) == races { // one race of each length
		if lengths[0].days > 0 && lengths[0].legs > lengths[1].legs {
			return []say.Line{say.Linef("Your best legs so far, %.0f of 10, came after a taper of %s.", lengths[0].legs, show.Count(lengths[0].days, "day"))}, 0
		}
		return nil, 0
	}
	var parts []string
	for _, l := range lengths[:min(mostByLength, len(lengths))] {
		after := "no taper"
		if l.days > 0 {
			after = show.Count(l.days, "day")
		}
		parts = append(parts, fmt.Sprintf("%s of 10 after %s (%s)", strings.TrimSuffix(fmt.Sprintf("%.1f", l.legs), ".0"), after, show.Count(l.races, "race")))
	}
	text := say.AndList(parts)
	if more := len(lengths) - len(parts); more > 0 {
		text += ", and no better after " + show.Count(more, "other length")
	}
	lines = []say.Line{say.Linef("Your legs on average, by length of taper: %s.", text)}
	next := h.Proposal
	if next == nil || next.Own || next.Refused || next.Told || next.Here {
		return lines, 0
	}
	return lines, farBetter(lengths, next.Planned)
}

// farBetter is the length nearest to the planned one after which legs were best, 0 where they were not far better
// than after lengths on the other side of the planned one or at it. Each counts from its second race on.
func farBetter(lengths []byLength, planned int) int {
	lengths = slices.DeleteFunc(slices.Clone(lengths), func(l byLength) bool { return l.races < leastAlike })
	best := 0
	for _, l := range lengths {
		apart := max(l.days-planned, planned-l.days)
		switch {
		case l.legs < lengths[0].legs-alike || l.days < planner.LeastOwnDays || l.days > planner.MostOwnDays:
			continue
		case apart == 0:
			return 0
		case best == 0 || apart < max(best-planned, planned-best):
			best = l.days
		}
	}
	worse := func(l byLength) bool {
		return lengths[0].legs-l.legs >= leastApart && (planned-best)*(l.days-planned) >= 0
	}
	if best == 0 || !slices.ContainsFunc(lengths, worse) {
		return 0
	}
	return best
}

// trustLegs offers a length after which legs were far better than after another one.
func trustLegs(p *say.Page, reply *say.Reply, h *season.History, days int) {
	next := h.Proposal
	reply.Date, reply.Race = next.Race.Date, next.Race.Name
	p.Addf("A training model expects less of a difference between these lengths, so it leaves yours as it is. If you trust your legs more, take %s for %s (%s), instead of the planned %d.",
		show.Count(days, "day"), show.RaceName(next.Race), next.Race.Date.Short(), next.Planned)
	show.OfferRace(reply, p, "Take "+show.Count(days, "day"), "race change", next.Race, desk.OptionTaper, fmt.Sprint(days))
	reply.Buttons = append(reply.Buttons, say.Button{Label: "No, keep " + fmt.Sprint(next.Planned), Command: "taper history", Options: map[string]string{optionTry: tryNo}})
}

// proposal says what to try next, with a button that takes it and one that does not.
func proposal(p *say.Page, reply *say.Reply, h *season.History, f *planner.Facts) {
	next := h.Proposal
	if next == nil {
		if slices.ContainsFunc(f.Races, func(r planner.Race) bool {
			return r.Priority == planner.PriorityA && r.Date > reply.Date && r.Status.Counts()
		}) {
			p.Addf("Nothing to try now: the length of your next taper is settled.")
		} else {
			p.Addf("Nothing to try now: you have no A race ahead. Register one: /race add")
		}
		return
	}
	reply.Date, reply.Race = next.Race.Date, next.Race.Name
	name := fmt.Sprintf("%s (%s)", show.RaceName(next.Race), next.Race.Date.Short())
	switch {
	case next.Here:
		return
	case next.Own:
		reply.Offer(p, "Back to the usual "+show.Count(next.Table, "day"), "me set", map[string]string{desk.OptionTaper: desk.UsualTaper})
		return
	case next.Refused:
		reply.Offer(p, "Let my races decide", "me set", map[string]string{desk.OptionTaper: desk.AutoTaper})
		return
	}
	switch {
	case next.Tries():
	case len(h.Tried) == 0:
		p.Addf("Race with the planned %s for %s first. Later races can be compared with that.", show.Count(next.Planned, "day"), name)
		return
	case badlyAt(h, next.Planned) != nil:
		p.Addf("%s went badly after %s, which may be luck. There is nothing better to try: no other length that fits would teach you more than the planned %d days for %s.",
			show.CutTo(badlyAt(h, next.Planned).Race.Name, mostRaceName), show.Count(next.Planned, "day"), next.Planned, name)
		return
	default:
		p.Addf("There is nothing to try next: no other length that fits would teach you more than the planned %s for %s.", show.Count(next.Planned, "day"), name)
		return
	}
	p.Addf("To find out which length suits you, you could try %s once, before %s, instead of the planned %d. If you would rather not, keep %d.", show.Count(next.Days, "day"), name, next.Planned, next.Planned)
	p.Addf("%s", whyTry(h, next))
	p.Addf("%s", costLine(next, f))
	show.OfferRace(reply, p, "Try "+show.Count(next.Days, "day"), "race change", next.Race, desk.OptionTaper, fmt.Sprint(next.Days))
	reply.Buttons = append(reply.Buttons, say.Button{Label: "No, keep " + fmt.Sprint(next.Planned), Command: "taper history", Options: map[string]string{optionTry: tryNo}})
}

// whyTry says why that length teaches, and how much.
func whyTry(h *season.History, next *season.Proposal) string {
	same, other := 0, 0
	for _, t := range h.Tried {
		switch {
		case t.Days == 0 || t.Ill:
		case t.Days == next.Days:
			same++
		default:
			other++
		}
	}
	days, much := show.Count(next.Days, "day"), howMuch(next.Teaches)
	switch {
	case same > 0:
		which := "Another"
		if same < len(ordinals) {
			which = ordinals[same]
		}
		return fmt.Sprintf("Why: %s%s race after %s would tell you %s.", legsAfter(h, next, same), which, days, much)
	case badlyAt(h, next.Planned) != nil:
		return fmt.Sprintf("Why: %s went badly after %d days, and you have not raced after %s yet. That would tell you %s.", show.CutTo(badlyAt(h, next.Planned).Race.Name, mostRaceName), next.Planned, days, much)
	case other > 0:
		return fmt.Sprintf("Why: you have not raced after %s yet. That would tell you %s.", days, much)
	}
	return fmt.Sprintf("Why: if you always take %d days, you never see whether another length suits you better.", next.Planned)
}

// badlyAt is the last race that went badly after a taper of that length, nil where none did.
func badlyAt(h *season.History, days int) *season.Tried {
	for i := len(h.Tried) - 1; i >= 0; i-- {
		if t := &h.Tried[i]; t.Days == days && t.Badly() {
			return t
		}
	}
	return nil
}

var ordinals = [...]string{1: "A second", 2: "A third", 3: "A fourth"}

// legsAfter is how legs were after that length, which so many races had, and after the
// planned one, as a sentence.
func legsAfter(h *season.History, next *season.Proposal, races int) string {
	var tried, planned []string
	for _, t := range h.Tried {
		switch {
		case t.Ill || t.Legs == 0:
		case t.Days == next.Days:
			tried = append(tried, fmt.Sprint(t.Legs))
		case t.Days == next.Planned:
			planned = append(planned, fmt.Sprint(t.Legs))
		}
	}
	switch few := len(tried) > 0 && len(planned) > 0 && len(tried)+len(planned) <= mostLegs; {
	case !few && races == 1:
		return "one race may be luck. "
	case !few:
		return fmt.Sprintf("even %d races may be luck. ", races)
	}
	return fmt.Sprintf("after %s your legs were %s of 10, after %d days %s. That may be luck. ", show.Count(next.Days, "day"), say.AndList(tried), next.Planned, say.AndList(planned))
}

const mostLegs = 6 // that are named

// howMuch is a share of 0 to 1 in words.
func howMuch(v float64) string {
	switch {
	case v < 0.05:
		return "a little more"
	case v < 0.2:
		return "more"
	}
	return "much more"
}

// costLine is what trying is expected to cost, in the race and after it.
func costLine(p *season.Proposal, f *planner.Facts) string {
	text := fmt.Sprintf("It should cost you nothing: a training model expects you to be as fast in that race with %d days as with %d, or a little faster.", p.Days, p.Planned)
	switch {
	case season.Tenths(p.Costs) == "0":
		text = fmt.Sprintf("It should cost you nothing: a training model expects you to be about as fast in that race with %d days as with %d.", p.Days, p.Planned)
	case p.Costs > 0:
		text = fmt.Sprintf("It is expected to cost you about %.0f seconds in an hour of that race, once. What you learn counts in all races after it.", show.SecondsAnHour*p.Costs)
	}
	if p.Days > p.Planned && slices.ContainsFunc(f.Races, func(r planner.Race) bool {
		return r.Priority == planner.PriorityA && r.Date > p.Race.Last() && r.Status.Counts()
	}) {
		text += " A longer taper leaves a little less training for later races."
	}
	return text
}

// notTried answers the rider who will not try what was proposed.
func notTried(h *season.History, today planner.Date) say.Reply {
	reply := say.Reply{Date: today}
	if h.Proposal == nil {
		reply.Addf("Good: nothing is changed.")
		return reply
	}
	reply.Date, reply.Race = h.Proposal.Race.Date, h.Proposal.Race.Name
	reply.Addf("Good: %s keeps its planned %s. Nothing is changed.", show.RaceName(h.Proposal.Race), show.Count(h.Proposal.Planned, "day"))
	reply.Addf("That race will teach something too: say after it how your legs were.")
	return reply
}
