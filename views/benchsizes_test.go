package views

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// benchScreens are the sizes of the screens that the bench look is held to, in units:
// the third is one of 1920 × 1080 dots at twice the size.
var benchScreens = []fyne.Size{{Width: 1366, Height: 768}, {Width: 1920, Height: 1080}, {Width: 960, Height: 540}}

// TestBenchSizes holds every step of a pour, and every page of buttons, to its
// sizes on every screen: 20 mm targets 4 mm apart, nothing clipped or on top of
// another, digits of 155 dots where there are 1080 lines of them.
func TestBenchSizes(t *testing.T) {
	onlyDrawn(t)
	for _, size := range benchScreens {
		b, l := benchOn(t, mixingKey, "poppy-stand", size.Width, size.Height)
		check := func(what string) {
			t.Helper()
			checkBench(t, what, l, size)
		}
		check("weighing A")
		typed(l, "420")
		check("a reading")
		hit(b, l, fyne.KeyEscape)
		press(t, b, l, "Back")
		for _, step := range []string{"B", "tint", "mixing", "mixed", "pouring", "waiting"} {
			hit(b, l, fyne.KeySpace)
			check(step)
		}
		press(t, b, l, "Touch it now")
		check("tack test")
		press(t, b, l, "Like tape")
		check("inserts")
		press(t, b, l, "More")
		check("more")
		press(t, b, l, "Temperature")
		typed(l, "21.5")
		check("temperature")
		hit(b, l, fyne.KeyEscape)
		press(t, b, l, "Back")
		press(t, b, l, "More")
		press(t, b, l, "Note")
		check("note")
		press(t, b, l, "Back")
		press(t, b, l, "Lock to wipe")
		check("locked")
		hit(b, l, fyne.KeyEscape)
		press(t, b, l, "Stop")
		check("too hot")
		b.end()
	}
}

// checkBench looks at what the bench look shows.
func checkBench(t *testing.T, what string, l *benchLook, size fyne.Size) {
	t.Helper()
	dots := float32(1) // to a unit
	if size == benchScreens[2] {
		dots = 2
	}
	list := l.buttons()
	for i, g := range list {
		at, s := g.Position(), g.Size()
		if s.Width < look.Glove || s.Height < look.Glove {
			t.Errorf("%s on %v: %q is %v", what, size, g.Label(), s)
		}
		if at.X < look.Apart-1 || at.Y < 0 || at.X+s.Width > size.Width || at.Y+s.Height > size.Height {
			t.Errorf("%s on %v: %q lies outside", what, size, g.Label())
		}
		if words := g.WordSize(); words*dots < 22 || words < look.Body {
			t.Errorf("%s on %v: the words of %q are %v high", what, size, g.Label(), words)
		}
		if words := parts(g)[1].(*touch.Fit); words.Cut() {
			t.Errorf("%s on %v: the words of %q are cut off", what, size, g.Label())
		}
		for _, h := range list[:i] {
			p, q := h.Position(), h.Size()
			apartX := max(at.X-p.X-q.Width, p.X-at.X-s.Width)
			apartY := max(at.Y-p.Y-q.Height, p.Y-at.Y-s.Height)
			if max(apartX, apartY) < look.Apart-0.5 {
				t.Errorf("%s on %v: %q and %q are %v apart", what, size, g.Label(), h.Label(), max(apartX, apartY))
			}
		}
	}
	bottom := float32(0)
	for _, f := range []*touch.Fit{l.told, l.number, l.of, l.next, l.more} {
		if f.Text() == "" || !f.Visible() || l.reads() && f == l.number {
			continue
		}
		if f.Position().Y < bottom-0.5 {
			t.Errorf("%s on %v: %q lies on what is above", what, size, f.Text())
		}
		bottom = f.Position().Y + f.Size().Height
		if f.Cut() {
			t.Errorf("%s on %v: %q is cut off", what, size, f.Text())
		}
	}
	if below := l.below(); len(below) > 0 && below[0].Position().Y < bottom {
		t.Errorf("%s on %v: the words run into the buttons", what, size)
	}
	if l.reads() {
		return
	}
	least := float32(155)
	if size.Height*dots < 1080 {
		least = 110
	}
	if high := float32(digitsHigh(l.number)); high*dots < least {
		t.Errorf("%s on %v: the digits of %q are %v high", what, size, l.number.Text(), high)
	}
	if size.Height*dots < 1080 {
		return
	}
	for _, f := range []*touch.Fit{l.of, l.next, l.more} {
		if !f.Visible() {
			continue
		}
		if line := fyne.MeasureText("Mg", f.TextSize(), fyne.TextStyle{Bold: true}).Height; f.Text() != "" && line*dots < 54 {
			t.Errorf("%s: a line of %q is %v high", what, f.Text(), line)
		}
	}
}

// digitsHigh measures how high a digit of the number is drawn, in pixels: the
// rows of a picture of a 1 of its size that hold ink.
func digitsHigh(number *touch.Fit) int {
	f := touch.NewFit(number.TextSize(), number.TextSize(), 1)
	f.SetInk(color.Black)
	f.SetText("1")
	f.Resize(fyne.NewSize(600, 600))
	c := software.NewCanvas()
	c.SetContent(f)
	c.Resize(fyne.NewSize(600, 600))
	img := c.Capture()
	first, last := -1, -1
	for y := range img.Bounds().Dy() {
		if rowHasInk(img, y) {
			if first < 0 {
				first = y
			}
			last = y
		}
	}
	return last - first + 1
}

func rowHasInk(img image.Image, y int) bool {
	for x := range img.Bounds().Dx() {
		if r, _, _, a := img.At(x, y).RGBA(); a > 0x8000 && r < 0x4000 {
			return true
		}
	}
	return false
}
