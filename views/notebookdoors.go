package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/touch"
)

// door is a large button that opens another window, with a line of what stands
// there now.
type door struct {
	row  *touch.Row
	line *touch.Brief
	says func(*app.Snapshot, time.Time) string
}

// doors are the large buttons to the other windows.
type doors struct {
	list []door
	root *fyne.Container
}

func newDoors(d *Desk) *doors {
	o := &doors{root: container.NewGridWithColumns(2)}
	always := func(says func(*app.Snapshot) string) func(*app.Snapshot, time.Time) string {
		return func(shot *app.Snapshot, _ time.Time) string { return says(shot) }
	}
	o.add(d, moldKey, always(moldLine))
	o.add(d, layersKey, always(layersLine))
	o.add(d, mixingKey, always(mixingLine))
	o.add(d, cureKey, cureLine)
	o.add(d, finishKey, always(finishLine))
	o.add(d, shelfKey, always(shelfLine))
	o.lead("Make again", func() { d.showAgain(againOnce) }, always(againLine))
	o.lead("How it went", func() { d.showAgain(againRun) }, always(wentLine))
	return o
}

func (o *doors) add(d *Desk, key string, says func(*app.Snapshot, time.Time) string) {
	kind, _ := windowFor(key)
	o.lead(kind.title, func() {
		d.commitAll()
		d.Show(key)
	}, says)
}

// lead adds a large button that leads somewhere.
func (o *doors) lead(title string, to func(), says func(*app.Snapshot, time.Time) string) {
	line := touch.NewBrief("", touch.Body, touch.Ink)
	words := container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewLine(title, touch.Title, touch.Touchable), line)
	arrow := container.NewCenter(touch.NewLine("→", touch.Title, touch.Touchable))
	row := touch.NewRow(container.NewBorder(nil, nil, nil, arrow, words), to)
	o.list = append(o.list, door{row, line, says})
	o.root.Add(row)
}

// see writes the lines.
func (o *doors) see(shot *app.Snapshot, now time.Time) {
	for _, x := range o.list {
		x.line.SetText(x.says(shot, now))
	}
}
