//go:build !race

package picture

// raceDetector tells whether the tests run under it.
const raceDetector = false
