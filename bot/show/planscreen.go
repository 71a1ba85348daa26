package show

import (
	"musette/bot/say"
	"musette/planner"
)

// WhyButton says why a day is planned as it is.
func WhyButton(day planner.Date) say.Button {
	return say.Button{Label: "Why " + day.Short() + "?", Command: "plan why", Options: map[string]string{"day": day.String()}}
}
