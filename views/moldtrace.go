package views

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// What a finger does in the photo.
const (
	traceCorners = "corners"
	traceFind    = "find"
	tracePoints  = "points"
	tracePush    = "push"
)

// traceView is a photo of a slab in which the corners that it is straightened by
// are touched and the outlines of wood and holes are found, set point by point,
// and pushed about.
type traceView struct {
	slab    *slabView
	root    *fyne.Container
	surface *drawing.Photo
	guide   *fyne.Container // stands where there is no photo
	advice  *touch.Text     // what to photograph
	tools   *fyne.Container // what a finger does, in the bar above the photo
	foot    *fyne.Container
	works   [2]*touch.Choice // where corners are touched, and where measured points are
	kinds   *touch.Choice    // what the next outline goes round
	next    *touch.Text      // what to do next
	close   *touch.Button    // ends an outline that is set point by point
	give    *touch.Button    // leads to what the marks still lack, the field missing
	missing string
	reach   *touch.Slider
	room    *fyne.Container // is kept free for it, so that the photo stays where it is once something is found
	why     [2]*touch.Text  // why a picture was not taken, below the photo and in the guide

	face  model.Face
	work  string
	kind  model.RingKind
	place string // slab, face and photo that work was last chosen for
	photo string // the name of the picture that is shown
	spot  drawing.Spot
	open  string // the outline that is being set point by point
	seek  seeking
	push  pushing

	dragging bool // a mark or point follows the finger
	loading  bool // the photo is being decoded
}

func newTraceView(v *slabView) *traceView {
	d := v.page.desk
	t := &traceView{slab: v, face: model.FaceUpper, work: traceCorners, kind: model.RingWood}
	t.surface = drawing.NewPhoto(d.fonts, d.palette())
	t.surface.OnPlace, t.surface.OnChoose, t.surface.OnInsert = t.touched, t.choose, t.insert
	t.surface.OnMove, t.surface.OnRemove = t.move, t.remove
	t.surface.OnPush, t.surface.OnPushed = t.pushOn, t.pushed
	for i, marks := range [2]string{"Corners", "Marks"} {
		t.works[i] = touch.NewChoice([]touch.Option{
			{ID: traceCorners, Label: marks}, {ID: traceFind, Label: "Find"}, {ID: tracePoints, Label: "Points"}, {ID: tracePush, Label: "Push"},
		}, t.work, t.turn)
	}
	t.kinds = touch.NewChoice([]touch.Option{
		{ID: string(model.RingWood), Label: "Wood"}, {ID: string(model.RingHole), Label: "Hole"},
	}, string(t.kind), t.around)
	t.next = touch.NewText("", touch.Body, touch.Ink)
	t.close = touch.NewButton("Close the outline", t.closed)
	t.reach = touch.NewSlider("Reach", -1, 1, 0.02, t.seekAgain)
	t.reach.SetHome(0)
	t.reach.Words = seekWords
	free := canvas.NewRectangle(color.Transparent)
	free.SetMinSize(fyne.NewSize(330, t.reach.MinSize().Height))
	t.give = touch.NewStyledButton("", touch.Primary, t.toMissing)
	t.room = container.NewStack(free, t.reach, container.NewVBox(layout.NewSpacer(), container.NewHBox(layout.NewSpacer(), t.give), layout.NewSpacer()))
	t.why = [2]*touch.Text{touch.NewText("", touch.Body, touch.StopTone), touch.NewText("", touch.Body, touch.StopTone)}
	t.tools = container.NewHBox(t.kinds, t.close, t.works[0], t.works[1])
	t.tools.Hide()
	t.foot = container.New(layout.NewCustomPaddedLayout(6, 8, 14, 14), stack(container.NewBorder(nil, nil, nil, t.room, t.next), t.why[0]))
	t.guide = t.newGuide()
	t.root = asRead(nil, container.NewStack(t.surface, t.guide), t.foot)
	return t
}

// newGuide says in words what to photograph, beside the way to choose a photo.
func (t *traceView) newGuide() *fyne.Container {
	choose := touch.NewStyledButton("Choose a photo", touch.Primary, t.choosePhoto)
	t.advice = touch.NewText(traceGuide, touch.Body, touch.Faint)
	rows := container.New(layout.NewCustomPaddedVBoxLayout(16), t.advice, container.NewHBox(choose), t.why[1])
	return container.New(layout.NewCustomPaddedLayout(24, 0, 18, 60), rows)
}

// traceGuide is what a photo to be traced needs.
const traceGuide = "Trace the slab in a photo, instead of measuring it:\n" +
	"1. Lay the slab in the mold as it will lie, or on a plain ground of another colour beside a square or card of known size.\n" +
	"2. Hold the camera straight above the middle, the lens at least five times as high as the wood is thick.\n" +
	"3. The mold's four inner corners, or the card's, must all be in the picture, and sharp.\n" +
	"Then drop the picture on this window, or choose it here. The photo is straightened by the corners that you touch."

// traceUnderGuide is what is said of the other face.
const traceUnderGuide = "Does the under face differ, as where a live edge leans?\n" +
	"1. Turn the slab over, whichever way, and lay it down flat.\n" +
	"2. Photograph it as the upper face: from straight above, with four corners of known size in the picture.\n" +
	"3. Touch the corners and find the outline as before. The two faces are laid over each other by themselves.\n" +
	"Without a photo it counts as the same as the upper face."

// other forgets what was done in another project.
func (t *traceView) other() {
	t.face, t.place, t.spot, t.open = model.FaceUpper, "", drawing.Spot{}, ""
	t.seek, t.push = seeking{}, pushing{}
	t.said("")
}

