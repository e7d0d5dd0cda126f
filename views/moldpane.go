package views

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// The sections of the inputs.
const (
	moldSizes   = "mold"
	moldSlabs   = "slab"
	moldWood    = "wood"
	moldInserts = "inserts"
	moldNature  = "moisture"
	moldFloat   = "float"
	moldTight   = "leaks"
	moldLevel   = "level"
)

// moldPane is the side with the inputs: one section at a time, built anew only
// when what it holds changes, so that typing and scrolling are never upset.
type moldPane struct {
	*cards
	page    *moldPage
	root    *fyne.Container
	choices [2]*touch.Choice // what is measured, and what comes of it
	section string
	built   string          // signature of what stands now
	lead    string          // path of the input to lead to once it is there
	tops    map[string]bool // pieces whose top face is shown as measured apart
	thing   string          // path of the piece or insert whose lift is shown
	seam    string          // ID of the seam that is shown
}

func newMoldPane(p *moldPage) *moldPane {
	m := &moldPane{cards: newCards(p.in), page: p, section: moldSizes, tops: map[string]bool{}}
	m.choices[0] = touch.NewChoice([]touch.Option{
		{ID: moldSizes, Label: "Mold"}, {ID: moldSlabs, Label: "Slab"},
		{ID: moldWood, Label: "Wood"}, {ID: moldInserts, Label: "Inserts"},
	}, m.section, m.show)
	m.choices[1] = touch.NewChoice([]touch.Option{
		{ID: moldNature, Label: "Moisture"}, {ID: moldFloat, Label: "Float"},
		{ID: moldTight, Label: "Leaks"}, {ID: moldLevel, Label: "Level"},
	}, "", m.show)
	m.scroll = touch.NewScroll(container.NewVBox())
	bar := container.New(layout.NewCustomPaddedVBoxLayout(4), m.choices[0], m.choices[1])
	m.root = asRead(container.New(layout.NewCustomPaddedLayout(0, look.Gap, 14, 14), bar), m.scroll, nil)
	return m
}

// moldSectionOf tells in which section a field has its input.
func moldSectionOf(field string) (string, bool) {
	switch first, _, _ := strings.Cut(field, "/"); first {
	case "mold":
		if strings.HasPrefix(field, "mold/hold/depths") {
			return moldLevel, true
		}
		if strings.HasPrefix(field, "mold/hold") {
			return moldTight, true
		}
		return moldSizes, true
	case "slabs":
		return moldSlabs, true
	case "pieces":
		if strings.Contains(field, "/nature") {
			return moldNature, true
		}
		return moldWood, true
	case "inserts":
		return moldInserts, true
	case "shop":
		if strings.HasPrefix(field, "shop/theirs") {
			return moldNature, true
		}
		return moldLevel, strings.HasPrefix(field, "shop/tilt")
	case "cut":
		return moldSizes, true
	}
	return "", false
}

// show turns to a section.
func (m *moldPane) show(section string) {
	m.page.working.hide()
	m.section = section
	for _, c := range m.choices {
		c.SetChosen(section)
	}
	m.page.turned()
	m.again()
}

// again builds the section anew where that is due.
func (m *moldPane) again() {
	shot := m.page.shot
	m.ready(&shot)
	m.see(&shot)
}

// ready builds the section when its structure differs from what stands.
func (m *moldPane) ready(shot *app.Snapshot) {
	key := m.signature(shot)
	if key == m.built {
		return
	}
	same := m.place(key) == m.place(m.built)
	m.built = key
	offset := m.scroll.Offset()
	before := m.in.form.Paths()
	touch.KeepFocus(m.scroll, func() {
		m.in.clear()
		m.cards.clear()
		m.scroll.SetContent(container.New(layout.NewCustomPaddedLayout(0, 14, 10, 2), m.build(shot)))
		if same {
			m.scroll.SetOffset(offset)
		}
	})
	m.goOn(before, same)
}

// goOn leads to the input that was asked for, else to the first that a choice
// has brought, so that the typing can go on there.
func (m *moldPane) goOn(before []string, same bool) {
	if m.lead != "" && m.in.lead(m.lead) {
		m.lead = ""
		return
	}
	if !same || m.page.desk.front != moldKey || m.page.slab.trace.surface.HasFocus() {
		return // arrow keys go on in the photo
	}
	for _, path := range m.in.form.Paths() {
		if !slices.Contains(before, path) {
			m.in.lead(path)
			return
		}
	}
}

// place is the part of a signature that tells which item is shown.
func (m *moldPane) place(key string) string {
	head, _, _ := strings.Cut(key, "\n")
	return head
}

// signature names the structure of the section: where it changes the section
// is built anew. Its first line tells what is shown.
func (m *moldPane) signature(shot *app.Snapshot) string {
	if !shot.Open {
		return "none"
	}
	head := shot.Project.ID + " " + m.section + " " + string(shot.Project.Style.LengthUnit())
	switch m.section {
	case moldWood:
		return head + m.woodSignature(shot)
	case moldInserts:
		return head + m.insertSignature(shot)
	case moldSlabs:
		return head + m.page.slab.signature(shot)
	case moldNature:
		return head + m.natureSignature(shot)
	case moldFloat:
		return head + m.floatSignature(shot)
	case moldTight:
		return head + m.tightSignature(shot)
	case moldLevel:
		return head + m.levelSignature(shot)
	}
	mold := &shot.Project.Mold
	return head + "\n" + strings.Join([]string{string(mold.Kind), string(mold.Draft.Kind), string(mold.At)}, " ")
}

// build makes the section.
func (m *moldPane) build(shot *app.Snapshot) fyne.CanvasObject {
	if !shot.Open {
		return touch.NewText(openFirst, touch.Body, touch.Faint)
	}
	switch m.section {
	case moldWood:
		return m.wood(shot)
	case moldInserts:
		return m.inserts(shot)
	case moldSlabs:
		return m.page.slab.pane(m, shot)
	case moldNature:
		return m.nature(shot)
	case moldFloat:
		return m.float(shot)
	case moldTight:
		return m.tight(shot)
	case moldLevel:
		return m.level(shot)
	}
	return m.mold(shot)
}

// see brings what stands beside the inputs up to date.
func (m *moldPane) see(shot *app.Snapshot) {
	m.cards.see(shot)
	m.page.answered(shot)
}

// moldColumn puts cards below each other.
func moldColumn(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(12), objects...)
}

// moldRows puts inputs of one card below each other.
func moldRows(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(14), objects...)
}

// oneAtLeast shows a whole number that counts from one, of which nothing given
// means one.
func (m *moldPane) oneAtLeast(path, label, help string) *touch.Field {
	f := m.in.count(path, label, help)
	show, step := m.in.shows[path], f.OnStep
	m.in.bind(path, func(shot *app.Snapshot) {
		show(shot)
		if f.Text() == "0" {
			f.SetText("1")
		}
	})
	f.OnStep = func(dir int) {
		if f.Text() == "1" {
			if dir > 0 {
				m.in.session.Enter(path, "2")
			}
			return
		}
		step(dir)
	}
	return f
}
