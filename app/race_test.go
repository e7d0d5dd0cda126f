//go:build race

package app

// raceDetector tells whether the tests run under it.
const raceDetector = true
