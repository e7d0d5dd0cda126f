package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// signature is the structure of the inputs beside a photo.
func (t *traceView) signature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n", t.face)
	for i := range shot.Project.Slabs {
		b.WriteString(" " + shot.Project.Slabs[i].ID)
	}
	face := t.tracing(&shot.Project)
	if face == nil {
		return b.String()
	}
	fmt.Fprintf(&b, "\n%v %s", face.Photo != "", face.By)
	if face.By == model.ByPoints {
		for i := range face.Marks {
			b.WriteString(" " + face.Marks[i].ID)
		}
	}
	b.WriteString("\n" + t.spot.Ring)
	for i := range face.Rings {
		b.WriteString(" " + face.Rings[i].ID)
	}
	return b.String()
}

// pane makes the inputs beside a photo: the slabs, and one of them with the face
// that is shown.
func (t *traceView) pane(m *moldPane, shot *app.Snapshot) fyne.CanvasObject {
	list := moldRows()
	add := touch.NewButton("Add a slab", t.addSlab)
	switch len(shot.Project.Slabs) {
	case 0:
		list.Add(touch.NewText("A slab that the wood will be cut from: its outline is traced in a photo, and the mold is tried over it.", touch.Body, touch.Faint))
		list.Add(container.NewHBox(add))
	case 1: // nothing to choose from
		list.Add(container.NewBorder(nil, nil, nil, add, m.items(slabNames, t.slab.slab, t.turnToSlab)))
	default:
		list.Add(m.items(slabNames, t.slab.slab, t.turnToSlab))
		list.Add(container.NewHBox(add))
	}
	cards := moldColumn(touch.NewCard("Slabs", list))
	s := shot.Project.Slab(t.slab.slab)
	if s == nil {
		return cards
	}
	list.Add(t.faceChoice())
	at := "slabs/" + s.ID
	face, facePath := s.Face(t.face), at+"/"+string(t.face)
	cards.Add(m.mark(facePath, touch.NewCard("What the photo shows", m.facts(t.facts))))
	cards.Add(m.mark(facePath+"/marks", touch.NewCard("Straightened by", t.straighten(m, face, facePath))))
	if face.Photo != "" {
		cards.Add(m.mark(facePath+"/rings", touch.NewCard("Outlines", t.outlines(m, face))))
	}
	cards.Add(m.mark(at, touch.NewCard("The slab", moldRows(
		m.in.words(at+"/name", "Name", 1),
		m.in.length(at+"/thickness", "Thickness", "in five places; take the mean"),
	))))
	cards.Add(m.mark(facePath+"/photo", touch.NewCard("Photo", t.photoActs(face))))
	cards.Add(m.remover("Remove this slab", at))
	return cards
}

// slabNames lists the slabs.
func slabNames(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for i := range shot.Project.Slabs {
		list = append(list, touch.Option{ID: shot.Project.Slabs[i].ID, Label: shot.Project.Slabs[i].Name})
	}
	return list
}

// turnToSlab shows another slab.
func (t *traceView) turnToSlab(id string) {
	t.slab.slab, t.face = id, model.FaceUpper
	t.said("")
	t.again()
}

// addSlab adds a slab and turns to it.
func (t *traceView) addSlab() {
	t.slab.page.pane.addItem("Add a slab", func(p *model.Project) (string, error) { return p.AddSlab(""), nil }, func(id string) {
		t.slab.added, t.face = id, model.FaceUpper
	})
}

// faceChoice turns from one face to the other.
func (t *traceView) faceChoice() fyne.CanvasObject {
	c := touch.NewChoice([]touch.Option{{ID: string(model.FaceUpper), Label: "Upper face"}, {ID: string(model.FaceUnder), Label: "Under face"}}, string(t.face), func(id string) {
		t.slab.page.in.form.CommitAll()
		t.turnTo(model.Face(id))
	})
	help := "The face that lies upward in the mold."
	if t.face == model.FaceUnder {
		help = "Shot after turning the slab over, whichever way. Without a photo it counts as the same as the upper face."
	}
	return stack(c, touch.NewText(help, touch.Small, touch.Faint))
}

// photoActs are what can be done about the photo of a face.
func (t *traceView) photoActs(face *model.Tracing) fyne.CanvasObject {
	label := "Choose a photo"
	if face.Photo != "" {
		label = "Choose another photo"
	}
	rows := stack(container.NewHBox(touch.NewButton(label, t.choosePhoto)))
	if face.Photo != "" {
		rows.Add(touch.NewText("Another photo of the same size keeps the marks and outlines.", touch.Small, touch.Faint))
	}
	return rows
}

