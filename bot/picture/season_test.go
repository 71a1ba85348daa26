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

// anySeason is a season of n races in a number of days, with their tapers and recovery.
func anySeason(r *rand.Rand, n, days int) Calendar {
	from := planner.NewDate(2026, 6, 1)
	s := Calendar{Title: "Your season", Today: from, From: from, To: from.AddDays(days - 1)}
	day := from
	for i := range n {
		day = day.AddDays(1 + r.IntN(max(1, 2*days/max(1, n)-1)))
		f := Flag{Name: strings.Repeat("Long ", r.IntN(8)) + fmt.Sprint("Race ", i), Letter: string("ABC"[r.IntN(3)]), From: day, To: day.AddDays(r.IntN(3))}
		s.Flags = append(s.Flags, f)
		if r.IntN(2) == 0 {
			s.Bands = append(s.Bands, Band{Kind: BandKind(r.IntN(3)), From: day.AddDays(-4), To: day - 1})
		}
		day = f.To
	}
	return s
}

// However many races, no flag and no name stands over another one, and all lies on the card.
func TestFlagsHaveRoom(t *testing.T) {
	rounds.Skip(t, "that flags have room")
	r := rand.New(rand.NewPCG(3, 8))
	for _, n := range []int{1, 2, 6, 14, 30, 60} {
		for range 20 {
			s := anySeason(r, n, 7*(1+r.IntN(53)))
			c, err := scratch()
			if err != nil {
				t.Fatal(err)
			}
			d := seasonDrawing{Calendar: &s, width: (seasonRight - seasonLeft) / float64(s.From.DaysUntil(s.To)+1)}
			d.place(c)
			var taken [seasonRows][][2]float64
			for _, p := range d.poles {
				from, to := p.flag, p.flag+flagSide
				switch wide := c.width(p.name, words); {
				case p.bare:
					continue
				case p.before:
					from -= 8 + wide
				case p.name != "":
					to += 8 + wide
				}
				if from < seasonLeft-1 || to > seasonRight+1 {
					t.Errorf("%d races: %s reaches from %.0f to %.0f", n, p.Name, from, to)
				}
				for _, other := range taken[p.row] {
					if from < other[1] && to > other[0] {
						t.Errorf("%d races: %s stands over another one in row %d", n, p.Name, p.row)
					}
				}
				taken[p.row] = append(taken[p.row], [2]float64{from, to})
			}
		}
	}
}

// The bands and races of a season have their colours on their days, and its words name them.
func TestSeasonShowsItsDays(t *testing.T) {
	from := planner.NewDate(2026, 6, 1)
	s := Calendar{Title: "Your season", Today: from.AddDays(2), From: from, To: from.AddDays(34),
		Flags: []Flag{{"Hill Loop", "A", from.AddDays(20), from.AddDays(20)}, {"Second", "B", from.AddDays(30), from.AddDays(31)}},
		Bands: []Band{{BlockBand, from.AddDays(3), from.AddDays(6)}, {TaperBand, from.AddDays(11), from.AddDays(19)}, {RecoveryBand, from.AddDays(21), from.AddDays(23)}}}
	p, err := Season(s)
	if err != nil {
		t.Fatal(err)
	}
	img := decode(t, p)
	lane := float64(img.Bounds().Dy()) - seasonFoot - seasonLane
	middleOf := func(day float64) float64 { return seasonLeft + (day+0.5)*(seasonRight-seasonLeft)/35 }
	for _, tc := range []struct {
		day  float64
		part float64
		want any
	}{{5, 0.25, umber}, {5, 0.75, pale}, {15, 0.25, plain}, {15, 0.75, plain}, {20, 0.5, accent}, {22, 0.25, pale}, {22, 0.75, moss}, {30.5, 0.5, accent}, {9, 0.5, pale}} {
		if got := at(img, middleOf(tc.day), lane+tc.part*seasonLane); got != tc.want {
			t.Errorf("day %v at %v is %v, want %v", tc.day, tc.part, got, tc.want)
		}
	}
	if want := "Your season. The picture shows Monday 1 June 2026 to Sunday 5 July 2026. All days that are not named are usual training. Training block 4 Jun to 7 Jun. Hill Loop (A race) on 21 Jun, taper 12 Jun to 20 Jun, recovery 22 Jun to 24 Jun. Second (B race) on 1 Jul to 2 Jul."; p.Alt != want {
		t.Errorf("alt %q\nwant %q", p.Alt, want)
	}
	again, err := Season(s)
	if err != nil || string(again.PNG) != string(p.PNG) {
		t.Errorf("other bytes the second time: %v", err)
	}
	s.Bands = append(s.Bands, Band{Kind: TaperBand, From: planner.NewDate(2026, 6, 30), To: planner.NewDate(2026, 6, 30)})
	if eased, err := Season(s); err != nil || !strings.Contains(eased.Alt, " Second (B race) on 1 Jul to 2 Jul, an easier day on 30 Jun.") {
		t.Errorf("%v, alt %q", err, eased.Alt)
	}
}

