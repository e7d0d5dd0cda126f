// Package views holds the windows of Meniscus. A window redraws from a
// snapshot of the session alone and sends the maker's intents to it; it
// computes nothing, and keeps nothing but where the maker is in it and what is
// typed and not yet taken.
//
// Desk opens the windows and hands each the snapshots. A window is a page: its
// content is a frame (the question it answers at the top, the drawing, where it
// has one, beside the inputs, the findings at the foot), its inputs are bound to
// the fields of the project or the shelf by their paths.
package views
