package views

import (
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/views/touch"
)

// cards is what stands in a part of a window beside its inputs: results that
// follow the snapshots, and what a finding leads to that is no entry. It is
// filled anew whenever the part is built.
type cards struct {
	in      *inputs
	scroll  *touch.Scroll                // around the part
	updates []func(*app.Snapshot)        // of what is shown beside the inputs
	marks   map[string]fyne.CanvasObject // what stands for a field that is no entry
}

func newCards(in *inputs) *cards { return &cards{in: in, marks: map[string]fyne.CanvasObject{}} }

// clear forgets what stood in the part.
func (m *cards) clear() {
	m.updates = nil
	clear(m.marks)
}

// see brings what stands beside the inputs up to date.
func (m *cards) see(shot *app.Snapshot) {
	for _, update := range m.updates {
		update(shot)
	}
}

// follow has update called with every snapshot, beginning with the newest.
func (m *cards) follow(update func(*app.Snapshot)) {
	shot := m.in.session.Snapshot()
	m.followFrom(&shot, update)
}

// followFrom has update called with every snapshot, beginning with one.
func (m *cards) followFrom(shot *app.Snapshot, update func(*app.Snapshot)) {
	m.updates = append(m.updates, update)
	update(shot)
}

// mark makes an object stand for a field, so that a finding can lead to it.
func (m *cards) mark(field string, o fyne.CanvasObject) fyne.CanvasObject {
	m.marks[field] = o
	return o
}

// focus leads to the input of a field of the section: to its entry, to what
// stands for it, or to the nearest that the field belongs to.
func (m *cards) focus(field string) bool {
	if m.in.lead(field) {
		return true
	}
	for at := field; at != ""; {
		if o, ok := m.marks[at]; ok {
			m.scroll.ScrollTo(o)
			m.in.leadTo(o)
			return true
		}
		for _, path := range m.in.form.Paths() {
			if strings.HasPrefix(path, at+"/") {
				return m.in.lead(path)
			}
		}
		i := strings.LastIndexByte(at, '/')
		if i < 0 {
			break
		}
		at = at[:i]
	}
	return true
}

// toggleField is a toggle that a finding can lead to.
func (m *cards) toggleField(path, label string) fyne.CanvasObject {
	return m.mark(path, m.in.toggle(path, label))
}