// Words stay short whatever the season holds, and what cannot be drawn is an error.
func TestSeasonsAtTheEdges(t *testing.T) {
	rounds.Skip(t, "pictures of seasons at the edges")
	for _, n := range []int{1, 14, 80} {
		p, err := Season(anySeason(rand.New(rand.NewPCG(uint64(n), 4)), n, 350))
		if err != nil {
			t.Fatal(err)
		}
		if count := utf8.RuneCountInString(p.Alt); count < 60 || count > maxAlt || n == 80 && !strings.Contains(p.Alt, " more races.") {
			t.Errorf("%d races in %d characters: %s", n, count, p.Alt)
		}
		if img := decode(t, p); img.Bounds().Dx() != seasonWidth || img.Bounds().Dy() > 510 {
			t.Errorf("%d races in %v", n, img.Bounds())
		}
	}
	one := anySeason(rand.New(rand.NewPCG(1, 4)), 1, 30)
	for name, change := range map[string]func(*Calendar){
		"no race": func(s *Calendar) { s.Flags = nil }, "no days": func(s *Calendar) { s.To = s.From - 1 }, "too long": func(s *Calendar) { s.To = s.From + 500 },
	} {
		s := one
		change(&s)
		if _, err := Season(s); err == nil {
			t.Errorf("%s is drawn", name)
		}
	}
}

// Of several races whose names cannot be drawn each has its day.
func TestFlagsWithoutAName(t *testing.T) {
	day := planner.NewDate(2027, 5, 30)
	for name, want := range map[string]string{"大会": "30 May", "---": "30 May", "🏁": "30 May", "": "30 May", "大会 Loop": "Loop", "大会 12": "30 May", "24": "24"} {
		if got := flagged(&Flag{Name: name, Letter: "A", From: day, To: day}); got != want {
			t.Errorf("%q is flagged %q, want %q", name, got, want)
		}
	}
}

// A month that begins soon after the first day is named, not the one that ends.
func TestMonthsThatBegin(t *testing.T) {
	c, err := scratch()
	if err != nil {
		t.Fatal(err)
	}
	at := func(d planner.Date) float64 { return float64(planner.NewDate(2026, 10, 26).DaysUntil(d)) * 9 }
	names := func(from planner.Date) (out []string) {
		for _, m := range c.monthNames(from, planner.NewDate(2026, 12, 31), at) {
			out = append(out, m.name)
		}
		return out
	}
	if got := strings.Join(names(planner.NewDate(2026, 10, 26)), " "); got != "Nov Dec" {
		t.Errorf("from late October: %s", got)
	}
	at = func(d planner.Date) float64 { return float64(planner.NewDate(2026, 10, 5).DaysUntil(d)) * 9 }
	if got := strings.Join(names(planner.NewDate(2026, 10, 5)), " "); got != "Oct Nov Dec" {
		t.Errorf("from early October: %s", got)
	}
}
