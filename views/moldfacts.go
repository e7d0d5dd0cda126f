package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// moldFact is one result: what it is, and its value with its unit.
type moldFact struct {
	name, value string
	tone        touch.Tone
}

// facts shows results that follow the snapshots: names at the left, values at
// the right, a name without a value as a sentence.
func (m *cards) facts(of func(*app.Snapshot) []moldFact) *fyne.Container {
	box := container.New(layout.NewCustomPaddedVBoxLayout(7))
	built := ""
	m.follow(func(shot *app.Snapshot) {
		list := of(shot)
		var key strings.Builder
		for _, f := range list {
			key.WriteString(f.name)
			if f.value == "" {
				fmt.Fprint(&key, "\x00", f.tone)
			}
			key.WriteString("\n")
		}
		if key.String() != built {
			built = key.String()
			box.RemoveAll()
			for _, f := range list {
				box.Add(moldFactRow(f))
			}
		}
		for i, f := range list {
			if f.value != "" {
				row := box.Objects[i].(*fyne.Container)
				value := row.Objects[1].(*touch.Text)
				value.SetText(f.value)
				value.SetTone(f.tone)
			}
		}
	})
	return box
}

// how puts what figures are worked out with behind a button, which is not there
// while there are none.
func (m *cards) how(of func(*app.Snapshot) []moldFact) fyne.CanvasObject {
	facts, box, open := m.facts(of), container.NewVBox(), false
	var b *touch.Button
	b = touch.NewStyledButton("How", touch.Quiet, func() {
		if open = !open; open {
			b.SetLabel("Hide how")
			box.Add(facts)
			return
		}
		b.SetLabel("How")
		box.Remove(facts)
	})
	box.Add(container.NewHBox(b))
	m.follow(func(shot *app.Snapshot) {
		if len(of(shot)) == 0 {
			box.Hide()
		} else {
			box.Show()
		}
	})
	return box
}

func moldFactRow(f moldFact) fyne.CanvasObject {
	if f.value == "" {
		return touch.NewText(f.name, touch.Body, f.tone)
	}
	value := touch.NewText(f.value, touch.Strong, f.tone)
	value.Align = fyne.TextAlignTrailing
	return container.New(&factLine{}, touch.NewText(f.name, touch.Body, touch.Faint), value)
}

// factLine puts a value at the right of its name. A long value, such as one with a maker's name in it, gets most of the line
// and wraps there.
type factLine struct{ width float32 }

// MinSize lets both wrap.
func (l *factLine) MinSize(o []fyne.CanvasObject) fyne.Size {
	name, value := o[0].(*touch.Text), o[1].(*touch.Text)
	least := name.MinSize().Width + look.Gap + value.MinSize().Width
	a, b := l.shares(name, value, max(l.width, least))
	return fyne.NewSize(least, max(name.HeightFor(a), value.HeightFor(b)))
}

// Layout gives the value the room of its line as far as that leaves some to the name.
func (l *factLine) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	name, value := o[0].(*touch.Text), o[1].(*touch.Text)
	a, b := l.shares(name, value, size.Width)
	name.Resize(fyne.NewSize(a, size.Height))
	value.Move(fyne.NewPos(size.Width-b, 0))
	value.Resize(fyne.NewSize(b, size.Height))
}

func (l *factLine) shares(name, value *touch.Text, width float32) (a, b float32) {
	b = min(value.LineWidth(), max(width*0.65, value.MinSize().Width))
	return max(0, width-b-look.Gap), b
}

// moldRange writes a volume with its 5 to 95 % range.
func moldRange(s unit.Style, v model.Estimate[unit.Volume]) string {
	low, high := s.Volume(v.Low), s.Volume(v.High)
	if low == high {
		return s.Volume(v.Value)
	}
	low = strings.TrimSuffix(low, " "+string(s.VolumeUnit()))
	return s.Volume(v.Value) + " (" + low + " to " + high + ")"
}

// items shows a list to choose one from: a button each, the chosen one filled.
// The list is built anew with its section; names follow the snapshots.
func (m *cards) items(of func(*app.Snapshot) []touch.Option, chosen string, pick func(id string)) fyne.CanvasObject {
	shot := m.in.session.Snapshot()
	options := of(&shot)
	if len(options) == 1 && options[0].ID == chosen {
		return m.onlyItem(of)
	}
	columns, most := 1, 44
	if len(options) > 3 {
		columns, most = 2, 19
	}
	grid := container.NewGridWithColumns(columns)
	buttons := map[string]*touch.Button{}
	for _, o := range options {
		b := touch.NewButton("", func() { pick(o.ID) })
		if o.ID == chosen {
			b.Style = touch.Primary
		}
		buttons[o.ID] = b
		grid.Add(b)
	}
	m.follow(func(shot *app.Snapshot) {
		for _, o := range of(shot) {
			if b := buttons[o.ID]; b != nil {
				b.SetLabel(brief(o.Label, most))
			}
		}
	})
	return grid
}

// onlyItem names the only item of a list, from which there is nothing to choose.
func (m *cards) onlyItem(of func(*app.Snapshot) []touch.Option) fyne.CanvasObject {
	name := touch.NewText("", touch.Strong, touch.Ink)
	m.follow(func(shot *app.Snapshot) {
		if options := of(shot); len(options) == 1 {
			name.SetText(options[0].Label)
		}
	})
	return container.NewVBox(layout.NewSpacer(), name, layout.NewSpacer())
}

// adder is a list of kinds; choosing one adds a thing of that kind.
func (m *cards) adder(prompt string, kinds []touch.Option, add func(kind string)) fyne.CanvasObject {
	var s *touch.Select
	s = touch.NewSelect(prompt, kinds, func(kind string) {
		s.SetSelected("")
		add(kind)
	})
	return s
}

// addItem makes one step of undo of adding something, and does what follows with
// the ID that it was given; what is typed elsewhere counts first.
func (m *cards) addItem(label string, add func(p *model.Project) (string, error), then func(id string)) {
	var id string
	if m.in.edit(label, "", func(p *model.Project) (err error) {
		id, err = add(p)
		return err
	}) {
		then(id)
	}
}

// remover is a button that takes the item at a path away. Undo brings it back.
func (m *cards) remover(label, path string) fyne.CanvasObject {
	return container.NewHBox(touch.NewStyledButton(label, touch.Danger, func() {
		m.in.form.CommitAll()
		shot := m.in.session.Snapshot()
		name := moldShown(&shot, path+"/name")
		m.in.edit("Remove "+name, "", func(p *model.Project) error { return p.Remove(path) })
	}))
}

// moldShown gives the text of a field in a snapshot.
func moldShown(shot *app.Snapshot, path string) string {
	text, _ := model.Show(&shot.Project, path)
	return text
}
