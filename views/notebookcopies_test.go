package views

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
)

// vault is a notebook in memory with copies of it, and an album.
type vault struct {
	*fakeStore
	list     []model.Copy
	then     map[string]*fakeStore // by path
	restored []string
	away     []string
	photos   map[string][]byte
}

func (v *vault) KeepDaily(time.Time) (bool, error) { return false, nil }
func (v *vault) KeepAway(folder string, _ time.Time, _ bool) (bool, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if strings.Contains(folder, "gone") {
		return false, errors.New("the folder is not there")
	}
	v.away = append(v.away, folder)
	return true, nil
}
func (v *vault) Copies(string) ([]model.Copy, error) { return v.list, nil }
func (v *vault) OpenCopy(path string) (model.Copied, error) {
	if s := v.then[path]; s != nil {
		return s, nil
	}
	return nil, errors.New("the copy is damaged")
}
func (v *vault) CarryPhotos(string) error { return nil }
func (v *vault) Restore(path string, _ time.Time) error {
	v.mu.Lock()
	defer v.mu.Unlock()
	then := v.then[path]
	v.restored = append(v.restored, path)
	v.cards, v.states, v.revs, v.current = then.cards, then.states, then.revs, then.current
	return nil
}

func (v *vault) PutPhoto(from io.Reader, _ int64) (string, error) {
	return "", errors.New("no pictures in this test")
}

func (v *vault) Photo(string) (io.ReadCloser, error) { return nil, errors.New("it is not there") }

// withVault is a bench whose notebook has one copy that can be read, in which
// the stand is not 40 mm deep yet, and one that is damaged.
func withVault(t *testing.T) (*bench, *vault) {
	then := newFakeStore()
	b := newBench(t, then)
	b.demo("poppy-stand")
	b.settle()
	copied := newFakeStore()
	then.mu.Lock()
	for id, states := range then.states {
		copied.states[id] = map[int]model.Project{}
		for n, p := range states {
			copied.states[id][n] = p
		}
		copied.revs[id], copied.current[id] = slices.Clone(then.revs[id]), then.current[id]
	}
	copied.cards = slices.Clone(then.cards)
	then.mu.Unlock()
	b.end()
	v := &vault{fakeStore: then, then: map[string]*fakeStore{"good": copied}, list: []model.Copy{
		{Path: "good", Kind: model.CopyDaily, At: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC), Bytes: 143_000},
		{Path: "bad", Kind: model.CopyAside, At: time.Date(2026, 11, 24, 9, 0, 0, 0, time.UTC), Bytes: 10},
	}}
	b = newBenchOn(t, then, v)
	b.settle()
	b.clock.advance(time.Hour)
	b.Enter("mold/depth", "45 mm")
	b.settle()
	return b, v
}

// depth is the depth of the mold as the windows show it.
func (b *bench) depth() string {
	shot := b.Snapshot()
	text, _ := model.Show(&shot.Project, "mold/depth")
	return text
}

// says waits until the notebook's window says something.
func (b *bench) says(text string) {
	b.t.Helper()
	b.until("the notebook says “"+text+"”", func() bool { return shows(b.notebook().content(), text) })
	b.settle()
}

// TestCopiesCanBeLookedInto: the list tells what each copy would change, a touch
// looks into one, a piece of it can be looked at, and the banner leads back.
func TestCopiesCanBeLookedInto(t *testing.T) {
	b, _ := withVault(t)
	before := b.depth()
	b.desk.showCopies()
	b.settle()
	p := b.notebook()
	for _, want := range []string{"Copies of the notebook", "Wednesday 25 November 2026", "1 piece · 1 worked on since", "copy of the day · 143 kB", "the copy is damaged", "set aside when another copy was restored"} {
		b.says(want)
	}
	p.copies.rows[0].row.Tapped(&fyne.PointEvent{})
	b.settle()
	for _, want := range []string{"It has 1 piece: 1 worked on since.", "Poppy stand", "worked on since, until"} {
		b.says(want)
	}
	if !p.copy.look.Disabled() || !p.copy.bring.Disabled() || p.copy.restore.Disabled() {
		t.Error("with nothing chosen only all can be restored")
	}
	if least := p.content().MinSize(); least.Width > 1180 || least.Height > 660 {
		t.Errorf("the notebook is %v at least", least)
	}
	p.copy.rows[0].row.Tapped(&fyne.PointEvent{})
	p.copy.look.OnTapped()
	b.says("This is a look at the piece as it is in the copy of Wednesday 25 November 2026")
	if b.depth() == before {
		t.Errorf("no look: %q", b.depth())
	}
	b.Enter("mold/depth", "99 mm")
	b.settle()
	b.EndLook()
	b.until("the look is over", func() bool { return b.Snapshot().Look == nil })
	b.settle()
	if b.depth() != before || shows(p.content(), "This is a look") {
		t.Errorf("after the look: %q", b.depth())
	}
}

