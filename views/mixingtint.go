package views

import (
	"fmt"
	"math"
	"path"
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

// mixTint is what is stirred into a layer: how much of each, how much of it the
// mix bears, and whether it settles.
type mixTint struct {
	page    *mixingPage
	root    *fyne.Container
	pane    *pane
	rows    []*tintRow
	limit   *touch.Card
	used    *touch.Text
	whose   *touch.Text
	sign    *touch.Sign
	bar     *drawing.Picture
	sinks   *pane
	settles *fyne.Container
}

// tintRow is the inputs of one tint and what it comes to.
type tintRow struct {
	grams *touch.Opens
	takes *touch.Text
}

// colorantKinds are what can be stirred in.
var colorantKinds = []touch.Option{
	{ID: "", Label: "Any"}, {ID: string(model.ColorantMica), Label: "Mica"}, {ID: string(model.ColorantPaste), Label: "Liquid"}, {ID: string(model.ColorantInk), Label: "Ink"}, {ID: string(model.ColorantOther), Label: "Other"},
}

func newMixTint(p *mixingPage) *mixTint {
	t := &mixTint{page: p, pane: newPane(p.in), sinks: newPane(p.in), sign: touch.NewSign(touch.Note, 26), used: touch.NewText("", touch.Title, touch.Ink), whose: touch.NewText("", touch.Body, touch.Ink)}
	t.bar = drawing.NewPicture(p.desk.fonts, fyne.NewSize(300, 74), p.desk.palette().Panel, nil)
	t.limit = touch.NewCard("What the mix bears", stack(container.NewBorder(nil, nil, container.NewVBox(t.sign), nil, t.used), t.bar, t.whose))
	t.settles = container.NewStack(touch.NewCard("What settles", t.sinks.root))
	t.root = stack(t.limit, t.pane.root, t.settles)
	return t
}

// stirredIn tells whether a field is about how much of something is stirred in,
// and of what grain.
func stirredIn(field string) bool {
	of := strings.Contains(field, "/tint/") || strings.Contains(field, "/additives/")
	switch path.Base(field) {
	case "share", "mass", "kind", "grain":
		return of && strings.HasPrefix(field, "layers/")
	}
	return false
}

// see shows what is stirred into a layer.
func (t *mixTint) see(shot *app.Snapshot, l *model.LayerPlan) {
	if l == nil {
		t.root.Hidden = true
		return
	}
	t.root.Hidden = false
	at := "layers/" + l.ID
	paths := []string{at + "/tint"}
	if i := shot.Project.LayerIndex(l.ID); i >= 0 {
		for _, a := range shot.Project.Layers[i].Additives {
			paths = append(paths, at+"/additives/"+a.ID)
		}
	}
	inks := make([]bool, len(paths)) // dissolved, so they have no grains
	for i, at := range paths {
		kind, _ := model.Show(&shot.Project, at+"/kind")
		inks[i] = kind == string(model.ColorantInk)
	}
	t.pane.show(fmt.Sprint(shot.Project.ID, l.Name, paths, inks), func() fyne.CanvasObject { return t.inputs(l, paths, inks) })
	limit := shot.Project.Tints(l.ID, l.Mix.Total)
	t.seeRows(shot, l, paths, &limit)
	t.seeLimit(shot, &limit)
	t.seeSettling(shot, l)
	t.root.Refresh()
}

// inputs are those of all that is stirred in, each in a card of its own.
func (t *mixTint) inputs(l *model.LayerPlan, paths []string, inks []bool) fyne.CanvasObject {
	in := t.page.in
	all := stack()
	t.rows = nil
	for i, at := range paths {
		row := &tintRow{grams: t.page.working.opens("", touch.Reading, func(shot *app.Snapshot) (model.Working, bool) {
			return shot.Plan.StirredWorking(&shot.Project, l.ID, at)
		}), takes: touch.NewText("", touch.Body, touch.Ink)}
		t.rows = append(t.rows, row)
		title := "Tint of " + l.Name
		if i > 0 {
			title = "Stirred in besides"
		}
		body := stack(
			pair(in.words(at+"/name", "Name", 1), in.amount(at)),
			in.choice(at+"/kind", "What it is", colorantKinds),
		)
		if !inks[i] {
			body.Add(in.grainSize(at+"/grain", "Its grains", "what the tin says, such as 40 µm or 0.04 mm; empty where it does not"))
		}
		body.Add(container.NewBorder(nil, nil, row.grams, nil, container.NewVBox(layout.NewSpacer(), row.takes, layout.NewSpacer())))
		if i > 0 {
			body.Add(container.NewHBox(layout.NewSpacer(), t.remover(at)))
		}
		all.Add(touch.NewCard(title, body))
	}
	add := touch.NewButton("Add another tint or powder", func() {
		in.edit("Add a tint", "", func(m *model.Project) error {
			return orGone(m.AddAdditive(l.ID))
		})
	})
	add.Debounce = touch.Settle
	all.Add(container.NewHBox(add))
	return all
}

// remover takes what is stirred in out again.
func (t *mixTint) remover(at string) *touch.Button {
	b := touch.NewStyledButton("Take it out", touch.Quiet, func() {
		t.page.in.edit("Take out what was stirred in", "", func(m *model.Project) error { return m.Remove(at) })
	})
	b.Debounce = touch.Settle
	return b
}

// seeRows says what each comes to.
func (t *mixTint) seeRows(shot *app.Snapshot, l *model.LayerPlan, paths []string, limit *model.TintLimit) {
	s := shot.Project.Style
	for i, row := range t.rows {
		showIf(row.grams, false)
		row.takes.SetText("Not weighed: give its share of the mix, such as 2 %, or its grams.")
		for _, u := range limit.Uses {
			if u.At != paths[i] || !u.Given() {
				continue
			}
			if l.Mix.Total <= 0 {
				row.takes.SetText("How many grams is known once the mix is.")
				break
			}
			row.grams.SetText(s.MassTo(l.Mix.Total.Times(float64(u.Part)), model.TintGrain(s)))
			showIf(row.grams, true)
			most := fmt.Sprintf("of that alone about %s is usual at most", s.Share(u.Most))
			if limit.BySheet {
				most = fmt.Sprintf("the sheet allows %s of all together", s.Share(u.Most))
			}
			row.takes.SetText(fmt.Sprintf("%s of the mix; %s", s.Share(u.Part), most))
		}
	}
}

// seeLimit says how much of what the mix bears is used up.
func (t *mixTint) seeLimit(shot *app.Snapshot, limit *model.TintLimit) {
	t.limit.Hidden = limit.Part <= 0
	if t.limit.Hidden {
		return
	}
	level, words := touch.Note, fmt.Sprintf("%.0f %% of it is used", 100*limit.Used)
	if limit.Over() {
		level, words = touch.Check, fmt.Sprintf("%.0f %% over", 100*(limit.Used-1))
		if math.IsInf(limit.Used, 1) {
			words = "The sheet allows none"
		}
		if limit.BySheet {
			level = touch.Stop
		}
		words += ": too much keeps it from curing hard"
	}
	t.sign.SetLevel(level)
	t.used.SetText(words)
	t.whose.SetText(capitalised(limit.Words(shot.Project.Style)) + ".")
	bar := tintBar{limit: *limit, palette: t.page.desk.palette()}
	t.bar.Set(bar.palette.Panel, bar.paint)
}

// seeSettling says for each size of grain whether the pour has to wait.
func (t *mixTint) seeSettling(shot *app.Snapshot, l *model.LayerPlan) {
	var list []model.Settling
	if shot.Curing.Project == shot.Project.ID && l.Status != model.Poured {
		list, _ = shot.Plan.Settling(&shot.Project, &shot.Curing, l.ID)
	}
	t.settles.Hidden = len(list) == 0
	t.sinks.show(fmt.Sprint(shot.Project.ID, shot.Project.Style, l.ID, list), func() fyne.CanvasObject { return t.settling(shot, l, list) })
}

// amount is the input of how much of something is stirred in: a share of the mix
// or a mass, by the unit that is written.
func (in *inputs) amount(at string) *touch.Field {
	share := at + "/share"
	f := touch.NewField(in.form, share, "How much", touch.Mass)
	f.SetHelp("1.5 % of the mix by weight, or 12.5 g; empty when it is not weighed")
	enter := func(text string) {
		shot := in.session.Snapshot()
		if _, _, bad := shot.Problem(share); !bad && text == model.AmountAt(&shot.Project, at) {
			return
		}
		err := in.session.Edit("How much is stirred in", share, func(m *model.Project) error { return model.EnterAmount(m, at, text) })
		if err != nil {
			in.session.Enter(share, text) // it becomes a draft, with what is wrong
		}
	}
	f.OnCommit = enter
	f.OnDraft = enter
	in.bind(share, func(shot *app.Snapshot) {
		text, problem := model.AmountAt(&shot.Project, at), ""
		if typed, reason, bad := shot.Problem(share); bad {
			text, problem = typed, reason
		}
		f.SetText(text)
		f.SetProblem(problem)
		f.SetUnit("%")
	})
	return f
}

// grainSize is the input of how large grains are, which is shown as it was
// written: no rule measures it.
func (in *inputs) grainSize(path, label, help string) *touch.Field {
	f := in.plain(path, label, help, touch.Length)
	in.also(path, func(shot *app.Snapshot) {
		if size, given := grainOf(&shot.Project, path); given {
			f.SetText(size)
			f.SetEcho("")
		}
	})
	return f
}

// grainOf writes the grain size in the field at path; false where none is given.
func grainOf(p *model.Project, path string) (string, bool) {
	for i := range p.Layers {
		l := &p.Layers[i]
		at, sizes := "layers/"+l.ID, map[string]unit.Dim{}
		sizes[at+"/tint/grain"] = l.Tint.Grain
		for _, a := range l.Additives {
			sizes[at+"/additives/"+a.ID+"/grain"] = a.Grain
		}
		if d := sizes[path]; d.Given() {
			return model.SmallLength(d.Value), true
		}
	}
	return "", false
}
