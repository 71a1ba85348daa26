package plans

import (
	"fmt"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/season"
)

// lengthOffer is what the offer of another length for a race is made from.
type lengthOffer struct {
	options *season.Options
	taper   *engine.Taper
	race    *planner.Race
	asB     bool // /season check advises to make it a B race
}

// asB reports a race that the season's best change would make a B race.
func asB(today planner.Date, f *planner.Facts, race *planner.Race) bool {
	c := season.NewCheck(today, f)
	return c != nil && show.WorthIt(c) && slices.ContainsFunc(c.Best.ToB, race.Is)
}

// begun reports a taper that keeps its length: it has begun, or comes out of a block.
func (l *lengthOffer) begun(today planner.Date) bool {
	return l.taper.From <= today || l.taper.Length == planner.LengthBlock
}

// usual is the usual length where the rider's races have settled another one, -1 else.
func (l *lengthOffer) usual() int {
	if l.taper.Length == planner.LengthOwn {
		return l.taper.Own.Usual
	}
	return -1
}

// other is the usual length where the rider's own is planned; else the one that the model would choose if riders take such; else the nearest
// that is shown, of two as near the better one; nil where no other one can be planned.
func (l *lengthOffer) other(today planner.Date) *season.Option {
	o := l.options
	if l.begun(today) {
		return nil
	}
	if k := slices.IndexFunc(o.Lengths, func(n season.Option) bool { return n.Days == l.usual() }); k >= 0 {
		return &o.Lengths[k]
	}
	if best := modelChoice(o); !best.Planned && best.Days <= planner.MostOwnDays {
		return best
	}
	var other *season.Option
	for i := range o.Lengths {
		n := &o.Lengths[i]
		if n.Planned || n.Days > planner.MostOwnDays || !slices.Contains(shownLengths[:], n.Days) {
			continue
		}
		if other == nil || apart(n, o) < apart(other, o) || apart(n, o) == apart(other, o) && n.Ahead.Mid > other.Ahead.Mid {
			other = n
		}
	}
	return other
}

// apart is by how many days a length differs from the planned one.
func apart(l *season.Option, o *season.Options) int { return max(l.Days-o.Days, o.Days-l.Days) }

// keep says that a length which is offered beside the planned one is no advice.
func (l *lengthOffer) keep() string {
	if l.taper.Length == planner.LengthTold {
		return ""
	}
	return fmt.Sprintf("I would keep the %s. ", show.Count(l.options.Days, "day"))
}

func longerOr(longer bool) string {
	if longer {
		return "longer"
	}
	return "shorter"
}

// offer adds a button for another length, which is no advice, one that leaves everything as it is, and one that takes the rider's own length of this race back.
func (l *lengthOffer) offer(p *say.Page, reply *say.Reply, other *season.Option, f *planner.Facts, today planner.Date) {
	if other != nil {
		n := show.Count(other.Days, "day")
		switch {
		case other.Days == l.usual():
			p.Addf("If you would rather have the usual length, take %s.", n)
		case modelChoice(l.options) == other:
			p.Addf("You can take %s all the same.", n)
		default:
			p.Addf("%sIf you would rather have a %s taper, take %s.", l.keep(), longerOr(other.Days > l.options.Days), n)
		}
		show.OfferRace(reply, p, "Take "+n+" instead", "race change", l.race, desk.OptionTaper, fmt.Sprint(other.Days))
		reply.Buttons = append(reply.Buttons, say.Button{Label: "Keep " + show.Count(l.options.Days, "day")})
	}
	if l.race.TaperDays != 0 && !l.begun(today) {
		back := "Back to automatic"
		if n := f.Taper.Days; n != 0 {
			back = "Back to your usual " + show.Count(n, "day")
		}
		show.OfferRace(reply, p, back, "race change", l.race, desk.OptionTaper, desk.AutoTaper)
	}
}
