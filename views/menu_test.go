package views

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// entries lists the entries of a window's menu that do something.
func (b *bench) entries(key string) map[string]*fyne.MenuItem {
	all := map[string]*fyne.MenuItem{}
	for _, menu := range b.desk.windows.Window(key).MainMenu().Items {
		for _, item := range menu.Items {
			if !item.IsSeparator {
				all[menu.Label+"/"+item.Label] = item
			}
		}
	}
	return all
}

// state is all that an entry of a menu may change.
func (b *bench) state() (list []string) {
	d := b.desk
	list = append(list, "front "+d.front, "mode "+string(d.mode), "motion "+string(d.motion))
	shot := b.Snapshot()
	depth, _ := shot.Show("mold/depth")
	list = append(list, "piece "+shot.Project.ID+" "+shot.Project.Name, "undo "+shot.Undo, "depth "+depth)
	for key := range d.pages {
		w := d.windows.Window(key)
		list = append(list, "open "+key)
		if w.FullScreen() {
			list = append(list, "wide "+key)
		}
		if w.Canvas().Overlays().Top() != nil {
			list = append(list, "asks "+key)
		}
		if d.covers[key].bench != nil {
			list = append(list, "bench "+key)
		}
		if f := w.Canvas().Focused(); f != nil {
			list = append(list, "focus "+key)
		}
	}
	if d.notice != nil {
		list = append(list, "says "+d.notice.what)
	}
	if p, ok := d.pages[helpKey].(*helpPage); ok {
		list = append(list, "help "+p.now)
	}
	n := d.pages[notebookKey].(*notebookPage)
	for name, o := range map[string]fyne.CanvasObject{"units": n.units.root, "copies": n.copies.root, "papers": n.papers.root} {
		if o.Visible() {
			list = append(list, "page "+name)
		}
	}
	slices.Sort(list)
	return list
}

// TestMenuEntriesDoSomething: each entry of the menu changes what is to be seen or
// kept, but Quit, which leaves.
func TestMenuEntriesDoSomething(t *testing.T) {
	var names []string
	{
		b := newBench(t, newFakeStore())
		for name := range b.entries(notebookKey) {
			names = append(names, name)
		}
		b.end()
	}
	slices.Sort(names)
	if len(names) < 30 {
		t.Fatalf("only %d entries: %v", len(names), names)
	}
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	left := false
	b.desk.OnLeave(func() { left = true })
	for _, name := range names {
		from := moldKey // an entry is touched in a window that none leads to alone
		if strings.HasSuffix(name, "/Mold and inserts") {
			from = layersKey
		}
		switch name {
		case "Piece/Quit":
			continue
		case "Look/Light as the desktop":
			b.desk.setMode(look.Dark)
		case "Edit/Undo", "Edit/Redo":
			b.Enter("mold/depth", map[string]string{"Edit/Undo": "41 mm", "Edit/Redo": "42 mm"}[name])
			b.settle()
			if name == "Edit/Redo" {
				b.Undo()
				b.settle()
			}
		}
		b.desk.Show(notebookKey)
		b.desk.pages[notebookKey].(*notebookPage).turnTo(b.desk.pages[notebookKey].(*notebookPage).piece.root)
		b.desk.help(helpFigures)
		b.desk.Show(from)
		before := b.state()
		item := b.entries(from)[name]
		if item == nil { // it says what it is about
			for other, x := range b.entries(from) {
				if strings.HasPrefix(other, name+":") {
					item = x
				}
			}
		}
		if item == nil {
			t.Errorf("%s is not in the menu of %s", name, from)
			continue
		}
		item.Action()
		b.until(name+" does something", func() bool { return !slices.Equal(before, b.state()) })
		b.settle()
		for key := range b.desk.pages { // put away what it opened
			c := b.desk.covers[key]
			c.hideBench()
			if c.wide {
				b.desk.fill(key)
			}
			b.desk.windows.Window(key).Canvas().Overlays().Remove(b.desk.windows.Window(key).Canvas().Overlays().Top())
			b.desk.windows.Window(key).Canvas().Unfocus()
		}
		b.desk.hush()
	}
	if b.entries(notebookKey)["Piece/Quit"].Action(); !left {
		t.Error("Piece/Quit does not leave")
	}
}

