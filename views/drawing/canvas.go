package drawing

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/model/unit"
)

// Canvas is a widget that shows a scene and turns what fingers, mouse and keys
// do to it into calls in the model's quantities. While something is dragged
// the calls come with all the movement since it was taken hold of and with
// done false; the last one has done true. It belongs to the UI's goroutine.
type Canvas struct {
	widget.BaseWidget

	OnSelect    func(id string)
	OnMovePiece func(id string, dx, dy unit.Length, done bool)
	OnTurnPiece func(id string, by unit.Angle, done bool)
	OnDragLevel func(layerID string, level unit.Length, done bool)
	OnCut       func(x unit.Length, done bool)
	// OnSpareDrag takes drags on empty ground of a drawing that is shown whole,
	// so that the scroller around it can follow the finger.
	OnSpareDrag func(dx, dy float32)
	// Grain is what dragged lengths snap to; 0 is a millimetre.
	Grain unit.Length
	// ShiftTurns makes arrow keys move by the grain, and with Shift turn by half
	// a degree.
	ShiftTurns bool

	fonts   *Fonts
	scene   Scene
	style   Style
	zoom    float64
	pan     Pt
	raster  *canvas.Raster
	base    *Image // the scene
	frame   *Image // with what is under way over it
	stale   bool   // base must be drawn anew
	grip    grip
	focused bool
	shift   bool
	over    desktop.Cursor
}

var (
	_ fyne.Draggable     = (*Canvas)(nil)
	_ fyne.Tappable      = (*Canvas)(nil)
	_ fyne.Focusable     = (*Canvas)(nil)
	_ fyne.Scrollable    = (*Canvas)(nil)
	_ desktop.Mouseable  = (*Canvas)(nil)
	_ desktop.Keyable    = (*Canvas)(nil)
	_ desktop.Cursorable = (*Canvas)(nil)
	_ desktop.Hoverable  = (*Canvas)(nil)
)

// NewCanvas makes a canvas for a scene dressed in a style; the scene's own
// style should be the same.
func NewCanvas(fonts *Fonts, scene Scene, style Style) *Canvas {
	c := &Canvas{fonts: fonts, scene: scene, style: style, zoom: 1, stale: true, over: desktop.DefaultCursor}
	c.raster = canvas.NewRaster(c.render)
	c.ExtendBaseWidget(c)
	return c
}

// SetScene shows another scene, such as the next plan. Where the finger holds
// something it keeps hold of it.
func (c *Canvas) SetScene(scene Scene, style Style) {
	c.scene, c.style = scene, style
	c.redraw()
}

// SetOver shows another scene whose ground is the same: only what is drawn over
// it is drawn anew, unless it now needs another view.
func (c *Canvas) SetOver(scene Overlaid) {
	before := c.view()
	c.scene = scene
	c.stale = c.stale || c.view() != before
	c.raster.Refresh()
}

// Scene gives what is shown.
func (c *Canvas) Scene() Scene { return c.scene }

// Select marks another thing without calling OnSelect.
func (c *Canvas) Select(id string) {
	if c.scene.Selected() != id {
		c.scene = c.scene.Select(id)
		c.redraw()
	}
}

// MinSize is the least at which a drawing with its handles can be used.
func (c *Canvas) MinSize() fyne.Size {
	c.ExtendBaseWidget(c)
	return fyne.NewSize(260, 200)
}

// CreateRenderer makes the one raster that shows the canvas.
func (c *Canvas) CreateRenderer() fyne.WidgetRenderer {
	return &rasterRenderer{c.raster, func() { c.base, c.frame, c.stale = nil, nil, true }}
}

// redraw draws the scene anew at the next frame.
func (c *Canvas) redraw() {
	c.stale = true
	c.raster.Refresh()
}

// render gives the image for a raster of w by h pixels.
func (c *Canvas) render(w, h int) image.Image {
	size := c.Size()
	if w < 1 || h < 1 || size.Width < 1 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if c.base == nil || c.base.RGBA.Rect.Dx() != w || c.base.RGBA.Rect.Dy() != h {
		scale := float64(w) / float64(size.Width)
		c.base, c.frame = NewImage(w, h, scale, c.fonts), NewImage(w, h, scale, c.fonts)
		c.stale = true
	}
	if c.stale {
		c.base.Clear(c.style.Palette.Ground)
		c.scene.Paint(c.base, c.view())
		c.stale = false
	}
	c.frame.CopyOf(c.base)
	d := newDrafter(c.frame, c.style)
	if o, ok := c.scene.(Overlaid); ok {
		if c.grip.live {
			o.Over(c.frame, c.grip.view, c.grip.change)
		} else {
			o.Over(c.frame, c.view(), Change{})
		}
	} else if c.grip.live {
		c.grip.scene.Preview(c.frame, c.grip.view, c.grip.change)
	}
	paintButtons(d)
	if c.focused {
		d.line("focus", 2, c.style.Palette.Accent, nil, Path{Points: c.frame.Bounds().Grown(-1).Ring(), Closed: true})
	}
	return c.frame.RGBA
}

// box gives the canvas in dp.
func (c *Canvas) box() Box {
	s := c.Size()
	return Box{Max: Pt{float64(s.Width), float64(s.Height)}}
}

// view gives the view that is shown now. It stands still while something is
// held.
func (c *Canvas) view() View {
	if c.grip.held && c.grip.handle.Kind != None {
		return c.grip.view
	}
	box := c.box()
	return c.scene.Fit(box).About(box.Centre(), c.zoom).Shifted(c.pan.X, c.pan.Y)
}

const maxZoom = 40

// zoomAbout enlarges the drawing k times around a place.
func (c *Canvas) zoomAbout(p Pt, k float64) {
	k = min(max(c.zoom*k, 1), maxZoom) / c.zoom
	if k == 1 || c.grip.live {
		return
	}
	want := c.view().About(p, k)
	c.zoom *= k
	box := c.box()
	fit := c.scene.Fit(box).About(box.Centre(), c.zoom)
	c.panTo(Pt{want.Origin.X - fit.Origin.X, want.Origin.Y - fit.Origin.Y})
}

// panTo moves the drawing, but not out of sight.
func (c *Canvas) panTo(p Pt) {
	box := c.box()
	x, y := (c.zoom-1)*box.W()/2, (c.zoom-1)*box.H()/2
	c.pan = Pt{min(max(p.X, -x), x), min(max(p.Y, -y), y)}
	c.redraw()
}

// ShowWhole shows the whole of the scene.
func (c *Canvas) ShowWhole() {
	c.zoom, c.pan = 1, Pt{}
	c.redraw()
}

// press does what a button says.
func (c *Canvas) press(b Button) {
	const step = 1.5
	switch b {
	case Closer:
		c.zoomAbout(c.box().Centre(), step)
	case Farther:
		c.zoomAbout(c.box().Centre(), 1/step)
	case Whole:
		c.ShowWhole()
	}
}

// snap gives the multiple of the grain nearest to a length in metres.
func (c *Canvas) snap(metres float64) unit.Length {
	g := float64(c.grain())
	return unit.Length(math.Round(metres/g) * g)
}

func (c *Canvas) grain() unit.Length {
	if c.Grain > 0 {
		return c.Grain
	}
	return unit.Millimetre
}
