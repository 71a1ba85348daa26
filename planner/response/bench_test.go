package response

import (
	"slices"
	"testing"
)

func BenchmarkPrior(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		newPrior()
	}
}

func BenchmarkDosePrior(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		newDosePrior()
	}
}

// BenchmarkEffect: 14 days before a race, three after it, six races to come.
func BenchmarkEffect(b *testing.B) {
	belief := Prior()
	var later []Later
	for k := range 6 {
		later = append(later, Later{Days: 21 * (k + 1), Weight: 0.4})
	}
	r := belief.Reach(later)
	c := Change{Before: slices.Repeat([]float64{-0.5}, 14), After: []float64{-1, -0.5, -0.5}}
	out := make([]float64, len(belief))
	b.ReportAllocs()
	for b.Loop() {
		belief.Effect(out, 1, r, c)
	}
}

// BenchmarkReach: six races to come.
func BenchmarkReach(b *testing.B) {
	belief := Prior()
	var later []Later
	for k := range 6 {
		later = append(later, Later{Days: 21 * (k + 1), Weight: 0.4})
	}
	b.ReportAllocs()
	for b.Loop() {
		belief.Reach(later)
	}
}

// BenchmarkGains: six cuts of a taper of 14 days, with the 136 days before it.
func BenchmarkGains(b *testing.B) {
	belief := DosePrior()
	usual := slices.Repeat([]float64{1}, 150)
	out := make([]float64, len(belief))
	var plans [][]float64
	for cut := 3; cut <= 8; cut++ {
		plans = append(plans, evenCut(150, 14, float64(cut)/10))
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, w := range plans {
			belief.Gains(out, w, usual)
		}
	}
}
