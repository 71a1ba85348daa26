package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
)

// head is what the tests' file says of itself.
type head struct {
	Made    string   `json:"made"`
	Solvers []string `json:"solvers"`
}

// line is a season in that file, with the gains that the script worked out.
type line struct {
	Budget int     `json:"budget"`
	Stops  []stop  `json:"stops"`
	Highs  float64 `json:"highs"`
	Glpsol float64 `json:"glpsol"`
}

type stop struct {
	First   int          `json:"first"`
	Last    int          `json:"last"`
	Options [][3]float64 `json:"options"` // days, after, gain
}

// writeSeasons writes one season a line, so that changes can be read.
func writeSeasons(name string, seed uint64, cases []solved, a answers) error {
	about, err := json.Marshal(head{
		Made:    fmt.Sprintf("go run ./cmd/season-proof --seasons %d --seed %d --write %s", len(cases), seed, name),
		Solvers: []string{a.Highs, a.Glpsol},
	})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "{\"about\":%s,\n\"seasons\":[\n", about)
	for i := range cases {
		raw, err := json.Marshal(cases[i].line(&a.Answers[i]))
		if err != nil {
			return err
		}
		b.Write(raw)
		if i < len(cases)-1 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString("]}\n")
	return os.WriteFile(name, b.Bytes(), 0o644)
}

func (s *solved) line(a *answer) line {
	l := line{Budget: s.season.Budget, Highs: a.Highs.Value, Glpsol: a.Glpsol.Value}
	for i := range s.season.Stops {
		from := &s.season.Stops[i]
		to := stop{First: from.First, Last: from.Last}
		for k, o := range from.Options {
			to.Options = append(to.Options, [3]float64{float64(o.Days), float64(o.After), a.Gains[i][k]})
		}
		l.Stops = append(l.Stops, to)
	}
	return l
}
