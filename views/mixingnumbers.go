package views

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mixNumbers is what is read at the bench: the two parts, the total, what is
// stirred in, where it all goes, and how not to be harmed.
type mixNumbers struct {
	page *mixingPage
	all  *fyne.Container
	root *fyne.Container // all but the safety notes

	ready, missing *fyne.Container
	a, b           *bigNumber
	aVolume        *touch.Text
	bVolume        *touch.Text
	total          *touch.Opens
	parts          *touch.Text
	ladder         *touch.Text
	stirred        *touch.Text
	cavities       *touch.Text
	typical        *dotted
	why            *touch.Text
	methods        map[drawing.Method]*drawing.Picture // how what is missing is found
	bar            *drawing.Picture
	safety         *fyne.Container
	safetyKey      string
}

// mostBig is as large as the two parts are shown: half as large again as a
// countdown.
const mostBig = 1.5 * look.Count

// leastNumbers is the height in which the two parts can be read whole.
const leastNumbers = 170

func newMixNumbers(p *mixingPage) *mixNumbers {
	n := &mixNumbers{page: p}
	n.a, n.b = newBigNumber(look.Read, mostBig), newBigNumber(look.Read, mostBig)
	n.a.beside, n.b.beside = n.b, n.a
	n.aVolume, n.bVolume = touch.NewText("", touch.Body, touch.Faint), touch.NewText("", touch.Body, touch.Faint)
	n.total = p.working.opens("", touch.Reading, func(shot *app.Snapshot) (model.Working, bool) {
		if l := p.chosen(); l != nil {
			return shot.Plan.MixWorking(&shot.Project, l.ID)
		}
		return model.Working{}, false
	})
	n.parts = touch.NewText("", touch.Body, touch.Faint)
	n.ladder = touch.NewText("", touch.Title, touch.Ink)
	n.stirred = touch.NewText("", touch.Title, touch.Ink)
	n.cavities = touch.NewText("", touch.Body, touch.Ink)
	n.typical = newDotted("")
	n.why = touch.NewText("", touch.Title, touch.Ink)
	n.bar = drawing.NewPicture(p.desk.fonts, fyne.NewSize(300, 132), p.desk.palette().Ground, nil)
	n.safety = container.NewStack()
	part := func(name string, number *bigNumber, volume *touch.Text) fyne.CanvasObject {
		column := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewLine(name, touch.Title, touch.Faint), number, volume)
		return container.New(layout.NewCustomPaddedLayout(0, 0, 0, 20), column)
	}
	n.ready = container.New(layout.NewCustomPaddedVBoxLayout(2),
		container.NewGridWithColumns(2, part("A, resin", n.a, n.aVolume), part("B, hardener", n.b, n.bVolume)),
		container.NewBorder(nil, nil, n.total, nil, container.NewVBox(layout.NewSpacer(), n.parts, layout.NewSpacer())),
		n.ladder, n.stirred, n.cavities, n.typical.root,
	)
	lead := touch.NewStyledButton("Show what is missing", touch.Primary, n.lead)
	n.missing = stack(n.why, container.NewHBox(lead))
	n.methods = map[drawing.Method]*drawing.Picture{}
	for _, x := range []drawing.Method{drawing.MethodMix, drawing.MethodSheet, drawing.MethodLayer} {
		n.methods[x] = newMethod(p.desk, x, methodAlone)
		n.missing.Add(container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 0, 0), n.methods[x]))
	}
	n.root = container.New(layout.NewCustomPaddedLayout(0, 8, 18, 12),
		container.New(layout.NewCustomPaddedVBoxLayout(6), n.missing, n.ready, n.bar))
	safety := container.New(layout.NewCustomPaddedLayout(2, 4, 14, 8), n.safety)
	scroll := touch.NewScroll(n.root)
	scroll.SetMinSize(fyne.NewSize(0, leastNumbers))
	n.all = container.NewBorder(nil, safety, nil, nil, scroll)
	return n
}

