package views

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"meniscus/model"
)

// count writes a small whole number.
func count(n int) string { return strconv.Itoa(n) }

// wantsMark tells whether another mark means something.
func wantsMark(face *model.Tracing) bool { return !face.Corners() || len(face.Marks) < 4 }

// moldCorners are the mold's corners in the order that they are touched in.
var moldCorners = [4]string{"far left", "far right", "near right", "near left"}

// nextWords says in one line what to do next.
func (t *traceView) nextWords(face *model.Tracing) string {
	if t.loading {
		return "Opening the photo…"
	}
	switch t.work {
	case traceFind:
		return t.findWords(face)
	case tracePoints:
		return t.pointWords(face)
	case tracePush:
		if len(face.Rings) == 0 {
			return "There is no outline to push yet: find one, or set one point by point."
		}
		return "Push the outline with your finger. The closer you look, the finer it goes."
	}
	return cornerWords(face)
}

// cornerWords says which mark comes next.
func cornerWords(face *model.Tracing) string {
	n := len(face.Marks)
	switch {
	case face.By == model.ByPoints && n < 4:
		return fmt.Sprintf("Touch a point whose place you measured; %d of at least 4 are set.", n)
	case face.By == model.ByPoints:
		return "Touch another measured point, or drag one to mend it. Each needs its place, at the right."
	case n >= 4:
		return "All four corners are set. Drag one to mend it: it moves as your finger does, arrow keys by a pixel."
	case face.By != model.ByCorners && n == 0:
		return "Touch a corner of the card, then the others in turn, going round."
	case face.By != model.ByCorners:
		return "Touch the card's next corner, going round the same way" + haveWords(n)
	}
	return "Touch the " + moldCorners[n] + " corner of the mold, inside, at the rim" + haveWords(n)
}

// lacks says what the marks still lack once all are set, on which everything
// else waits, and on the button that leads there; "" where nothing does.
func (t *traceView) lacks(face *model.Tracing) (words, label string) {
	t.missing = ""
	of := facePlan(t.slab.page.shot.Plan.Slab(t.slab.slab), t.face)
	if t.work != traceCorners || t.loading || len(face.Marks) < 4 || of == nil || of.Solved || len(of.Wrong) == 0 {
		return "", ""
	}
	w := &of.Wrong[0]
	switch field := lastName(w.Field); {
	case field == "long" || field == "broad":
		words, label = "Now give the card's two sides, at the right.", "Give the sides"
		if field == "broad" {
			words, label = "Now give the card's second side, at the right.", "Give the side"
		}
	case field == "at" || field == "up":
		words, label = "Now give each point its place, at the right. Or touch another that you measured.", "Give the places"
	case field == "by":
		words, label = capitalised(w.Message)+".", "Go there"
	default: // the marks themselves: they are mended in the photo
		return capitalised(w.Message) + ".", ""
	}
	t.missing = w.Field
	return words, label
}

// lastName is the last name in a path.
func lastName(path string) string { return path[strings.LastIndexByte(path, '/')+1:] }

// toMissing leads to the field that the marks still lack.
func (t *traceView) toMissing() {
	page, field := t.slab.page, t.missing
	if m := &page.shot.Project.Mold; lastName(field) == "by" && m.Kind == model.MoldRectangle {
		field = "mold/depth" // its sizes stand there
		if !m.Length.Given() || !m.Width.Given() {
			field = "mold/length"
		}
	}
	page.focus(field)
}

// haveWords says how many of four are set.
func haveWords(n int) string {
	switch n {
	case 0:
		return "."
	case 1:
		return "; 1 of 4 is set."
	}
	return "; " + count(n) + " of 4 are set."
}

// findWords says what a touch will find.
func (t *traceView) findWords(face *model.Tracing) string {
	switch {
	case t.seek.busy:
		return "Looking for the edge…"
	case t.kind == model.RingHole:
		return "Touch inside a hole or a bay that resin will fill: its edge is found."
	case t.seek.found && t.seek.sure < unsure:
		return "The edge is not clear here. Try the reach, push what is off, or set the outline point by point."
	case t.seek.found:
		return "Found. Reach takes in more or less; push what is still off."
	case len(face.Rings) > 0:
		return "Touch inside the wood to find its outline anew, or that of another piece of wood."
	}
	return "Touch inside the wood: its outline is found."
}

// unsure is how clear an edge must be for nothing to be said of it.
const unsure = 0.5

// pointWords says what a touch will do to an outline.
func (t *traceView) pointWords(face *model.Tracing) string {
	what := "the wood"
	if t.kind == model.RingHole {
		what = "the hole"
	}
	if r := face.Ring(t.open); r != nil {
		if len(r.Points) < 3 {
			return fmt.Sprintf("Touch the next point along the edge; %s so far.", pointsWord(len(r.Points)))
		}
		return fmt.Sprintf("%s. Go on, and touch the first again to close the outline.", capitalised(pointsWord(len(r.Points))))
	}
	if t.spot.Ring != "" && face.Ring(t.spot.Ring) != nil {
		return "Drag a point, touch the line for a new one; Delete removes. Touch beside the outline to let go of it."
	}
	return "Touch the edge of " + what + " point by point, or touch an outline to change its points."
}

func pointsWord(n int) string {
	if n == 1 {
		return "1 point"
	}
	return count(n) + " points"
}

// seekWords writes how the reach differs from what was chosen by itself.
func seekWords(v float64) string {
	switch share := 100 * (reachTimes(v) - 1); {
	case math.Abs(share) < 0.5:
		return "as found"
	case share > 0:
		return fmt.Sprintf("%.0f %% more", share)
	default:
		return fmt.Sprintf("%.0f %% less", -share)
	}
}
