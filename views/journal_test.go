package views

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/views/touch"
)

// PutPhoto keeps a picture in memory.
func (s *fakeStore) PutPhoto(from io.Reader, _ int64) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.full {
		return "", errFull
	}
	data, err := io.ReadAll(from)
	s.settings["photo x"] = data
	return "photo x", err
}

// Photo opens a picture that was kept.
func (s *fakeStore) Photo(name string) (io.ReadCloser, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	data, ok := s.settings[name]
	if !ok {
		return nil, errors.New("it is not there any more")
	}
	return io.NopCloser(bytes.NewReader(data)), nil
}

// journalOn opens the journal of a demo whose first pour was planned for now
// and is started 12 minutes late.
func journalOn(t *testing.T) (*bench, *curePage) {
	t.Helper()
	b, p := cureOn(t, "poppy-stand")
	planned := b.Now()
	if err := b.Edit("x", "", func(m *model.Project) error { m.Shop.Planned, m.Shop.Zone = planned, "UTC"; return nil }); err != nil {
		t.Fatal(err)
	}
	b.clock.advance(12 * time.Minute)
	b.settle()
	if err := b.StartPour(p.bench.next); err != nil {
		t.Fatal(err)
	}
	b.settle()
	p.tabs.turn(journalTab)
	return b, p
}

// pictureFile writes a small picture, twice as wide as high.
func pictureFile(t *testing.T, name string) fyne.URI {
	t.Helper()
	i := image.NewNRGBA(image.Rect(0, 0, 40, 20))
	i.SetNRGBA(1, 1, color.NRGBA{R: 255, A: 255})
	var out bytes.Buffer
	if err := png.Encode(&out, i); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return storage.NewFileURI(path)
}

// pictures counts the pictures that are shown below o.
func pictures(o fyne.CanvasObject) int {
	n := 0
	for _, x := range test.LaidOutObjects(o) {
		if i, ok := x.(*canvas.Image); ok && i.Visible() {
			n++
		}
	}
	return n
}

func TestJournalShowsThePlanBesideWhatHappened(t *testing.T) {
	b, p := journalOn(t)
	for _, words := range []string{"Pour smoke-grey base, 09:00", "Pour of smoke-grey base started", "12 min late", "Still to come", "Wednesday 25 November 2026"} {
		if !cureSays(p.journal.root, words) {
			t.Errorf("no %q in %q", words, texts(p.journal.root))
		}
	}
	plan := b.Snapshot().Plan
	working, _ := plan.NextStep(b.Now())
	if !cureSays(p.journal.root, "Wed 25 Nov, "+working.Due.UTC().Format("15:04")+"  Working time of smoke-grey base ends") {
		t.Errorf("%q", texts(p.journal.root))
	}
	b.clock.advance(3 * time.Hour)
	p.tick(b.Now())
	if cureSays(p.journal.root, ":58  Working time") || !cureSays(p.journal.root, "Working time of smoke-grey base ends") {
		t.Errorf("once it has passed: %q", texts(p.journal.root))
	}
	if texts := texts(p.journal.root); slices.ContainsFunc(texts, func(s string) bool { return strings.Contains(s, "exotherm") }) {
		t.Error("a word of the laboratory")
	}
}

func TestJournalPutsTheActsAway(t *testing.T) {
	b, p := journalOn(t)
	if err := b.AddNote("a bubble"); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if !shows(p.journal.root, "Take back") {
		t.Fatal("a slip that was just made cannot be taken back")
	}
	tapRow(t, p.journal.root, "a bubble")
	if shows(p.journal.root, "Take back") {
		t.Error("the acts stay when their line is touched")
	}
	tapRow(t, p.journal.root, "Pour of smoke-grey base started")
	tapOn(t, p.journal.root, "Take back")
	b.settle()
	shot := b.Snapshot()
	if _, begun := shot.Project.PourStart(shot.Project.Layers[0].ID); begun || !shows(p.journal.root, "started, the room at 21 °C (taken back)") {
		t.Errorf("%q", texts(p.journal.root))
	}
}

