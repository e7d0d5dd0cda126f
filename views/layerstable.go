package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/touch"
)

// layersTable lists what follows for each pour, the topmost first.
type layersTable struct {
	root  *fyne.Container
	cells [][]*touch.Text
}

// layersColumns are the table's columns with the share of its width that each
// takes.
var layersColumns = []struct {
	title string
	width float32
}{
	{"Pour", 0.22}, {"Depth", 0.135}, {"From floor", 0.135}, {"Below rim", 0.135}, {"Net resin", 0.135}, {"In the mold, 9 times in 10", 0.24},
}

// mostRows are shown without scrolling.
const mostRows = 4

func newLayersTable() *layersTable {
	t := &layersTable{root: container.NewStack()}
	t.root.Hide()
	return t
}

// see shows the plan's layers.
func (t *layersTable) see(s *shotOf) {
	n := len(s.Plan.Layers)
	if n != len(t.cells) {
		t.build(n)
	}
	st := s.Project.Style
	for i := range n {
		l := &s.Plan.Layers[n-1-i]
		mass := "not known"
		if l.Mass.Value > 0 {
			mass = fmt.Sprintf("%s (%s to %s)", st.Mass(l.Mass.Value), st.Mass(l.Mass.Low), st.Mass(l.Mass.High))
		}
		for c, text := range []string{brief(l.Name, 36), st.Length(l.Depth), st.Length(l.Top), st.Length(l.BelowRim), st.Volume(l.Net), mass} {
			t.cells[i][c].SetText(text)
		}
	}
}

func (t *layersTable) build(n int) {
	t.cells = nil
	t.root.Objects = nil
	t.root.Hidden = n == 0
	if n == 0 {
		t.root.Refresh()
		return
	}
	row := func() (*fyne.Container, []*touch.Text) {
		c := container.New(columns{})
		cells := make([]*touch.Text, len(layersColumns))
		for i := range cells {
			role := touch.Body
			if i == 0 || i == len(cells)-1 {
				role = touch.Strong
			}
			cells[i] = touch.NewText("", role, touch.Ink)
			c.Add(cells[i])
		}
		return c, cells
	}
	head, titles := row()
	for i, c := range layersColumns {
		titles[i].Role = touch.Small
		titles[i].SetTone(touch.Faint)
		titles[i].SetText(c.title)
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4))
	for range n {
		line, cells := row()
		t.cells = append(t.cells, cells)
		rows.Add(line)
	}
	var body fyne.CanvasObject = rows
	if n > mostRows {
		scroll := touch.NewScroll(rows)
		scroll.SetMinSize(fyne.NewSize(0, mostRows*26))
		body = scroll
	}
	t.root.Objects = []fyne.CanvasObject{container.New(layout.NewCustomPaddedLayout(6, 6, 16, 12), container.NewBorder(head, nil, nil, nil, body))}
	t.root.Refresh()
}

// columns lays a row of the table out.
type columns struct{}

func (columns) MinSize(cells []fyne.CanvasObject) fyne.Size {
	var h float32
	for _, o := range cells {
		h = max(h, o.MinSize().Height)
	}
	return fyne.NewSize(0, h)
}

func (columns) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, o := range cells {
		w := layersColumns[i].width * size.Width
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w-8, size.Height))
		x += w
	}
}
