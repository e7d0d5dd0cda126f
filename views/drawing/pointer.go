package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model/unit"
)

// How far a finger may stray before a tap is a drag, in dp: little on a
// handle, which has no use for taps, more elsewhere.
const (
	slop       = 14.0
	handleSlop = 6.0
	reachOf    = 24.0 // of a finger for a handle
)

// grip is what a pointer is doing.
type grip struct {
	pressed bool // a button is down at from
	held    bool // it is moving
	live    bool // it has left the slop: things follow it
	spare   bool // it is on empty ground
	from    Pt
	moved   Pt
	handle  Handle
	slop    float64
	scene   Scene // as it was taken hold of
	view    View
	change  Change
	pan     Pt
}

// MouseDown remembers where a press began.
func (c *Canvas) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button == desktop.MouseButtonPrimary {
		c.grip = grip{pressed: true, from: ptOf(ev.Position)}
		c.focus()
	}
}

// MouseUp ends a press that did not move.
func (c *Canvas) MouseUp(*desktop.MouseEvent) {
	if !c.grip.held {
		c.grip = grip{}
	}
}

// Tapped presses a button or selects what is below.
func (c *Canvas) Tapped(ev *fyne.PointEvent) {
	c.grip = grip{}
	c.focus()
	c.tap(ptOf(ev.Position))
}

func (c *Canvas) tap(p Pt) {
	if b := buttonAt(p, c.box()); b != NoButton {
		c.press(b)
		return
	}
	id := ""
	if h, ok := Nearest(c.scene.Handles(c.box(), c.view()), p, reachOf); ok {
		if id = h.ID; id == "" {
			return
		}
	} else {
		id = c.scene.Hit(p, c.view())
	}
	c.pick(id)
}

// pick selects a thing and says so.
func (c *Canvas) pick(id string) {
	if c.scene.Selected() == id {
		return
	}
	c.Select(id)
	if c.OnSelect != nil {
		c.OnSelect(id)
	}
}

// Dragged moves what was taken hold of. The movements are added up, for a
// driver may tell the place before or after each.
func (c *Canvas) Dragged(ev *fyne.DragEvent) {
	g := &c.grip
	if !g.held {
		if !g.pressed {
			*g = grip{from: ptOf(ev.Position)}
		}
		c.take()
	}
	before := g.moved
	g.moved = g.moved.Add(float64(ev.Dragged.DX), float64(ev.Dragged.DY))
	if g.spare {
		if c.OnSpareDrag != nil {
			c.OnSpareDrag(ev.Dragged.DX, ev.Dragged.DY)
		}
		return
	}
	if !g.live {
		if math.Hypot(g.moved.X, g.moved.Y) < g.slop {
			return
		}
		g.live = true
		if g.handle.Kind == None {
			g.pan = Pt{c.pan.X - before.X, c.pan.Y - before.Y}
		} else if g.handle.Kind == MovePiece || g.handle.Kind == DragLevel {
			c.pick(g.handle.ID)
		}
	}
	c.follow(false)
}

// DragEnd lets go. A drag that stayed within the slop was a tap.
func (c *Canvas) DragEnd() {
	g := c.grip
	if !g.held {
		return
	}
	if g.live {
		c.follow(true)
	}
	c.grip = grip{}
	if !g.live && math.Hypot(g.moved.X, g.moved.Y) < slop {
		c.tap(g.from)
		return
	}
	c.redraw()
}

// take finds what is held where the press began: a handle, a piece, or the
// drawing as a whole.
func (c *Canvas) take() {
	g := &c.grip
	g.view, g.scene, g.slop = c.view(), c.scene, slop
	g.held = true
	box := c.box()
	if buttonAt(g.from, box) != NoButton {
		g.slop = math.Inf(1)
		return
	}
	if h, ok := Nearest(c.scene.Handles(box, g.view), g.from, reachOf); ok {
		g.handle, g.slop = h, handleSlop
		return
	}
	if id := c.scene.Hit(g.from, g.view); id != "" {
		scene := c.scene.Select(id)
		for _, h := range scene.Handles(box, g.view) {
			if h.Kind == MovePiece && h.ID == id {
				g.handle, g.scene = h, scene
				return
			}
		}
	}
	g.spare = c.zoom == 1
}

