package asked_test

import (
	"flag"
	"fmt"
	"testing"

	"musette/planner/asked"
)

var scratch = flag.String("scratch", "", "files")
var scratchWhat = flag.String("what", "day", "")

func TestScratch(t *testing.T) {
	if *scratch == "" {
		t.Skip()
	}
	show := func(l line, n tally) {
		bad := false
		switch *scratchWhat {
		case "day":
			bad = n.dates > n.dateRight || n.falseDay > 0
		case "race":
			bad = n.races > n.raceRight
		case "topic":
			bad = n.right == 0
		case "stop":
			bad = n.stops > n.stopFound
		case "two":
			bad = len(l.topics) > 1 && n.right == 0
		}
		if !bad {
			return
		}
		fmt.Printf("%s [%s] %v want %s race %s\n    %s\n", l.hand, l.known.Today, l.topics, l.date, l.race, l.text)
		for _, p := range asked.Read(l.text, l.known).Parts {
			race := ""
			if p.Race != nil {
				race = p.Race.Name
			}
			from, to, ok := p.Stretch()
			fmt.Printf("        -> %s offers %v %v..%v %v race %q new %q (%q)\n", p.Topic, p.Offers, from, to, ok, race, p.NewRace, p.Text)
		}
	}
	c := countAll(hands(t, *scratch), show)
	fmt.Println(c.table()[:600])
}
