package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"image"
	"os"
	"runtime/pprof"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/drawing"
	"meniscus/views/rest"
	"meniscus/views/touch"
)

// The walks build the real program with this file laid over it (go build
// -overlay). Where the environment asks for it, the program then answers on its
// standard output, for each line on its standard input, what its windows show
// and where, so that a walk can put the pointer there.

func init() {
	if os.Getenv("MENISCUS_PROBE") != "" {
		go answer()
	}
}

// commands are what else can be asked, each with its answer on one line.
var commands = map[string]func(what string) string{
	"key": keyToDrawn, "profile": profile, "beat": beat, "procs": procs, "load": load, "watch": watch, "watched": watched,
}

// shown is one thing in a window.
type shown struct {
	Kind       string // "button", "field", "text", "choice", "toggle", "canvas", "select", "scroll", "entry", "line", "opens", "slider", "drawn", "row", "toggle", "figure"
	Path       string // of a field and of its entry; what a slider is for
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
	Beyond []shown // what is scrolled out of sight
}

// onScreen has the interface's goroutine do f, also where it rests, and waits.
func onScreen(f func()) {
	done := make(chan struct{})
	rest.Post(func() { f(); close(done) })
	<-done
}

func answer() {
	in := bufio.NewScanner(os.Stdin)
	for in.Scan() {
		command, what, _ := strings.Cut(in.Text(), " ")
		if do := commands[command]; do != nil {
			fmt.Println(do(what))
			continue
		}
		list := []seen{}
		if a := fyne.CurrentApp(); a != nil {
			onScreen(func() {
				for _, w := range a.Driver().AllWindows() {
					size := w.Canvas().Size()
					v := &viewer{focused: w.Canvas().Focused(), size: size}
					if w.Content() != nil {
						v.walk(w.Content(), fyne.NewPos(0, 0), size)
					}
					for _, o := range w.Canvas().Overlays().List() {
						v.walk(o, fyne.NewPos(0, 0), size)
					}
					list = append(list, seen{w.Title(), size.Width, size.Height, v.things, v.beyond})
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
	field   string // path of the field that is being walked
	things  []shown
	beyond  []shown // scrolled out of sight
	texts   []*touch.Text
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
	case *touch.Glove:
		v.add(shown{Kind: "button", Text: w.Label(), X: at.X, Y: at.Y, W: size.Width, H: size.Height, Focused: w.Marked()}, lo, hi)
		return
	case *touch.Fit:
		v.add(shown{Kind: "figure", Text: w.Text(), X: at.X, Y: at.Y, W: size.Width, H: size.Height}, lo, hi)
		kind, text = "text", w.Text()
	case *touch.Row:
		kind, text = "row", wordsIn(w)
	case *touch.Toggle:
		kind, text = "toggle", wordsIn(w)
		if w.On() {
			text += " ✓"
		}
	case *touch.Field:
		kind, path, text = "field", w.Path(), w.Text()
		v.field = path
	case *touch.TextField:
		kind, path, text = "field", w.Path(), w.Text()
		v.field = path
	case interface{ SelectedText() string }:
		kind, path = "entry", v.field
	case *touch.Opens:
		kind, text = "opens", w.Text()
	case *touch.Slider:
		kind, path, text = "slider", w.Name(), w.Text()
	case *touch.Choice:
		kind, text = "choice", w.Chosen()
	case *touch.Text:
		kind, text = "text", w.Text()
		v.texts = append(v.texts, w)
	case *canvas.Text:
		kind, text = "line", w.Text
	case *drawing.Canvas:
		kind = "canvas"
	case *drawing.Photo:
		k, corner := w.View()
		kind, text = "photo", fmt.Sprintf("%g %g %g", k, corner.X, corner.Y)
	case *drawing.Picture:
		for _, word := range w.Words() {
			v.add(shown{Kind: "drawn", Text: word.Text, X: at.X + float32(word.At.X), Y: at.Y + float32(word.At.Y)}, lo, hi)
		}
	case *touch.Scroll:
		kind = "scroll"
		clip := fyne.NewSize(min(hi.Width, at.X+size.Width), min(hi.Height, at.Y+size.Height))
		lo, hi = fyne.NewPos(max(lo.X, at.X), max(lo.Y, at.Y)), clip
	case *container.Scroll:
		clip := fyne.NewSize(min(hi.Width, at.X+size.Width), min(hi.Height, at.Y+size.Height))
		lo, hi = fyne.NewPos(max(lo.X, at.X), max(lo.Y, at.Y)), clip
	}
	if kind != "" {
		f, _ := o.(fyne.Focusable)
		v.add(shown{kind, path, text, at.X, at.Y, size.Width, size.Height, disabled, f != nil && f == v.focused}, lo, hi)
	}
	if kind == "button" || kind == "select" || kind == "text" || kind == "entry" || kind == "opens" {
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

// wordsIn gives all that is written in a widget.
func wordsIn(o fyne.CanvasObject) string {
	var words []string
	for _, x := range test.LaidOutObjects(o) {
		if t, ok := x.(*touch.Text); ok && t.Visible() {
			words = append(words, t.Text())
		}
	}
	return strings.Join(words, " ")
}

// add notes a thing: it is in sight where its middle is within the clip.
func (v *viewer) add(x shown, lo fyne.Position, hi fyne.Size) {
	list := &v.things
	if at := fyne.NewPos(x.X+x.W/2, x.Y+x.H/2); at.X < lo.X || at.Y < lo.Y || at.X > hi.Width || at.Y > hi.Height {
		list = &v.beyond
	}
	*list = append(*list, x)
}

// marks are one pixel in each window that tells when the window is painted.
var marks = map[fyne.Window]*mark{}

type mark struct {
	raster  *canvas.Raster
	painted atomic.Int64 // when, in nanoseconds since the epoch
}

// keyToDrawn types a key into the entry that has the focus in the mold's window
// and gives, in microseconds, how long it took until the new plan was painted
// in that window, and in all the others.
func keyToDrawn(key string) string {
	a := fyne.CurrentApp()
	var focused fyne.Focusable
	var edited fyne.Window
	var others []fyne.Window
	onScreen(func() {
		for _, w := range a.Driver().AllWindows() {
			if marks[w] == nil {
				marks[w] = newMark(w)
			}
			if f := w.Canvas().Focused(); f != nil && strings.HasPrefix(w.Title(), "Mold") {
				focused, edited = f, w
			} else {
				others = append(others, w)
			}
		}
	})
	if focused == nil {
		return "0 0"
	}
	// painted waits until what the windows say has changed and is painted.
	painted := func(before string, windows ...fyne.Window) (changed bool) {
		for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(300 * time.Microsecond) {
			if !changed {
				onScreen(func() {
					if changed = answers(windows...) != before; changed {
						for _, w := range windows {
							marks[w].painted.Store(0)
							marks[w].raster.Refresh()
						}
					}
				})
				continue
			}
			if !slices.ContainsFunc(windows, func(w fyne.Window) bool { return marks[w].painted.Load() == 0 }) {
				onScreen(func() {}) // comes when the painting of this round is over
				return true
			}
		}
		return false
	}
	var one, rest string
	onScreen(func() { one, rest = answers(edited), answers(others...) })
	start := time.Now()
	onScreen(func() {
		if len(key) > 1 {
			focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(key)})
		} else {
			focused.TypedRune([]rune(key)[0])
		}
	})
	if !painted(one, edited) {
		return "0 0"
	}
	first := time.Since(start)
	if !painted(rest, others...) {
		return "0 0"
	}
	return fmt.Sprintf("%d %d", first.Microseconds(), time.Since(start).Microseconds())
}

func newMark(w fyne.Window) *mark {
	m := &mark{}
	m.raster = canvas.NewRaster(func(int, int) image.Image {
		m.painted.Store(time.Now().UnixNano())
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	})
	w.SetContent(container.NewStack(w.Content(), container.NewWithoutLayout(m.raster)))
	m.raster.Resize(fyne.NewSize(1, 1))
	return m
}

// answers joins what windows say, which follows the plan.
func answers(windows ...fyne.Window) string {
	var b strings.Builder
	for _, w := range windows {
		if texts[w] == nil {
			v := &viewer{size: w.Canvas().Size()}
			v.walk(w.Content(), fyne.NewPos(0, 0), w.Canvas().Size())
			texts[w] = v.texts
		}
		for _, t := range texts[w] {
			b.WriteString(t.Text())
		}
	}
	return b.String()
}

// texts are the texts in each window.
var texts = map[fyne.Window][]*touch.Text{}

// profile starts a profile of the processor into a file, or ends it where the
// file is "-".
func profile(file string) string {
	if file == "-" {
		pprof.StopCPUProfile()
		return "ended"
	}
	f, err := os.Create(file)
	if err == nil {
		err = pprof.StartCPUProfile(f)
	}
	return fmt.Sprint("started ", err)
}
