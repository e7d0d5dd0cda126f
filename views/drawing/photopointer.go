package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model/shape"
)

// How near a finger must be, in dp: to a mark or point, to the chosen one,
// which may be held from beside it, and to a line.
const (
	photoReach  = 22.0
	chosenReach = 40.0
	lineReach   = 16.0
	brushRadius = 36.0 // of the finger that pushes
	fineSlop    = 4.0  // before what is held follows
)

// photoGrip is what a pointer is doing to a photo.
type photoGrip struct {
	pressed bool
	held    bool // it is moving
	live    bool // it has left the slop: things follow it
	brush   bool // it pushes an outline
	button  Button
	from    Pt
	at      Pt // where the finger is
	moved   Pt // since things follow it
	slop    float64
	spot    Spot
	start   shape.Point // where the spot was
	view    photoView
	pan     Pt
	ring    string // that is pushed
}

// place gives where what is held is now.
func (g *photoGrip) place() shape.Point {
	return shape.Point{X: g.start.X + g.moved.X/g.view.k, Y: g.start.Y + g.moved.Y/g.view.k}
}

// by gives how far it has moved.
func (g *photoGrip) by() shape.Point {
	return shape.Point{X: g.moved.X / g.view.k, Y: g.moved.Y / g.view.k}
}

// MouseDown takes hold of what is below.
func (p *Photo) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button != desktop.MouseButtonPrimary {
		return
	}
	p.cursor = photoCursor{}
	p.take(ptOf(ev.Position))
	p.focus()
	p.raster.Refresh()
}

// MouseUp ends a press that did not move.
func (p *Photo) MouseUp(*desktop.MouseEvent) {
	if !p.grip.held {
		p.grip.pressed = false
		p.raster.Refresh()
	}
}

// take finds what is held where a press begins: a button, a mark, a point, an
// outline to be pushed, or the photo.
func (p *Photo) take(at Pt) {
	p.grip = photoGrip{pressed: true, from: at, at: at, slop: slop, view: p.view(), pan: p.pan}
	g := &p.grip
	if g.button = buttonAt(at, p.box()); g.button != NoButton {
		g.slop = math.Inf(1)
		return
	}
	if s, ok := p.spotAt(at); ok {
		g.spot, g.slop = s, fineSlop
		g.start, _ = p.scene.place(s)
		return
	}
	if p.work == PushEdge {
		if ring, _, off := p.lineAt(at, ""); off < brushRadius {
			g.brush, g.ring, g.slop = true, ring, fineSlop
		}
	}
}

// spotAt gives the mark or point that a finger takes hold of: the nearest, but
// the chosen one first.
func (p *Photo) spotAt(at Pt) (Spot, bool) {
	v := p.view()
	best, found := photoReach, Spot{}
	look := func(s Spot, q shape.Point) {
		if d := v.toScreen(q).To(at); d < best {
			best, found = d, s
		}
	}
	switch p.work {
	case WorkMarks:
		for i := range p.scene.Marks {
			look(Spot{Mark: p.scene.Marks[i].ID}, p.scene.Marks[i].At)
		}
	case WorkPoints:
		if r := p.scene.ring(p.scene.Chosen.Ring); r != nil {
			for i := range r.Points {
				look(Spot{Ring: r.ID, Point: i}, r.Points[i])
			}
		}
	default:
		return Spot{}, false
	}
	if q, ok := p.scene.place(p.scene.Chosen); found == (Spot{}) && ok && v.toScreen(q).To(at) < chosenReach {
		if c := p.scene.Chosen; (c.Mark != "") == (p.work == WorkMarks) {
			return c, true
		}
	}
	return found, found != (Spot{})
}

// lineAt gives the outline nearest to a place, the point before the place on it,
// and how far off it is in dp. Only names one outline to look at.
func (p *Photo) lineAt(at Pt, only string) (ring string, after int, off float64) {
	v := p.view()
	off = math.Inf(1)
	for i := range p.scene.Rings {
		r := &p.scene.Rings[i]
		if only != "" && r.ID != only {
			continue
		}
		n := len(r.Points)
		for k := range n {
			if k == n-1 && r.Open {
				break
			}
			if d := fromSegment(at, v.toScreen(r.Points[k]), v.toScreen(r.Points[(k+1)%n])); d < off {
				ring, after, off = r.ID, k, d
			}
		}
	}
	return ring, after, off
}

// Tapped presses a button, chooses what is below, or tells the place.
func (p *Photo) Tapped(ev *fyne.PointEvent) {
	p.focus()
	p.tap(ptOf(ev.Position))
}

