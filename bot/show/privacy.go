package show

import "musette/bot/say"

// HealthKept says what is stored of a rider's health and who sees it: for the first
// answer that stores any, and for the help.
func HealthKept() say.Line {
	return say.Linef("About your health I store the days and what you wrote, or the day alone where I told you to stop. Only you see it. Coaches see: not training, health.")
}

// LeavingErases says what happens to the data of riders who leave, and what they can do before.
func LeavingErases() say.Line {
	return say.Linef("You can take out all that I store about you: /me export. You can erase it: /me erase. If you leave the club's server, I erase it 30 days later.")
}
