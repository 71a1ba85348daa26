package show

import (
	"strings"

	"musette/bot/say"
	"musette/planner/engine"
	"musette/planner/words"
	"musette/storage"
)

// NotTraining is all that coaches read of a rider's health.
const NotTraining = "not training: health"

// OfHealth reports the id of a rule of health.
func OfHealth(rule string) bool { return strings.HasPrefix(rule, "health.") }

// WithoutHealth is a day without the reasons that health gives it, and so without
// their cautions.
func WithoutHealth(d *engine.Day) engine.Day {
	out := *d
	out.Causes = nil
	for i, r := range words.Why(d) {
		if !OfHealth(r.Rule) {
			out.Causes = append(out.Causes, d.Causes[i])
		}
	}
	return out
}

// HealthKept says what is stored of a rider's health and who sees it: for the first
// answer that stores any, and for the help.
func HealthKept() say.Line {
	return say.Linef("About your health I store the days and what you wrote, or the day alone where I told you to stop. Only you see it. Coaches see: not training, health.")
}

// LeavingErases says what happens to the data of riders who leave, and what they can do before.
func LeavingErases() say.Line {
	return say.Linef("You can get a copy of all that I store about you: /me export. You can erase it: /me erase. If you leave the club's server, I erase it %d days later.", storage.KeepLeft)
}