// lead goes to the input of what keeps the layer from being mixed.
func (n *mixNumbers) lead() {
	p := n.page
	field := "layers"
	if l := p.chosen(); l != nil {
		field = p.shot.Project.MixField(l)
	}
	p.desk.goTo(model.Finding{Field: field, Subject: model.OfLayers})
}

// see shows one layer's mix.
func (n *mixNumbers) see(shot *app.Snapshot, l *model.LayerPlan) {
	ready := l != nil && l.Mix.Ready
	n.ready.Hidden, n.missing.Hidden, n.bar.Hidden = !ready, ready, !ready
	switch {
	case ready:
		n.show(shot, l)
	case l == nil:
		n.why.SetText("Plan a pour first: how deep, and of which resin. Then there is one thing to measure here: put the empty cup on your scale and read it, to its last digit.")
	default:
		n.why.SetText(capitalised(missingWords(l)) + ".")
	}
	x, shown := methodOf(missingFrom(&shot.Project, l))
	for of, picture := range n.methods {
		showIf(picture, shown && of == x)
	}
	n.seeSafety(shot)
	n.root.Refresh()
}

// missingWords says why a layer cannot be mixed.
func missingWords(l *model.LayerPlan) string {
	if l.Mix.Why == "" {
		return "measure the mold and say how deep " + l.Name + " is"
	}
	return l.Mix.Why
}

func (n *mixNumbers) show(shot *app.Snapshot, l *model.LayerPlan) {
	m, s := &l.Mix, shot.Project.Style
	n.a.set(s.MassTo(m.A, m.Step))
	n.b.set(s.MassTo(m.B, m.Step))
	n.a.Refresh() // its size follows b
	n.aVolume.SetText(bothVolumes(m.VolumeA))
	n.bVolume.SetText(bothVolumes(m.VolumeB))
	n.total.SetText("Total " + s.MassTo(m.Total, m.Step))
	n.parts.SetText(fmt.Sprintf("%s parts of B to 100 of A by weight", s.Number(unit.Number(math.Round(10*m.Parts)/10))))
	n.ladder.SetText(ladderWords(s, m, shot.Project.Mixing.Cup, severalCups(shot, l)))
	n.stirred.SetText(stirredWords(s, m, severalCups(shot, l) != nil))
	n.cavities.SetText(cavityWords(s, l))
	mark := ""
	if l.Density.Typical {
		mark = fmt.Sprintf("typical density of the mix, not from the sheet: %s, between %s and %s", s.Density(l.Density.Value), s.Density(l.Density.Low), s.Density(l.Density.High))
	}
	n.typical.set(mark)
	bar := mixBar{parts: l.Parts(), total: m.Total, style: s, palette: n.page.desk.palette(), colour: l.Colour}
	n.bar.Set(bar.palette.Ground, bar.paint)
}

// ladderWords says what the scale should read with A and with B in one cup; where
// the mix takes several, that each is weighed for itself.
func ladderWords(s unit.Style, m *model.MixPlan, cup unit.Taken[unit.Mass], several *model.CupPlan) string {
	if several != nil {
		b := &several.Batches[0]
		return fmt.Sprintf("In %d cups, each weighed by itself: the first %s of A and %s of B. Weigh has them one by one.", len(several.Batches), s.MassTo(b.A, m.Step), s.MassTo(b.B, m.Step))
	}
	steps := m.Ladder(cup.Value)
	where := "In one cup"
	if cup.Given() {
		where = "In the cup of " + s.MassTo(steps[0].Gross, m.Step)
	}
	return fmt.Sprintf("%s: A until the scale reads %s, then B until it reads %s.", where, s.MassTo(steps[1].Gross, m.Step), s.MassTo(steps[2].Gross, m.Step))
}

// severalCups gives the cups of a layer's mix where it takes more than one of
// them; nil for one, or where that is not known.
func severalCups(shot *app.Snapshot, l *model.LayerPlan) *model.CupPlan {
	if cups := shot.Curing.CupsOf(&shot.Plan, l.ID); cups != nil && len(cups.Batches) > 1 {
		return cups
	}
	return nil
}

