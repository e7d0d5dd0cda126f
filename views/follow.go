package views

import (
	"time"

	"meniscus/app"
)

// breath is how long the other windows wait behind the one that is worked in.
// Drawing all five at once would hold up the one that the maker looks at.
const breath = 25 * time.Millisecond

// follow shows a snapshot: at once in the window that is worked in, in the
// others a breath later, and then the newest only.
func (d *Desk) follow(shot app.Snapshot) {
	d.guide.see(&shot)
	if _, open := d.pages[d.front]; open {
		d.see(d.front, shot)
	}
	if d.behind {
		return
	}
	d.behind = true
	d.session.Later(breath, func() {
		d.behind = false
		newest := d.session.Snapshot()
		for key := range d.pages {
			if key != d.front {
				d.see(key, newest)
			}
		}
	})
}

// see shows a snapshot in one window.
func (d *Desk) see(key string, shot app.Snapshot) {
	kind, _ := windowFor(key)
	if title := titleOf(key, kind.title, shot); d.titles[key] != title {
		d.titles[key] = title
		d.windows.Window(key).SetTitle(title)
	}
	if b := d.covers[key].bench; b != nil {
		b.see(shot)
		return
	}
	d.covers[key].guide.see(&shot)
	p := d.pages[key]
	edition := shot.Edition
	if _, ok := p.(planner); ok {
		edition = shot.Planned
	}
	if drawn, ok := p.(keeper); ok && edition != 0 && d.shown[key] == edition {
		drawn.kept(&shot)
		return
	}
	d.shown[key] = edition
	p.see(shot)
}

// keeper is a page that draws nothing new when only the disk has caught up.
type keeper interface{ kept(*app.Snapshot) }

// planner is a page that shows nothing of the simulation, so that it is not
// drawn anew when only that has come.
type planner interface{ planOnly() }

func (*moldPage) planOnly() {}

// work notes that the maker acts in a window.
func (d *Desk) work(key string) {
	if d.front == key {
		return
	}
	left := d.front
	d.front = key
	if _, open := d.pages[left]; open {
		d.see(left, d.session.Snapshot())
	}
	if _, open := d.pages[key]; open {
		d.see(key, d.session.Snapshot())
	}
}
