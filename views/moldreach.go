package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// moldReach answers how far an amount of resin reaches in the mold. The amount
// is a question only: the project does not keep it.
type moldReach struct {
	root  *fyne.Container
	field *touch.Field
	said  *touch.Text
	shot  *app.Snapshot
	asked string
}

// reachPath is the path of the question among the window's inputs.
const reachPath = "reach"

func newMoldReach(form *touch.Form) *moldReach {
	r := &moldReach{field: touch.NewField(form, reachPath, "How far does this much reach?", touch.Volume), said: touch.NewText("", touch.Strong, touch.Ink)}
	r.field.OnStep = nil
	r.field.OnDraft = func(text string) { r.ask(text) }
	r.field.OnCommit = r.ask
	r.root = container.NewGridWithColumns(2, r.field, container.New(layout.NewCustomPaddedLayout(26, 0, 14, 0), r.said))
	return r
}

// see answers for another snapshot.
func (r *moldReach) see(form *touch.Form, shot *app.Snapshot) {
	r.shot = shot
	if form.Input(reachPath) == nil {
		form.Add(r.field) // the inputs beside the drawing have been built anew
	}
	r.field.SetUnit(unitOf(touch.Volume, shot.Project.Style))
	r.answer()
}

// ask takes the amount as it is typed.
func (r *moldReach) ask(text string) {
	r.asked = text
	r.answer()
}

func (r *moldReach) answer() {
	words, problem := reachWords(r.shot, r.asked)
	r.said.SetText(words)
	r.field.SetProblem(problem)
}

// reachWords says what level an amount of resin comes to, or what is wrong with
// the amount.
func reachWords(shot *app.Snapshot, text string) (words, problem string) {
	if shot == nil || text == "" || shot.Plan.Drawing.Fill == nil {
		return "", ""
	}
	s, fill := shot.Project.Style, shot.Plan.Drawing.Fill
	v, err := unit.ParseVolume(text, s.VolumeUnit())
	if err != nil {
		return "", problemWords(err)
	}
	if v < 0 {
		return "", "an amount of resin is above 0"
	}
	depth := fill.Depth()
	if most := fill.Below(depth); v > most {
		return s.Volume(v-most) + " too much: " + s.Volume(most) + " fills it to the rim", ""
	}
	level := fill.Level(v)
	return s.Length(level) + " from the floor, " + s.Length(depth-level) + " down from the rim", ""
}
