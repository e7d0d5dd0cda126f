package drawing

import (
	"image/color"
	"math"

	"meniscus/model/shape"
)

// PhotoScene is what is traced in a photo, in its pixels.
type PhotoScene struct {
	Wide, High int // of the photo
	Marks      []PhotoMark
	Round      bool // the marks follow each other round and are joined by a line
	Rings      []PhotoRing
	Chosen     Spot
}

// PhotoMark is a place of known whereabouts, shown as a cross with a ring.
type PhotoMark struct {
	ID, Label string
	At        shape.Point
}

// PhotoRing is an outline.
type PhotoRing struct {
	ID     string
	Points shape.Ring
	Hole   bool
	Open   bool // it is being drawn: its last point is not joined to its first
}

// Spot names a mark, or a point of an outline; Point is NoPoint for the outline
// as a whole. The zero Spot is nothing.
type Spot struct {
	Mark  string
	Ring  string
	Point int
}

// NoPoint stands for the outline as a whole.
const NoPoint = -1

// place gives where a mark or point is.
func (s *PhotoScene) place(spot Spot) (shape.Point, bool) {
	for i := range s.Marks {
		if m := &s.Marks[i]; spot.Mark != "" && m.ID == spot.Mark {
			return m.At, true
		}
	}
	if r := s.ring(spot.Ring); r != nil && spot.Point >= 0 && spot.Point < len(r.Points) {
		return r.Points[spot.Point], true
	}
	return shape.Point{}, false
}

// ring finds an outline; nil when it is not there.
func (s *PhotoScene) ring(id string) *PhotoRing {
	for i := range s.Rings {
		if id != "" && s.Rings[i].ID == id {
			return &s.Rings[i]
		}
	}
	return nil
}

// What is drawn on a photo has a line of coal under one of chalk, so that it
// stands out from light wood and dark wood alike. What is chosen is in a cold
// colour, which no wood has: the amber of all else would be lost on it.
var (
	coal  = color.NRGBA{0x14, 0x10, 0x0c, 0xff}
	chalk = color.NRGBA{0xff, 0xfb, 0xf2, 0xff}
	sky   = color.NRGBA{0x78, 0xdc, 0xff, 0xff}
)

// twoLines draws a line with its shade below it.
func (d drafter) twoLines(name string, width float64, c color.NRGBA, dash []float64, paths ...Path) {
	d.line(name, width+2.4, Fade(coal, 0.72), nil, paths...)
	d.line(name, width, c, dash, paths...)
}

// photoShown is how what is traced is shown.
type photoShown struct {
	points, marks bool // they can be taken hold of
	held          Spot // shown at another place
	at            shape.Point
}

// paint draws outlines, then points, then marks.
func (s *PhotoScene) paint(d drafter, v photoView, how photoShown) {
	box := d.s.Bounds()
	for i := range s.Rings {
		r := &s.Rings[i]
		points := r.Points
		if how.held.Ring == r.ID && how.held.Ring != "" && how.held.Point >= 0 && how.held.Point < len(points) {
			points = append(shape.Ring(nil), points...)
			points[how.held.Point] = how.at
		}
		s.paintRing(d, v, box, r, points, how)
	}
	s.paintMarks(d, v, box, how)
}

// holeDash tells the outline of a hole from that of the wood.
var holeDash = []float64{9, 5}

// paintRing draws one outline, and its points where they can be taken hold of.
func (s *PhotoScene) paintRing(d drafter, v photoView, box Box, r *PhotoRing, points shape.Ring, how photoShown) {
	chosen := s.Chosen.Ring == r.ID
	c, width := chalk, 1.8
	if chosen {
		c, width = sky, 2.2
	}
	var dash []float64
	if r.Hole {
		dash = holeDash
	}
	d.twoLines("traced", width, c, dash, v.visible(points, !r.Open, box.Grown(8))...)
	if how.points && chosen || r.Open {
		for _, q := range v.dots(points, box) {
			d.dot(q, 3.2, chalk)
		}
	}
	if spot := s.Chosen; chosen && spot.Point >= 0 && spot.Point < len(points) {
		q := v.toScreen(points[spot.Point])
		d.twoLines("point", 2, sky, nil, Loop(circle(q, 9, 28)...))
		d.dot(q, 2, sky)
	}
}

// dot draws a point of an outline.
func (d drafter) dot(q Pt, radius float64, c color.NRGBA) {
	d.s.Fill("point", Fade(coal, 0.85), circle(q, radius+1.3, 14))
	d.s.Fill("point", c, circle(q, radius, 12))
}

// paintMarks draws the marks, numbered, and the frame that they make.
func (s *PhotoScene) paintMarks(d drafter, v photoView, box Box, how photoShown) {
	at := make([]Pt, len(s.Marks))
	for i := range s.Marks {
		at[i] = v.toScreen(s.Marks[i].At)
		if s.Marks[i].ID == how.held.Mark {
			at[i] = v.toScreen(how.at)
		}
	}
	if s.Round && len(at) > 1 {
		d.line("frame", 2.6, Fade(coal, 0.5), nil, Path{Points: at, Closed: len(at) > 3})
		d.line("frame", 1, Fade(chalk, 0.9), []float64{2, 5}, Path{Points: at, Closed: len(at) > 3})
	}
	for i, q := range at {
		if !finite(q) || !box.Grown(30).Contains(q) {
			continue
		}
		c, radius := chalk, 13.0
		if s.Marks[i].ID == s.Chosen.Mark {
			c, radius = sky, 17
		}
		if !how.marks {
			radius = 9
		}
		d.cross(q, radius, c)
		l := Lettering{Name: "mark", Size: title, Bold: true, Anchor: Middle, Colour: chalk}
		to := labelAt(q, radius+13, box)
		d.plated(to.Add(0, title*0.36), s.Marks[i].Label, l, Fade(coal, 0.8))
	}
}

// cross draws cross hairs with a ring, open in the middle so that they do not
// cover the very place.
func (d drafter) cross(q Pt, radius float64, c color.NRGBA) {
	const open, beyond = 3.0, 5.0
	var arms []Path
	for _, u := range [4]Pt{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		arms = append(arms, Line(q.Add(u.X*open, u.Y*open), q.Add(u.X*(radius+beyond), u.Y*(radius+beyond))))
	}
	d.twoLines("mark", 1.6, c, nil, append(arms, Loop(circle(q, radius, 36)...))...)
}

// labelAt gives the middle of a label beside a place, towards the side with
// room.
func labelAt(q Pt, apart float64, box Box) Pt {
	const room = 16
	k := apart / math.Sqrt2
	to := q.Add(k, -k)
	if to.X > box.Max.X-room {
		to.X = q.X - k
	}
	if to.Y < box.Min.Y+room {
		to.Y = q.Y + k
	}
	return to
}
