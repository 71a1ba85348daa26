package bot_test

import (
	"testing"

	"musette/bot/bottest"
)

// An accent typed apart from its letter makes no second race of a name.
func TestNamesThatLookTheSame(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/race add name:\"Caf\u00e9 Cup\" date:\"28 June\" priority:C")
	bottest.Wants(t, k.Refused("/race add name:\"Cafe\u0301 Cup\" date:\"28 June\" priority:A", "name"), "Caf\u00e9 Cup")
	bottest.Wants(t, k.OK("/race remove race:\"Cafe\u0301 Cup\""), "Caf\u00e9 Cup on Sunday 28 June 2026 is out of your calendar.")
}
