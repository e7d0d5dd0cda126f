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
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// vesselPath is where the fields of the maker's own measuring cup begin.
const vesselPath = "mixing/vessel/"

// mixVolume is for those with no scale: the maker's own cup with the two marks
// of this mix.
type mixVolume struct {
	page    *mixingPage
	root    *touch.Card
	fold    *touch.Button
	sizes   *pane           // the inputs of the cup, behind one touch
	shown   *fyne.Container // the drawing and what it means
	refused *fyne.Container
	why     *touch.Text
	picture *drawing.Picture
	sure    *touch.Text
	sign    *touch.Sign
	also    *touch.Text
	field   string // that would mend why

	unfolded bool // the inputs are shown
}

func newMixVolume(p *mixingPage) *mixVolume {
	v := &mixVolume{page: p, sizes: newPane(p.in), why: touch.NewText("", touch.Body, touch.Ink), sure: touch.NewText("", touch.Body, touch.Ink), also: touch.NewText("", touch.Body, touch.Faint), sign: touch.NewSign(touch.Note, 20)}
	v.fold = touch.NewStyledButton("", touch.Quiet, func() { v.open(!v.unfolded) })
	v.picture = drawing.NewPicture(p.desk.fonts, fyne.NewSize(300, 280), p.desk.palette().Ground, nil)
	mend := touch.NewStyledButton("Show what is missing", touch.Quiet, func() {
		p.desk.goTo(model.Finding{Field: v.field, Subject: fieldSubject(v.field)})
	})
	v.refused = stack(v.why, container.NewHBox(mend))
	v.shown = stack(v.picture, container.NewBorder(nil, nil, container.NewVBox(v.sign), nil, v.sure), v.also)
	v.root = touch.NewCard("By volume", container.New(layout.NewCustomPaddedVBoxLayout(8), v.refused, v.shown, container.NewHBox(v.fold), v.sizes.root))
	return v
}

// fieldSubject is the window that holds what measuring by volume lacks.
func fieldSubject(field string) model.Subject {
	if strings.HasPrefix(field, "mixing/") {
		return model.OfMixing
	}
	return model.OfLayers
}

// open shows or folds the inputs of the cup.
func (v *mixVolume) open(on bool) {
	v.page.in.form.CommitAll()
	v.unfolded = on
	v.page.see(v.page.shot)
}

// openFor shows the inputs of the cup where a field is one of them.
func (v *mixVolume) openFor(field string) {
	if strings.HasPrefix(field, vesselPath) && !v.unfolded {
		v.unfolded = true
		v.seeSizes(&v.page.shot)
	}
}

// seeSizes builds the inputs of the cup while they are wanted; those of its own
// lines only where it has some.
func (v *mixVolume) seeSizes(shot *app.Snapshot) {
	lined := shot.Project.Mixing.Vessel.Lined != ""
	v.sizes.show(fmt.Sprint(v.unfolded, lined), func() fyne.CanvasObject {
		if !v.unfolded {
			return stack()
		}
		return v.inputs(lined)
	})
	v.label()
}

// inputs are the sizes of the cup, as they are measured inside it.
func (v *mixVolume) inputs(lined bool) fyne.CanvasObject {
	in := v.page.in
	all := stack(
		in.length(vesselPath+"floorAcross", "Across its floor", "inside; of a round cup with a flat floor"),
		in.length(vesselPath+"brimAcross", "Across its brim", "inside; leave it empty for a straight cup"),
		in.length(vesselPath+"cupTall", "How tall inside", "straight up from its floor to its brim; lay a stick across and measure down"),
		in.choice(vesselPath+"lineUnit", "Lines of its own", []touch.Option{{ID: "", Label: "None"}, {ID: string(unit.InMillilitres), Label: "In ml"}, {ID: string(unit.InFluidOunces), Label: "In US fl oz"}}),
	)
	if lined {
		all.Add(pair(in.plain(vesselPath+"lineStep", "From line to line", "such as 50 ml", touch.Volume), in.plain(vesselPath+"lineReads", "One line reads", "to check them by; may stay empty", touch.Volume)))
		all.Add(in.plain(vesselPath+"lineWater", "Water up to that line weighs", "without the cup; the surest check of its lines", touch.Mass))
		all.Add(in.length(vesselPath+"lineAt", "Or that line stands at", "straight up from the inside of the floor"))
	}
	return all
}

