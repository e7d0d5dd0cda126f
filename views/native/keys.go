package native

import (
	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

// names are the keys that are heard.
var names = map[glfw.Key]fyne.KeyName{glfw.KeyF1: fyne.KeyF1, glfw.KeyF11: fyne.KeyF11}

// Hear has pressed asked about each function key that is pressed in a window,
// whatever has the focus there. A key that it takes goes no further. A window
// that the toolkit does not draw by the system's own is left alone.
func Hear(w fyne.Window, pressed func(fyne.KeyName) bool) {
	shown, ok := w.(interface{ RunWithContext(func()) })
	if !ok {
		return
	}
	shown.RunWithContext(func() {
		below := glfw.GetCurrentContext()
		if below == nil {
			return
		}
		var further glfw.KeyCallback
		further = below.SetKeyCallback(func(at *glfw.Window, key glfw.Key, code int, act glfw.Action, held glfw.ModifierKey) {
			name, heard := names[key]
			if heard && act == glfw.Press && held&(glfw.ModControl|glfw.ModAlt|glfw.ModSuper|glfw.ModShift) == 0 && pressed(name) {
				return
			}
			if further != nil {
				further(at, key, code, act, held)
			}
		})
	})
}
