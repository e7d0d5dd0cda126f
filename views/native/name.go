package native

import (
	"errors"
	"fmt"

	"github.com/go-gl/glfw/v3.3/glfw"
)

// Name has all windows that are made from now on name the program to the desktop
// by the name of its entry (WM_CLASS of the ICCCM). It is called on the
// interface's goroutine, before the first window, and fails where none can be
// made, where the toolkit would panic.
func Name(entry, program string) (err error) {
	defer func() {
		if why := recover(); why != nil {
			err = errors.New("no window can be opened on this screen: " + fmt.Sprint(why))
		}
	}()
	if err := glfw.Init(); err != nil { // the toolkit's own finds it done
		return err
	}
	glfw.GetPrimaryMonitor() // panics where that failed, which it does not always tell
	glfw.WindowHintString(glfw.X11ClassName, entry)
	glfw.WindowHintString(glfw.X11InstanceName, program)
	return nil
}
