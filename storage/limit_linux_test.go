package storage

import "syscall"

// limitMemory bounds the address space of this process.
func limitMemory(bytes uint64) {
	must(syscall.Setrlimit(syscall.RLIMIT_AS, &syscall.Rlimit{Cur: bytes, Max: bytes}))
}
