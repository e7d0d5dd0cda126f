package views

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/sight"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// layView is the straightened slab with the mold's cavity over it. What a place
// of the cavity would give follows it as it is dragged, from a table that the
// model makes ready; only letting go is an edit.
type layView struct {
	slab   *slabView
	root   *fyne.Container
	canvas *drawing.Canvas
	guide  *touch.Text

	chosen  string // ID of the lay-up that is shown, or ""
	fresh   string // one that is shown as soon as its plan is there
	layup   model.Layup
	change  drawing.Change // what a finger does to it at the moment
	planned int            // the snapshot that table is of
	table   *model.LayTable
	tabled  bool
	live    model.LayPlan // what liveAt gives
	liveAt  model.Layup
	photo   string // the name of the picture
	raster  *app.Raster
	ground  layGround
	follows func() // brings the figures in the pane up to date while it is dragged
	search  laySearch
}

func newLayView(s *slabView) *layView {
	d := s.page.desk
	v := &layView{slab: s}
	st := drawing.Style{Palette: d.palette(), Length: unit.Style{}.Length, Live: true}
	v.canvas = drawing.NewCanvas(d.fonts, drawing.LayScene{Style: st}, st)
	v.canvas.ShiftTurns = true
	v.canvas.OnMovePiece = func(_ string, dx, dy unit.Length, done bool) {
		v.changed("Move ", drawing.Change{Kind: drawing.MovePiece, DX: dx, DY: dy}, done)
	}
	v.canvas.OnTurnPiece = func(_ string, by unit.Angle, done bool) {
		v.changed("Turn ", drawing.Change{Kind: drawing.TurnPiece, By: by}, done)
	}
	v.guide = touch.NewText("", touch.Body, touch.Faint)
	v.root = container.NewStack(v.canvas, container.New(layout.NewCustomPaddedLayout(24, 0, 18, 60), v.guide))
	return v
}

// other forgets what was selected in another project.
func (v *layView) other() {
	v.chosen, v.fresh, v.photo, v.raster, v.search = "", "", "", nil, laySearch{}
	v.canvas.ShowWhole()
}

// slabOf finds the slab that is worked on in a project; nil where there is none.
func (v *layView) slabOf(p *model.Project) *model.Slab { return p.Slab(v.slab.slab) }

// pick sees to it that a lay-up of the slab is chosen where there is one: the one
// added last once it is there, else the one in use, else the first.
func (v *layView) pick(shot *app.Snapshot) {
	v.slab.settle(shot)
	s := v.slabOf(&shot.Project)
	switch {
	case s == nil || len(s.Layups) == 0:
		v.chosen = ""
	case v.fresh != "" && s.Layup(v.fresh) != nil:
		v.chosen, v.fresh = v.fresh, ""
	case s.Layup(v.chosen) == nil:
		v.chosen = s.Layups[0].ID
		for i := range s.Layups {
			if s.Layups[i].Chosen {
				v.chosen = s.Layups[i].ID
			}
		}
	}
}

// see draws a snapshot.
func (v *layView) see(shot *app.Snapshot) {
	v.pick(shot)
	if shot.Planned != v.planned {
		v.planned, v.table, v.tabled = shot.Planned, nil, false
		v.liveAt = model.Layup{}
	}
	words := v.guideWords(shot)
	v.guide.SetText(words)
	v.guide.Hidden, v.canvas.Hidden = words == "", words != ""
	v.root.Refresh()
	if words != "" {
		return
	}
	v.layup = model.Layup{}
	if l := v.slabOf(&shot.Project).Layup(v.chosen); l != nil {
		v.layup = *l
	}
	v.load(shot)
	v.paint()
}

// guideWords says what the view waits for; "" where there is a slab to show.
func (v *layView) guideWords(shot *app.Snapshot) string {
	if !shot.Open {
		return openFirst
	}
	s := shot.Plan.Slab(v.slab.slab)
	switch {
	case s == nil || len(s.Upper.Region) == 0:
		return strings.Join([]string{
			"Here the mold's cavity is laid over the slab, at true scale, to see what would be cut from it and how much resin is then needed.",
			"The slab is not traced yet. Under Photo:",
			"1. Choose a photo of its face.",
			"2. Touch the corners of what is of known size.",
			"3. Find or draw the outline of the wood.",
			"Then come back here.",
		}, "\n")
	case shot.Plan.Mold.Capacity.Value <= 0:
		return "The slab is traced. Measure the mold, under Mold; then its cavity is laid over the slab here."
	}
	return ""
}

// load has the slab's photo decoded where there is one.
func (v *layView) load(shot *app.Snapshot) {
	name := v.slabOf(&shot.Project).Upper.Photo
	if name == v.photo {
		return
	}
	v.photo, v.raster = name, nil
	if name == "" {
		return
	}
	v.slab.page.desk.session.Raster(name, func(r *app.Raster, err error) {
		// Without its picture the slab is drawn from its outline alone; that it
		// cannot be shown is said under Photo.
		if v.photo == name && err == nil {
			v.raster = r
			v.paint()
		}
	})
}