// said shows why a picture was not taken, or could not be shown, until the next
// attempt.
func (t *traceView) said(text string) {
	for _, why := range t.why {
		why.SetText(text)
	}
	t.foot.Refresh()
	t.guide.Refresh()
}

// tracing gives the face that is worked on in a project; nil where there is
// none.
func (t *traceView) tracing(p *model.Project) *model.Tracing {
	if s := p.Slab(t.slab.slab); s != nil {
		return s.Face(t.face)
	}
	return nil
}

// see draws a snapshot.
func (t *traceView) see(shot *app.Snapshot) {
	face := t.tracing(&shot.Project)
	ready := shot.Open && face != nil && face.Photo != ""
	t.surface.Hidden, t.foot.Hidden, t.tools.Hidden, t.guide.Hidden = !ready, !ready, !ready, ready || !shot.Open
	if !ready {
		t.photo, t.place = "", ""
		advice := traceGuide
		if t.face == model.FaceUnder && face != nil {
			advice = traceUnderGuide
		}
		t.advice.SetText(advice)
		t.slab.root.Refresh()
		return
	}
	if place := t.slab.slab + " " + string(t.face) + " " + face.Photo; place != t.place {
		t.place, t.spot, t.open, t.seek, t.push = place, drawing.Spot{}, "", seeking{}, pushing{}
		t.work = firstWork(face)
	}
	if t.photo != face.Photo {
		t.load(face.Photo)
	}
	t.settle(face)
	t.seek.undone(face)
	if face.Ring(t.open) == nil {
		t.open = ""
	}
	t.surface.SetScene(t.scene(face), t.slab.page.desk.palette())
	t.tell(face)
}

// firstWork is what a face is waiting for when it is turned to.
func firstWork(face *model.Tracing) string {
	switch {
	case len(face.Marks) < 4:
		return traceCorners
	case len(face.Rings) == 0:
		return traceFind
	}
	return tracePush
}

// scene is what is drawn over the photo of a face.
func (t *traceView) scene(face *model.Tracing) drawing.PhotoScene {
	s := drawing.PhotoScene{Wide: face.Wide, High: face.High, Round: face.Corners(), Chosen: t.spot}
	for i := range face.Marks {
		m := &face.Marks[i]
		s.Marks = append(s.Marks, drawing.PhotoMark{ID: m.ID, Label: count(i + 1), At: shape.Point{X: m.X, Y: m.Y}})
	}
	for i := range face.Rings {
		r := &face.Rings[i]
		points := r.Points
		if t.push.ring == r.ID && t.push.points != nil {
			points = t.push.points
		}
		s.Rings = append(s.Rings, drawing.PhotoRing{ID: r.ID, Points: points, Hole: r.Kind == model.RingHole, Open: t.open == r.ID})
	}
	return s
}

// tell says what to do next and offers what can be done.
func (t *traceView) tell(face *model.Tracing) {
	t.works[0].Hidden, t.works[1].Hidden = !face.Corners(), face.Corners()
	for _, c := range t.works {
		c.SetChosen(t.work)
	}
	t.kinds.SetChosen(string(t.kind))
	t.kinds.Hidden = t.work != traceFind && t.work != tracePoints || t.open != ""
	t.close.Hidden = t.open == "" || t.work != tracePoints
	words, label := t.lacks(face)
	t.room.Hidden = t.work != traceFind && t.work != traceCorners
	t.reach.Hidden, t.give.Hidden = t.work != traceFind || !t.seek.found, label == ""
	t.give.SetLabel(label)
	if words == "" {
		words = t.nextWords(face)
	}
	t.next.SetText(words)
	t.surface.SetWork(map[string]drawing.PhotoWork{
		traceCorners: drawing.WorkMarks, traceFind: drawing.TouchInside, tracePoints: drawing.WorkPoints, tracePush: drawing.PushEdge,
	}[t.work])
	t.surface.Places = t.work == traceFind || t.work == tracePoints || t.work == traceCorners && wantsMark(face)
	t.slab.root.Refresh()
}

// again shows the same project anew, after what is chosen has changed.
func (t *traceView) again() {
	t.slab.page.drawn()
	t.slab.page.pane.again()
}

// turn goes over to another work.
func (t *traceView) turn(work string) {
	t.work, t.open = work, ""
	t.spot = drawing.Spot{Ring: t.spot.Ring, Point: drawing.NoPoint}
	if t.spot.Ring == "" {
		t.spot = drawing.Spot{}
	}
	t.again()
}

// around chooses what the next outline goes round.
func (t *traceView) around(kind string) {
	t.kind, t.seek = model.RingKind(kind), seeking{}
	t.again()
}

// turnTo shows a face.
func (t *traceView) turnTo(face model.Face) {
	t.face = face
	t.again()
}

// lead turns to the face, and the work, that holds a field of a slab: its path
// behind the slab's name.
func (t *traceView) lead(path []string) {
	if len(path) == 0 || path[0] != string(model.FaceUpper) && path[0] != string(model.FaceUnder) {
		return
	}
	t.face = model.Face(path[0])
	shot := &t.slab.page.shot
	face := t.tracing(&shot.Project)
	if face == nil || len(path) < 2 {
		return
	}
	t.see(shot) // so that another place has been turned to
	switch id := lastOf(path); path[1] {
	case "marks":
		t.work = traceCorners
		if face.Mark(id) != nil {
			t.spot = drawing.Spot{Mark: id}
		}
	case "rings":
		t.work = tracePoints
		if len(path) > 2 && face.Ring(path[2]) != nil {
			t.spot = drawing.Spot{Ring: path[2], Point: drawing.NoPoint}
		}
	}
}

// lastOf is the ID in a path behind its list, "" without one.
func lastOf(path []string) string {
	if len(path) > 2 {
		return path[2]
	}
	return ""
}
