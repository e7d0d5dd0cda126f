// Package touch holds the inputs of Meniscus: controls that suit fingers as
// well as a keyboard. Every target is at least 44 units in each direction,
// every control can be reached and worked by keyboard, and a tap may slip up to
// Slop without being lost, also inside a scroller.
//
// The toolkit's desktop driver knows no touch: a finger arrives as a mouse. It
// gives a drag to the deepest object that can be dragged and then sends no tap.
// So Scroll takes the drags of everything in it: a small one is a tap on what
// was pressed, a larger one scrolls. It also leaves the focus where it is when
// something that could take the focus is pressed. So a Button takes the focus
// itself, which commits the field being edited, and the keys of the Keypad,
// which could but never do, leave it alone.
//
// All of the package is used from the toolkit's own goroutine only.
package touch
