package touch

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"meniscus/views/look"
)

// The sizes of a slider.
const (
	thumbRadius float32 = 13
	trackHigh   float32 = 5
)

// CreateRenderer is used by the toolkit.
func (s *Slider) CreateRenderer() fyne.WidgetRenderer {
	r := &sliderRenderer{
		slider: s,
		name:   canvas.NewText("", color.Transparent),
		words:  canvas.NewText("", color.Transparent),
		track:  canvas.NewRectangle(color.Transparent),
		filled: canvas.NewRectangle(color.Transparent),
		notch:  canvas.NewRectangle(color.Transparent),
		thumb:  canvas.NewCircle(color.Transparent),
		ring:   newRing(),
	}
	r.words.Alignment = fyne.TextAlignTrailing
	r.words.TextStyle.Bold = true
	r.track.CornerRadius, r.filled.CornerRadius = trackHigh/2, trackHigh/2
	r.thumb.StrokeWidth = 2.5
	s.render = r
	r.style()
	return r
}

type sliderRenderer struct {
	slider        *Slider
	name, words   *canvas.Text
	track, filled *canvas.Rectangle
	notch         *canvas.Rectangle // where the slider is at rest
	thumb         *canvas.Circle
	ring          *canvas.Rectangle
	size          fyne.Size
}

// style takes the colours from the palette, and the words.
func (r *sliderRenderer) style() {
	s, p := r.slider, look.Current()
	r.name.Text, r.name.TextSize, r.name.Color = s.name, look.Small, p.Faint
	r.words.Text, r.words.TextSize, r.words.Color = s.Text(), look.Body, p.Ink
	r.track.FillColor, r.filled.FillColor, r.notch.FillColor = p.Line, p.Accent, p.Ink
	r.thumb.FillColor, r.thumb.StrokeColor = p.Panel, p.Accent
	if s.thumb || s.down {
		r.thumb.FillColor = p.Accent
	}
	r.name.Hidden, r.words.Hidden = s.Bare, s.Bare
	r.notch.Hidden = math.IsNaN(s.home)
	showRing(r.ring, s.focused)
}

// head is the height of the words above the track.
func (r *sliderRenderer) head() float32 {
	if r.slider.Bare {
		return 0
	}
	return fyne.MeasureText("Mg", look.Body, fyne.TextStyle{Bold: true}).Height
}

func (r *sliderRenderer) Layout(size fyne.Size) {
	r.size = size
	s, head := r.slider, r.head()
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))
	r.name.Move(fyne.NewPos(0, (head-r.name.MinSize().Height)/2))
	r.name.Resize(fyne.NewSize(size.Width, r.name.MinSize().Height))
	r.words.Move(fyne.Position{})
	r.words.Resize(fyne.NewSize(size.Width, head))
	from, to := s.track(size)
	y := r.middle()
	r.track.Move(fyne.NewPos(from, y-trackHigh/2))
	r.track.Resize(fyne.NewSize(max(0, to-from), trackHigh))
	r.notch.Resize(fyne.NewSize(2, 18))
	r.thumb.Resize(fyne.NewSquareSize(2 * thumbRadius))
	r.place()
}

// middle is how far down the track runs: the target below the words is as high
// as a finger needs.
func (r *sliderRenderer) middle() float32 {
	head := r.head()
	return head + (r.size.Height-head)/2
}

// place sets the thumb, the filled part of the track and the notch.
func (r *sliderRenderer) place() {
	s, y := r.slider, r.middle()
	from, _ := s.track(r.size)
	x, home := s.place(s.value), from
	if !math.IsNaN(s.home) {
		home = s.place(s.home)
		r.notch.Move(fyne.NewPos(home-1, y-9))
	}
	r.filled.Move(fyne.NewPos(min(home, x), y-trackHigh/2))
	r.filled.Resize(fyne.NewSize(max(home, x)-min(home, x), trackHigh))
	r.thumb.Move(fyne.NewPos(x-thumbRadius, y-thumbRadius))
}

// move draws the value anew and nothing else.
func (r *sliderRenderer) move() {
	if words := r.slider.Text(); words != r.words.Text {
		r.words.Text = words
		r.words.Refresh()
	}
	r.place()
}

// MinSize leaves room for the name and the words beside each other.
func (r *sliderRenderer) MinSize() fyne.Size {
	if r.slider.Bare {
		return fyne.NewSize(120, r.head()+look.Target)
	}
	words := look.Width(r.words.Text, look.Body, fyne.TextStyle{Bold: true})
	name := look.Width(r.slider.name, look.Small, fyne.TextStyle{})
	return fyne.NewSize(max(120, name+look.Gap+words), r.head()+look.Target)
}

func (r *sliderRenderer) Refresh() {
	r.style()
	r.Layout(r.slider.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *sliderRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.name, r.words, r.track, r.filled, r.notch, r.thumb, r.ring}
}

func (r *sliderRenderer) Destroy() {}
