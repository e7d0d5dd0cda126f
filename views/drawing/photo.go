package drawing

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/model/shape"
)

// PhotoWork tells what a finger does to a photo.
type PhotoWork uint8

// What can be done. A drag on empty ground moves the photo in all of them.
const (
	TouchInside PhotoWork = iota // a tap tells a place; nothing is taken hold of
	WorkMarks                    // marks are placed and moved
	WorkPoints                   // the points of the chosen outline are placed and moved
	PushEdge                     // an outline near the finger is pushed
)

// Photo is a widget that shows a photo with the marks and outlines that are
// traced in it, and turns what fingers, mouse and keys do into calls in the
// photo's pixels. What is held moves by the finger's movement and never jumps
// to it, so that no finger need cover it; a loupe shows the exact place. It
// belongs to the UI's goroutine.
type Photo struct {
	widget.BaseWidget

	// OnPlace is told of a tap on empty ground.
	OnPlace func(at shape.Point)
	// OnChoose is told of a mark, a point or an outline that was touched; of the
	// zero Spot when nothing is chosen any more.
	OnChoose func(Spot)
	// OnMove is told how far a mark or a point has moved since it was taken hold
	// of; the last call has done true.
	OnMove func(s Spot, by shape.Point, done bool)
	// OnInsert is told of a tap on the chosen outline between point after and the
	// next.
	OnInsert func(ring string, after int, at shape.Point)
	// OnRemove is told of a mark or point that is to go.
	OnRemove func(Spot)
	// OnPush is told of each movement of the finger that pushes an outline, with
	// the finger's radius in pixels; after the last comes OnPushed.
	OnPush   func(ring string, from, to shape.Point, radius float64)
	OnPushed func()
	// Places tells that a tap on empty ground means something now, so that a
	// press there shows the loupe.
	Places bool

	fonts   *Fonts
	palette Palette
	levels  Levels
	scene   PhotoScene
	work    PhotoWork
	zoom    float64
	pan     Pt
	raster  *canvas.Raster
	base    *Image // the photo
	frame   *Image // with what is traced over it
	loupe   *Image
	stale   bool // base must be drawn anew
	grip    photoGrip
	cursor  photoCursor
	focused bool
	shift   bool
	over    desktop.Cursor
}

var (
	_ fyne.Draggable     = (*Photo)(nil)
	_ fyne.Tappable      = (*Photo)(nil)
	_ fyne.Focusable     = (*Photo)(nil)
	_ fyne.Tabbable      = (*Photo)(nil)
	_ fyne.Scrollable    = (*Photo)(nil)
	_ desktop.Mouseable  = (*Photo)(nil)
	_ desktop.Keyable    = (*Photo)(nil)
	_ desktop.Cursorable = (*Photo)(nil)
	_ desktop.Hoverable  = (*Photo)(nil)
)

// NewPhoto makes a surface without a photo.
func NewPhoto(fonts *Fonts, palette Palette) *Photo {
	p := &Photo{fonts: fonts, palette: palette, zoom: 1, stale: true, over: desktop.DefaultCursor}
	p.raster = canvas.NewRaster(p.render)
	p.ExtendBaseWidget(p)
	return p
}

// SetPhoto shows another photo, whole; nil for none.
func (p *Photo) SetPhoto(levels Levels) {
	p.levels, p.grip, p.cursor = levels, photoGrip{}, photoCursor{}
	p.ShowWhole()
}

// SetScene shows what is traced now. What the finger holds stays in its hold.
func (p *Photo) SetScene(scene PhotoScene, palette Palette) {
	p.stale = p.stale || p.palette != palette || p.scene.Wide != scene.Wide || p.scene.High != scene.High
	p.scene, p.palette = scene, palette
	p.raster.Refresh()
}

// Scene gives what is traced.
func (p *Photo) Scene() PhotoScene { return p.scene }

// SetWork changes what a finger does.
func (p *Photo) SetWork(work PhotoWork) {
	if p.work != work {
		p.work, p.grip, p.cursor = work, photoGrip{}, photoCursor{}
		p.raster.Refresh()
	}
}

// Choose makes a mark, a point or an outline the chosen one without telling of
// it.
func (p *Photo) Choose(s Spot) {
	if p.scene.Chosen != s {
		p.scene.Chosen = s
		p.raster.Refresh()
	}
}

// MinSize is the least at which a photo can be worked in.
func (p *Photo) MinSize() fyne.Size {
	p.ExtendBaseWidget(p)
	return fyne.NewSize(260, 200)
}

// CreateRenderer makes the one raster that shows the photo.
func (p *Photo) CreateRenderer() fyne.WidgetRenderer {
	return &rasterRenderer{p.raster, func() { p.base, p.frame, p.loupe, p.stale = nil, nil, nil, true }}
}

