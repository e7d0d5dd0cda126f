package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/views/look"
)

// menu makes the menu of one window; a menu belongs to one window in this
// toolkit, so each has its own.
func (d *Desk) menu(key string, w fyne.Window) *fyne.MainMenu {
	item := func(label string, key fyne.KeyName, shift bool, do func()) *fyne.MenuItem {
		m := fyne.NewMenuItem(label, func() { d.commitAll(); do() })
		if key != "" {
			mod := fyne.KeyModifierShortcutDefault
			if shift {
				mod |= fyne.KeyModifierShift
			}
			m.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
		}
		return m
	}
	project := fyne.NewMenu("Project",
		item("New", fyne.KeyN, false, func() { d.newProject() }),
		item("Copy this one", "", false, d.session.Copy),
		fyne.NewMenuItemSeparator(),
		item("Import…", fyne.KeyO, false, func() { d.importFile() }),
		item("Export…", fyne.KeyE, false, func() { d.exportFile() }),
		item("Export with its photos…", "", false, func() { d.exportWithPhotos() }),
		item("Table of the layers…", "", false, func() { d.saveTable("layers") }),
		item("Table of the journal…", "", false, func() { d.saveTable("journal") }),
		item("Copies of the notebook", "", false, func() { d.showCopies() }),
		item("Paper: open, print or save…", fyne.KeyP, false, func() { d.showPapers() }),
		item("Save", fyne.KeyS, false, func() { d.sayKept() }),
		fyne.NewMenuItemSeparator(),
		item("Quit", fyne.KeyQ, false, d.Leave),
	)
	undo, redo := d.session.Undo, d.session.Redo
	if key == shelfKey {
		undo, redo = d.session.UndoShelf, d.session.RedoShelf
	}
	edit := fyne.NewMenu("Edit",
		item("Undo", fyne.KeyZ, true, undo),
		item("Redo", fyne.KeyY, true, redo),
		fyne.NewMenuItemSeparator(),
		item("Find a piece", fyne.KeyF, false, func() { d.Show(notebookKey); d.pages[notebookKey].focus(searchField) }),
	)
	windows := fyne.NewMenu("Window",
		item("Notebook", fyne.Key1, false, func() { d.Show(notebookKey) }),
		item("Mold and inserts", fyne.Key2, false, func() { d.Show(moldKey) }),
		item("Layers", fyne.Key3, false, func() { d.Show(layersKey) }),
		item("Mixing", fyne.Key4, false, func() { d.Show(mixingKey) }),
		item("Cure", fyne.Key5, false, func() { d.Show(cureKey) }),
		item("Finishing", fyne.Key6, false, func() { d.Show(finishKey) }),
		item("Shelf", fyne.Key7, false, func() { d.Show(shelfKey) }),
		item("Bench look", fyne.KeyB, false, func() { d.benchFrom(key) }),
		fyne.NewMenuItemSeparator(),
		item("Close this window", fyne.KeyW, false, func() { d.close(key) }),
	)
	light := fyne.NewMenu("Light",
		item("As the desktop", "", false, func() { d.setMode(look.System) }),
		item("Paper", "", false, func() { d.setMode(look.Light) }),
		item("Evening", "", false, func() { d.setMode(look.Dark) }),
	)
	return fyne.NewMainMenu(project, edit, windows, light)
}

// close closes a window; closing the notebook ends the program.
func (d *Desk) close(key string) {
	if key == notebookKey {
		d.Leave()
		return
	}
	d.windows.Close(key)
}