// straighten are the inputs for what a photo is straightened by.
func (t *traceView) straighten(m *moldPane, face *model.Tracing, at string) fyne.CanvasObject {
	rows := moldRows(m.mark(at+"/by", t.by(m, at+"/by")))
	switch face.By {
	case model.ByCard, "":
		rows.Add(m.in.length(at+"/long", "First side of the card", "from its first corner to its second, as touched"))
		rows.Add(m.in.length(at+"/broad", "Second side", "from its second corner to its third"))
	case model.ByPoints:
		rows.Add(t.places(m, face, at))
	default:
		rows.Add(touch.NewText("By the inner corners of the mold's opening, whose sizes stand under Mold.", touch.Small, touch.Faint))
	}
	rows.Add(m.in.length(at+"/rise", "Wood's face above (+) or below (−) the "+t.marksName(face), ""))
	rows.Add(t.rises(at + "/rise"))
	rows.Add(m.in.length(at+"/camera", "Height of the lens", "above what was touched; five times the rise or more"))
	off := m.in.quantity(at+"/touch", "A touch may be off by", "in pixels of the photo; left empty, what is usual with the loupe counts", touch.Number)
	m.in.also(at+"/touch", func(*app.Snapshot) {
		if off.Text() == "0" {
			off.SetText("")
		}
	})
	rows.Add(off)
	return rows
}

// by chooses what a photo is straightened by; a card where nothing is said.
func (t *traceView) by(m *moldPane, path string) fyne.CanvasObject {
	c := m.in.choice(path, "", []touch.Option{
		{ID: string(model.ByCorners), Label: "Mold"}, {ID: string(model.ByCard), Label: "Card"}, {ID: string(model.ByPoints), Label: "Points"},
	})
	if c, ok := c.(*touch.Choice); ok {
		m.in.also(path, func(shot *app.Snapshot) {
			if moldShown(shot, path) == "" {
				c.SetChosen(string(model.ByCard))
			}
		})
	}
	return c
}

// places are the inputs for where the marks are.
func (t *traceView) places(m *moldPane, face *model.Tracing, at string) fyne.CanvasObject {
	if len(face.Marks) == 0 {
		return touch.NewText("Measure the places of four or more points in the plane, from one corner along and across. Touch each in the photo, and give its place here.", touch.Small, touch.Faint)
	}
	rows := moldRows()
	for i := range face.Marks {
		k := &face.Marks[i]
		path := at + "/marks/" + k.ID
		title := touch.NewText("", touch.Strong, touch.Ink)
		m.follow(func(shot *app.Snapshot) { title.SetText(t.markTitle(shot, i)) })
		rows.Add(m.mark(path, stack(title, pair(m.in.length(path+"/at", "Along", ""), m.in.length(path+"/up", "Across", "")))))
	}
	return rows
}

// outlines lists what is traced, to choose one and to take it away.
func (t *traceView) outlines(m *moldPane, face *model.Tracing) fyne.CanvasObject {
	if len(face.Rings) == 0 {
		return touch.NewText("None yet. Touch Find and then the wood, or set points along its edge.", touch.Body, touch.Faint)
	}
	rows := moldRows(m.items(t.ringNames, t.spot.Ring, t.chooseRing))
	if id := t.spot.Ring; face.Ring(id) != nil {
		rows.Add(container.NewHBox(touch.NewStyledButton("Remove this outline", touch.Danger, func() {
			t.edit("Remove the outline", "", func(p *model.Project, slab string, face model.Face) error { return p.RemoveRing(slab, face, id) })
		})))
	}
	return rows
}

// chooseRing makes an outline the chosen one.
func (t *traceView) chooseRing(id string) {
	t.spot, t.open = drawing.Spot{Ring: id, Point: drawing.NoPoint}, ""
	t.again()
}

// marksName names what is touched in the photo.
func (t *traceView) marksName(face *model.Tracing) string {
	if face.Corners() {
		return "corners"
	}
	return "points"
}

// rises offers, as one touch each, how high the face lies where the slab lies as
// slabs most often do.
func (t *traceView) rises(at string) fyne.CanvasObject {
	page := t.slab.page
	slab, side := t.slab.slab, t.face
	box, built := container.NewVBox(), ""
	t.slab.page.pane.follow(func(shot *app.Snapshot) {
		s := shot.Project.Style
		list := shot.Project.Rises(slab, side)
		key := ""
		for _, r := range list {
			key += r.Words + signedLength(s, r.Rise) + "\n"
		}
		if key == built {
			return
		}
		built = key
		touch.KeepFocus(box, func() {
			box.RemoveAll()
			for _, r := range list {
				box.Add(container.NewHBox(touch.NewButton(r.Words+": "+signedLength(s, r.Rise), func() { page.in.choose(at, signedLength(s, r.Rise)) })))
			}
		})
	})
	return box
}

// signedLength writes a height with its sign.
func signedLength(s unit.Style, l unit.Length) string {
	switch text := s.Length(max(l, -l)); {
	case l < 0:
		return "−" + text
	case l > 0:
		return "+" + text
	default:
		return text
	}
}
