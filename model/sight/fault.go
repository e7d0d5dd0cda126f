package sight

import "fmt"

// FaultKind tells in what way marks cannot straighten a photo.
type FaultKind string

// What can be wrong with marks.
const (
	TooFew    FaultKind = "too few"
	NotFinite FaultKind = "not finite"
	SameSpot  FaultKind = "same spot"
	InLine    FaultKind = "in line"
	Crossing  FaultKind = "crossing"
	Unlike    FaultKind = "unlike" // they do not lie in the photo as their places do
)

// Fault is why marks cannot straighten a photo, in the maker's words.
type Fault struct {
	Kind  FaultKind
	Marks []int // the marks that it speaks of, counted from 0
	What  string
	Do    string
}

// Error gives what is wrong and what to do.
func (f *Fault) Error() string { return f.What + "; " + f.Do }

// numbered names marks by their numbers: "marks 1, 2 and 4".
func numbered(marks ...int) string {
	text := "mark"
	if len(marks) > 1 {
		text = "marks"
	}
	for i, m := range marks {
		switch {
		case i == 0:
			text += " "
		case i == len(marks)-1:
			text += " and "
		default:
			text += ", "
		}
		text += fmt.Sprint(m + 1)
	}
	return text
}
