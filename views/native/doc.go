// Package native reaches below the toolkit, for what it keeps from us.
//
// It gives a menu only keys that are held with Ctrl, Alt or Super, and hands any
// other to what has the focus alone: F1 and F11 would be lost while something is
// typed. And it lets each window name the program to the desktop by its own title,
// so that no entry of a start menu would fit them all.
package native