// follow carries out the movement so far.
func (c *Canvas) follow(done bool) {
	g := &c.grip
	if g.handle.Kind == None {
		c.panTo(g.pan.Add(g.moved.X, g.moved.Y))
		return
	}
	ch := c.changeOf(g)
	if ch == g.change && !done {
		return
	}
	g.change = ch
	c.tell(ch, done)
	c.raster.Refresh()
}

// changeOf gives what the movement of a grip means.
func (c *Canvas) changeOf(g *grip) Change {
	h := g.handle
	ch := Change{Kind: h.Kind, ID: h.ID}
	dx, dy := g.moved.X/g.view.X, -g.moved.Y/g.view.Y
	switch h.Kind {
	case MovePiece:
		ch.DX, ch.DY = c.snap(dx), c.snap(dy)
	case TurnPiece:
		const step = turnStep
		to := h.At.Add(g.moved.X, g.moved.Y)
		by := math.Atan2(h.At.Y-h.Pivot.Y, h.At.X-h.Pivot.X) - math.Atan2(to.Y-h.Pivot.Y, to.X-h.Pivot.X)
		by = math.Remainder(by, 2*math.Pi)
		ch.By = unit.Angle(math.Round(by/float64(step))) * step
	case DragLevel:
		ch.To = c.bounded(h, h.Value+dy)
	case DragCut:
		ch.To = c.bounded(h, h.Value+dx)
	}
	return ch
}

// bounded gives a handle's new value on the grain and within its bounds.
func (c *Canvas) bounded(h Handle, metres float64) unit.Length {
	return min(max(c.snap(metres), unit.Length(h.Low)), unit.Length(h.High))
}

// tell hands a change to whom it concerns.
func (c *Canvas) tell(ch Change, done bool) {
	switch {
	case ch.Kind == MovePiece && c.OnMovePiece != nil:
		c.OnMovePiece(ch.ID, ch.DX, ch.DY, done)
	case ch.Kind == TurnPiece && c.OnTurnPiece != nil:
		c.OnTurnPiece(ch.ID, ch.By, done)
	case ch.Kind == DragLevel && c.OnDragLevel != nil:
		c.OnDragLevel(ch.ID, ch.To, done)
	case ch.Kind == DragCut && c.OnCut != nil:
		c.OnCut(ch.To, done)
	}
}

// Scrolled zooms with the wheel.
func (c *Canvas) Scrolled(ev *fyne.ScrollEvent) {
	c.zoomAbout(ptOf(ev.Position), wheelZoom(ev))
}

// wheelZoom is by how much a turn of the wheel enlarges: twice at the most.
func wheelZoom(ev *fyne.ScrollEvent) float64 {
	return min(max(math.Exp(float64(ev.Scrolled.DY)*0.012), 0.5), 2)
}

// Cursor shows a hand over what can be taken hold of.
func (c *Canvas) Cursor() desktop.Cursor { return c.over }

// MouseIn notes the pointer.
func (c *Canvas) MouseIn(ev *desktop.MouseEvent) { c.MouseMoved(ev) }

// MouseMoved notes whether the pointer is over something to act on.
func (c *Canvas) MouseMoved(ev *desktop.MouseEvent) {
	p := ptOf(ev.Position)
	c.over = desktop.DefaultCursor
	_, ok := Nearest(c.scene.Handles(c.box(), c.view()), p, reachOf)
	if ok || buttonAt(p, c.box()) != NoButton || c.scene.Hit(p, c.view()) != "" {
		c.over = desktop.PointerCursor
	}
}

// MouseOut forgets the pointer.
func (c *Canvas) MouseOut() { c.over = desktop.DefaultCursor }

func ptOf(p fyne.Position) Pt { return Pt{float64(p.X), float64(p.Y)} }
