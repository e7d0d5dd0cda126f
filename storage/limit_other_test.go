//go:build !linux

package storage

// limitMemory does nothing where the system has no such limit.
func limitMemory(uint64) {}
