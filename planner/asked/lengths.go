package asked

import (
	"strconv"
	"strings"

	"musette/planner"
	"musette/planner/asked/plain"
	"musette/planner/typed"
)

var (
	hasUnit  = plain.Compile(`(?:\d|\b)(?:h|hr|hour|hours|min|minute|minutes|m)(?:\b|\d)`)
	lengthOf = plain.Compile(`^(?:\d+(?:[.,:]\d+)?[a-z]*\d*(?:min|m)?|an?|one|two|three|four|five|six|half|hour|hours|hr|min|minute|minutes|h|m|and|quarter|of|quarters)$`)
	rated    = plain.Compile(` rpe (?:of |was |is |about |around )?(\d{1,2}(?:\.5)?) | (\d{1,2}(?:\.5)?)/10 | (\d{1,2}(?:\.5)?)(?: out)? of (?:10|ten) | (\d{1,2}(?:\.5)?) rpe `)
	percents = plain.Compile(` (\d{1,3})(?:%| %| percent| per cent) `)
)

// findLengths finds a length of time, an effort by feel and a share.
func (p *Part) findLengths() {
	plain := " " + strings.Join(strings.Fields(lowText(p.words)), " ") + " "
	if m := rated.FindStringSubmatch(plain); m != nil {
		if v, err := strconv.ParseFloat(m[1]+m[2]+m[3]+m[4], 64); err == nil && v >= 1 && v <= 10 {
			p.RPE = v
		}
	}
	if m := percents.FindStringSubmatch(plain); m != nil {
		p.Percent, _ = strconv.Atoi(m[1])
	}
	for i := range p.words {
		end := i
		for end < len(p.words) && end-i < 6 && p.words[end].slot == "" && lengthOf.MatchString(p.words[end].low) {
			end++
		}
		for ; end > i; end-- {
			text := lowText(p.words[i:end])
			if !hasUnit.MatchString(text) || strings.Contains(text, "x") {
				continue
			}
			minutes, err := typed.Minutes(text)
			if err != nil || minutes <= 0 {
				continue
			}
			if p.Minutes == 0 {
				p.Minutes = minutes
			}
			for j := i; j < end; j++ {
				p.words[j].slot = "LEN"
			}
			break
		}
	}
}

// sessionWords are kinds of sessions as riders name them.
var sessionWords = map[string]planner.Kind{
	"intervals": planner.Intervals, "interval": planner.Intervals, "threshold": planner.Intervals, "sprints": planner.Intervals, "efforts": planner.Intervals, "reps": planner.Intervals, "vo2": planner.Intervals, "hills": planner.Intervals, "hilly": planner.Intervals,
	"group": planner.Group, "club": planner.Group, "bunch": planner.Group, "chaingang": planner.Group, "chaingangs": planner.Group,
	"openers": planner.Openers, "gym": planner.Strength, "weights": planner.Strength, "squats": planner.Strength, "strength": planner.Strength, "lift": planner.Strength,
	"run": planner.Other, "running": planner.Other, "swim": planner.Other, "swimming": planner.Other, "walk": planner.Other, "yoga": planner.Other, "hike": planner.Other, "football": planner.Other, "tennis": planner.Other,
	"long": planner.Long, "easy": planner.Endurance, "endurance": planner.Endurance, "recovery": planner.Recovery, "commute": planner.Commute, "spin": planner.Recovery, "turbo": planner.Indoor, "trainer": planner.Indoor,
}

// findKinds finds the sessions that are named.
func (p *Part) findKinds() {
	for _, w := range p.words {
		if w.slot != "" {
			continue
		}
		switch w.low {
		case "hard", "smash", "smashing", "race", "fast", "intense":
			p.Hard = true
		}
		if kind, ok := sessionWords[w.low]; ok {
			p.Kinds = append(p.Kinds, kind)
		}
	}
}
