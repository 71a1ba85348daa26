package bottest

import (
	"testing"
)

// WithRaces is a talk of a rider with a typical week, an A, a B and a C race.
func WithRaces(t *testing.T) *Talk {
	t.Helper()
	k := NewTalk(t)
	k.OK("/week share week:\""+InesWeek+"\"", `/race add name:"Quarry Crit" date:2026-06-07 priority:C hours:1`,
		`/race add name:"Heron Valley" date:2026-06-14 priority:B hours:2`, `/race add name:"Hill Loop" date:2026-07-12 priority:A hours:3.5 start:10:30 taper:14`)
	return k
}
