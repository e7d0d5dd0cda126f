package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// held is the key with Ctrl.
func held(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

// bare is the key alone. The toolkit shows it in the menu but does not hear it;
// Desk.press does.
func bare(key fyne.KeyName) fyne.Shortcut { return &desktop.CustomShortcut{KeyName: key} }

// redoToo brings back as Ctrl+Y does.
var redoToo = &desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}

// What undo and redo are called where nothing can be taken or brought back.
const (
	undoLabel = "Undo"
	redoLabel = "Redo"
)

// menu makes the menu of one window; a menu belongs to one window in this
// toolkit, so each has its own.
func (d *Desk) menu(key string, w fyne.Window) *fyne.MainMenu {
	item := func(label string, keys fyne.Shortcut, do func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(label, func() { d.commitAll(); do() })
		m.Shortcut = keys
		return m
	}
	line := fyne.NewMenuItemSeparator
	window := func(label, to string, digit fyne.KeyName) *fyne.MenuItem {
		return item(label, held(digit), func() { d.Show(to) })
	}
	piece := fyne.NewMenu("Piece",
		item("New", held(fyne.KeyN), func() { d.newProject() }),
		item("Copy this one", nil, d.session.Copy),
		line(),
		item("Import…", held(fyne.KeyO), func() { d.importFile() }),
		item("Export…", held(fyne.KeyE), func() { d.exportFile() }),
		item("Export with its photos…", nil, func() { d.exportWithPhotos() }),
		item("Table of the layers…", nil, func() { d.saveTable("layers") }),
		item("Table of the journal…", nil, func() { d.saveTable("journal") }),
		item("Copies of the notebook", nil, func() { d.showCopies() }),
		item("Paper: open, print or save…", held(fyne.KeyP), func() { d.showPapers() }),
		item("Save", held(fyne.KeyS), func() { d.sayKept() }),
		line(),
		item("Quit", held(fyne.KeyQ), d.Leave),
	)
	undo := fyne.NewMenuItem(undoLabel, func() { d.undo(key, w) })
	redo := fyne.NewMenuItem(redoLabel, func() { d.redo(key, w) })
	undo.Shortcut, redo.Shortcut = &fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}
	edit := fyne.NewMenu("Edit", undo, redo, line(),
		item("Find a piece", held(fyne.KeyF), func() { d.Show(notebookKey); d.pages[notebookKey].focus(searchField) }),
		item("Units and instruments", nil, d.showUnits),
	)
	windows := fyne.NewMenu("Window",
		window("Notebook", notebookKey, fyne.Key1),
		window("Mold and inserts", moldKey, fyne.Key2),
		window("Layers", layersKey, fyne.Key3),
		window("Mixing", mixingKey, fyne.Key4),
		window("Cure", cureKey, fyne.Key5),
		window("Finishing", finishKey, fyne.Key6),
		window("Shelf", shelfKey, fyne.Key7),
		item("Bench look", held(fyne.KeyB), func() { d.benchFrom(key) }),
		line(),
		item("Full screen", bare(fyne.KeyF11), func() { d.fill(key) }),
		item("Close this window", held(fyne.KeyW), func() { d.close(key) }),
	)
	light := func(label string, mode look.Mode) *fyne.MenuItem {
		m := item(label, nil, func() { d.setMode(mode) })
		m.Checked = d.mode == mode
		return m
	}
	still := item("Less motion", nil, d.turnMotion)
	still.Checked = d.still()
	looks := fyne.NewMenu("Look",
		light("Light as the desktop", look.System), light("Daylight", look.Light), light("Evening", look.Dark), line(), still)
	part := func(label, of string) *fyne.MenuItem { return item(label, nil, func() { d.help(of) }) }
	help := fyne.NewMenu("Help",
		item("About this window", bare(fyne.KeyF1), func() { d.helpWith(key) }),
		part("First steps", helpStart), item("Try it on a demo", nil, d.guideAgain), part("Words of the trade", helpWords), part("Keys", helpKeys),
		part("When something is wrong", helpTrouble), part("Safety", helpSafety), line(),
		part("About Meniscus", helpAbout))
	return fyne.NewMainMenu(piece, edit, windows, looks, help)
}

// hear has a window answer to the keys that its menu cannot be given.
func (d *Desk) hear(key string, w fyne.Window) {
	w.Canvas().AddShortcut(redoToo, func(fyne.Shortcut) { d.redo(key, w) })
	if d.hearKeys != nil {
		d.hearKeys(w, func(name fyne.KeyName) bool { return d.press(key, name) })
	}
}

// press does what a key without Ctrl stands for in the menu of a window, and
// tells whether there is anything. While an alarm rings or the screen is locked
// for wiping it is for that, and in the bench look the screen is full as it is.
func (d *Desk) press(key string, name fyne.KeyName) bool {
	c := d.covers[key]
	if c == nil || c.flash != nil || c.lock != nil {
		return false
	}
	switch name {
	case fyne.KeyF1:
		d.commitAll()
		d.helpWith(key)
	case fyne.KeyF11:
		if c.bench != nil {
			return false
		}
		d.fill(key)
	default:
		return false
	}
	return true
}

// undo takes the last step back: typing that nothing keeps yet, else a step of
// the project, or of the shelf in its window.
func (d *Desk) undo(key string, w fyne.Window) {
	if touch.TakeBack(w.Canvas()) {
		return
	}
	d.commitAll()
	if d.ofShelf(key) {
		d.session.UndoShelf()
	} else {
		d.session.Undo()
	}
}

// redo brings the last step back that was taken back.
func (d *Desk) redo(key string, w fyne.Window) {
	if touch.BringBack(w.Canvas()) {
		return
	}
	d.commitAll()
	if d.ofShelf(key) {
		d.session.RedoShelf()
	} else {
		d.session.Redo()
	}
}

// ofShelf tells whether the steps of a window are those of the shelf.
func (d *Desk) ofShelf(key string) bool {
	p, ok := d.pages[key].(*shelfPage)
	return ok && p.frame.shelf
}

// nameSteps says in the menus what undo and redo are about.
func (d *Desk) nameSteps(shot *app.Snapshot) {
	for key := range d.pages {
		w := d.windows.Window(key)
		if w == nil || w.MainMenu() == nil {
			continue
		}
		undo, redo := shot.Undo, shot.Redo
		if d.ofShelf(key) {
			undo, redo = shot.ShelfUndo, shot.ShelfRedo
		}
		edit := w.MainMenu().Items[1]
		undo, redo = stepLabel(undoLabel, undo, 40), stepLabel(redoLabel, redo, 40)
		if edit.Items[0].Label != undo || edit.Items[1].Label != redo {
			edit.Items[0].Label, edit.Items[1].Label = undo, redo
			edit.Refresh()
		}
	}
}

// remenu makes the menus of all windows anew, after a choice that they mark.
func (d *Desk) remenu() {
	for key := range d.pages {
		if w := d.windows.Window(key); w != nil && w.MainMenu() != nil {
			w.SetMainMenu(d.menu(key, w))
		}
	}
	shot := d.session.Snapshot()
	d.nameSteps(&shot)
}

// close closes a window; closing the notebook ends the program.
func (d *Desk) close(key string) {
	if key == notebookKey {
		d.Leave()
		return
	}
	d.windows.Close(key)
}

// fill has a window fill the screen, or no longer.
func (d *Desk) fill(key string) {
	c := d.covers[key]
	if c == nil || c.bench != nil {
		return
	}
	if !c.wide {
		c.before = c.window.Canvas().Size()
	}
	c.wide = !c.wide
	c.window.SetFullScreen(c.wide)
}
