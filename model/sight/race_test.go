//go:build race

package sight

// raceDetector tells whether the tests run under it.
const raceDetector = true