// TestJournalCorrects: time and weight are corrected by a further entry, in the
// line itself; what cannot be read is said there, and nothing is lost.
func TestJournalCorrects(t *testing.T) {
	b, p := journalOn(t)
	layer := b.Snapshot().Project.Layers[1].ID
	if err := b.AddWeighed(layer, model.EntryWeighedA, "500 g", true); err != nil {
		t.Fatal(err)
	}
	b.settle()
	count := len(b.Snapshot().Project.Journal)
	tapOn(t, p.journal.root, "Correct its time or weight")
	typeInto(t, b, cureKey, model.AmendGross, "lots")
	tapOn(t, p.journal.root, "Keep it corrected")
	b.settle()
	if f := p.in.form.Field(model.AmendGross); f == nil || f.Text() != "lots" || len(b.Snapshot().Project.Journal) != count {
		t.Fatalf("%+v", b.Snapshot().Project.Journal)
	}
	typeInto(t, b, cureKey, model.AmendGross, "497.8 g")
	typeInto(t, b, cureKey, model.AmendAt, "09:05")
	tapOn(t, p.journal.root, "Keep it corrected")
	b.settle()
	shot := b.Snapshot()
	if len(shot.Project.Journal) != count+2 {
		t.Fatalf("%+v", shot.Project.Journal)
	}
	var e model.Entry
	for _, x := range shot.Project.Journal {
		if _, stands := shot.Project.Entry(x.ID); stands && x.Kind == model.EntryWeighedA {
			e = x
		}
	}
	if e.Gross.Written != "497.8 g" || e.At.Format("15:04") != "09:05" || !e.Cup.Given() {
		t.Errorf("%+v", e)
	}
	if p.in.form.Input(model.AmendAt) != nil || !shows(p.journal.root, "the scale read 500 g (taken back)") {
		t.Errorf("%q", texts(p.journal.root))
	}
	p.tabs.turn("now")
	if p.focus(notePath); p.tabs.at() != journalTab {
		t.Error("the entry of a note is not turned to")
	}
}

// TestJournalTakesAPhoto: dropped on the window, it is kept with the pour that
// is in the mold, seen small in its line, and large once it is touched.
func TestJournalTakesAPhoto(t *testing.T) {
	b, p := journalOn(t)
	p.tabs.turn("now")
	p.journal.dropped(fyne.NewPos(10, 10), []fyne.URI{pictureFile(t, "mold.png")})
	if p.tabs.at() != journalTab {
		t.Error("the journal is not turned to")
	}
	b.until("the picture is shown", func() bool { return pictures(p.journal.root) == 1 })
	b.settle()
	journal := b.Snapshot().Project.Journal
	if e := journal[len(journal)-1]; e.Kind != model.EntryPhoto || e.Layer != b.Snapshot().Project.Layers[0].ID || e.Photo == "" {
		t.Fatalf("%+v", e)
	}
	for _, x := range test.LaidOutObjects(p.journal.root) {
		if r, ok := x.(*touch.Row); ok && pictures(r) == 1 {
			r.Tapped(&fyne.PointEvent{})
		}
	}
	b.until("it is seen large", func() bool { return pictures(p.journal.photos.root) == 1 })
	if p.frame.root.Visible() {
		t.Error("the window shows through")
	}
	tapOn(t, p.content(), "Close the picture")
	if !p.frame.root.Visible() || p.journal.photos.root.Visible() {
		t.Error("the picture does not go")
	}
}

// TestJournalSaysWhyAPhotoIsNotKept: in words beside the button, and nothing is
// noted; one that has gone from the disk is said in its line.
func TestJournalSaysWhyAPhotoIsNotKept(t *testing.T) {
	b, p := journalOn(t)
	before := len(b.Snapshot().Project.Journal)
	path := filepath.Join(t.TempDir(), "sheet.txt")
	if err := os.WriteFile(path, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	p.journal.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	b.until("it says why", func() bool {
		return strings.Contains(p.journal.said.Text(), "“sheet.txt” was not kept: this is no picture")
	})
	p.journal.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path + ".gone")})
	b.until("it says why", func() bool { return !strings.Contains(p.journal.said.Text(), "sheet.txt” was") })
	if p.journal.said.Text() == "" || len(b.Snapshot().Project.Journal) != before {
		t.Errorf("%q", p.journal.said.Text())
	}
	if err := b.Happened(model.Entry{Kind: model.EntryPhoto, Photo: "lost"}); err != nil {
		t.Fatal(err)
	}
	b.until("the line says why", func() bool { return cureSays(p.journal.root, "The picture cannot be shown: it is not there any more") })
}

// TestCardIsOffered: where there is a pour, on the page of dates.
func TestCardIsOffered(t *testing.T) {
	b, p := cureOn(t, "")
	p.tabs.turn("dates")
	if !p.dates.card.Disabled() {
		t.Error("a card without a pour")
	}
	b.desk.saveCard()
	if !shows(b.desk.pages[notebookKey].content(), "There is no pour to print a card of") {
		t.Errorf("%q", texts(b.desk.pages[notebookKey].content()))
	}
	b, p = cureOn(t, "poppy-stand")
	p.tabs.turn("dates")
	if p.dates.card.Disabled() {
		t.Error("no card of a piece with pours")
	}
	if data, err := b.PourCard(); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	if got := fileName("Poppy/stand", " card.pdf"); got != "Poppy-stand card.pdf" {
		t.Errorf("called %q", got)
	}
}
