package touch

import (
	"math"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// hours is a slider from 0 to 100 in steps of 1, with what it told.
func hours(t *testing.T) (*Slider, *[]float64, fyne.Window) {
	t.Helper()
	var told []float64
	s := NewSlider("Time", 0, 100, 1, func(v float64) { told = append(told, v) })
	s.Words = func(v float64) string { return "hour " + strconv.FormatFloat(v, 'f', -1, 64) }
	win := show(t, container.NewVBox(s), 430, 200)
	return s, &told, win
}

// drag draws the finger over a slider in steps of (dx, dy) from x on.
func drag(s *Slider, x float32, steps int, dx, dy float32) {
	for range steps {
		x += dx
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 30)}, Dragged: fyne.NewDelta(dx, dy)})
	}
	s.DragEnd()
}

func TestSliderFitsAFinger(t *testing.T) {
	s, _, _ := hours(t)
	if got := s.MinSize(); got.Height < look.Target || got.Width < look.Target {
		t.Errorf("a slider is %v", got)
	}
	bare := NewSlider("", 0, 1, 0, nil)
	bare.Bare = true
	if got := bare.MinSize().Height; got != look.Target {
		t.Errorf("without words it is %g high", got)
	}
}

func TestSliderGoesWhereItIsTapped(t *testing.T) {
	s, told, _ := hours(t)
	from, to := s.track(s.Size())
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(from+(to-from)*0.42, 30)})
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(-50, 30)})
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(9000, 30)})
	if got := *told; len(got) != 3 || got[0] != 42 || got[1] != 0 || got[2] != 100 {
		t.Errorf("told %v", got)
	}
	if s.Text() != "hour 100" || s.Name() != "Time" {
		t.Errorf("it says %q for %q", s.Text(), s.Name())
	}
}

func TestSliderFollowsTheFinger(t *testing.T) {
	s, told, _ := hours(t)
	from, to := s.track(s.Size())
	drag(s, from, 20, (to-from)/40, 0)
	if s.Value() != 50 {
		t.Errorf("half way it stands at %g", s.Value())
	}
	for i := 1; i < len(*told); i++ {
		if (*told)[i] <= (*told)[i-1] {
			t.Errorf("it went back: %v", *told)
		}
	}
	*told = nil
	s.SetValue(30)
	s.SetValue(math.NaN())
	if len(*told) != 0 || s.Value() != 0 {
		t.Errorf("set from outside it told %v and stands at %g", *told, s.Value())
	}
}

func TestSliderStepsByKey(t *testing.T) {
	s, _, win := hours(t)
	win.Canvas().Focus(s)
	for _, c := range []struct {
		key  fyne.KeyName
		want float64
	}{
		{fyne.KeyRight, 1}, {fyne.KeyUp, 2}, {fyne.KeyPageUp, 12}, {fyne.KeyLeft, 11}, {fyne.KeyDown, 10}, {fyne.KeyPageDown, 0},
		{fyne.KeyLeft, 0}, {fyne.KeyEnd, 100}, {fyne.KeyRight, 100}, {fyne.KeyHome, 0},
	} {
		hit(win, c.key)
		if s.Value() != c.want {
			t.Errorf("after %s it stands at %g, want %g", c.key, s.Value(), c.want)
		}
	}
	s.Keys = 5
	hit(win, fyne.KeyRight)
	if s.Value() != 5 {
		t.Errorf("an arrow key goes to %g, want 5", s.Value())
	}
}

func TestSliderFallsIntoItsNotch(t *testing.T) {
	var told []float64
	s := NewSlider("Room", -8, 8, 0, func(v float64) { told = append(told, v) })
	s.SetHome(0)
	show(t, container.NewVBox(s), 330, 100)
	from, to := s.track(s.Size())
	middle := (from + to) / 2
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(middle+5, 30)})
	if s.Value() != 0 {
		t.Errorf("close to its notch it stands at %g", s.Value())
	}
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(middle+20, 30)})
	if s.Value() <= 0 || len(told) == 0 {
		t.Errorf("away from it it stands at %g", s.Value())
	}
}

func TestSliderKeepsToItsRange(t *testing.T) {
	s := NewSlider("", 0, 10, 3, nil)
	for v, want := range map[float64]float64{-1: 0, 4: 3, 4.6: 6, 9.4: 9, 10: 10, 12: 10} {
		s.SetValue(0)
		s.SetValue(v)
		if s.Value() != want {
			t.Errorf("%g became %g, want %g", v, s.Value(), want)
		}
	}
	s.SetRange(0, 5, 1)
	if s.Value() > 5 {
		t.Errorf("beyond its new end: %g", s.Value())
	}
	s.SetRange(3, 3, 1)
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(10, 10)})
	if s.Value() != 3 {
		t.Errorf("without a range it stands at %g", s.Value())
	}
}

// TestSliderLetsAScrollerScroll: a finger that goes up and down over a slider
// scrolls, one that goes along it moves it and scrolls nothing.
func TestSliderLetsAScrollerScroll(t *testing.T) {
	s := NewSlider("Room", -8, 8, 1, nil)
	tall := container.NewVBox(s)
	for range 40 {
		tall.Add(NewText("a line", Body, Ink))
	}
	scroll := NewScroll(tall)
	show(t, scroll, 300, 200)
	before := s.Value()
	drag(s, 100, 10, 0.5, -8)
	if s.Value() != before || scroll.Offset() < 60 {
		t.Errorf("it moved to %g, and the scroller to %g", s.Value(), scroll.Offset())
	}
	at := scroll.Offset()
	drag(s, 100, 10, 8, 0.5)
	if s.Value() == before || scroll.Offset() != at {
		t.Errorf("it stands at %g, the scroller went from %g to %g", s.Value(), at, scroll.Offset())
	}
}

func TestSliderLinesUp(t *testing.T) {
	s, _, _ := hours(t)
	s.SetTrack(50, 30)
	from, to := s.track(s.Size())
	if from != 50 || to != s.Size().Width-30 {
		t.Errorf("the track runs from %g to %g of %g", from, to, s.Size().Width)
	}
	r := test.WidgetRenderer(s).(*sliderRenderer)
	s.SetValue(100)
	if got := r.thumb.Position().X + thumbRadius; math.Abs(float64(got-to)) > 0.01 {
		t.Errorf("at the end the thumb is at %g, want %g", got, to)
	}
	if r.words.Text != "hour 100" {
		t.Errorf("it says %q", r.words.Text)
	}
}
