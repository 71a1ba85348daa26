package season

import (
	"math/rand/v2"
	"slices"
	"testing"

	"musette/planner/engine"
)

// A choice that is planned with the races around it alone does what it does in the plan of the whole season.
func TestFarRacesDoNotMatter(t *testing.T) {
	fewer := 0
	forEach(t, 3**seasons, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 233))
		today, f := goalsSeason(t, r, 6+i%8)
		if i%3 == 0 {
			today, f = busySeason(t, r, 12)
		}
		s := newSeason(today, f)
		if s == nil || len(s.toComeA()) == 0 {
			return
		}
		races := s.toComeA()
		k := r.IntN(len(races))
		toB := races[k : k+1+r.IntN(min(2, len(races)-k))]
		c := s.choice(toB, false)
		whole := s.whole(c)
		rows := s.difference(whole, s.base, &reach{all: true, today: today}, s.load, s.toCome)
		for k := range rows {
			for j := range rows[k] {
				if d := rows[k][j] - c.rows[k][j]; d > 1e-9 || d < -1e-9 {
					t.Fatalf("season %d: %s changes %s by %v, in the whole plan by %v", i, toB[0].Name, s.toCome[k].Name, c.rows[k][j], rows[k][j])
				}
			}
		}
		all := make([]int, len(s.base.Races))
		for k := range all {
			all[k] = k
		}
		if got, want := c.drops, s.dropsRaces(whole, all); got != want {
			t.Errorf("season %d: drops %v, in the whole plan %v", i, got, want)
		}
		around := s.around(toB)
		near, kept := around.of(f, s.Facts)
		if plan := engine.Derive(today, near); len(plan.Races) != len(kept) || slices.ContainsFunc(kept, func(k int) bool { return s.Races[k].Name != plan.Races[slices.Index(kept, k)].Race.Name }) {
			t.Errorf("season %d: %d races, kept %v", i, len(plan.Races), kept)
		}
		if len(kept) < len(s.Races) {
			fewer++
		}
	})
	if fewer == 0 {
		t.Error("no season has far races")
	}
}