// TestUndoSaysWhatItIsAbout: the menu names the step that would be taken back, and
// brought back, in every window; that of the shelf its own.
func TestUndoSaysWhatItIsAbout(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.desk.Show(moldKey)
	b.desk.Show(shelfKey)
	b.Enter("mold/depth", "41 mm")
	b.settle()
	b.desk.tick(b.Now())
	shot := b.Snapshot()
	for _, key := range []string{notebookKey, moldKey} {
		edit := b.desk.windows.Window(key).MainMenu().Items[1]
		if want := stepLabel("Undo", shot.Undo, 40); edit.Items[0].Label != want || want == "Undo" {
			t.Errorf("%s: %q, want %q", key, edit.Items[0].Label, want)
		}
		if edit.Items[1].Label != "Redo" {
			t.Errorf("%s: %q with nothing to bring back", key, edit.Items[1].Label)
		}
	}
	if got := b.desk.windows.Window(shelfKey).MainMenu().Items[1].Items[0].Label; got != "Undo" {
		t.Errorf("on the shelf: %q", got)
	}
	b.desk.windows.Window(moldKey).MainMenu().Items[1].Items[0].Action()
	b.settle()
	b.desk.tick(b.Now())
	shot = b.Snapshot()
	if got := b.desk.windows.Window(moldKey).MainMenu().Items[1].Items[1].Label; got != stepLabel("Redo", shot.Redo, 40) || shot.Redo == "" {
		t.Errorf("redo is called %q, the step %q", got, shot.Redo)
	}
}

// TestUndoTakesTypingBackFirst: Ctrl+Z in a line that nothing keeps yet takes the
// typing back and leaves the piece alone; in a field of the piece it takes the
// step back. Ctrl+Shift+Z brings it back, also while a field has the focus.
func TestUndoTakesTypingBackFirst(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	b.Enter("mold/depth", "41 mm")
	b.settle()
	w := b.desk.Show(notebookKey)
	p := b.desk.pages[notebookKey].(*notebookPage)
	p.list.search.Focus()
	test.Type(w.Canvas().Focused(), "hall")
	step := b.Snapshot().Undo
	b.desk.undo(notebookKey, w)
	if p.list.search.Text() != "" || b.Snapshot().Undo != step {
		t.Errorf("undo in the search line: %q, and the step is %q", p.list.search.Text(), b.Snapshot().Undo)
	}
	b.desk.redo(notebookKey, w)
	if p.list.search.Text() != "hall" {
		t.Errorf("redo in the search line: %q", p.list.search.Text())
	}
	b.desk.Show(moldKey)
	depth := b.Snapshot().Project.Mold.Depth
	b.Enter("note", "another step")
	b.Enter("mold/depth", "43 mm")
	b.settle()
	mold := b.desk.windows.Window(moldKey)
	b.desk.pages[moldKey].focus("mold/depth")
	b.until("the depth has the focus", func() bool { return mold.Canvas().Focused() != nil })
	b.desk.undo(moldKey, mold)
	b.until("the depth is as it was", func() bool { return b.Snapshot().Project.Mold.Depth == depth })
	b.settle()
	mold.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(redoToo)
	b.until("the depth is there again", func() bool { return b.Snapshot().Project.Mold.Depth != depth })
}

// TestFullScreen: F11 has the window fill the screen and the same key leaves it,
// also from the bench look; what is kept of its size is that before.
func TestFullScreen(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	w := b.desk.Show(cureKey)
	size := w.Canvas().Size()
	if !b.desk.press(cureKey, fyne.KeyF11) || !w.FullScreen() {
		t.Fatal("F11 does not fill the screen")
	}
	w.Resize(fyne.NewSize(1920, 1080))
	if got := b.desk.covers[cureKey].size(); got != size {
		t.Errorf("kept is %v, want %v", got, size)
	}
	b.desk.benchFrom(cureKey)
	if b.desk.press(cureKey, fyne.KeyF11) {
		t.Error("F11 is taken in the bench look")
	}
	if b.desk.covers[cureKey].hideBench(); !w.FullScreen() {
		t.Error("the bench look leaves a window that filled the screen small")
	}
	if b.desk.press(cureKey, fyne.KeyF11); w.FullScreen() {
		t.Error("F11 does not leave again")
	}
	if b.desk.press(cureKey, fyne.KeyF5) {
		t.Error("a key that stands for nothing is taken")
	}
}
