package planner

// Cautions are the short safety lines that stand with a day's sessions: on every
// day with something hard, on health days, and where riding meets its usual risks.
// They follow the IOC consensus of 2022 and common practice, and defer to doctors.
func (d *Day) Cautions() []string {
	if d.Phase == Health {
		return []string{"Musette never diagnoses: if symptoms are severe, get worse or last, see a doctor. Chest pain, fainting or trouble breathing: call the emergency number."}
	}
	var out []string
	for _, s := range d.Sessions {
		switch s.Effort {
		case Hard:
			out = add(out, "Hard: not with fever, cough or aches. Stop at chest pain, dizziness or unusual breathlessness and see a doctor.")
		case OpenersEffort:
			out = add(out, "Openers: short, never all-out; leave the efforts out if you feel ill or the legs hurt.")
		case RaceEffort:
			out = add(out, "Do not start ill or feverish. After a knock on the head stop and be assessed; in heat drink to thirst and stop if confused or chilled. Local rules and doctors decide.")
		}
	}
	if len(out) > 0 {
		out = add(out, "Under 18, pregnant, a heart condition, or told not to train hard? Clear it with your doctor first.")
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
