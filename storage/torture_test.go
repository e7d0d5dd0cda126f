package storage

import "os"

// tortureCount is how often something is done: all of it under the torture, some
// in an ordinary run, and few where the race detector slows all down.
func tortureCount(all, some, few int) int {
	switch {
	case os.Getenv("MENISCUS_TORTURE") != "":
		return all
	case raceDetector:
		return few
	}
	return some
}
