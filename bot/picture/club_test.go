package picture

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"musette/bot/bottest/rounds"
	"musette/planner"
)

var squadFrom = planner.NewDate(2026, 6, 1)

// anySquad is a club of n riders.
func anySquad(r *rand.Rand, n int) Squad {
	s := Squad{Title: "Who tapers when: Marrow Vale Wheelers", From: squadFrom, To: squadFrom + 83}
	names := []string{"Ines", "Bruno", "Cleo", "Wilhelmina Featherstonehaugh-Ostrowska", "🚴🚴", "Łukasz", "李明", "o'neil", "<b>Bo</b>", "Zoë", "n", "Farid", "Hugo", "Gus"}
	for i := range n {
		row := SquadRow{Name: names[i%len(names)]}
		day := squadFrom.AddDays(r.IntN(40))
		for k := range r.IntN(4) {
			f := Flag{Name: fmt.Sprint("Race ", k), Letter: string("ABC"[r.IntN(3)]), From: day, To: day.AddDays(r.IntN(8) / 6)}
			row.Flags = append(row.Flags, f)
			if f.Letter == "A" {
				row.Bands = append(row.Bands, Band{TaperBand, day.AddDays(-9), day - 1}, Band{RecoveryBand, f.To + 1, f.To + 5})
			}
			day = f.To.AddDays(4 + r.IntN(30))
		}
		if i%5 == 1 {
			row.Gaps = []Band{{From: squadFrom + 10, To: squadFrom + 20}}
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// Bands, races and gaps are on their days, each in its rider's row, and the words say so.
func TestSquadShowsItsDays(t *testing.T) {
	s := Squad{Title: "Who tapers when: Wheelers", From: squadFrom, To: squadFrom + 83, Others: 3, Rows: []SquadRow{
		{Name: "Ines", Flags: []Flag{{"Hill Loop", "A", squadFrom + 20, squadFrom + 20}}, Bands: []Band{{TaperBand, squadFrom + 11, squadFrom + 19}, {RecoveryBand, squadFrom + 30, squadFrom + 33}}},
		{Name: "Bruno", Bands: []Band{{BlockBand, squadFrom + 40, squadFrom + 46}}, Gaps: []Band{{From: squadFrom + 2, To: squadFrom + 12}}},
		{Name: "Cleo"}}}
	p, err := DrawSquad(s)
	if err != nil {
		t.Fatal(err)
	}
	img := decode(t, p)
	for _, tc := range []struct {
		row  int
		day  float64
		part float64
		want any
	}{{0, 15, 0.5, plain}, {0, 31, 0.3, pale}, {0, 31, 0.7, moss}, {0, 50, 0.5, pale}, {1, 5, 0.5, card}, {1, 15, 0.5, pale}, {1, 43, 0.3, umber}, {1, 43, 0.7, pale}, {2, 15, 0.5, pale}} {
		x := squadLeft + (tc.day+0.5)*(seasonRight-squadLeft)/84
		if got := at(img, x, squadTop+squadRow*float64(tc.row)+tc.part*squadLane); got != tc.want {
			t.Errorf("row %d, day %v at %v is %v, want %v", tc.row, tc.day, tc.part, got, tc.want)
		}
	}
	if got := at(img, squadLeft+20*(seasonRight-squadLeft)/84+3, squadTop+3); got != accent {
		t.Errorf("the race is %v", got)
	}
	want := "Who tapers when: Wheelers, from Monday 1 June 2026 to Sunday 23 August 2026. Ines: Hill Loop (A) 21 Jun, taper 12 Jun to 20 Jun. " +
		"Bruno: training block 11 Jul to 17 Jul, not training: health 3 Jun to 13 Jun. Cleo: no race. And 3 more riders."
	if p.Alt != want {
		t.Errorf("alt %q\nwant %q", p.Alt, want)
	}
}

// Whatever riders are called and however many there are, the picture is as wide as others and its words stay short.
func TestSquadsOfAllSizes(t *testing.T) {
	rounds.Skip(t, "pictures of clubs of all sizes")
	for _, n := range []int{1, 2, 6, 14, MostSquadRows} {
		p, err := DrawSquad(anySquad(rand.New(rand.NewPCG(uint64(n), 5)), n))
		if err != nil {
			t.Fatal(err)
		}
		if b := decode(t, p).Bounds(); b.Dx() != seasonWidth || b.Dy() > 1200 {
			t.Errorf("%d riders in %v", n, b)
		}
		if count := utf8.RuneCountInString(p.Alt); count > maxAlt || n == MostSquadRows && !strings.Contains(p.Alt, " more riders.") {
			t.Errorf("%d riders in %d characters: %s", n, count, p.Alt)
		}
	}
	for what, s := range map[string]Squad{"nobody": {From: squadFrom, To: squadFrom + 5}, "too many": anySquad(rand.New(rand.NewPCG(1, 1)), MostSquadRows+1), "no days": {From: 5, To: 4, Rows: []SquadRow{{}}}} {
		if _, err := DrawSquad(s); err == nil {
			t.Errorf("%s is drawn", what)
		}
	}
}
