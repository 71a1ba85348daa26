package planner

import (
	"fmt"
	"math"
)

// audit measures each taper as it came out and warns of every rule that could not be met.
func (c *calendar) audit(today Date) {
	for i := range c.windows {
		w := &c.windows[i]
		if w.race.Last() < today {
			continue
		}
		sum := c.summarise(w)
		c.plan.Tapers = append(c.plan.Tapers, sum)
		c.auditIntensity(w)
		c.auditOpeners(w)
		if w.cut < adviseMinCut || w.cut > adviseMaxCut {
			c.warn(ruleVolume, w.race, fmt.Sprintf("%s: a cut of %d %% is outside 40-60 %%; the evidence supports 41-60 %%.", w.race.Name, w.cut))
		}
		if w.n >= MinTaperDays {
			c.auditVolume(w, sum)
			c.auditFrequency(w, sum)
			c.auditShape(w)
		}
	}
}

func (c *calendar) summarise(w *window) TaperSummary {
	sum := TaperSummary{Race: w.race, Days: w.n, From: w.start(), LengthRule: w.rule, Automatic: w.automatic, Expected: c.expect(w.race, w.n)}
	for d := w.start(); d < w.race.Date; d++ {
		s := c.at(d)
		sum.UsualMinutes += s.usualMinutes()
		sum.PlanMinutes += s.Minutes()
		if s.usuallyRidden() {
			sum.UsualRides++
		}
		if s.Minutes() > 0 {
			sum.PlanRides++
		}
	}
	sum.CutPercent = cutPercent(sum.UsualMinutes, sum.PlanMinutes)
	return sum
}

// cutPercent is the share of usual minutes that is gone, with one decimal.
func cutPercent(usual, planned int) float64 {
	if usual == 0 {
		return 0
	}
	return math.Round(1000*(1-float64(planned)/float64(usual))) / 10
}

func (c *calendar) auditIntensity(w *window) {
	if w.hardDays == 0 {
		c.warn(ruleIntensity, w.race, fmt.Sprintf("%s: your typical week has no hard session, so its taper has none but openers.", w.race.Name))
		return
	}
	if w.broken {
		c.warn(rulePattern, w.race, fmt.Sprintf("%s: days off, limits or other races leave no room for the usual pattern of hard days.", w.race.Name))
	}
	for first := 1; first+blockDays-1 <= w.n; first += blockDays {
		hard := w.usuallyIn((first-1)/blockDays) == 0
		for p := first; p < first+blockDays; p++ {
			hard = hard || w.spots[p].slot.IsHard()
		}
		if !hard {
			c.warn(ruleIntensity, w.race, fmt.Sprintf("%s: the week from %s has no hard day: days off, limits, illness or races leave no day for one.", w.race.Name, w.spots[first+blockDays-1].slot.Date.Short()))
		}
	}
}

func (c *calendar) auditOpeners(w *window) {
	if w.hours == 0 {
		return
	}
	for p := 1; p <= min(2, w.n); p++ {
		if s := &w.spots[p]; s.openers || s.raced() {
			return
		}
	}
	if c.weekdaysOff(w) {
		c.at(w.race.Date).note(noteNoOpeners)
		return
	}
	c.warn(ruleOpeners, w.race, fmt.Sprintf("%s: neither of the two days before it has room for openers.", w.race.Name))
}

func (c *calendar) auditVolume(w *window, sum TaperSummary) {
	target := float64(sum.UsualMinutes) * float64(100-w.cut) / 100
	if math.Abs(float64(sum.PlanMinutes)-target) <= float64(sum.UsualMinutes)*volumeTolerance+1e-9 {
		return
	}
	why := "least lengths of rides, days off, limits, races or what was ridden leave no less"
	if float64(sum.PlanMinutes) < target {
		why = "days off, limits, illness, missed rides or the most that rides may last leave no more"
	}
	what := fmt.Sprintf("removes %.1f %% of usual minutes", sum.CutPercent)
	if sum.CutPercent < 0 {
		what = fmt.Sprintf("has %.1f %% more than the usual minutes", -sum.CutPercent)
	}
	c.warn(ruleVolume, w.race, fmt.Sprintf("%s: the taper %s instead of removing %d %%: %s.", w.race.Name, what, w.cut, why))
}

func (c *calendar) auditFrequency(w *window, sum TaperSummary) {
	if sum.PlanRides >= leastRides(sum.UsualRides) && sum.PlanRides <= sum.UsualRides {
		return
	}
	c.warn(ruleFrequency, w.race, fmt.Sprintf("%s: the taper has %s with a ride, usually %d; 80-100 %% are wanted.", w.race.Name, days(sum.PlanRides), sum.UsualRides))
}

func (c *calendar) auditShape(w *window) {
	if w.n <= oneWeekMax || w.shape == Step {
		return
	}
	parts := w.parts()
	for i := range parts {
		parts[i].minutes = 0
		for p := parts[i].first; p <= parts[i].last; p++ {
			parts[i].minutes += w.spots[p].slot.Minutes()
		}
	}
	if chainBroken(parts) {
		c.warn(ruleShape, w.race, fmt.Sprintf("%s: races, days off, illness or least lengths keep a later week from being shorter than the one before it.", w.race.Name))
	}
}

// weekdaysOff reports whether the days before the race are off in every week anyway.
func (c *calendar) weekdaysOff(w *window) bool {
	for p := 1; p <= min(2, w.n); p++ {
		if d := w.spots[p].slot.Date; !c.facts.weekOn(d)[d.Weekday()].Busy {
			return false
		}
	}
	return true
}
