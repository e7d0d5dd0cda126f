//go:build !race

package sight

const raceDetector = false
