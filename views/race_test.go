//go:build race

package views

import "testing"

// onlyDrawn leaves a test out under the race detector that looks at what is drawn
// on the interface's one goroutine, and takes minutes there.
func onlyDrawn(t *testing.T) {
	t.Helper()
	t.Skip("nothing runs side by side here")
}
