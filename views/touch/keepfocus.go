package touch

import (
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
)

// KeepFocus has build put other things into part, and leads the focus back where
// something in there had it: to the input of the same path, else to the control of
// the same sort and words, else to what now stands where it stood. What is being
// typed goes on where it was, and a key that is still held does nothing more there.
// Where nothing in part can have the focus any more, nothing has it, and the Tab
// key begins anew; where build itself led it elsewhere, it stays there.
func KeepFocus(part fyne.CanvasObject, build func()) {
	c := fyne.CurrentApp().Driver().CanvasForObject(part)
	if c == nil || c.Focused() == nil {
		build()
		return
	}
	was := c.Focused()
	before := stopsIn(part)
	at := slices.IndexFunc(before, func(s stop) bool { return s.takes == was })
	shown, typed, typing := true, "", false
	if q, ok := was.(interface{ quiet() bool }); ok {
		shown = !q.quiet()
	}
	if at >= 0 && before[at].input != nil {
		typed, typing = before[at].input.Pending()
	}
	build()
	if at < 0 || c.Focused() != was {
		return
	}
	after := stopsIn(part)
	if len(after) == 0 {
		c.Unfocus()
		return
	}
	if slices.ContainsFunc(after, func(s stop) bool { return s.takes == was }) {
		return
	}
	to := after[min(at, len(after)-1)]
	same := slices.IndexFunc(after, func(s stop) bool { return s.name == before[at].name })
	if same >= 0 {
		to = after[same]
	}
	if h, ok := to.takes.(interface {
		handed(c fyne.Canvas, shown bool)
	}); ok {
		h.handed(c, shown)
		return
	}
	c.Focus(to.takes)
	if same >= 0 && typing && to.input != nil {
		to.input.Restore(typed)
	}
}

// stop is something that the Tab key comes to, by a name that it has again when it
// is built anew.
type stop struct {
	name  string
	takes fyne.Focusable
	input Input // that it types for; nil for none
}

// stopsIn lists what the Tab key comes to inside o, no two by the same name.
func stopsIn(o fyne.CanvasObject) []stop {
	var list []stop
	seen := map[string]int{}
	add := func(name string, w fyne.Focusable, in Input) {
		seen[name]++
		list = append(list, stop{name + strings.Repeat("'", seen[name]-1), w, in})
	}
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
			return
		}
		switch w := o.(type) {
		case Input:
			add("input "+w.Path(), w.target(), w)
			if f, ok := o.(*Field); ok {
				walk(f.instrument)
			}
			return
		case fyne.Focusable:
			add(reflect.TypeOf(w).String()+" "+wordsOf(o), w, nil)
			return
		case *fyne.Container:
			for _, child := range w.Objects {
				walk(child)
			}
		case *Scroll:
			walk(w.body.content)
		case Parent:
			for _, child := range w.Children() {
				walk(child)
			}
		}
	}
	walk(o)
	return list
}

// wordsOf gives the words on a control that stay the same while it is worked.
func wordsOf(o fyne.CanvasObject) string {
	switch w := o.(type) {
	case *Button:
		return w.Label
	case *Toggle:
		return w.label.Text()
	case *Select:
		return w.prompt
	case *Slider:
		return w.name
	case *Choice:
		var ids []string
		for _, x := range w.options {
			ids = append(ids, x.ID)
		}
		return strings.Join(ids, " ")
	case *Row:
		return textIn(w.all)
	case *FindingRow:
		return w.what.Text()
	}
	return ""
}

// textIn gives the first words inside o.
func textIn(o fyne.CanvasObject) string {
	switch w := o.(type) {
	case *Text:
		return w.Text()
	case *fyne.Container:
		for _, child := range w.Objects {
			if text := textIn(child); text != "" {
				return text
			}
		}
	case Parent:
		for _, child := range w.Children() {
			if text := textIn(child); text != "" {
				return text
			}
		}
	}
	return ""
}
