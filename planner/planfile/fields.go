package planfile

// field is a key of an object with a right example of it.
type field struct{ key, example string }

var (
	fileFields = []field{
		{"today", `"today": "2026-05-04"`},
		{"zone", `"zone": "Europe/Lisbon"`},
		{"week", `"week": {"mon": "recovery 40min", "tue": "intervals 1h30 5x3min", "thu": "off"}`},
		{"races", `"races": [{"name": "Hill Loop", "date": "2026-05-23", "priority": "A", "hours": 3.5}]`},
		{"taper", `"taper": {"days": "auto", "cut": 50}`},
		{"blocks", `"blocks": [{"from": "2026-04-20", "to": "2026-05-03", "percent": 20}]`},
		{"away", `"away": [{"from": "2026-05-08", "to": "2026-05-10", "kind": "travel"}]`},
		{"limits", `"limits": [{"date": "2026-05-12", "minutes": 45}]`},
		{"sick", `"sick": [{"from": "2026-05-01", "to": "2026-05-03", "symptoms": ["fever"]}]`},
		{"done", `"done": [{"date": "2026-05-03", "minutes": 90, "rpe": 6}]`},
		{"results", `"results": [{"race": "Hill Loop", "feeling": 7}]`},
	}
	weekFields = []field{
		{"mon", `"mon": "recovery 40min; strength 30min"`},
		{"tue", `"tue": "intervals 1h30 5x3min"`},
		{"wed", `"wed": "endurance 1h45"`},
		{"thu", `"thu": "off"`},
		{"fri", `"fri": "rest"`},
		{"sat", `"sat": "long 3h"`},
		{"sun", `"sun": "race 2h"`},
		{"monday", `"monday": "recovery 40min; strength 30min"`},
		{"tuesday", `"tuesday": "intervals 1h30 5x3min"`},
		{"wednesday", `"wednesday": "endurance 1h45"`},
		{"thursday", `"thursday": "off"`},
		{"friday", `"friday": "rest"`},
		{"saturday", `"saturday": "long 3h"`},
		{"sunday", `"sunday": "race 2h"`},
	}
	raceFields = []field{
		{"name", `"name": "Hill Loop"`},
		{"date", `"date": "2026-05-23"`},
		{"priority", `"priority": "A"`},
		{"hours", `"hours": 3.5`},
		{"kind", `"kind": "road race"`},
		{"days", `"days": 1`},
		{"start", `"start": "10:30"`},
		{"emphasis", `"emphasis": "important"`},
		{"place", `"place": "Market Square"`},
		{"registered", `"registered": "2026-05-01"`},
	}
	taperFields = []field{
		{"days", `"days": "auto" or "days": 10`},
		{"cut", `"cut": 50`},
		{"pattern", `"pattern": "second"`},
		{"shape", `"shape": "exponential"`},
		{"openers", `"openers": "D-1"`},
	}
	blockFields  = []field{{"from", `"from": "2026-04-20"`}, {"to", `"to": "2026-05-03"`}, {"percent", `"percent": 20`}}
	awayFields   = []field{{"from", `"from": "2026-05-08"`}, {"to", `"to": "2026-05-10"`}, {"kind", `"kind": "travel"`}}
	limitFields  = []field{{"date", `"date": "2026-05-12"`}, {"minutes", `"minutes": 45`}}
	sickFields   = []field{{"from", `"from": "2026-05-01"`}, {"to", `"to": "2026-05-03"`}, {"symptoms", `"symptoms": ["fever"]`}}
	doneFields   = []field{{"date", `"date": "2026-05-03"`}, {"minutes", `"minutes": 90`}, {"rpe", `"rpe": 6`}}
	resultFields = []field{{"race", `"race": "Hill Loop"`}, {"feeling", `"feeling": 7`}}
)