// label says what the fold does.
func (v *mixVolume) label() {
	words := "No scale? Measure in your own cup"
	switch {
	case v.unfolded:
		words = "Fold its sizes away"
	case v.page.shot.Project.Mixing.Vessel.Given():
		words = "The cup's sizes"
	}
	v.fold.SetLabel(words)
}

// see shows the marks of a layer's mix, or of the cup of it that is being
// weighed.
func (v *mixVolume) see(shot *app.Snapshot, l *model.LayerPlan) {
	vessel := &shot.Project.Mixing.Vessel
	v.refused.Hidden, v.shown.Hidden = true, true
	title := "By volume"
	if l != nil && vessel.Given() {
		m := l.Mix
		if m.Ready {
			m = v.page.weigh.mix
			title += v.page.weigh.which
		}
		c := shot.Project.CupMarks(l, &m)
		v.refused.Hidden, v.shown.Hidden = c.Ready, !c.Ready
		v.why.SetText(capitalised(c.Why) + ".")
		v.field = c.Field
		if c.Ready {
			v.show(shot, vessel, &c, &m)
		}
	}
	v.root.SetTitle(title)
	v.seeSizes(shot)
	v.root.Refresh()
}

// show draws the cup with its marks, and says how far they can be trusted.
func (v *mixVolume) show(shot *app.Snapshot, vessel *model.Vessel, c *model.CupMarks, m *model.MixPlan) {
	s, p := shot.Project.Style, v.page.desk.palette()
	cup := drawing.Cup{Floor: vessel.Floor.Value, Brim: vessel.Brim.Or(vessel.Floor.Value), Tall: vessel.Tall.Value, Size: s.Length}
	for _, mark := range c.Marks {
		cup.Marks = append(cup.Marks, drawing.CupMark{Part: mark.Part, Tall: mark.Tall, Words: markWords(s, vessel, c, &mark)})
	}
	style := drawing.Style{Palette: p, Length: s.Length}
	v.picture.Set(p.Panel, func(on drawing.Surface) { drawing.PaintCup(on, cup, style) })
	v.sign.SetLevel(map[bool]touch.Level{true: touch.Note, false: touch.Check}[c.Fine])
	v.sure.SetText(c.Words(s))
	v.also.SetText(volumeNotes(s, c, m))
}

// markWords are what stands beside one mark: along the wall, upright where that
// differs, and in the cup's own lines where they are true.
func markWords(s unit.Style, vessel *model.Vessel, c *model.CupMarks, mark *model.CupMark) []string {
	first := mark.Part + " up to "
	if mark.Part != c.Marks[0].Part {
		first = "then " + first
	}
	words := []string{first + s.Length(mark.Wall)}
	if mark.Wall != mark.Tall {
		words[0] += " up the wall"
		words = append(words, s.Length(mark.Tall)+" straight up")
	}
	if mark.Lined > 0 {
		words = append(words, "or its line of "+unit.Style{Volumes: vessel.Lined}.Volume(mark.Lined))
	}
	return append(words, s.Volume(mark.Upto)+" in all")
}

// volumeNotes say what the marks leave open.
func volumeNotes(s unit.Style, c *model.CupMarks, m *model.MixPlan) string {
	words := "Mark it inside, from the corner at the floor, and read at eye level where the surface is flat, not where it climbs the wall."
	if c.Open >= 0.005 {
		words += fmt.Sprintf(" By how the cup was measured the total is right within %.0f %%.", 100*c.Open)
	}
	if c.Full {
		words += fmt.Sprintf(" It fills most of the %s that the cup takes: stir it in a larger one.", s.Volume(c.Holds))
	}
	if c.Lines != "" {
		words += " " + capitalised(c.Lines) + "."
	}
	if len(m.Additives) > 0 {
		words += " What is stirred in is weighed, not measured."
	}
	return words
}
