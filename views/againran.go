package views

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// ranPaths begins the names of the inputs for what happened.
const ranPaths = "run/"

// ranShares are the columns of a run: the figure, planned, actual, ratio.
var ranShares = againColumns{0.36, 0.24, 0.26, 0.14}

// againRan is the part that holds what was planned against what was, with the
// inputs for what only comes after a pour.
type againRan struct {
	page    *againPage
	pours   *touch.Select
	layer   string
	project string
	inputs  map[string]*touch.Field // by the entry's field that a problem names
	acts    []*touch.Button
	box     *fyne.Container
	scroll  *touch.Scroll
	root    fyne.CanvasObject
}

func newAgainRan(page *againPage) *againRan {
	r := &againRan{page: page, inputs: map[string]*touch.Field{}, box: container.New(layout.NewCustomPaddedVBoxLayout(12))}
	r.pours = touch.NewSelect("No pour is planned yet", nil, func(id string) { r.layer = id })
	s := page.desk.session
	field := func(name, label, help string, kind touch.Kind) *touch.Field {
		f := touch.NewField(page.in.form, ranPaths+name, label, kind)
		f.SetHelp(help)
		f.Stays = true
		r.inputs[name] = f
		return f
	}
	where := func(name, hint string) *touch.TextField {
		f := touch.NewTextField(page.in.form, ranPaths+name, "Where", 1)
		f.SetPlaceholder(hint)
		return f
	}
	gross := field("emptied", "The scale reads", "cup and all, once it is poured out and scraped", touch.Mass)
	cup := field("cup", "Clean cup", "empty: the one weighed last", touch.Mass)
	over := field("over", "Mixed, not used", "without its cup", touch.Mass)
	overAt := where("over where", "a test tile")
	thick := field("thick", "Thickness", "of the finished piece, by caliper", touch.Length)
	thickAt := where("thick where", "a corner")
	cups := touch.NewCard("Cup, emptied", stack(pair(gross, cup), r.noting("Note the cup", func() error { return s.AddEmptied(r.layer, gross.Text(), cup.Text()) },
		map[string]*touch.Field{"journal/e/gross": gross, "journal/e/cup": cup}, nil)))
	left := touch.NewCard("Left over", stack(pair(over, overAt), r.noting("Note what was left", func() error { return s.AddLeftOver(r.layer, over.Text(), overAt.Text()) },
		map[string]*touch.Field{"journal/e/gross": over}, overAt)))
	size := touch.NewCard("The finished piece", stack(pair(thick, thickAt), r.noting("Note the thickness", func() error { return s.AddMeasured(thick.Text(), thickAt.Text()) },
		map[string]*touch.Field{"journal/e/thick": thick}, thickAt)))
	help := touch.NewText("These go into the journal, with the time. Cups that were weighed and times that were noted while pouring are there already.", touch.Small, touch.Faint)
	side := touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 14, 8), container.New(layout.NewCustomPaddedVBoxLayout(10), touch.Labelled("Of the pour", r.pours), cups, left, size, help)))
	r.scroll = touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 8, 14), r.box))
	r.root = againSides(side, r.scroll)
	return r
}

func (r *againRan) content() fyne.CanvasObject { return r.root }

func (*againRan) act() *touch.Button { return nil }

// noting is the button that notes an entry; at tells by whose field a problem is
// said, and also is cleared with them once it is noted.
func (r *againRan) noting(label string, do func() error, at map[string]*touch.Field, also *touch.TextField) *touch.Button {
	b := touch.NewButton(label, func() {
		r.page.commit()
		err := do()
		for _, f := range at {
			f.SetProblem("")
			if err == nil {
				f.SetText("")
			}
		}
		var problem *model.Problem
		switch {
		case err == nil:
			if also != nil {
				also.SetText("")
			}
		case errors.As(err, &problem) && at[problem.Field] != nil:
			at[problem.Field].SetProblem(problem.Message)
		default:
			r.page.desk.say(notice{level: model.Stop, what: "It was not noted", do: problemWords(err)})
		}
	})
	r.acts = append(r.acts, b)
	return b
}

// see shows the run of the open piece.
func (r *againRan) see(shot *app.Snapshot, fresh bool) {
	if r.project != shot.Project.ID {
		r.project, r.layer = shot.Project.ID, ""
		for _, f := range r.inputs {
			f.SetText("")
			f.SetProblem("")
		}
		r.scroll.SetOffset(0)
	}
	for name, f := range r.inputs {
		f.SetUnit(unitOf(map[bool]touch.Kind{true: touch.Length, false: touch.Mass}[name == "thick"], shot.Project.Style))
	}
	r.offer(shot)
	for _, b := range r.acts {
		if shot.Saved.Closed || r.layer == "" {
			b.Disable()
		} else {
			b.Enable()
		}
	}
	run := r.page.desk.session.Ran()
	refill(r.box, r.scroll, r.rows(&run)...)
}

// offer lists the pours to choose from; the one poured last is chosen first.
func (r *againRan) offer(shot *app.Snapshot) {
	var list []touch.Option
	there := false
	for i := range shot.Plan.Layers {
		l := &shot.Plan.Layers[i]
		list = append(list, touch.Option{ID: l.ID, Label: brief(nameOf(l.Name), 80)})
		there = there || l.ID == r.layer
	}
	if !there {
		r.layer = ""
		if l := shot.Plan.LastPoured(); l != nil {
			r.layer = l.ID
		} else if len(list) > 0 {
			r.layer = list[0].ID
		}
	}
	r.pours.SetOptions(list)
	r.pours.SetSelected(r.layer)
}

// rows are the figures of a run in groups.
func (r *againRan) rows(run *model.Ran) []fyne.CanvasObject {
	var list []fyne.CanvasObject
	if !slices.ContainsFunc(run.Rows, func(x model.RanRow) bool { return x.Actual != "" && !strings.HasPrefix(x.Key, "minutes/") }) {
		list = append(list, touch.NewText("Nothing has been poured yet.", touch.Title, touch.Ink),
			touch.NewText("Weigh the cups in Mixing and note the pour. Then it says here, pour by pour: what was mixed against what was planned, what stayed in the cups, the times, and the hottest by the probe; and once you have measured it, how thick the piece came out.", touch.Body, touch.Faint),
			container.New(&whereWide{}, newMethod(r.page.desk, drawing.MethodLeft, methodAmong)))
		if len(run.Rows) == 0 {
			return list
		}
	}
	list = append(list, againHead(ranShares, "", "planned", "actual", "ratio"))
	var box *fyne.Container
	group := ""
	for _, x := range run.Rows {
		if box == nil || x.Group != group {
			group = x.Group
			box = container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText(capitalised(group), touch.Strong, touch.Ink))
			list = append(list, box)
		}
		ratio := ""
		if x.Ratio > 0 {
			ratio = fmt.Sprintf("× %.2f", x.Ratio)
		}
		box.Add(againRow(ranShares, touch.Ink, x.Label, orNone(x.Planned), orNone(x.Actual), ratio))
	}
	return append(list, touch.NewText("A cup that was lost is not counted as mixed. What you took down wrongly is taken back in the journal, in Mixing or Cure.", touch.Small, touch.Faint))
}
