//go:build race

package app

import (
	"flag"
	"testing"
)

// raceDetector tells whether the tests run under it.
const raceDetector = true

// Each random case takes ten times as long, and goes the same ways side by side as
// the one before it.
func init() { _ = flag.Set("rapid.checks", "25") }

// alike leaves a test out that runs nothing side by side but what the named one does.
func alike(t *testing.T, other string) {
	t.Skip("nothing runs side by side here but what does in ", other)
}
