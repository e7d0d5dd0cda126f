package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// inputs are the bound inputs of one window: each shows the field of the
// project at its path and sends what the maker enters to the session.
type inputs struct {
	desk    *Desk
	session *app.Session
	form    *touch.Form
	pad     *touch.Keypad
	shows   map[string]func(*app.Snapshot)
	focused string // the path of the field that has the focus, or ""
	onFocus func() // is told of another
}

// newInputs makes the inputs of the window with a key; to touch one is to work
// in that window.
func newInputs(d *Desk, key string) *inputs {
	in := &inputs{desk: d, session: d.session, form: touch.NewForm(), shows: map[string]func(*app.Snapshot){}}
	in.form.OnFocus = func(path string) {
		in.focused = path
		if in.onFocus != nil {
			in.onFocus()
		}
		if path != "" {
			d.work(key)
		}
	}
	in.pad = touch.NewKeypad(in.form)
	return in
}

// see shows a snapshot in every input.
func (in *inputs) see(shot *app.Snapshot) {
	for _, show := range in.shows {
		show(shot)
	}
}

// clear forgets all inputs, before others are built; what is being typed has
// been committed.
func (in *inputs) clear() {
	in.form.CommitAll()
	for _, path := range in.form.Paths() {
		in.form.Remove(path)
	}
	in.shows = map[string]func(*app.Snapshot){}
}

// bind adds what shows a field, and shows it now.
func (in *inputs) bind(path string, show func(*app.Snapshot)) {
	in.shows[path] = show
	shot := in.session.Snapshot()
	show(&shot)
}

// quantity is an input for a quantity or a number.
func (in *inputs) quantity(path, label, help string, kind touch.Kind) *touch.Field {
	f := touch.NewField(in.form, path, label, kind)
	f.SetHelp(help)
	f.OnDraft = func(text string) { in.session.Enter(path, text) }
	f.OnCommit = func(text string) {
		in.session.Enter(path, text)
		shot := in.session.Snapshot()
		if show := in.shows[path]; show != nil {
			show(&shot)
		}
	}
	f.OnStep = func(dir int) { in.session.Nudge(path, dir > 0) }
	in.bind(path, func(shot *app.Snapshot) {
		text, echo := shot.Show(path)
		problem := ""
		if typed, reason, bad := shot.Problem(path); bad {
			if _, typing := f.Pending(); !typing {
				text, echo, problem = typed, "", reason
			}
		}
		f.SetText(text)
		f.SetEcho(echo)
		f.SetProblem(problem)
		f.SetUnit(unitOf(kind, shot.Style(path)))
	})
	return f
}

// length is an input for a length that is measured with an instrument.
func (in *inputs) length(path, label, help string) *touch.Field {
	f := in.quantity(path, label, help, touch.Length)
	f.OnInstrument = func(id string) { in.session.SetInstrument(path, unit.Instrument(id)) }
	show := in.shows[path]
	in.bind(path, func(shot *app.Snapshot) {
		show(shot)
		if by, _, ok := model.Instrument(shot.Document(path), path); ok {
			f.SetInstruments(instruments(shot.Document(path)), string(by))
		}
	})
	return f
}

// instruments lists what a length can be measured with, each with its ±.
func instruments(p model.Document) []touch.Option {
	var list []touch.Option
	for _, by := range unit.Instruments() {
		list = append(list, touch.Option{ID: string(by), Label: string(by) + " ±" + accuracyText(p.HalfWidth(by))})
	}
	return list
}

// unitOf is the unit that a bare number has in a field of a kind.
func unitOf(kind touch.Kind, s unit.Style) string {
	switch kind {
	case touch.Length:
		return string(s.LengthUnit())
	case touch.Volume:
		return string(s.VolumeUnit())
	case touch.Mass:
		return string(s.MassUnit())
	case touch.Temperature:
		return "°" + string(s.TempUnit())
	case touch.Percent:
		return "%"
	case touch.Time:
		return "h"
	case touch.Angle:
		return "°"
	case touch.Density:
		return "g/ml"
	}
	return ""
}

// words is an input for a name or a note.
func (in *inputs) words(path, label string, lines int) *touch.TextField {
	f := touch.NewTextField(in.form, path, label, lines)
	f.OnCommit = func(text string) { in.session.Enter(path, text) }
	f.OnDraft = f.OnCommit
	in.bind(path, func(shot *app.Snapshot) {
		text, _ := shot.Show(path)
		problem := ""
		if typed, reason, bad := shot.Problem(path); bad {
			text, problem = typed, reason
		}
		f.SetText(text)
		f.SetProblem(problem)
	})
	return f
}

// choice is an input for one of a few words.
func (in *inputs) choice(path, label string, options []touch.Option) fyne.CanvasObject {
	c := touch.NewChoice(options, "", func(id string) { in.choose(path, id) })
	in.bind(path, func(shot *app.Snapshot) {
		text, _ := shot.Show(path)
		if text == "" {
			text = options[0].ID
		}
		c.SetChosen(text)
	})
	if label == "" {
		return c
	}
	return touch.Labelled(label, c)
}

// choose sends a choice, after what is being typed elsewhere.
func (in *inputs) choose(path, id string) {
	in.form.CommitAll()
	in.session.Enter(path, id)
}

// list is an input for one of many words; options are asked for at each
// snapshot, since they may follow the project.
func (in *inputs) list(path, label, prompt string, options func(*app.Snapshot) []touch.Option) fyne.CanvasObject {
	s := touch.NewSelect(prompt, nil, func(id string) { in.choose(path, id) })
	in.bind(path, func(shot *app.Snapshot) {
		s.SetOptions(options(shot))
		text, _ := shot.Show(path)
		s.SetSelected(text)
	})
	return touch.Labelled(label, s)
}

// toggle is an input for something that is so or not so.
func (in *inputs) toggle(path, label string) *touch.Toggle {
	t := touch.NewToggle(label, false, func(on bool) {
		in.choose(path, map[bool]string{true: "yes", false: "no"}[on])
	})
	in.bind(path, func(shot *app.Snapshot) {
		text, _ := shot.Show(path)
		t.SetOn(text == "yes")
	})
	return t
}

// count is an input for a whole number.
func (in *inputs) count(path, label, help string) *touch.Field {
	return in.quantity(path, label, help, touch.Number)
}

// stack puts inputs below each other. What has nothing to show takes no room.
func stack(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(closeUp{}, objects...)
}

// pair puts two inputs side by side, or below each other where the room is narrow.
func pair(a, b fyne.CanvasObject) *fyne.Container { return sideBySideUpTo(2, a, b) }

// drag shows a change while a finger drags, and makes it when it lets go. When
// it cannot be made the window says why and goes back to the project as it is.
func (in *inputs) drag(label, key string, done bool, change func(*model.Project) error) {
	switch {
	case !done:
		in.session.Preview(change)
	case !in.edit(label, key, change):
		in.session.Preview(func(*model.Project) error { return nil })
	}
}
