//go:build race

package storage

import "flag"

// raceDetector tells whether the tests run under it.
const raceDetector = true

// Each random case takes ten times as long, and goes the same ways side by side as
// the one before it.
func init() { _ = flag.Set("rapid.checks", "25") }
