package plans

import (
	"context"
	"fmt"
	"slices"

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
		p.Addf("After each race, tell how your legs were from 1 to 10, and if it went better or worse than you expected: /race result race:%s feeling:8 compared:better", say.Quote(exampleRace(f, today)))
	}
	triedRows(&p, h)
	p.Gap()
	proposal(&p, &reply, h)
	p.Addf("Luck on the day changes more than a few days of taper do. Health comes first.")
	reply.Lines = p.Done()
	return reply
}

// exampleRace is the last race that is over, or a made-up one.
func exampleRace(f *planner.Facts, today planner.Date) string {
	var last *planner.Race
	for i := range f.Races {
		if r := &f.Races[i]; r.Last() < today && (last == nil || r.Date > last.Date) {
			last = r
		}
	}
	if last == nil {
		return "Hill Loop"
	}
	return show.RaceKey(last)
}

// triedRows lists the last races, the newest first.
func triedRows(p *say.Page, h *season.History) {
	if len(h.Tried) == 0 {
		return
	}
	p.Gap()
	head := "Your races and their tapers:"
	if slices.ContainsFunc(h.Tried, func(t season.Tried) bool { return t.Days == 0 && !t.Ill }) {
		head = "Your races and their tapers (a race without a taper counts too):"
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

// proposal says what to try next, with a button that takes it and one that does not.
func proposal(p *say.Page, reply *say.Reply, h *season.History) {
	next := h.Proposal
	if next == nil {
		p.Addf("Nothing to try now: no A race is to come whose length could still be chosen.")
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
	if next.Days == next.Planned {
		p.Addf("Next: keep the planned %s for %s. No other length is worth a try now.", show.Count(next.Planned, "day"), name)
		return
	}
	p.Addf("You could try %s instead of %d for %s, to learn which length suits you.", show.Count(next.Days, "day"), next.Planned, name)
	p.Addf("%s %s", whyTry(h, next), costLine(next))
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
	much := howMuch(next.Teaches)
	switch {
	case same == 1:
		return fmt.Sprintf("You have tried it once, and one race may be luck. Another would teach you %s.", much)
	case same > 1:
		return fmt.Sprintf("You have tried it before %d races, and so few may be luck. Another would teach you %s.", same, much)
	case other > 0:
		return fmt.Sprintf("You have not tried it yet, and lengths that differ teach most. That race would teach you %s.", much)
	}
	return fmt.Sprintf("Lengths that differ from each other teach most. That race would teach you %s.", much)
}

// howMuch is a share of 0 to 1 in words.
func howMuch(v float64) string {
	switch {
	case v < 0.05:
		return "a little"
	case v < 0.2:
		return "something"
	}
	return "much"
}

// costLine is what trying is expected to cost.
func costLine(p *season.Proposal) string {
	switch {
	case season.Tenths(p.Costs) == "0":
		return fmt.Sprintf("For riders like you %d days are about as fast as %d.", p.Days, p.Planned)
	case p.Costs > 0:
		return fmt.Sprintf("It would probably cost you about %.0f seconds in a race of an hour.", 36*p.Costs)
	}
	return fmt.Sprintf("For riders like you %d days are not slower than %d.", p.Days, p.Planned)
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