// bothVolumes writes a volume in ml and US fl oz.
func bothVolumes(v unit.Volume) string {
	if v <= 0 {
		return "in ml: not known without its density"
	}
	return unit.Style{Volumes: unit.InMillilitres}.Volume(v) + " · " + unit.Style{Volumes: unit.InFluidOunces}.Volume(v) + " (US)"
}

// stirredWords lists the tint and the additives to weigh in, those of all cups
// together where there are several.
func stirredWords(s unit.Style, m *model.MixPlan, several bool) string {
	var list []string
	for _, a := range m.Additives {
		list = append(list, fmt.Sprintf("%s %s (%s)", a.Name, s.MassTo(a.Mass, model.TintGrain(s)), s.Share(unit.Share(a.Share))))
	}
	if len(list) == 0 {
		return ""
	}
	into := "Then stir in: "
	if several {
		into = "Then stir in, over all cups: "
	}
	return into + strings.Join(list, ", ") + "."
}

// cavityWords lists what each cavity takes.
func cavityWords(s unit.Style, l *model.LayerPlan) string {
	if len(l.ByCavity) == 0 {
		return ""
	}
	list := make([]string, len(l.ByCavity))
	for i, m := range l.ByCavity {
		list[i] = fmt.Sprintf("%d: %s", i+1, s.MassTo(m, l.Mix.Step))
	}
	return "Of it into each cavity, " + strings.Join(list, " · ")
}

// seeSafety shows the notes about harm from mixing.
func (n *mixNumbers) seeSafety(shot *app.Snapshot) {
	notes := shot.Safety(model.OfMixing)
	key := fmt.Sprint(notes, look.Current().Ground)
	if key == n.safetyKey {
		return
	}
	n.safetyKey = key
	n.safety.Objects = nil
	if len(notes) > 0 {
		n.safety.Add(calmCard(notes))
	}
	n.safety.Refresh()
}

// calmCard shows safety notes close together, the gravest first, each behind its
// sign and its signal word. What all of them end with stands once, below them.
func calmCard(notes []model.SafetyNote) fyne.CanvasObject {
	notes = slices.Clone(notes)
	slices.SortStableFunc(notes, func(a, b model.SafetyNote) int {
		return slices.Index(signals, a.Signal) - slices.Index(signals, b.Signal)
	})
	shared := sharedEnd(notes)
	p := look.Current()
	ground := canvas.NewRectangle(p.Panel)
	ground.StrokeColor, ground.StrokeWidth, ground.CornerRadius = p.Hair, 1, 8
	rows := container.New(layout.NewCustomPaddedVBoxLayout(2))
	heads := make([]fyne.CanvasObject, len(notes))
	var widest fyne.Size // so that the texts stand below each other
	for i, note := range notes {
		word := touch.NewLine(capitalised(string(note.Signal)), touch.Strong, touch.Ink)
		heads[i] = container.New(layout.NewCustomPaddedHBoxLayout(6), container.NewVBox(touch.NewSign(signOf(note.Signal), 18)), container.NewVBox(word))
		widest = widest.Max(heads[i].MinSize())
	}
	for i, note := range notes {
		head := container.NewGridWrap(widest, heads[i])
		rows.Add(container.NewBorder(nil, nil, head, nil, touch.NewText(strings.TrimSuffix(note.Text, shared), touch.Small, touch.Ink)))
	}
	if shared != "" {
		rows.Add(touch.NewText(strings.TrimSpace(shared), touch.Small, touch.Ink))
	}
	return container.NewStack(ground, container.New(layout.NewCustomPaddedLayout(6, 6, 12, 10), rows))
}

// signals are the signal words, the gravest first.
var signals = []model.Signal{model.Danger, model.Warning, model.Caution, model.Notice}

// sharedEnd gives the last sentence of several notes, with the space before it,
// where it is the same in all; else "".
func sharedEnd(notes []model.SafetyNote) string {
	if len(notes) < 2 {
		return ""
	}
	at := strings.LastIndex(notes[0].Text, ". ")
	if at < 0 {
		return ""
	}
	end := notes[0].Text[at+1:]
	for _, n := range notes {
		if !strings.HasSuffix(n.Text, end) {
			return ""
		}
	}
	return end
}