// paint shows the slab and the lay-up as they are known now.
func (v *layView) paint() {
	shot := &v.slab.page.shot
	s := shot.Plan.Slab(v.slab.slab)
	if s == nil {
		return
	}
	style := shot.Project.Style
	st := drawing.Style{Palette: v.slab.page.desk.palette(), Length: style.Length, Inches: style.LengthUnit() == unit.InInches, Live: true}
	v.canvas.Grain = unit.Millimetre
	if st.Inches {
		v.canvas.Grain = unit.Inch / 16
	}
	scene := drawing.LayScene{Upper: s.Upper.Region, Cut: v.layup, Kerf: v.layup.KerfTaken().Value, Style: st, At: v.at, Tell: v.tell}
	if s.Under.Shot {
		scene.Under = s.Under.Region
	}
	if v.raster != nil && s.Upper.Solved {
		scene.Photo = &drawing.LayPhoto{Levels: v.raster, Wide: v.raster.Wide, High: v.raster.High, Pixel: s.Upper.Plane.Pixel}
	}
	ground := layGround{s.Upper.Region, scene.Under, v.raster, s.Upper.Plane, st.Palette, st.Inches, style}
	if ground.same(&v.ground) {
		v.canvas.SetOver(scene)
		return
	}
	v.ground = ground
	v.canvas.SetScene(scene, st)
}

// layGround is all that what stands still in the drawing follows from.
type layGround struct {
	upper, under shape.Region
	photo        *app.Raster
	plane        sight.Plane
	palette      drawing.Palette
	inches       bool
	style        unit.Style
}

// same tells whether two grounds look the same.
func (g *layGround) same(o *layGround) bool {
	rings := func(a, b shape.Region) bool { return slices.EqualFunc(a, b, slices.Equal[shape.Ring]) }
	return g.photo == o.photo && g.plane == o.plane && g.palette == o.palette && g.inches == o.inches && g.style == o.style &&
		rings(g.upper, o.upper) && rings(g.under, o.under)
}

// at gives what a change of the lay-up would give; nil where it cannot be told.
func (v *layView) at(ch drawing.Change) *model.LayPlan {
	if v.layup.ID == "" {
		return nil
	}
	l := v.layup.Moved(ch.DX, ch.DY, ch.By)
	if l == v.liveAt {
		return &v.live
	}
	if !v.tabled {
		v.table, v.tabled = v.slab.page.shot.Plan.LayTable(v.slab.slab), true
	}
	if v.table == nil {
		return nil
	}
	v.live, v.liveAt = v.table.At(l), l
	return &v.live
}

// shown gives what the lay-up gives at this moment, under the finger too.
func (v *layView) shown() *model.LayPlan { return v.at(v.change) }

// tell writes the figures that stand on the drawing.
func (v *layView) tell(lay *model.LayPlan) []drawing.LayFigure {
	s := v.slab.page.shot.Project.Style
	return []drawing.LayFigure{
		{Name: "Resin", Value: layResin(lay, s)},
		{Name: "Wood", Value: layShare(lay.Share)},
		{Name: "Live edge", Value: layLength(lay.Live, s)},
		{Name: "Left of the slab", Value: s.Areas(lay.Area, lay.Sawdust, lay.Left)[2]},
		{Name: "Saw cut", Value: layLength(lay.Cut, s)},
	}
}

// layResin writes the resin that a lay-up needs, by weight too where a pour is
// planned.
func layResin(lay *model.LayPlan, s unit.Style) string {
	text := s.Volume(lay.Resin)
	if lay.Mass > 0 {
		text += ", " + s.Mass(lay.Mass)
	}
	return text
}

// layLength writes a length along an outline, which no rule reads to a tenth.
func layLength(l unit.Length, s unit.Style) string {
	if s.LengthUnit() == unit.InInches {
		return s.LengthIn(l, s.Lengths, unit.Sixteenth)
	}
	return s.LengthIn(l, s.Lengths, unit.WholeMillimetre)
}

func layShare(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// changed follows a finger, and makes one edit of all it did when it lets go.
func (v *layView) changed(word string, ch drawing.Change, done bool) {
	v.change = ch
	if !done {
		v.follow()
		return
	}
	v.change = drawing.Change{}
	if ch.DX == 0 && ch.DY == 0 && ch.By == 0 {
		v.follow()
		return
	}
	page, slab, id := v.slab.page, v.slab.slab, v.layup.ID
	if page.in.edit(word+v.layup.Name, strings.ToLower(word)+id, func(p *model.Project) error {
		s := p.Slab(slab)
		if s == nil || s.Layup(id) == nil {
			return errGone
		}
		l := s.Layup(id)
		*l = l.Moved(ch.DX, ch.DY, ch.By)
		return nil
	}) {
		v.layup = v.layup.Moved(ch.DX, ch.DY, ch.By) // until the plan comes
	}
	v.paint()
	v.follow()
}

// follow brings the figures in the pane up to date.
func (v *layView) follow() {
	if v.follows != nil {
		v.follows()
	}
	v.slab.page.answered(&v.slab.page.shot)
}
