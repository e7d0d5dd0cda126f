package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// figure describes the input of one figure of a data sheet.
type figure struct {
	name, label, help string
	kind              touch.Kind
	unit              string // of a bare number, where the kind has none
	at, mass          bool   // which conditions it has
}

var (
	densityFigures = []figure{
		{name: "densityA", label: "Density of A", kind: touch.Density, at: true},
		{name: "densityB", label: "Density of B", help: "no figure on the sheet? Weigh 50 ml of each part", kind: touch.Density, at: true},
		{name: "densityMixed", label: "Density mixed", kind: touch.Density, at: true},
	}
	timeFigures = []figure{
		{name: "workingTime", label: "Working time", help: "how long it can be poured; sheets may call it pot life", kind: touch.Time, at: true, mass: true},
		{name: "workingOther", label: "Working, 2nd", help: "the working time at another temperature, where the sheet gives one: the two tell how warmth hurries it", kind: touch.Time, at: true, mass: true},
		{name: "gel", label: "Gel, thin layer", kind: touch.Time, at: true, mass: true},
		{name: "gelOther", label: "Gel, 2nd", help: "the gel time at another temperature", kind: touch.Time, at: true, mass: true},
		{name: "recoatFrom", label: "Next pour from", help: "the recoat window, counted from the pour", kind: touch.Time, at: true},
		{name: "recoatTo", label: "Next pour until", kind: touch.Time, at: true},
		{name: "demold", label: "Demold after", kind: touch.Time, at: true},
		{name: "fullCure", label: "Full cure after", kind: touch.Time, at: true},
	}
	layerFigures = []figure{
		{name: "maxLayer", label: "Deepest layer", help: "never pour deeper than this, whatever else fits", kind: touch.Length, at: true, mass: true},
		{name: "minLayer", label: "Shallowest layer", kind: touch.Length, at: true},
		{name: "coldest", label: "Coldest room", kind: touch.Temperature},
		{name: "warmest", label: "Warmest room", kind: touch.Temperature},
	}
	heatFigures = []figure{
		{name: "peak", label: "Peak in a cup", help: "the hottest that so much in a cup gets, as the sheet quotes it, and in how warm a room", kind: touch.Temperature, at: true, mass: true},
		{name: "peakLimit", label: "Hottest a pour may get", help: "sheets give it where yellowing or cracks begin", kind: touch.Temperature},
		{name: "heat", label: "Heat of the cure", help: "of the mixed resin; sheets may call it heat of reaction, and few give it", kind: touch.Number, unit: "J/g"},
	}
	otherFigures = []figure{
		{name: "shrink", label: "Shrinkage", help: "by volume, as it cures", kind: touch.Percent},
		{name: "tintLimit", label: "Most that may be stirred in", help: "tint and additives together, of the mixed mass", kind: touch.Percent},
		{name: "softening", label: "Softens at", help: "sheets may call it glass transition or heat deflection", kind: touch.Temperature},
		{name: "viscosity", label: "Viscosity", kind: touch.Number, unit: "mPa·s", at: true},
		{name: "activation", label: "Activation energy", help: "how strongly warmth hurries it; hardly any sheet gives it", kind: touch.Number, unit: "kJ/mol"},
	}
)

// sheet is the editor of a data sheet, else the choice of one for a layer.
func (p *layersPage) sheet(layer, id string) fyne.CanvasObject {
	if id == "" {
		return touch.NewCard("Data sheet", stack(
			touch.NewText("No resin is chosen for this pour. Choose a product, or copy its data sheet in.", touch.Body, touch.Ink),
			p.product(layer),
			newCardMethod(p.desk, drawing.MethodSheet),
		))
	}
	at := "sheets/" + id
	which := touch.NewSelect("Choose a data sheet", sheetOptions(&p.shot), p.view)
	which.SetSelected(id)
	remove := touch.NewStyledButton("Remove this data sheet", touch.Danger, func() {
		p.in.form.CommitAll()
		err := p.desk.session.Edit("Remove a data sheet", "", func(m *model.Project) error { return m.Remove(at) })
		p.said.SetText("")
		if err != nil {
			p.said.SetText("The data sheet stays: " + problemWords(err))
			p.scroll.SetOffset(0)
		}
	})
	all := stack(
		touch.Labelled("Data sheet shown", which),
		touch.NewText("Copy the figures from the product's own data sheet. They hold at one temperature and one mass: copy those too.", touch.Body, touch.Faint))
	if s := p.shot.Project.Sheet(id); s != nil && !s.Volume.Given() && !s.Weight.Given() {
		all.Add(newMethod(p.desk, drawing.MethodSheet, methodAmong)) // stays until the window is built anew, so that nothing moves under the finger
	}
	all.Add(p.in.sheetForm(at))
	p.in.also(at+"/name", func(shot *app.Snapshot) { which.SetOptions(sheetOptions(shot)) })
	all.Add(remove)
	return all
}

