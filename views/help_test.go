package views

import (
	"fmt"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/assets"
	"meniscus/model"
	"meniscus/views/touch"
)

// helpOf gives the window Help, opened.
func (b *bench) helpOf() *helpPage {
	b.t.Helper()
	p, ok := b.desk.pages[helpKey].(*helpPage)
	if !ok {
		b.t.Fatal("the help is not open")
	}
	return p
}

// TestHelpHasAPartForEachWindow: every window and the bench look have a part with
// a title and something to say, every part is a file and every file is a part.
func TestHelpHasAPartForEachWindow(t *testing.T) {
	for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey, helpBench} {
		if text := helpTextOf(key); len(text.blocks) < 4 || !slices.Contains(helpParts, key) {
			t.Errorf("the help on %s has %d blocks", key, len(text.blocks))
		}
	}
	files, err := assets.Help.ReadDir("help")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimSuffix(f.Name(), path.Ext(f.Name())))
	}
	for _, part := range helpParts {
		if !slices.Contains(names, part) || helpTextOf(part).title == "" {
			t.Errorf("the part %s has no text, or no title", part)
		}
	}
	if len(names) != len(helpParts) {
		t.Errorf("%d files of help for %d parts: %v", len(names), len(helpParts), names)
	}
}

// TestHelpFitsTheWindow: F1 opens the help at the part on the window, in the bench
// look at that on it, and with the help before one at the first steps.
func TestHelpFitsTheWindow(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	for _, key := range []string{notebookKey, moldKey, layersKey, mixingKey, cureKey, finishKey, shelfKey} {
		b.desk.Show(key)
		if !b.desk.press(key, fyne.KeyF1) || b.helpOf().now != key {
			t.Errorf("F1 in %s shows %q", key, b.helpOf().now)
		}
	}
	b.desk.benchFrom(cureKey)
	if b.desk.press(cureKey, fyne.KeyF1); b.helpOf().now != helpBench {
		t.Errorf("F1 in the bench look shows %q", b.helpOf().now)
	}
	if b.desk.press(helpKey, fyne.KeyF1); b.helpOf().now != helpStart {
		t.Errorf("F1 in the help shows %q", b.helpOf().now)
	}
	b.desk.covers[cureKey].setLock(true)
	if b.desk.press(cureKey, fyne.KeyF1) {
		t.Error("F1 is taken while the screen is wiped")
	}
}

// TestHelpMarksWhatIsOpen: F1 in each part of each window marks what the help says
// of that part, and nothing else; asked for by its own name the help marks nothing.
func TestHelpMarksWhatIsOpen(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	seen := 0
	for _, s := range stops(b) {
		if s.turn(); s.key == helpKey || b.desk.covers[s.key].bench != nil {
			continue
		}
		b.settle()
		from, ok := b.desk.pages[s.key].(parted)
		if !ok {
			t.Fatalf("%s tells of no part", s.key)
		}
		b.desk.press(s.key, fyne.KeyF1)
		said := b.helpOf().marked()
		if from.part() == "" && len(said) == 0 {
			continue
		}
		if seen++; len(said) != 1 || !slices.Contains(texts(said[0]), from.part()) {
			t.Errorf("%s: %q is open, and %d blocks are marked", s.name, from.part(), len(said))
		}
	}
	if seen < 25 {
		t.Errorf("only %d parts were asked about", seen)
	}
	if b.desk.help(moldKey); b.helpOf().marked() != nil {
		t.Error("the help itself marks what no window shows")
	}
}

// marked lists what the help marks as open in a window.
func (p *helpPage) marked() (list []*touch.Card) {
	for _, o := range test.LaidOutObjects(p.scroll) {
		if c, ok := o.(*touch.Card); ok {
			list = append(list, c)
		}
	}
	return list
}

