package touch

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Slider is a value between two ends that a finger draws along a track: its name
// and the value in words stand above. A tap anywhere on the track goes there;
// a drag that begins upright scrolls what the slider stands in. Left and Right
// step by keyboard, Page Up and Page Down by ten steps, Home and End go to the
// ends.
type Slider struct {
	control
	OnChange func(value float64) // told of every change by finger or key
	// Words writes the value; without it there are no words.
	Words func(value float64) string
	// Bare leaves the words to something else that shows them.
	Bare bool
	// Keys is how far an arrow key goes; 0 for a step.
	Keys float64

	name         string
	low, high    float64
	step         float64
	value        float64
	home         float64 // has a notch that the finger falls into; NaN for none
	ahead, after float32 // room that the track keeps free at its ends, where given
	inset        bool

	moved  fyne.Delta // since the drag began
	drag   slide
	thumb  bool // the finger draws the thumb
	render *sliderRenderer
}

// slide is what a drag that began on a slider does.
type slide int

const (
	undecided slide = iota
	slides
	scrolls
)

var (
	_ fyne.Tappable     = (*Slider)(nil)
	_ fyne.Focusable    = (*Slider)(nil)
	_ fyne.Draggable    = (*Slider)(nil)
	_ desktop.Mouseable = (*Slider)(nil)
	_ pressable         = (*Slider)(nil)
	_ scrolled          = (*Slider)(nil)
)

// NewSlider makes a slider from low to high in steps; a step of 0 goes
// anywhere. It begins at low and has no notch.
func NewSlider(name string, low, high, step float64, change func(value float64)) *Slider {
	s := &Slider{name: name, low: low, high: high, step: step, value: low, home: math.NaN(), OnChange: change}
	s.extend(s)
	return s
}

// Value is where the slider stands.
func (s *Slider) Value() float64 { return s.value }

// SetValue moves the slider without telling of it.
func (s *Slider) SetValue(v float64) {
	if v = s.held(v); v != s.value {
		s.value = v
		s.redraw()
	}
}

// SetRange changes the ends and the step; the value stays where it can.
func (s *Slider) SetRange(low, high, step float64) {
	if low == s.low && high == s.high && step == s.step {
		return
	}
	s.low, s.high, s.step = low, high, step
	s.value = s.held(s.value)
	s.Refresh()
}

// SetHome makes a notch at a value, where the slider is at rest.
func (s *Slider) SetHome(v float64) {
	s.home = v
	s.Refresh()
}

// SetTrack keeps room free at the ends of the track, so that it lines up with
// something above or below.
func (s *Slider) SetTrack(ahead, after float32) {
	if s.inset && s.ahead == ahead && s.after == after {
		return
	}
	s.inset, s.ahead, s.after = true, ahead, after
	s.Refresh()
}

// Name is what the slider is for.
func (s *Slider) Name() string { return s.name }

// Text is the value in words.
func (s *Slider) Text() string {
	if s.Words == nil {
		return ""
	}
	return s.Words(s.value)
}

// held gives the value nearest to v that the slider can stand at.
func (s *Slider) held(v float64) float64 {
	if math.IsNaN(v) || !(s.high > s.low) {
		return s.low
	}
	v = min(max(v, s.low), s.high)
	if s.step > 0 && v != s.high {
		v = min(s.low+math.Round((v-s.low)/s.step)*s.step, s.high)
	}
	return v
}

// move moves the slider and tells of it.
func (s *Slider) move(v float64) {
	if v = s.held(v); v == s.value {
		return
	}
	s.value = v
	s.redraw()
	if s.OnChange != nil {
		s.OnChange(v)
	}
}

// goAt moves the slider to a place along its track; close to the notch it falls
// in.
func (s *Slider) goAt(x float32) {
	from, to := s.track(s.Size())
	if to <= from {
		return
	}
	v := s.low + (s.high-s.low)*float64((x-from)/(to-from))
	const notch = 7 // how near the finger falls in
	if !math.IsNaN(s.home) && math.Abs(float64(x-s.place(s.home))) < notch {
		v = s.home
	}
	s.move(v)
}

// track gives where the track begins and ends in a size.
func (s *Slider) track(size fyne.Size) (from, to float32) {
	if s.inset {
		return s.ahead, size.Width - s.after
	}
	return thumbRadius + 2, size.Width - thumbRadius - 2
}

// place is where a value is along the track.
func (s *Slider) place(v float64) float32 {
	from, to := s.track(s.Size())
	if !(s.high > s.low) {
		return from
	}
	return from + (to-from)*float32((v-s.low)/(s.high-s.low))
}

// Tapped goes to the place of the tap.
func (s *Slider) Tapped(ev *fyne.PointEvent) {
	pressed = press{}
	s.take()
	s.goAt(ev.Position.X)
}

// Dragged draws the thumb along, or scrolls where the drag began upright.
func (s *Slider) Dragged(ev *fyne.DragEvent) {
	pressed = press{}
	s.moved.DX += ev.Dragged.DX
	s.moved.DY += ev.Dragged.DY
	if s.drag == undecided {
		const least = 4
		if length(s.moved) < least {
			return
		}
		s.drag = slides
		if s.scroll != nil && math.Abs(float64(s.moved.DY)) > 1.5*math.Abs(float64(s.moved.DX)) {
			s.drag = scrolls
			s.letGo()
		} else {
			s.take()
			s.set(&s.thumb, true)
		}
	}
	if s.drag == scrolls {
		s.scroll.SetOffset(s.scroll.Offset() - ev.Dragged.DY)
		return
	}
	s.goAt(ev.Position.X)
}

// DragEnd lets the thumb go.
func (s *Slider) DragEnd() {
	s.moved, s.drag = fyne.Delta{}, undecided
	s.set(&s.thumb, false)
	s.letGo()
}

// TypedKey steps the slider.
func (s *Slider) TypedKey(ev *fyne.KeyEvent) {
	step := max(s.step, s.Keys)
	if step <= 0 {
		step = (s.high - s.low) / 100
	}
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(s, ev)
	case fyne.KeyLeft, fyne.KeyDown:
		s.move(s.value - step)
	case fyne.KeyRight, fyne.KeyUp:
		s.move(s.value + step)
	case fyne.KeyPageDown:
		s.move(s.value - 10*step)
	case fyne.KeyPageUp:
		s.move(s.value + 10*step)
	case fyne.KeyHome:
		s.move(s.low)
	case fyne.KeyEnd:
		s.move(s.high)
	}
}

// redraw moves what is drawn, without laying anything else out.
func (s *Slider) redraw() {
	if s.render != nil {
		s.render.move()
	}
}
