package coach

import (
	"fmt"
	"math"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner/learn"
	"musette/planner/season"
)

// What a club's tapers have taught is shown for groups of riders by their weekly hours.
const (
	leastRiders  = 3 // of a group, each with leastRaces that count
	leastRaces   = 3
	mostTried    = 3    // races of one rider
	surelySpread = 1.28 // SDs that leave 10 % beyond
	leastOff     = 0.05 // of the table's length
)

// hourGroup is riders with less than so many hours a week.
type hourGroup struct {
	below float64
	name  string
}

// hourGroups are the groups, ascending.
var hourGroups = []hourGroup{{8, "riders with under 8 h a week"}, {12, "riders with 8 to 12 h a week"}, {math.Inf(1), "riders with 12 h a week and more"}}

// group is what the tapers of some riders have taught together.
type group struct {
	riders, races int
	mean, square  float64 // of shares of the table's length; sum of variances
}

// taught says for which riders other lengths than the table's suit, where that is clear.
func taught(squad []standing) section {
	groups := make([]group, len(hourGroups))
	for i := range squad {
		s := &squad[i]
		if !desk.Planned(s.Facts.Now) || len(s.Facts.Now.Results) < leastRaces {
			continue
		}
		l := season.Roughly(s.Today, s.Facts.All)
		if l.Races < leastRaces {
			continue
		}
		hours := season.Hours(s.Today, s.Facts.All)
		groups[slices.IndexFunc(hourGroups, func(g hourGroup) bool { return hours < g.below })].add(l)
	}
	out := section{head: "What tapers taught"}
	for i, g := range groups {
		if line := g.line(hourGroups[i].name); line != "" {
			out.add(line)
		}
	}
	return out
}

func (g *group) add(l *learn.Learned) {
	g.riders, g.races = g.riders+1, g.races+l.Races
	g.mean += l.Share.Mean
	g.square += l.Share.SD * l.Share.SD
}

// line is what a group has taught, "" where that is not clear.
func (g *group) line(name string) string {
	if g.riders < leastRiders {
		return ""
	}
	n := float64(g.riders)
	off, spread := g.mean/n-learn.Rough(nil).Share.Mean, surelySpread*math.Sqrt(g.square)/n
	if math.Abs(off) < max(spread, leastOff) {
		return ""
	}
	suits := "longer"
	if off < 0 {
		suits = "shorter"
	}
	return fmt.Sprintf("%s tapers than the usual ones seem to suit your %s, by about %.0f %% of their days (%d riders, %s). The models are rough.",
		say.UpperFirst(suits), name, 100*math.Abs(off), g.riders, show.Count(g.races, "race"))
}

// addTapers is what the rider's tapers have taught.
func (s *standing) addTapers(p *say.Page) {
	if !desk.Planned(s.Facts.Now) || len(s.Facts.Now.Results) == 0 {
		return
	}
	h := season.NewHistory(s.Today, s.Facts.All)
	if len(h.Tried) == 0 {
		return
	}
	p.Gap()
	p.Headingf("Tapers so far")
	for _, line := range show.LengthLines(h, false) {
		p.Addf("  %s", line)
	}
	for i, t := range slices.Backward(h.Tried) {
		if len(h.Tried)-i > mostTried {
			break
		}
		p.Addf("  %s", show.TriedLine(&t))
	}
}
