package main

import (
	"math"
	"math/rand/v2"
	"slices"

	"musette/planner/season"
)

// Problem is a season in raw numbers, all that an independent solver needs.
// Days count from the season's first, 0.
type Problem struct {
	Usual  []float64 `json:"usual"`  // load of each day, in usual days
	Budget int       `json:"budget"` // window days at most
	Races  []Race    `json:"races"`  // by first day
}

// Race is a race and the candidates for it, of which it takes one.
type Race struct {
	First      int         `json:"first"`
	Last       int         `json:"last"`
	Weight     float64     `json:"weight"`
	Candidates []Candidate `json:"candidates"`
}

// Candidate is a window before a race and the days after it. One that takes no
// day has neither: a later window may span its race.
type Candidate struct {
	Takes   bool      `json:"takes"`   // the window, the race and its recovery days belong to it
	Window  []float64 `json:"window"`  // share of the usual load kept on each day, in the order of the days, the last the day before the race
	Recover []float64 `json:"recover"` // likewise from the first day after the race
}

// What random seasons are made of.
const (
	mostRaces           = 20
	leastDays, mostDays = 56, 365

	weightA, weightB, weightC = season.WeightA, season.WeightB, season.WeightC

	leastShareA, mostShareA = 0.15, 0.75 // of a season's races
	shareB                  = 0.6        // of the others
	shareStages             = 0.15       // of the A and B races
	shareWeekend            = 0.8        // of the races
	shareSameDay            = 0.02       // of the races may meet another
	shareSecondWeek         = 0.3        // of the seasons have another usual week in their later part

	mostStages   = 7
	mostRecovery = 7
	mostLead     = 28 // days before the first possible race
	mostApart    = 35 // days between A races at least: from none to so many in a season
	attempts     = 50 // to find a day for a race
)

var (
	lengthsA = append([]int{0}, season.Lengths[:]...)
	lengthsB = []int{0, season.HalfDays}
)

// randomProblem makes a season as a rider could have it; the same seed and
// number give the same one.
func randomProblem(seed, number uint64) Problem {
	rng := rand.New(rand.NewPCG(seed, number))
	days := leastDays + rng.IntN(mostDays-leastDays+1)
	p := Problem{Usual: usualDays(rng, days)}
	p.Races = raceDays(rng, days, 1+rng.IntN(mostRaces))
	p.Usual = p.Usual[:p.Races[len(p.Races)-1].Last+1]
	p.Budget = int(season.WindowShare * float64(len(p.Usual)))
	raced := make([]bool, days+mostRecovery)
	for _, r := range p.Races {
		for d := r.First; d <= r.Last; d++ {
			raced[d] = true
		}
	}
	for i := range p.Races {
		p.Races[i].Candidates = candidates(rng, &p.Races[i], raced)
	}
	return p
}

// usualDays repeats a week, or one and later another.
func usualDays(rng *rand.Rand, days int) []float64 {
	week, change := usualWeek(rng), days
	if rng.Float64() < shareSecondWeek {
		change = rng.IntN(days)
	}
	out := make([]float64, days)
	for d := range out {
		if d == change {
			week = usualWeek(rng)
		}
		out[d] = week[d%7]
	}
	return out
}

// usualWeek is a week of mean 1 with up to three rest days, Monday first, the
// longer rides at its end.
func usualWeek(rng *rand.Rand) (week [7]float64) {
	total := 0.0
	for d := range week {
		if week[d] = 0.3 + rng.Float64(); d >= 5 {
			week[d] *= 2
		}
	}
	for range rng.IntN(4) {
		week[rng.IntN(5)] = 0
	}
	for _, load := range week {
		total += load
	}
	for d := range week {
		week[d] *= 7 / total
	}
	return week
}

// raceDays places races, mostly at weekends and rarely two on a day, by first day.
func raceDays(rng *rand.Rand, days, count int) []Race {
	var races []Race
	start := rng.IntN(mostLead + 1)
	shareA, apart := leastShareA+(mostShareA-leastShareA)*rng.Float64(), rng.IntN(mostApart+1)
	for range count * attempts {
		if len(races) == count {
			break
		}
		r := Race{First: start + rng.IntN(days-start), Weight: weightC}
		if rng.Float64() < shareWeekend {
			r.First = r.First/7*7 + 5 + rng.IntN(2)
		}
		if rng.Float64() < shareA || len(races) == 0 {
			r.Weight = weightA
		} else if rng.Float64() < shareB {
			r.Weight = weightB
		}
		r.Last = r.First
		if r.Weight > weightC && rng.Float64() < shareStages {
			r.Last += 1 + rng.IntN(mostStages-1)
		}
		meets := slices.ContainsFunc(races, func(o Race) bool { return r.First <= o.Last && o.First <= r.Last })
		near := r.Weight == weightA && slices.ContainsFunc(races, func(o Race) bool {
			return o.Weight == weightA && r.First < o.Last+apart && o.First < r.Last+apart
		})
		if r.Last < days && !near && (!meets || rng.Float64() < shareSameDay) {
			races = append(races, r)
		}
	}
	slices.SortStableFunc(races, func(a, b Race) int { return a.First - b.First })
	return races
}

// candidates are the lengths that a race may have from the season's first day
// on. Days raced keep their usual load.
func candidates(rng *rand.Rand, r *Race, raced []bool) []Candidate {
	lengths, recovery := lengthsB, 1
	switch r.Weight {
	case weightC:
		return []Candidate{{Window: []float64{}, Recover: []float64{}}}
	case weightA:
		lengths, recovery = lengthsA, 1+rng.IntN(mostRecovery)
	}
	cut, even, rest := 0.3+0.4*rng.Float64(), rng.IntN(2) == 0, 0.7*rng.Float64()
	var out []Candidate
	for _, n := range lengths {
		if n > r.First {
			continue
		}
		c := Candidate{Takes: n > 0 || r.Weight == weightA, Window: []float64{}, Recover: []float64{}}
		for i := range n {
			share := 1 - cut
			if !even { // ever less, the same in all
				share = math.Exp(-2 * cut * float64(i+1) / float64(n))
			}
			c.Window = append(c.Window, unless(raced[r.First-n+i], share))
		}
		for i := range recovery {
			if c.Takes {
				c.Recover = append(c.Recover, unless(raced[r.Last+1+i], rest))
			}
		}
		out = append(out, c)
	}
	return out
}

// unless is a share, or 1.
func unless(raced bool, share float64) float64 {
	if raced {
		return 1
	}
	return share
}
