package model

import (
	"testing"
)

// Ten pours that used 1.03, 1.03, 0.97, 0.97, 1.02, 1.02, 1.10, 1.10, 1.05 and
// 1.05 times the plan. By hand: the sum of their logarithms is 0.3260, over
// 10 + 2 it is 0.02717, so the factor is 1.0275. The squares about that add up to
// 0.01697; with twice that of the usual tenth, (ln(1.1/0.9)/2)² = 0.01007, and
// over 12, the root is 0.0556: from 0.972 to 1.086.
func TestUsedOverPlannedByHand(t *testing.T) {
	var g Learning
	for _, ratio := range []float64{1.03, 1.03, 0.97, 0.97, 1.02, 1.02, 1.10, 1.10, 1.05, 1.05} {
		g.used.add(ratio, 1)
	}
	used := g.Lessons(Project{}.Style).Used
	for _, c := range []struct{ got, want float64 }{{float64(used.Value), 1.0275}, {float64(used.Low), 0.972}, {float64(used.High), 1.086}} {
		if !close(c.got, c.want, 1e-3) {
			t.Errorf("%.4f, want %.4f", c.got, c.want)
		}
	}
	if used.Words != "1.03, between 0.97 and 1.09, by 10 runs; 1.00 is usual" {
		t.Errorf("it says %q", used.Words)
	}
}
