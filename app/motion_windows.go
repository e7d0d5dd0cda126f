package app

import (
	"context"
	"syscall"
	"unsafe"
)

// clientAreaAnimation asks SystemParametersInfoW whether windows may move what
// they show (SPI_GETCLIENTAREAANIMATION of winuser.h; value from memory).
const clientAreaAnimation = 0x1042

var systemParametersInfo = syscall.NewLazyDLL("user32.dll").NewProc("SystemParametersInfoW")

// DesktopAsksForStill asks Windows whether its animation effects are off.
func DesktopAsksForStill(context.Context) bool {
	if systemParametersInfo.Find() != nil {
		return false
	}
	moves := int32(1)
	done, _, _ := systemParametersInfo.Call(clientAreaAnimation, 0, uintptr(unsafe.Pointer(&moves)), 0)
	return done != 0 && moves == 0
}
