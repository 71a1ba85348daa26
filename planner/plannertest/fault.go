package plannertest

import (
	"encoding/json"
	"fmt"
	"maps"
	"strings"
)

// base is a rider with an A race on 13 June and a B race on 4 July. Extra facts are
// added to it, such as "taper":{"cut":50}, or replace what it has: "week":{...}.
func base(extra string) []byte {
	facts, more := map[string]any{}, map[string]any{}
	for text, into := range map[string]*map[string]any{
		`{"today":"2026-05-25","week":{"mon":"busy","tue":"intervals 1h30 5x3min","wed":"endurance 1h30","thu":"recovery 45min; strength 30min",
			"fri":"intervals 1h20 4x8min","sat":"long 3h","sun":"rest"},
			"races":[{"name":"Elm Circuit","date":"2026-06-13","priority":"A","hours":2},{"name":"Ivy Sprint","date":"2026-07-04","priority":"B","hours":1}]}`: &facts,
		"{" + extra + "}": &more,
	} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			panic(err)
		}
	}
	maps.Copy(facts, more)
	data, err := json.Marshal(facts)
	if err != nil {
		panic(err)
	}
	return data
}

// set gives a day one session such as "intervals 60 hard 3x3min", a reason and a caution.
func set(out *outFile, date, session string) {
	d := dayOf(out, date)
	words := strings.Fields(session)
	s := outSession{Kind: words[0], Effort: words[2], RPE: "3", Text: "As it says."}
	if _, err := fmt.Sscan(words[1], &s.Minutes); err != nil {
		panic(err)
	}
	if len(words) > 3 {
		s.Sets = &words[3]
	}
	d.Sessions, d.Cautions = []outSession{s}, []string{"Not when ill."}
	d.Why = []outWhy{{"taper.minutes", "It is so.", "our choice"}}
}

func dayOf(out *outFile, date string) *outDay {
	for i := range out.Days {
		if out.Days[i].Date == date {
			return &out.Days[i]
		}
	}
	panic("no day " + date)
}

// fault is what must not pass: a change to the plan of base with extra facts.
type fault struct {
	extra  string
	change func(*outFile)
}

func sets(date, session string) func(*outFile) {
	return func(out *outFile) { set(out, date, session) }
}
