package drawing

import (
	"meniscus/model/unit"
)

// Style is how a drawing is dressed.
type Style struct {
	Palette Palette
	Length  func(unit.Length) string // writes a length with its unit
	Inches  bool                     // round steps of scale bars are inches
	Live    bool                     // shown where fingers act on it: with handles, and room for buttons
}

// Scene is a drawing that can be looked at closely and acted upon. A Scene is
// a value: it does not change.
type Scene interface {
	// Fit gives the view that shows the whole of it in a box.
	Fit(box Box) View
	// Paint draws it.
	Paint(s Surface, v View)
	// Handles gives what can be taken hold of.
	Handles(box Box, v View) []Handle
	// Hit gives the ID of the thing at a place, or "".
	Hit(p Pt, v View) string
	// Selected gives the ID of the selected thing, or "".
	Selected() string
	// Select gives the scene with another thing selected.
	Select(id string) Scene
	// Preview draws what a change would do, over the scene.
	Preview(s Surface, v View, c Change)
}

// Overlaid is a scene that paints only what stands still. What can be dragged it
// draws over that, as a change would leave it, at every frame.
type Overlaid interface {
	Scene
	Over(s Surface, v View, c Change)
}

// HandleKind is what a handle does.
type HandleKind uint8

// The kinds of handle. None is the kind of no handle.
const (
	None HandleKind = iota
	MovePiece
	TurnPiece
	DragLevel
	DragCut
)

// Handle is a place to take hold of, of at least Target dp in each direction.
// Value is what it holds now: a level or a cut in metres above the floor or
// from the middle of the cavity. Low and High bound it.
type Handle struct {
	Kind      HandleKind
	ID        string
	At        Pt
	Pivot     Pt // what a turn goes round
	Value     float64
	Low, High float64
}

// Target is the least size of what a finger may act on, in dp (WCAG 2.5.5).
const Target = 44.0

// Change is what a finger is doing: all since it took hold.
type Change struct {
	Kind   HandleKind
	ID     string
	DX, DY unit.Length // MovePiece
	By     unit.Angle  // TurnPiece, counterclockwise
	To     unit.Length // DragLevel, DragCut
}

// Nearest gives the handle closest to p within reach dp.
func Nearest(handles []Handle, p Pt, reach float64) (Handle, bool) {
	best, found := Handle{}, false
	for _, h := range handles {
		if d := h.At.To(p); d <= reach {
			best, found, reach = h, true, d
		}
	}
	return best, found
}
