package app

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"syscall"
	"time"
	"unsafe"
)

// What Windows does itself where no program of its kind is found.
var (
	ownPlayer  Player  = playSound
	ownPrinter Printer = printByShell
)

var (
	shellExecute = syscall.NewLazyDLL("shell32.dll").NewProc("ShellExecuteW")
	playSoundW   = syscall.NewLazyDLL("winmm.dll").NewProc("PlaySoundW")
)

// Flags of PlaySoundW (playsoundapi.h; values from memory).
const (
	soundAsync     = 0x0001
	soundNoDefault = 0x0002
	soundMemory    = 0x0004
)

// playSound plays a WAV file to its end, or until the context is done.
func playSound(ctx context.Context, wav []byte) error {
	if err := playSoundW.Find(); err != nil {
		return err
	}
	if len(wav) < wavHeader {
		return errors.New("this is no sound")
	}
	if done, _, err := playSoundW.Call(uintptr(unsafe.Pointer(&wav[0])), 0, soundAsync|soundNoDefault|soundMemory); done == 0 {
		return fmt.Errorf("Windows does not play it: %w", err)
	}
	select {
	case <-ctx.Done():
	case <-time.After(time.Duration(len(wav)-wavHeader) * time.Second / (2 * toneRate)):
	}
	_, _, _ = playSoundW.Call(0, 0, 0) // Windows reads the bytes until then
	runtime.KeepAlive(wav)
	return ctx.Err()
}

// wavHeader is how many bytes a WAV file has before its samples.
const wavHeader = 44

// shellDone is the least that ShellExecuteW gives when it worked; less is an
// error (shellapi.h; value from memory).
const shellDone = 33

// printByShell has the program that files of this kind belong to print one.
func printByShell(file string) error {
	if err := shellExecute.Find(); err != nil {
		return err
	}
	verb, _ := syscall.UTF16PtrFromString("print")
	path, err := syscall.UTF16PtrFromString(file)
	if err != nil {
		return err
	}
	if got, _, _ := shellExecute.Call(0, uintptr(unsafe.Pointer(verb)), uintptr(unsafe.Pointer(path)), 0, 0, 0); got < shellDone {
		return errors.New("no program on this system prints such a file: open it and print it from there")
	}
	return nil
}
