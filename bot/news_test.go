package bot_test

import (
	"fmt"
	"strings"
	"testing"

	"musette/bot/bottest"
)

// A race whose name is a word of the warnings hides none of them.
func TestRaceNamesHideNoWarnings(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"doctor" date:2026-06-28 priority:A hours:3`, `/race add name:"days" date:2026-07-12 priority:A`)
	bottest.Wants(t, k.OK("/plan show race:days"), "How long will days take you?", "A races 14 days apart")
}

// What was warned of before is not news.
func TestOldWarningsAreNoNews(t *testing.T) {
	k := bottest.NewTalk(t)
	bottest.Wants(t, k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A`), "How long will Hill Loop take")
	if reply := k.OK("/tell limit day:2026-06-20 minutes:45"); strings.Contains(reply.Text(), "How long will") {
		t.Errorf("told again:\n%s", reply.Text())
	}
}

// The days that a B or C race is said to change are all listed.
func TestChangedDaysAreListed(t *testing.T) {
	for _, hard := range []string{"tue", "mon", "fri", "sat", "thu"} {
		for _, priority := range []string{"B", "C"} {
			for _, hours := range []string{"1", "4"} {
				k := bottest.NewTalk(t)
				k.OK(fmt.Sprintf(`/week share week:"wed endurance 1h45; sun endurance 2h; %s intervals 1h30 5x3min"`, hard),
					fmt.Sprintf(`/race add name:"Creek" date:2026-06-14 priority:%s hours:%s emphasis:important`, priority, hours))
				reply := k.OK("/plan show days:all")
				_, list, _ := strings.Cut(reply.Text(), "Days that change for it: ")
				list, _, _ = strings.Cut(list, ".\n")
				for _, day := range strings.Split(list, ", ") {
					if day != "" && !strings.Contains(reply.Text(), "\n"+day) {
						t.Errorf("%s %s %s: %s is not listed:\n%s", hard, priority, hours, day, reply.Text())
					}
				}
			}
		}
	}
}

func TestSwapsWarn(t *testing.T) {
	k := bottest.NewTalk(t)
	k.OK("/week share week:\""+bottest.InesWeek+"\"", `/race add name:"Hill Loop" date:2026-06-28 priority:A hours:3.5`)
	bottest.Wants(t, k.OK("/plan move from:2026-06-27 to:2026-06-22"), "! The openers for Hill Loop are now 6 days before it.")
	reply := k.OK("/plan move from:2026-06-27 to:2026-06-22")
	bottest.Wants(t, reply, "Swapped back", "Swap again: /plan move from:2026-06-27 to:2026-06-22", "What changes in your plan:")
}
