//go:build race

package storage

// raceDetector tells whether the tests run under it.
const raceDetector = true