// TestHelpLinksLeadSomewhere: every link leads to another part, or brings another
// window to the front or another page into the notebook; every field that one
// names is one of the document, so that its window knows it.
func TestHelpLinksLeadSomewhere(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("hall-shelf")
	links := 0
	for _, part := range helpParts {
		for _, block := range helpTextOf(part).blocks {
			if strings.Contains(block.text, "](") {
				t.Errorf("%s: a link stands within %q", part, block.text)
			}
			for _, l := range block.links {
				links++
				b.desk.help(part)
				before := b.standsAt()
				if !b.desk.follows(l.to) {
					t.Errorf("%s: %q leads to %s, where there is nothing", part, l.label, l.to)
				}
				if kind, rest, _ := strings.Cut(l.to, "/"); kind == "field" {
					first, _, _ := strings.Cut(rest, "/")
					if !slices.Contains([]string{"pieces", "inserts", "layers", "sheets"}, first) { // which are lists
						copied := b.Snapshot().Project.Clone()
						if !documentHas(&copied, rest) {
							t.Errorf("%s: there is no field %s", part, rest)
						}
					}
				}
				if l.to != "do/import" && b.standsAt() == before { // which asks over the notebook
					t.Errorf("%s: %q changes nothing", part, l.label)
				}
				if c := b.desk.covers[cureKey]; c != nil {
					c.hideBench()
				}
				b.settle()
			}
		}
	}
	if links < 20 {
		t.Errorf("only %d links were followed", links)
	}
	for _, wrong := range []string{"", "window/none", "field/none/x", "help/none", "do/none", "elsewhere/x"} {
		if b.desk.follows(wrong) {
			t.Errorf("%q leads somewhere", wrong)
		}
	}
}

// documentHas tells whether a document has a field with a path.
func documentHas(m model.Document, path string) bool {
	text, _ := model.Show(m, path)
	err := model.Enter(m, path, text)
	return err == nil || !strings.Contains(err.Error(), "no such field")
}

// standsAt tells which window the maker is in, and at what in the notebook, in
// the help and in the bench look.
func (b *bench) standsAt() string {
	at := b.desk.front + " " + b.helpOf().now
	if p, ok := b.desk.pages[notebookKey].(*notebookPage); ok {
		at += fmt.Sprintf(" %p", p.showing)
	}
	if c := b.desk.covers[cureKey]; c != nil && c.bench != nil {
		at += " bench"
	}
	return at
}

// TestKeysAreTold: the part on keys names every key that a menu shows.
func TestKeysAreTold(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.help(helpKeys)
	said := texts(b.helpOf().content())
	n := 0
	for _, menu := range b.desk.windows.Window(notebookKey).MainMenu().Items {
		for _, item := range menu.Items {
			s, ok := item.Shortcut.(fyne.KeyboardShortcut)
			if !ok {
				continue
			}
			n++
			if !slices.ContainsFunc(said, func(text string) bool {
				return strings.HasSuffix(strings.Split(text, " or ")[0], string(s.Key())) && strings.Contains(text, "Ctrl") == (s.Mod() != 0)
			}) || !slices.Contains(said, item.Label) {
				t.Errorf("%s with %s is not told of", item.Label, s.Key())
			}
		}
	}
	if n < 18 {
		t.Errorf("only %d keys in the menus", n)
	}
}

// TestLicencesAreShown: every part that others wrote is listed, and its terms are
// there at a touch, word for word.
func TestLicencesAreShown(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.help(helpTerms)
	p := b.helpOf()
	for _, l := range assets.Licences() {
		if !slices.Contains(texts(p.content()), l.Name) {
			t.Errorf("%s is not listed", l.Name)
		}
		p.term = l.Name
		p.show()
		for _, x := range l.Texts {
			if !slices.Contains(texts(p.content()), x.Text) {
				t.Errorf("the terms of %s in %s are not shown", l.Name, x.File)
			}
		}
		p.turn(helpTerms)
	}
}

// TestAboutTellsTheVersion: the version that the program was told of stands there.
func TestAboutTellsTheVersion(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.help(helpAbout)
	if !shows(b.helpOf().content(), "Meniscus "+b.desk.app.Metadata().Version) {
		t.Errorf("%q", texts(b.helpOf().content()))
	}
}

// TestParseHelp: the little of Markdown that the help is written in.
func TestParseHelp(t *testing.T) {
	got := parseHelp("# T\n\nSome words\nthat go on. [A](window/mold) [B](do/new)\n\n## H\n1. one\n   more\n- point [ and ]\n- **W**: means\n> care\n")
	want := helpText{"T", []helpBlock{
		{helpWordsOn, "", "Some words that go on.", []helpLink{{"A", "window/mold"}, {"B", "do/new"}}},
		{helpHead, "", "H", nil},
		{helpStep, "1", "one more", nil},
		{helpPoint, "", "point [ and ]", nil},
		{helpTerm, "W", "means", nil},
		{helpCaution, "", "care", nil},
	}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("\n%+v, want\n%+v", got, want)
	}
}
