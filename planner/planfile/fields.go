package planfile

// field is a key of an object with a right example of it.
type field struct{ key, example string }

var (
	fileFields = []field{
		{"today", `"today": "2026-05-04"`},
		{"zone", `"zone": "Europe/Lisbon"`},
		{"week", `"week": {"mon": "recovery 40min", "tue": "intervals 1h30 5x3min", "thu": "rest"}`},
		{"races", `"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A", "hours": 3.5}]`},
		{"taper", `"taper": {"days": "auto", "cut": 50}`},
		{"blocks", `"blocks": [{"from": "2026-04-20", "to": "2026-05-03", "percent": 20}]`},
		{"away", `"away": [{"from": "2026-05-08", "to": "2026-05-10", "kind": "travel"}]`},
		{"limits", `"limits": [{"date": "2026-05-12", "minutes": 45}]`},
		{"sick", `"sick": [{"from": "2026-05-01", "to": "2026-05-03", "symptoms": ["fever"]}]`},
		{"holds", `"holds": [{"date": "2026-05-01", "level": "head", "cleared": "2026-05-04"}]`},
		{"done", `"done": [{"date": "2026-05-03", "minutes": 90, "rpe": 6}]`},
		{"pins", `"pins": [{"date": "2026-05-12", "session": "intervals 1h 3x3min"}]`},
		{"results", `"results": [{"race": "Hill Loop", "feeling": 7}]`},
		{"learned", `"learned": [{"told": "2026-05-01", "races": 6, "low": 110, "mid": 125, "high": 140}]`},
	}
	weekFields = []field{
		{"mon", `"mon": "recovery 40min; strength 30min"`},
		{"tue", `"tue": "intervals 1h30 5x3min"`},
		{"wed", `"wed": "endurance 1h45"`},
		{"thu", `"thu": "busy"`},
		{"fri", `"fri": "rest"`},
		{"sat", `"sat": "long 3h"`},
		{"sun", `"sun": "race 2h"`},
		{"monday", `"monday": "recovery 40min; strength 30min"`},
		{"tuesday", `"tuesday": "intervals 1h30 5x3min"`},
		{"wednesday", `"wednesday": "endurance 1h45"`},
		{"thursday", `"thursday": "busy"`},
		{"friday", `"friday": "rest"`},
		{"saturday", `"saturday": "long 3h"`},
		{"sunday", `"sunday": "race 2h"`},
		{"second", `"second": {"mon": "rest", "tue": "endurance 1h"}`},
		{"from", `"from": "2026-05-11"`},
		toldField,
	}
	raceFields = []field{
		{"id", `"id": 1`},
		{"name", `"name": "Hill Loop"`},
		{"date", `"date": "2026-05-23"`},
		{"priority", `"priority": "A"`},
		{"hours", `"hours": 3.5`},
		{"kind", `"kind": "road race"`},
		{"days", `"days": 1`},
		{"start", `"start": "10:30"`},
		{"emphasis", `"emphasis": "important"`},
		{"place", `"place": "Market Square"`},
		{"taper", `"taper": 10`},
		{"status", `"status": "gave-up"`},
		{"ended", `"ended": "2026-05-23"`},
		{"registered", `"registered": "2026-05-01"`},
		withdrawnField,
	}
	secondFields = weekFields[:14]
	taperFields  = []field{
		{"days", `"days": "auto" or "days": "usual" or "days": 10`},
		{"cut", `"cut": 50`},
		{"pattern", `"pattern": "second"`},
		{"openers", `"openers": "D-1"`},
		toldField,
	}
	blockFields  = []field{{"from", `"from": "2026-04-20"`}, {"to", `"to": "2026-05-03"`}, {"percent", `"percent": 20`}, toldField, withdrawnField}
	awayFields   = []field{{"from", `"from": "2026-05-08"`}, {"to", `"to": "2026-05-10"`}, {"kind", `"kind": "travel"`}, toldField, withdrawnField}
	limitFields  = []field{{"date", `"date": "2026-05-12"`}, {"minutes", `"minutes": 45`}, toldField, withdrawnField}
	sickFields   = []field{{"from", `"from": "2026-05-01"`}, {"to", `"to": "2026-05-03"`}, {"symptoms", `"symptoms": ["fever"]`}, {"cleared", `"cleared": "2026-05-04"`}, toldField, withdrawnField}
	holdFields   = []field{{"date", `"date": "2026-05-01"`}, {"level", `"level": "head"`}, {"cleared", `"cleared": "2026-05-04"`}, withdrawnField}
	doneFields   = []field{{"date", `"date": "2026-05-03"`}, {"minutes", `"minutes": 90`}, {"rpe", `"rpe": 6`}, {"told", `"told": "2026-05-03"`}, {"withdrawn", `"withdrawn": "2026-05-04"`}}
	pinFields    = []field{{"date", `"date": "2026-05-12"`}, {"session", `"session": "intervals 1h 3x3min"`}, toldField, withdrawnField}
	taughtFields = []field{{"races", `"races": 6`}, {"low", `"low": 110`}, {"mid", `"mid": 125`}, {"high", `"high": 140`}, toldField, withdrawnField}
	resultFields = []field{{"race", `"race": "Hill Loop"`}, {"feeling", `"feeling": 7`}}
)

// When something was entered and when it was taken back or changed.
var (
	toldField      = field{"told", `"told": "2026-05-01"`}
	withdrawnField = field{"withdrawn", `"withdrawn": "2026-05-03"`}
)

// goneKeys are keys that a file of before may have, and why they are refused.
var goneKeys = map[string]string{
	"taper.shape": "is no setting any more, because the rules decide how minutes fall. Leave it out",
}
