package drawing

import (
	"math"

	"meniscus/model/shape"
)

// The loupe: its radius in dp, how often it enlarges what is shown, and its
// distance from the edge.
const (
	loupeRadius = 78.0
	loupeTimes  = 3.5
	loupeEdge   = 10.0
)

// magnified gives the place that the loupe shows; false when it is hidden.
func (p *Photo) magnified() (shape.Point, bool) {
	g := &p.grip
	switch {
	case p.levels == nil:
		return shape.Point{}, false
	case g.pressed && g.spot != (Spot{}):
		return g.place(), true
	case g.pressed && g.brush:
		return p.view().toPhoto(g.at), true
	case g.pressed && !g.live && p.Places && g.button == NoButton && p.work != TouchInside:
		return p.view().toPhoto(g.from), true
	case p.cursor.shown:
		return p.cursor.at, true
	}
	return shape.Point{}, false
}

// Loupe tells whether the loupe is shown, and what place it shows.
func (p *Photo) Loupe() (at shape.Point, shown bool) { return p.magnified() }

// loupeAt gives the middle of the loupe: in the upper corner away from the
// finger, below the buttons where it is theirs.
func (p *Photo) loupeAt(finger Pt) Pt {
	box := p.box()
	at := Pt{box.Min.X + loupeEdge + loupeRadius, box.Min.Y + loupeEdge + loupeRadius}
	if finger.X < box.Centre().X {
		at.X = box.Max.X - loupeEdge - loupeRadius
		at.Y += Target + buttonEdge
	}
	at.Y = math.Max(math.Min(at.Y, box.Max.Y-loupeEdge-loupeRadius), box.Min.Y+loupeRadius)
	return at
}

// paintLoupe draws the photo and what is traced in it enlarged around a place,
// with cross hairs at the very place.
func (p *Photo) paintLoupe(on *Image, v photoView, place shape.Point) {
	finger := v.toScreen(place)
	if p.grip.pressed {
		finger = p.grip.at
	}
	k := math.Max(v.k*loupeTimes, math.Min(2, closest))
	k = math.Min(k, 2*closest)
	c := Pt{loupeRadius, loupeRadius}
	lens := photoView{k, Pt{c.X - k*place.X, c.Y - k*place.Y}}
	p.paintPhoto(p.loupe, lens)
	d := newDrafter(p.loupe, Style{Palette: p.palette})
	how := p.traced()
	scene := p.scene
	if p.grip.spot.Mark != "" || p.work == WorkMarks {
		scene.Marks, scene.Chosen = nil, Spot{Ring: scene.Chosen.Ring, Point: NoPoint}
	}
	scene.paint(d, lens, photoShown{held: how.held, at: how.at})
	d.hairs(c)
	at := p.loupeAt(finger)
	on.paste(p.loupe, at.Add(-loupeRadius, -loupeRadius))
	rim := newDrafter(on, Style{Palette: p.palette})
	rim.line("loupe", 5, Fade(coal, 0.85), nil, Loop(circle(at, loupeRadius-1, 72)...))
	rim.line("loupe", 2, chalk, nil, Loop(circle(at, loupeRadius-1, 72)...))
}

// hairs draws the cross hairs of the loupe.
func (d drafter) hairs(c Pt) {
	const open, far = 4.0, 34.0
	var arms []Path
	for _, u := range [4]Pt{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		arms = append(arms, Line(c.Add(u.X*open, u.Y*open), c.Add(u.X*far, u.Y*far)))
	}
	d.twoLines("hairs", 1.2, sky, nil, arms...)
}

// paste copies the round part of another image, its corner at a place in dp.
func (m *Image) paste(o *Image, at Pt) {
	x0, y0 := int(math.Round(at.X*m.scale)), int(math.Round(at.Y*m.scale))
	r := float64(o.RGBA.Rect.Dx()) / 2
	for y := range o.RGBA.Rect.Dy() {
		dy := float64(y) + 0.5 - r
		half := math.Sqrt(math.Max(r*r-dy*dy, 0))
		from, to := int(r-half), int(r+half)
		from, to = max(from, -x0, 0), min(to, m.RGBA.Rect.Dx()-x0, o.RGBA.Rect.Dx())
		if y0+y < 0 || y0+y >= m.RGBA.Rect.Dy() || from >= to {
			continue
		}
		copy(m.RGBA.Pix[(y0+y)*m.RGBA.Stride+4*(x0+from):], o.RGBA.Pix[y*o.RGBA.Stride+4*from:y*o.RGBA.Stride+4*to])
	}
}