// TestCopiesComeBack: one piece, and then all.
func TestCopiesComeBack(t *testing.T) {
	b, v := withVault(t)
	now := b.depth()
	p := b.notebook()
	b.desk.showCopies()
	b.says("worked on since")
	p.copies.rows[0].row.Tapped(&fyne.PointEvent{})
	b.says("It has 1 piece")
	p.copy.rows[0].row.Tapped(&fyne.PointEvent{})
	p.copy.bring.OnTapped()
	b.says("The piece is as it was in the copy")
	if b.depth() == now || len(v.restored) > 0 || !p.piece.root.Visible() {
		t.Errorf("one piece: %q", b.depth())
	}
	b.Undo()
	b.settle()
	if b.depth() != now {
		t.Errorf("undone: %q", b.depth())
	}
	b.desk.showCopies()
	b.says("worked on since")
	p.copies.rows[0].row.Tapped(&fyne.PointEvent{})
	b.says("It has 1 piece")
	p.copy.restore.OnTapped()
	b.says("The notebook is as it was on Wednesday 25 November 2026")
	if b.depth() == now || !slices.Equal(v.restored, []string{"good"}) {
		t.Errorf("all: %q, %q", b.depth(), v.restored)
	}
}

// TestSecondPlaceIsSaid: where the second copy goes, and that it did not.
func TestSecondPlaceIsSaid(t *testing.T) {
	b, v := withVault(t)
	p := b.notebook()
	b.desk.showCopies()
	b.settle()
	if p.copies.now.Visible() {
		t.Error("nowhere to copy to, and yet a button")
	}
	for folder, want := range map[string]string{"/media/stick": "A second copy is made", "/media/gone": "No second copy was made"} {
		b.SetSecondPlace(folder, p.copies.copied)
		b.says(want)
		b.says("to " + folder)
		if !p.copies.now.Visible() {
			t.Errorf("no button for %s", folder)
		}
	}
	if len(v.away) != 1 {
		t.Errorf("%q", v.away)
	}
	p.copies.none.OnTapped()
	b.settle()
	if p.copies.now.Visible() {
		t.Error("the second place is still there")
	}
}

// TestPackedProjectIsDropped: a project with its photos comes by the doors of
// any other file, and what is wrong with one is said.
func TestPackedProjectIsDropped(t *testing.T) {
	b, _ := withVault(t)
	path := filepath.Join(t.TempDir(), "stand.zip")
	to, err := storage.Writer(storage.NewFileURI(path))
	if err != nil {
		t.Fatal(err)
	}
	b.desk.pack(to)
	b.says("Exported with its photos to " + path)
	p := b.notebook()
	count := len(b.Snapshot().Cards)
	p.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	b.says("comes into the notebook with its photos")
	b.until("it is in the list", func() bool { return len(b.Snapshot().Cards) == count+1 })
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.Replace(data, []byte("manifest.json"), []byte("../ifest.json"), -1), 0o600); err != nil {
		t.Fatal(err)
	}
	p.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	b.says("was not taken in; nothing has changed")
	b.says("outside of its folder")
	if len(b.Snapshot().Cards) != count+1 {
		t.Error("a hostile file came in")
	}
}

// TestStandingWords: each piece of a copy is counted once, and what it does not
// have is told apart from what it has.
func TestStandingWords(t *testing.T) {
	for _, c := range []struct {
		counts map[model.Standing]int
		want   string
	}{
		{map[model.Standing]int{model.Same: 3}, "the same as now"},
		{map[model.Standing]int{model.NewerNow: 1}, "1 worked on since"},
		{map[model.Standing]int{model.NewerNow: 1, model.OnlyNow: 1}, "1 worked on since; 1 more is not in the copy"},
		{map[model.Standing]int{model.Same: 2, model.NewerNow: 1, model.OnlyThen: 1, model.OnlyNow: 4}, "1 worked on since, 1 only in the copy, 2 the same as now; 4 more are not in the copy"},
		{map[model.Standing]int{model.Same: 1, model.OnlyNow: 1}, "the same as now; 1 more is not in the copy"},
		{map[model.Standing]int{model.OnlyNow: 2}, "2 pieces are not in the copy"},
		{nil, "the same as now"},
	} {
		if got := standingWords(c.counts); got != c.want {
			t.Errorf("%v: %q, want %q", c.counts, got, c.want)
		}
	}
}
