// Package app is the controller: it owns the open project, takes every change
// through one door, keeps it durably, plans it in the background and publishes
// snapshots that the windows draw from. It declares the Store and the Clock it
// needs and knows no widget.
//
// A Session belongs to one goroutine, that of the interface: all its methods
// are called there and all its subscribers are called there. Work in the
// background is done by Jobs, the one owner of goroutines, and comes back
// through Post.
package app
