package planner

// Cautions are the short safety lines that stand with a day's sessions: on every
// day with something hard, on health days, and where riding meets its usual risks.
// They follow the IOC consensus of 2022 and common practice, and defer to doctors.
func (d *Day) Cautions() []string {
	if d.Phase == Health {
		return []string{"Severe, worse or lasting symptoms: see a doctor. Chest pain, fainting, trouble breathing: emergency number."}
	}
	var out []string
	for _, s := range d.Sessions {
		switch s.Effort {
		case Hard:
			out = add(out, "Hard: not when ill. Chest pain, dizziness, odd breathlessness: stop, see a doctor.")
		case OpenersEffort:
			out = add(out, "Openers: short, never all-out. Ill or sore: ride easy or rest.")
		case RaceEffort:
			out = add(out, "Race: do not start ill. After a head knock stop and be checked. In heat drink to thirst.")
		}
	}
	if len(out) > 0 {
		out = add(out, "Under 18, pregnant, a heart condition: ask a doctor first. Doctors and local rules decide.")
	}
	return out
}

func add(list []string, line string) []string {
	for _, l := range list {
		if l == line {
			return list
		}
	}
	return append(list, line)
}
