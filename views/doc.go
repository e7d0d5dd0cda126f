// Package views holds the windows of Meniscus. A window redraws from a
// snapshot of the session alone and sends the maker's intents to it; it
// computes nothing and keeps nothing.
//
// Desk opens the windows and hands each the snapshots. A window is a page: its
// content is a frame (the question it answers at the top, the drawing on one
// side, the inputs on the other, the findings at the foot), its inputs are
// bound to the fields of the project by their paths.
package views