func (p *Photo) tap(at Pt) {
	p.grip = photoGrip{}
	defer p.raster.Refresh()
	if b := buttonAt(at, p.box()); b != NoButton {
		p.press(b)
		return
	}
	if s, ok := p.spotAt(at); ok && p.tapped(s, at) {
		p.pick(s)
		return
	}
	chosen := p.scene.ring(p.scene.Chosen.Ring)
	open := chosen != nil && chosen.Open
	if p.work == WorkPoints && chosen != nil && !open {
		if ring, after, off := p.lineAt(at, chosen.ID); off < lineReach && p.OnInsert != nil {
			p.OnInsert(ring, after, p.view().toPhoto(at))
			return
		}
	}
	if p.work == WorkPoints && !open || p.work == PushEdge {
		if ring, _, off := p.lineAt(at, ""); off < lineReach && ring != p.scene.Chosen.Ring {
			p.pick(Spot{Ring: ring, Point: NoPoint})
			return
		}
	}
	if p.OnPlace != nil && p.inPhoto(at) {
		p.OnPlace(p.view().toPhoto(at))
	}
}

// tapped tells whether a tap is meant for a mark or point: the wider reach of
// the chosen one is for drags alone, and while an outline is being set the next
// point may follow close behind the last.
func (p *Photo) tapped(s Spot, at Pt) bool {
	const behind = 9
	reach := photoReach
	if r := p.scene.ring(s.Ring); r != nil && r.Open && s.Point > 0 {
		reach = behind
	}
	q, ok := p.scene.place(s)
	return ok && p.view().toScreen(q).To(at) < reach
}

// inPhoto tells whether a place is on the photo.
func (p *Photo) inPhoto(at Pt) bool {
	q := p.view().toPhoto(at)
	return q.X >= 0 && q.Y >= 0 && q.X <= float64(p.scene.Wide) && q.Y <= float64(p.scene.High)
}

// pick chooses and says so.
func (p *Photo) pick(s Spot) {
	p.Choose(s)
	if p.OnChoose != nil {
		p.OnChoose(s)
	}
}

// Dragged moves what was taken hold of.
func (p *Photo) Dragged(ev *fyne.DragEvent) {
	if !p.grip.pressed {
		p.take(ptOf(ev.Position))
	}
	g := &p.grip
	g.held = true
	before := g.at
	g.at = g.at.Add(float64(ev.Dragged.DX), float64(ev.Dragged.DY))
	if !g.live {
		if g.from.To(g.at) < g.slop {
			return
		}
		g.live = true
		if g.spot != (Spot{}) {
			p.pick(g.spot)
			// Only what the finger moves beyond the slop counts, so that nothing jumps.
			u := g.slop / g.from.To(g.at)
			before = g.from.Lerp(g.at, u)
		} else if g.brush {
			before = g.from
		}
	}
	g.moved = g.moved.Add(g.at.X-before.X, g.at.Y-before.Y)
	switch {
	case g.spot != (Spot{}):
		if p.OnMove != nil {
			p.OnMove(g.spot, g.by(), false)
		}
	case g.brush:
		if p.OnPush != nil {
			p.OnPush(g.ring, g.view.toPhoto(before), g.view.toPhoto(g.at), brushRadius/g.view.k)
		}
	default:
		p.panTo(g.pan.Add(g.moved.X, g.moved.Y))
	}
	p.raster.Refresh()
}

// DragEnd lets go. A drag that stayed within the slop was a tap.
func (p *Photo) DragEnd() {
	g := p.grip
	if !g.held {
		return
	}
	p.grip = photoGrip{}
	switch {
	case !g.live && g.from.To(g.at) < slop:
		p.tap(g.from)
	case g.live && g.spot != (Spot{}) && p.OnMove != nil:
		p.OnMove(g.spot, g.by(), true)
	case g.live && g.brush && p.OnPushed != nil:
		p.OnPushed()
	}
	p.raster.Refresh()
}

// Scrolled zooms with the wheel.
func (p *Photo) Scrolled(ev *fyne.ScrollEvent) {
	p.zoomAbout(ptOf(ev.Position), wheelZoom(ev))
}

// Cursor shows a hand over what can be taken hold of and cross hairs where a
// place is told.
func (p *Photo) Cursor() desktop.Cursor { return p.over }

// MouseIn notes the pointer.
func (p *Photo) MouseIn(ev *desktop.MouseEvent) { p.MouseMoved(ev) }

// MouseMoved notes what the pointer is over.
func (p *Photo) MouseMoved(ev *desktop.MouseEvent) {
	at := ptOf(ev.Position)
	p.over = desktop.DefaultCursor
	if _, ok := p.spotAt(at); ok || buttonAt(at, p.box()) != NoButton {
		p.over = desktop.PointerCursor
	} else if p.Places && p.inPhoto(at) {
		p.over = desktop.CrosshairCursor
	}
}

// MouseOut forgets the pointer.
func (p *Photo) MouseOut() { p.over = desktop.DefaultCursor }
