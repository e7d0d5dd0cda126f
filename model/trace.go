package model

import (
	"math"
	"sort"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// TracePoint is one place of the resin at one time.
type TracePoint struct {
	At    unit.Span // since the first pour
	State cure.State
}

// Ends gives the times of the first and the last frame; false when there are
// none.
func (t *Trace) Ends() (from, to unit.Span, ok bool) {
	n := len(t.Frames)
	if n == 0 {
		return 0, 0, false
	}
	return t.Frames[0].At, t.Frames[n-1].At, true
}

// PouredAt gives when a layer's pour begins: the first frame that has resin of
// it. It is false when it is never poured.
func (t *Trace) PouredAt(layer int) (unit.Span, bool) {
	for i := range t.Frames {
		for k := range t.Frames[i].Cells {
			if t.Frames[i].Cells[k].Layer == layer {
				return t.Frames[i].At, true
			}
		}
	}
	return 0, false
}

// At gives the resin at a time since the first pour, in a straight line between
// two frames; before the first and after the last it is as they are. Resin that
// is poured with the later frame comes with that frame. Of a trace without
// frames it is empty. The cells may be those of a frame: they are not to be
// changed.
func (t *Trace) At(at unit.Span) TraceFrame {
	n := len(t.Frames)
	if n == 0 {
		return TraceFrame{At: at}
	}
	// The first frame after that time; of several at one time the last counts.
	k := sort.Search(n, func(i int) bool { return t.Frames[i].At > at })
	if k == 0 {
		return t.Frames[0]
	}
	if k == n || t.Frames[k-1].At == at {
		return t.Frames[k-1]
	}
	return between(&t.Frames[k-1], &t.Frames[k], at)
}

// between gives the resin between two frames.
func between(a, b *TraceFrame, at unit.Span) TraceFrame {
	w := (at - a.At).Per(b.At - a.At)
	f := TraceFrame{At: at, Room: warmth(a.Room, b.Room, w), Cells: make([]TraceCell, len(a.Cells))}
	for i, c := range a.Cells {
		if i < len(b.Cells) && sameCell(&c, &b.Cells[i]) {
			next := &b.Cells[i]
			c.State.T = warmth(c.State.T, next.State.T, w)
			c.State.A += (next.State.A - c.State.A) * w
			c.Softening = warmth(c.Softening, next.Softening, w)
		}
		f.Cells[i] = c
	}
	return f
}

// warmth gives the temperature at w of the way from a to b.
func warmth(a, b unit.Temperature, w float64) unit.Temperature {
	return unit.Temperature(float64(a) + (float64(b)-float64(a))*w)
}

// sameCell tells whether two cells are the same slice of resin.
func sameCell(a, b *TraceCell) bool {
	const apart = unit.Length(1e-9)
	return a.Layer == b.Layer && math.Abs(float64(a.Bottom-b.Bottom)) <= float64(apart) && math.Abs(float64(a.Top-b.Top)) <= float64(apart)
}

// Range gives the coldest and the hottest that any resin is at any time; false
// when there is none.
func (t *Trace) Range() (low, high unit.Temperature, ok bool) {
	low, high = unit.Temperature(math.Inf(1)), unit.Temperature(math.Inf(-1))
	for i := range t.Frames {
		l, h, any := t.Frames[i].Range()
		if any {
			low, high, ok = min(low, l), max(high, h), true
		}
	}
	if !ok {
		return 0, 0, false
	}
	return low, high, true
}

// Range gives the coldest and the hottest that the resin is; false when none
// has been poured.
func (f *TraceFrame) Range() (low, high unit.Temperature, ok bool) {
	for i := range f.Cells {
		c := f.Cells[i].State.T
		if i == 0 {
			low, high = c, c
		}
		low, high = min(low, c), max(high, c)
	}
	return low, high, len(f.Cells) > 0
}

// Hottest gives the hottest cell of a layer, or of all the resin where layer is
// below zero; false when it has none.
func (f *TraceFrame) Hottest(layer int) (TraceCell, bool) {
	best := -1
	for i := range f.Cells {
		if c := &f.Cells[i]; (layer < 0 || c.Layer == layer) && (best < 0 || c.State.T > f.Cells[best].State.T) {
			best = i
		}
	}
	if best < 0 {
		return TraceCell{}, false
	}
	return f.Cells[best], true
}

// Middle gives how high a cell's middle is above the mold's floor.
func (c *TraceCell) Middle() unit.Length { return (c.Bottom + c.Top) / 2 }

// HottestCourse follows the place of a layer that gets hottest of all, from its
// pour on.
func (t *Trace) HottestCourse(layer int) []TracePoint {
	var peak TraceCell
	found := false
	for i := range t.Frames {
		if c, ok := t.Frames[i].Hottest(layer); ok && (!found || c.State.T > peak.State.T) {
			peak, found = c, true
		}
	}
	if !found {
		return nil
	}
	return t.CourseAt(layer, peak.Middle())
}

// HeartCourse follows the middle of a layer's depth, from its pour on.
func (t *Trace) HeartCourse(layer int) []TracePoint {
	bottom, top, ok := t.extent(layer)
	if !ok {
		return nil
	}
	return t.CourseAt(layer, (bottom+top)/2)
}

// SurfaceCourse follows the top of a layer, from its pour on; the next pour
// covers it.
func (t *Trace) SurfaceCourse(layer int) []TracePoint {
	return t.CourseAt(layer, unit.Length(math.Inf(1)))
}

// CourseAt follows the place of a layer at a height above the mold's floor, or
// the place of it that is nearest to that, from its pour on.
func (t *Trace) CourseAt(layer int, height unit.Length) []TracePoint {
	var list []TracePoint
	for i := range t.Frames {
		f := &t.Frames[i]
		if c := f.near(layer, height); c != nil {
			list = append(list, TracePoint{f.At, c.State})
		}
	}
	return list
}

// near gives the cell of a layer at a height, or the nearest; nil when it has
// not been poured.
func (f *TraceFrame) near(layer int, height unit.Length) *TraceCell {
	var found *TraceCell
	for i := range f.Cells {
		if c := &f.Cells[i]; c.Layer == layer && (found == nil || c.Bottom <= height) {
			found = c
		}
	}
	return found
}

// extent gives a layer's bottom and top; false when it is never poured.
func (t *Trace) extent(layer int) (bottom, top unit.Length, ok bool) {
	for i := len(t.Frames) - 1; i >= 0; i-- {
		for _, c := range t.Frames[i].Cells {
			if c.Layer != layer {
				continue
			}
			if !ok {
				bottom, ok = c.Bottom, true
			}
			top = c.Top
		}
		if ok {
			return bottom, top, true
		}
	}
	return 0, 0, false
}
