package touch

import (
	"image/color"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

func TestWindowsOpenOnce(t *testing.T) {
	ws := NewWindows(test.NewTempApp(t))
	built := 0
	build := func(fyne.Window) fyne.CanvasObject {
		built++
		return NewText("Cure", Body, Ink)
	}
	first := ws.Show("cure", "Cure", fyne.NewSize(300, 200), build)
	second := ws.Show("cure", "Cure", fyne.NewSize(300, 200), build)
	if first != second || built != 1 {
		t.Errorf("built %d times", built)
	}
	if ws.Window("cure") != first || ws.Window("mix") != nil || !slices.Equal(ws.Keys(), []string{"cure"}) {
		t.Errorf("open are %v", ws.Keys())
	}
}

func TestWindowsAreEmptiedWhenClosed(t *testing.T) {
	ws := NewWindows(test.NewTempApp(t))
	var told []string
	var size fyne.Size
	ws.OnClosed = func(key string, s fyne.Size) { told, size = append(told, key), s }
	win := ws.Show("cure", "Cure", fyne.NewSize(320, 240), func(fyne.Window) fyne.CanvasObject {
		return NewText("Cure", Body, Ink)
	})
	content := win.Content()
	ws.Closing("cure", func() {
		told = append(told, "closing")
		if win.Content() != content {
			t.Error("the content is gone before the end is told")
		}
	})
	ws.Close("cure")
	ws.Close("cure")
	if !slices.Equal(told, []string{"closing", "cure"}) || size != fyne.NewSize(320, 240) {
		t.Errorf("told %q, size %v", told, size)
	}
	if r, ok := win.Content().(*canvas.Rectangle); !ok || r.FillColor != color.Transparent {
		t.Errorf("the closed window still holds %T", win.Content())
	}
	if ws.Window("cure") != nil {
		t.Error("the closed window is still open")
	}
}
