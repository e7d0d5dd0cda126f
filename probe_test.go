package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// The flow tests work the real program in real windows. They start this test
// binary again as the program itself, which in that case answers on its
// standard output, for each line on its standard input, what its windows show
// and where, so that the test can put the pointer there.

const asProgram = "MENISCUS_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) == "" {
		os.Exit(m.Run())
	}
	go answer()
	os.Exit(run(os.Args[1:], os.Stderr, os.Stderr))
}

// shown is one thing in a window.
type shown struct {
	Kind       string // "button", "field", "text", "choice", "toggle", "canvas", "select", "scroll"
	Path       string // of a field
	Text       string
	X, Y, W, H float32
	Disabled   bool
	Focused    bool
}

// seen is one window and what is in it.
type seen struct {
	Title  string
	W, H   float32
	Things []shown
}

func answer() {
	in := bufio.NewScanner(os.Stdin)
	for in.Scan() {
		list := []seen{}
		if a := fyne.CurrentApp(); a != nil {
			fyne.DoAndWait(func() {
				for _, w := range a.Driver().AllWindows() {
					size := w.Canvas().Size()
					v := &viewer{focused: w.Canvas().Focused(), size: size}
					if w.Content() != nil {
						v.walk(w.Content(), fyne.NewPos(0, 0), size)
					}
					for _, o := range w.Canvas().Overlays().List() {
						v.walk(o, fyne.NewPos(0, 0), size)
					}
					list = append(list, seen{w.Title(), size.Width, size.Height, v.things})
				}
			})
		}
		line, err := json.Marshal(list)
		if err != nil {
			line = []byte("[]")
		}
		fmt.Println(string(line))
	}
}

// viewer collects what is visible in a window.
type viewer struct {
	focused fyne.Focusable
	size    fyne.Size
	things  []shown
}

// walk visits o, shown only within the clip from lo to hi.
func (v *viewer) walk(o fyne.CanvasObject, lo fyne.Position, hi fyne.Size) {
	if o == nil || !o.Visible() {
		return
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	size := o.Size()
	kind, path, text, disabled := "", "", "", false
	switch w := o.(type) {
	case *touch.Select:
		kind, text, disabled = "select", w.Label, w.Disabled()
	case *touch.Button:
		kind, text, disabled = "button", w.Label, w.Disabled()
	case *touch.Field:
		kind, path, text = "field", w.Path(), w.Text()
	case *touch.TextField:
		kind, path, text = "field", w.Path(), w.Text()
	case *touch.Choice:
		kind, text = "choice", w.Chosen()
	case *touch.Text:
		kind, text = "text", w.Text()
	case *drawing.Canvas:
		kind = "canvas"
	case *touch.Scroll:
		kind = "scroll"
		clip := fyne.NewSize(min(hi.Width, at.X+size.Width), min(hi.Height, at.Y+size.Height))
		lo, hi = fyne.NewPos(max(lo.X, at.X), max(lo.Y, at.Y)), clip
	case *container.Scroll:
		clip := fyne.NewSize(min(hi.Width, at.X+size.Width), min(hi.Height, at.Y+size.Height))
		lo, hi = fyne.NewPos(max(lo.X, at.X), max(lo.Y, at.Y)), clip
	}
	middle := fyne.NewPos(at.X+size.Width/2, at.Y+size.Height/2)
	if kind != "" && middle.X >= lo.X && middle.Y >= lo.Y && middle.X <= hi.Width && middle.Y <= hi.Height {
		f, _ := o.(fyne.Focusable)
		v.things = append(v.things, shown{kind, path, text, at.X, at.Y, size.Width, size.Height, disabled, f != nil && f == v.focused})
	}
	if kind == "button" || kind == "select" || kind == "text" {
		return
	}
	switch w := o.(type) {
	case *fyne.Container:
		for _, child := range w.Objects {
			v.walk(child, lo, hi)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(w).Objects() {
			v.walk(child, lo, hi)
		}
	}
}
