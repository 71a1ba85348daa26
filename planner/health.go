package planner

import "slices"

// Level is how much an illness or an injury keeps from training.
type Level uint8

// Levels, the least grave first. From LevelDoctor on a doctor has to clear the
// rider; what was entered without a level is read from its symptoms.
const (
	NoLevel Level = iota
	LevelEasy
	LevelRest
	LevelDoctor
	LevelHead
	LevelEmergency
)

// String is the level's word, empty for none.
func (l Level) String() string {
	return [...]string{"", "easy", "rest", "doctor", "head", "emergency"}[l]
}

// Holds reports a level that holds all training back until a doctor clears the rider.
func (l Level) Holds() bool { return l >= LevelDoctor }

// Illness is a stretch of symptoms or of an injury. A zero To means still ill;
// Cleared is the day from which a doctor has allowed training again, zero where
// none has. Level decides where it was told, else the symptoms do.
type Illness struct {
	From, To Date
	Level    Level
	Injury   bool
	Symptoms []string
	Cleared  Date
	Told
}

// On reports a day on which the rider is ill or hurt, or held back until a doctor's word.
func (ill *Illness) On(d Date) bool {
	return ill.From <= d && (d <= ill.To || d < ill.Cleared || ill.To.IsZero() && ill.Cleared.IsZero())
}

// IllOn reports a day on which the rider is ill, hurt or held back, by all that is known.
func (f *Facts) IllOn(d Date) bool {
	return slices.ContainsFunc(f.Ill, func(ill Illness) bool { return ill.On(d) }) ||
		slices.ContainsFunc(f.Holds, func(h Hold) bool { return h.Date <= d && (h.Cleared.IsZero() || d < h.Cleared) })
}

// Hold is a stop that holds all training back from Date on. Cleared is the day
// from which a doctor has allowed training again, in a version told on that day.
// A stop that was none is withdrawn.
type Hold struct {
	Date    Date
	Level   Level
	Cleared Date
	Told
}

// Troubles are the rider's illnesses and injuries, and holds as such.
func (f *Facts) Troubles() []Illness {
	if len(f.Holds) == 0 {
		return f.Ill
	}
	all := append(make([]Illness, 0, len(f.Ill)+len(f.Holds)), f.Ill...)
	for _, h := range f.Holds {
		all = append(all, Illness{From: h.Date, Level: h.Level, Cleared: h.Cleared, Told: h.Told})
	}
	return all
}