// sheetForm is the editor of a data sheet, which lies at a path.
func (in *inputs) sheetForm(at string) fyne.CanvasObject {
	return stack(
		touch.NewCard("Product", stack(
			in.words(at+"/name", "Your name for it", 1),
			in.words(at+"/source", "From which sheet", 1),
			in.words(at+"/note", "Note", 2),
		)),
		touch.NewCard("Mixing ratio, A (resin) to B (hardener)", stack(
			in.ratio(at, "volumeRatio", "By volume"),
			in.ratio(at, "weightRatio", "By weight"),
			pair(in.equivalent(at, "eew", "EEW of A"), in.equivalent(at, "ahew", "AHEW of B")),
			touch.NewText("The equivalent weights, where the sheet gives them: by 100 × AHEW / EEW they give the ratio by weight if the sheet gives no other, and check it if it does.", touch.Small, touch.Faint),
		)),
		touch.NewCard("Densities", in.figures(at, densityFigures)),
		touch.NewCard("Times", in.figures(at, timeFigures)),
		touch.NewCard("What a pour may be", in.figures(at, layerFigures)),
		touch.NewCard("Heat", stack(
			in.usualList(at+"/class", "How it cures", "Not known: judged by its times", []touch.Option{
				{ID: string(model.ClassFast), Label: "Fast: thin pours, set within hours"}, {ID: string(model.ClassSlow), Label: "Slow: deep pours, set in a day or two"},
			}),
			in.figures(at, heatFigures),
		)),
		touch.NewCard("Further figures", in.figures(at, otherFigures)),
	)
}

// ratio is the two parts of a mixing ratio on one basis, of the sheet at a path.
func (in *inputs) ratio(sheet, name, label string) fyne.CanvasObject {
	ask := sheet + "/" + name
	a := in.plain(ask+"/a", label+": parts of A", "", touch.Ratio)
	b := in.plain(ask+"/b", "parts of B", "", touch.Ratio)
	b.Said = label + ": parts of B"
	mark := newTypicalMark()
	in.also(ask+"/a", func(shot *app.Snapshot) {
		u, known := shot.Usual(ask)
		mark.set(u, known)
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), pair(a, b), mark.root)
}

// equivalent is the input of an equivalent weight.
func (in *inputs) equivalent(sheet, name, label string) fyne.CanvasObject {
	path := sheet + "/" + name
	f := in.plain(path, label, "", touch.Number)
	in.also(path, func(*app.Snapshot) { f.SetUnit("g/eq") })
	return f
}

// figures lists the inputs of figures of a data sheet.
func (in *inputs) figures(sheet string, list []figure) fyne.CanvasObject {
	box := stack()
	for _, f := range list {
		box.Add(in.figure(sheet, f))
	}
	return box
}

// figure is the input of one figure with the conditions that it holds at.
func (in *inputs) figure(sheet string, f figure) fyne.CanvasObject {
	path := sheet + "/" + f.name
	value := in.plain(path, f.label, "", f.kind)
	mark, other := newTypicalMark(), touch.NewText("", touch.Small, touch.Faint)
	in.also(path, func(shot *app.Snapshot) {
		if f.unit != "" {
			value.SetUnit(f.unit)
		}
		showUsual(shot, path, path, value, mark)
		// The other unit stands below the row, so that its entries stay level.
		value.SetEcho("")
		text, echo := shot.Show(path)
		other.SetText(otherUnit(text, echo))
	})
	row := container.New(conditioned{}, value)
	if f.at {
		row.Add(in.condition(path+"/at", f.label, "at", touch.Temperature))
	}
	if f.mass {
		row.Add(in.condition(path+"/mass", f.label, "for", touch.Mass))
	}
	box := container.New(layout.NewCustomPaddedVBoxLayout(3), row, other)
	if f.help != "" {
		box.Add(touch.NewText(f.help, touch.Small, touch.Faint))
	}
	box.Add(mark.root)
	return box
}

// condition is the input of what a figure holds at.
func (in *inputs) condition(path, figure, label string, kind touch.Kind) fyne.CanvasObject {
	f := in.plain(path, label, "", kind)
	f.Said = figure + ", " + label
	in.also(path, func(*app.Snapshot) { f.SetEcho("") })
	return f
}

// otherUnit is the echo of a figure, unless it says the same.
func otherUnit(text, echo string) string {
	if text == "" || text == echo {
		return ""
	}
	return echo
}

// conditioned gives a figure the larger part of a row and its conditions, at
// most two, fixed places after it, so that they stand below each other.
type conditioned struct{}

const conditionGap float32 = 8

func (conditioned) MinSize(o []fyne.CanvasObject) fyne.Size {
	var h, w float32
	for _, x := range o {
		h = max(h, x.MinSize().Height)
		w += x.MinSize().Width + conditionGap
	}
	return fyne.NewSize(w-conditionGap, h)
}

func (conditioned) Layout(o []fyne.CanvasObject, size fyne.Size) {
	third := (size.Width - 2*conditionGap) / 3
	x := float32(0)
	for _, c := range o {
		w := third
		if len(o) == 1 {
			w = 2*third + conditionGap
		}
		c.Move(fyne.NewPos(x, 0))
		c.Resize(fyne.NewSize(w, c.MinSize().Height))
		x += w + conditionGap
	}
}
