//go:build !windows

package app

// What the system itself does where no program of its kind is found: nothing.
var (
	ownPlayer  Player
	ownPrinter Printer
)