// render gives the image for a raster of w by h pixels. The photo itself is
// drawn only when it has moved.
func (p *Photo) render(w, h int) image.Image {
	size := p.Size()
	if w < 1 || h < 1 || size.Width < 1 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if p.base == nil || p.base.RGBA.Rect.Dx() != w || p.base.RGBA.Rect.Dy() != h {
		scale := float64(w) / float64(size.Width)
		p.base, p.frame = NewImage(w, h, scale, p.fonts), NewImage(w, h, scale, p.fonts)
		p.loupe, p.stale = NewImage(int(2*loupeRadius*scale), int(2*loupeRadius*scale), scale, p.fonts), true
	}
	if p.stale {
		p.paintPhoto(p.base, p.view())
		p.stale = false
	}
	p.frame.CopyOf(p.base)
	p.paint(p.frame)
	return p.frame.RGBA
}

// paint draws what is traced, what is under way, and the buttons.
func (p *Photo) paint(on *Image) {
	v := p.view()
	d := newDrafter(on, Style{Palette: p.palette})
	p.scene.paint(d, v, p.traced())
	if p.grip.brush {
		d.twoLines("finger", 1.5, chalk, nil, Loop(circle(p.grip.at, brushRadius, 48)...))
	}
	if p.cursor.shown {
		p.paintCursor(d, v)
	}
	paintButtons(d)
	if at, ok := p.magnified(); ok {
		p.paintLoupe(on, v, at)
	}
	if p.focused {
		d.line("focus", 2, p.palette.Accent, nil, Path{Points: on.Bounds().Grown(-1).Ring(), Closed: true})
	}
}

// traced tells how what is traced is shown: with what the finger holds where
// the finger has brought it.
func (p *Photo) traced() photoShown {
	how := photoShown{points: p.work == WorkPoints, marks: p.work == WorkMarks}
	if g := &p.grip; g.live && g.spot != (Spot{}) {
		how.held, how.at = g.spot, g.place()
	}
	return how
}

// box gives the widget in dp.
func (p *Photo) box() Box {
	s := p.Size()
	return Box{Max: Pt{float64(s.Width), float64(s.Height)}}
}

// view gives the view that is shown now.
func (p *Photo) view() photoView {
	box := p.box()
	return fitPhoto(p.scene.Wide, p.scene.High, box).about(box.Centre(), p.zoom).shifted(p.pan)
}

// View gives how many dp a pixel of the photo takes, and where its upper left
// corner is.
func (p *Photo) View() (scale float64, corner Pt) {
	v := p.view()
	return v.k, v.o
}

// closest is how large a pixel of the photo is shown at most, in dp.
const closest = 12

// zoomAbout enlarges the photo k times around a place.
func (p *Photo) zoomAbout(at Pt, k float64) {
	box := p.box()
	fit := fitPhoto(p.scene.Wide, p.scene.High, box)
	k = min(max(p.zoom*k, 1), max(closest/fit.k, 1)) / p.zoom
	if k == 1 || p.grip.live {
		return
	}
	want := p.view().about(at, k)
	p.zoom *= k
	now := fit.about(box.Centre(), p.zoom)
	p.panTo(Pt{want.o.X - now.o.X, want.o.Y - now.o.Y})
}

// panTo moves the photo, but not out of sight.
func (p *Photo) panTo(to Pt) {
	box := p.box()
	x, y := (p.zoom-1)*box.W()/2, (p.zoom-1)*box.H()/2
	p.pan = Pt{min(max(to.X, -x), x), min(max(to.Y, -y), y)}
	p.stale = true
	p.raster.Refresh()
}

// ShowWhole shows the whole photo.
func (p *Photo) ShowWhole() {
	p.zoom, p.pan, p.stale = 1, Pt{}, true
	p.raster.Refresh()
}

// ShowPlace brings a place of the photo into sight.
func (p *Photo) ShowPlace(at shape.Point) {
	const edge = 60
	q := p.view().toScreen(at)
	box := p.box().Grown(-edge)
	if box.W() <= 0 || box.H() <= 0 || box.Contains(q) {
		return
	}
	to := Pt{min(max(q.X, box.Min.X), box.Max.X), min(max(q.Y, box.Min.Y), box.Max.Y)}
	p.panTo(p.pan.Add(to.X-q.X, to.Y-q.Y))
}

// press does what a button says.
func (p *Photo) press(b Button) {
	const step = 1.6
	switch b {
	case Closer:
		p.zoomAbout(p.middle(), step)
	case Farther:
		p.zoomAbout(p.middle(), 1/step)
	case Whole:
		p.ShowWhole()
	}
}

// middle is what a button enlarges around and where the keys begin: the chosen
// mark or point where it is in sight, else the middle.
func (p *Photo) middle() Pt {
	if at, ok := p.scene.place(p.scene.Chosen); ok {
		if q := p.view().toScreen(at); p.box().Contains(q) {
			return q
		}
	}
	return p.box().Centre()
}
