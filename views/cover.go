package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/views/touch"
)

// cover is a window's content with what can lie over it: the bench look in the
// page's stead, the flash of an alarm, and the lock for wiping, in this order.
type cover struct {
	desk   *Desk
	key    string
	window fyne.Window
	page   page
	guide  *guideStrip
	room   *touch.Room // with the page, below the guide
	root   *fyne.Container
	bench  *benchLook // nil unless it is on
	flash  *flash     // nil unless an alarm rings
	lock   *wipeLock  // nil unless touches are locked
	wide   bool       // the page fills the screen
	before fyne.Size  // of the window, before it took the screen
}

func newCover(d *Desk, key string, w fyne.Window, p page) *cover {
	guide := newGuideStrip(d.guide, key)
	room := touch.NewRoom(asRead(guide.root, p.content(), nil))
	c := &cover{desk: d, key: key, window: w, page: p, guide: guide, room: room, root: container.NewStack(room)}
	d.covers[key] = c
	return c
}

// lay puts together what is to be seen.
func (c *cover) lay() {
	list := []fyne.CanvasObject{c.room}
	if c.bench != nil {
		list[0] = c.bench
	}
	if c.flash != nil {
		list = append(list, c.flash)
	}
	if c.lock != nil {
		list = append(list, c.lock)
	}
	c.root.Objects = list
	c.root.Refresh()
	c.aim()
}

// aim gives the keys to what lies on top and wants them.
func (c *cover) aim() {
	switch {
	case c.flash != nil:
		c.flash.claim()
	case c.bench != nil:
		c.window.Canvas().Focus(c.bench)
	}
}

// showBench turns the window to the bench look, about a layer that the maker has
// chosen, "" for that of the moment.
func (c *cover) showBench(layer string) {
	if c.bench != nil {
		return
	}
	c.page.commit()
	c.before = c.size()
	c.window.Canvas().Unfocus()
	c.bench = newBenchLook(c, layer)
	c.window.SetMainMenu(nil)
	c.window.SetFullScreen(true)
	c.bench.see(c.desk.session.Snapshot())
	c.lay()
}

// hideBench turns the window back to its page.
func (c *cover) hideBench() {
	if c.bench == nil {
		return
	}
	c.bench, c.lock = nil, nil
	c.window.SetFullScreen(c.wide)
	c.window.SetMainMenu(c.desk.menu(c.key, c.window))
	c.window.Canvas().Unfocus()
	c.lay()
	c.desk.shown[c.key] = 0 // it was not drawn meanwhile
	c.desk.see(c.key, c.desk.session.Snapshot())
}

// setLock locks all touches, or lets them through again.
func (c *cover) setLock(on bool) {
	c.lock = nil
	if on {
		c.lock = newWipeLock(c)
	}
	if c.bench != nil {
		c.bench.show()
	}
	c.lay()
}

// size is that of the window, or what it was before it took the screen.
func (c *cover) size() fyne.Size {
	if c.bench != nil || c.wide {
		return c.before
	}
	return c.window.Canvas().Size()
}

// benchFrom turns a window to the bench look, or the one that is nearest to it.
func (d *Desk) benchFrom(key string) {
	if key != mixingKey && key != cureKey {
		key = cureKey
		d.Show(key)
	}
	layer := ""
	if p, ok := d.pages[key].(*mixingPage); ok {
		if l := p.chosen(); l != nil {
			layer = l.ID
		}
	}
	d.covers[key].showBench(layer)
}
