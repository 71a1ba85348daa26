package plannertest

import (
	"musette/planner"
)

// facts adds what happens to riders. Of those that are told late each has a
// date of telling in a window, and some are taken back.
func (g *generator) facts(late bool) {
	if !late && g.IntN(2) == 0 {
		return
	}
	for n := 1 + g.IntN(4); n > 0; n-- {
		switch g.IntN(8) {
		case 0:
			from := g.near(16)
			g.put("away", g.told(late, object{"from": from.String(), "to": from.AddDays(g.IntN(5)).String(), "kind": pick(g.Rand, "off", "travel")}))
		case 1, 2:
			g.put("limits", g.told(late, object{"date": g.near(14).String(), "minutes": pick(g.Rand, 0, 3, 15, 20, 30, 45, 43, 60, 90)}))
		case 3:
			g.sick(late)
		case 4:
			g.logs(late)
		case 5:
			g.pin(late)
		case 6:
			g.newWeek(late)
		case 7:
			g.newTaper(late)
		}
	}
	if g.IntN(10) == 0 {
		to := g.race.AddDays(-6 - g.IntN(20))
		g.put("blocks", g.told(late && g.IntN(2) == 0, object{"from": to.AddDays(-6 - g.IntN(12)).String(), "to": to.String(), "percent": pick(g.Rand, 8, 15, 20, 30, 40)}))
	}
	if first := g.races[0]; g.IntN(3) == 0 && first["date"].(string) < g.today.String() {
		g.put("results", object{"race": first["name"], "feeling": 1 + g.IntN(10)})
	}
	if g.IntN(12) == 0 {
		g.hold()
	}
	if g.IntN(6) == 0 {
		mid := 40 + g.IntN(160)
		g.put("learned", g.told(late, object{"races": 3 + g.IntN(9), "low": mid - g.IntN(30), "mid": mid, "high": mid + g.IntN(30)}))
	}
}

// hold is a stop that is in force, that was a mistake, or that a doctor has ended.
func (g *generator) hold() {
	date := g.today.AddDays(-g.IntN(12))
	end := date.AddDays(g.IntN(date.DaysUntil(g.today) + 1)).String()
	entry := object{"date": date.String(), "level": pick(g.Rand, "doctor", "head", "emergency")}
	switch g.IntN(4) {
	case 0:
	case 1:
		entry["withdrawn"] = end
	default:
		entry["cleared"] = end
	}
	g.put("holds", entry)
}

// near is a day before one of the races.
func (g *generator) near(days int) planner.Date {
	d, _ := planner.ParseISODate(pick(g.Rand, g.races...)["date"].(string))
	return d.AddDays(-1 - g.IntN(days))
}

func (g *generator) put(key string, entry object) {
	list, _ := g.file[key].([]object)
	g.file[key] = append(list, entry)
}

// told says when a fact was entered, and at times when it was taken back.
func (g *generator) told(late bool, entry object) object {
	if !late {
		return entry
	}
	on := g.today.AddDays(-g.IntN(14))
	entry["told"] = on.String()
	if g.IntN(5) == 0 {
		entry["withdrawn"] = min(g.today, on.AddDays(g.IntN(5))).String()
	}
	return entry
}

func (g *generator) sick(late bool) {
	from := g.today.AddDays(-g.IntN(10))
	entry := object{"from": from.String(), "symptoms": pick(g.Rand, []string{"fever"}, []string{"runny nose"}, []string{"sore throat"},
		[]string{"fever", "body aches"}, []string{"vomiting"}, []string{"odd feeling"}, []string{"runny nose", "cough"})}
	switch g.IntN(8) {
	case 0:
		entry["symptoms"] = []string{pick(g.Rand, stops...)}
		if g.IntN(2) == 0 {
			entry["cleared"] = from.AddDays(g.IntN(from.DaysUntil(g.today) + 1)).String()
		}
	case 1, 2: // still ill
	default:
		entry["to"] = from.AddDays(g.IntN(7)).String()
	}
	if late && g.IntN(2) == 0 {
		g.told(late, entry)
	}
	g.put("sick", entry)
}

// logs adds a few past rides, near to usual or not at all, never a block.
func (g *generator) logs(late bool) {
	for back := g.IntN(2); back <= 5; back++ {
		if g.IntN(2) == 0 {
			continue
		}
		d := g.today.AddDays(-back)
		entry := object{"date": d.String(), "minutes": pick(g.Rand, 0, 40, 60, 75, 120)}
		if g.IntN(2) == 0 {
			entry["rpe"] = 1 + g.IntN(9)
		}
		if late && g.IntN(6) == 0 {
			entry["withdrawn"] = g.today.String()
		}
		g.put("done", entry)
	}
}

// pin sets a session by hand; a day may have one.
func (g *generator) pin(late bool) {
	d := g.near(12).String()
	pins, _ := g.file["pins"].([]object)
	for _, p := range pins {
		if p["date"] == d {
			return
		}
	}
	g.put("pins", g.told(late, object{"date": d, "session": pick(g.Rand, "rest", "recovery 40min", "endurance 1h", "intervals 1h 3x3min")}))
}

// newWeek lets some days of the week change.
func (g *generator) newWeek(late bool) {
	if !late || g.file["week"] != nil {
		return
	}
	on := g.today.AddDays(-g.IntN(10))
	next := object{"told": on.String()}
	for range 1 + g.IntN(3) {
		next[pick(g.Rand, weekdays[:]...)] = pick(g.Rand, "rest", "busy", "endurance 1h", "recovery 40min", "intervals 1h 4x4min", "long 2h30")
	}
	if g.IntN(3) == 0 {
		next["from"] = on.AddDays(g.IntN(10)).String()
	}
	g.file["week"] = []any{g.weeks[0], next}
}

func (g *generator) newTaper(late bool) {
	old, ok := g.file["taper"].(object)
	if !late || !ok {
		return
	}
	next := object{"told": g.today.AddDays(-g.IntN(12)).String()}
	switch g.IntN(4) {
	case 0:
		next["days"] = 5 + g.IntN(12)
	case 1:
		next["cut"] = 30 + g.IntN(30)
	case 2:
		next["pattern"] = pick(g.Rand, "usual", "second", "third")
	default:
		next["openers"] = pick(g.Rand, "D-1", "D-2")
	}
	g.file["taper"] = []any{old, next}
}
