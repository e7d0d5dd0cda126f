package touch

import (
	"cmp"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Keypad is a pad for numbers, docked in a window, that types into the form's
// field with the focus: digits, the common fractions, the units of the field's
// kind, and the ways to the next and the previous field. It can be
// folded down to a bar. Taps on it leave the focus where it is.
type Keypad struct {
	widget.BaseWidget
	form    *Form
	field   *Field
	kind    Kind
	folded  bool
	columns []column // nil until the pad is first shown or pressed
	nav     []*key
	fold    *key
	caption *Text
}

var (
	_ fyne.Tappable    = (*Keypad)(nil)
	_ fyne.Focusable   = (*Keypad)(nil)
	_ fyne.Disableable = (*Keypad)(nil)
)

// NewKeypad makes the pad of a form.
func NewKeypad(form *Form) *Keypad {
	k := &Keypad{form: form, caption: NewText("", Small, Faint)}
	k.caption.Align = fyne.TextAlignCenter
	k.nav = []*key{newKey("Previous", form.Previous), newKey("Next", form.Next)}
	k.nav[1].Style = Primary
	k.fold = newKey("Hide keys", func() { k.SetFolded(!k.folded) })
	k.fold.Style = Quiet
	k.ExtendBaseWidget(k)
	k.aim(form.last)
	form.pad = k
	return k
}

// SetKind shows the keys for a kind of value.
func (k *Keypad) SetKind(kind Kind) {
	if k.kind == kind {
		return
	}
	k.kind = kind
	if k.columns != nil {
		k.build()
		k.Refresh()
	}
}

// SetFolded folds the pad down to its bar, or unfolds it.
func (k *Keypad) SetFolded(folded bool) {
	if k.folded == folded {
		return
	}
	k.folded = folded
	if folded {
		k.fold.SetLabel("Show keys")
	} else {
		k.fold.SetLabel("Hide keys")
	}
	k.Refresh()
}

// Press taps the key with this label, as a finger would; it tells whether the
// pad has it now.
func (k *Keypad) Press(label string) bool {
	for _, b := range k.keys() {
		if b.Label == label {
			b.Tapped(&fyne.PointEvent{})
			return true
		}
	}
	return false
}

// Tapped is used by the toolkit; a tap between the keys does nothing.
func (k *Keypad) Tapped(*fyne.PointEvent) {}

// FocusGained is used by the toolkit.
func (k *Keypad) FocusGained() {}

// FocusLost is used by the toolkit.
func (k *Keypad) FocusLost() {}

// TypedRune is used by the toolkit.
func (k *Keypad) TypedRune(rune) {}

// TypedKey is used by the toolkit.
func (k *Keypad) TypedKey(*fyne.KeyEvent) {}

// Enable is used by the toolkit.
func (k *Keypad) Enable() {}

// Disable is used by the toolkit.
func (k *Keypad) Disable() {}

// Disabled keeps the Tab key away from the pad, as it does for a key.
func (k *Keypad) Disabled() bool { return true }

// aim turns the pad to a field; none greys its keys out.
func (k *Keypad) aim(field *Field) {
	k.field = field
	words := "Touch a value to enter it"
	if field != nil {
		words = cmp.Or(field.Said, field.Label())
		k.SetKind(field.Kind())
	}
	k.caption.SetText(words)
	if k.columns != nil {
		k.dim()
		k.Refresh()
	}
}

// dim greys out the keys that have nothing to type into.
func (k *Keypad) dim() {
	for _, c := range k.columns {
		for _, b := range c.keys {
			b.set(&b.off, k.field == nil)
		}
	}
}

// keys are all keys on the pad.
func (k *Keypad) keys() []*key {
	if k.columns == nil {
		k.build()
	}
	all := append([]*key{k.fold}, k.nav...)
	for _, c := range k.columns {
		all = append(all, c.keys...)
	}
	return all
}

// typeIn types a text into the field, a rune at a time.
func (k *Keypad) typeIn(text string) {
	k.into(func(e *entry) {
		if text >= "0" && text <= "9" && e.SelectedText() == "" && needsSpace(e.Text) {
			e.quietly(func() { e.TypedRune(' ') })
		}
		for _, r := range text {
			e.TypedRune(r)
		}
	})
}

// change puts a changed text into the field.
func (k *Keypad) change(how func(text string) string) {
	k.into(func(e *entry) {
		if text := how(e.Text); text != e.Text {
			e.draft(text)
		}
	})
}

// erase takes back the last key, or what is selected.
func (k *Keypad) erase() {
	k.into(func(e *entry) {
		if e.SelectedText() != "" || e.CursorColumn != len([]rune(e.Text)) {
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
			return
		}
		e.draft(erase(e.Text))
	})
}

// into does something with the field's entry, which has the focus again
// afterwards if it had lost it.
func (k *Keypad) into(do func(*entry)) {
	if k.field == nil {
		return
	}
	e := k.field.entry
	if !e.focused {
		takeFocus(e)
	}
	do(e)
}

// CreateRenderer is used by the toolkit.
func (k *Keypad) CreateRenderer() fyne.WidgetRenderer {
	k.build()
	r := &keypadRenderer{pad: k, ground: canvas.NewRectangle(color.Transparent), edge: canvas.NewRectangle(color.Transparent)}
	r.style()
	return r
}

type keypadRenderer struct {
	pad    *Keypad
	ground *canvas.Rectangle
	edge   *canvas.Rectangle
}

// Sizes of the pad.
const (
	keyWide  float32 = 64
	keyHigh  float32 = 52
	navWide  float32 = 112
	blockGap float32 = 16 // between the blocks of columns
	keyRows          = 4
)

func (r *keypadRenderer) style() {
	p := look.Current()
	r.ground.FillColor, r.edge.FillColor = blend(p.Ground, p.Hair, 0.5), p.Hair
}

// width is the width of all columns with the gaps between them.
func (r *keypadRenderer) width() float32 {
	w := navWide
	for _, c := range r.pad.columns {
		w += c.width() + c.gap()
	}
	return w
}

func (r *keypadRenderer) Layout(size fyne.Size) {
	k := r.pad
	r.ground.Resize(size)
	r.edge.Resize(fyne.NewSize(size.Width, 1))
	if k.folded {
		k.fold.Move(fyne.NewPos(size.Width-navWide-look.Gap, 4))
		k.fold.Resize(fyne.NewSize(navWide, look.Target))
		h := k.caption.HeightFor(0)
		k.caption.Move(fyne.NewPos(look.Gap, (size.Height-h)/2))
		k.caption.Resize(fyne.NewSize(size.Width-navWide-3*look.Gap, h))
		return
	}
	x := max(look.Gap, (size.Width-r.width())/2)
	row := func(i int) float32 { return look.Gap + float32(i)*(keyHigh+look.Gap) }
	for _, c := range k.columns {
		for j, b := range c.keys {
			b.Move(fyne.NewPos(x, row(j)))
			b.Resize(fyne.NewSize(c.width(), keyHigh))
		}
		x += c.width() + c.gap()
	}
	for i, b := range k.nav {
		b.Move(fyne.NewPos(x, row(i)))
		b.Resize(fyne.NewSize(navWide, keyHigh))
	}
	h := k.caption.HeightFor(navWide)
	k.caption.Move(fyne.NewPos(x, row(2)+max(0, (keyHigh-h)/2)))
	k.caption.Resize(fyne.NewSize(navWide, h))
	k.fold.Move(fyne.NewPos(x, row(3)))
	k.fold.Resize(fyne.NewSize(navWide, keyHigh))
}

func (r *keypadRenderer) MinSize() fyne.Size {
	if r.pad.folded {
		return fyne.NewSize(2*navWide, look.Target+look.Gap)
	}
	return fyne.NewSize(r.width()+2*look.Gap, keyRows*(keyHigh+look.Gap)+look.Gap)
}

func (r *keypadRenderer) Refresh() {
	r.style()
	r.Layout(r.pad.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.pad)
}

func (r *keypadRenderer) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{r.ground, r.edge, r.pad.caption, r.pad.fold}
	if r.pad.folded {
		return objects
	}
	for _, b := range r.pad.nav {
		objects = append(objects, b)
	}
	for _, c := range r.pad.columns {
		for _, b := range c.keys {
			objects = append(objects, b)
		}
	}
	return objects
}

func (r *keypadRenderer) Destroy() {}
