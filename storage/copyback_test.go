package storage

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"meniscus/model"
)

// TestRestoreWhileOpen: the notebook goes on in use as the copy has it, its
// settings stay, and what was there is a copy from which it all comes back.
func TestRestoreWhileOpen(t *testing.T) {
	n := opened(t, tempPath(t))
	save(t, n, sample("a", 1, 3), 0, noon)
	save(t, n, sample("gone", 1, 3), 0, noon)
	if err := n.PutSetting("where", "then"); err != nil {
		t.Fatal(err)
	}
	if _, err := n.KeepDaily(noon); err != nil {
		t.Fatal(err)
	}
	save(t, n, sample("a", 2, 3), 1, noon)
	save(t, n, sample("new", 1, 3), 0, noon)
	if err := n.PutSetting("where", "now"); err != nil {
		t.Fatal(err)
	}
	list, err := n.Copies("")
	if err != nil || len(list) != 1 || list[0].Kind != model.CopyDaily || list[0].Away {
		t.Fatal(list, err)
	}
	standing := func(version, projects int) {
		t.Helper()
		p, r, err := n.Load("a")
		if err != nil || r.Number != version || !reflect.DeepEqual(p, sample("a", version, 3)) {
			t.Errorf("at %v, %v", r, err)
		}
		if cards, err := n.Cards(); err != nil || len(cards) != projects {
			t.Errorf("%d projects, %v", len(cards), err)
		}
		var where string
		if ok, err := n.Setting("where", &where); !ok || err != nil || where != "now" {
			t.Errorf("the setting is %q, %v", where, err)
		}
	}
	if err := n.Restore(list[0].Path, noon); err != nil {
		t.Fatal(err)
	}
	standing(1, 2)
	save(t, n, sample("a", 3, 3), 1, noon.Add(time.Hour)) // it can be worked on
	if list, err = n.Copies(""); err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	aside := list[0]
	if list[1].Kind == model.CopyAside {
		aside = list[1]
	}
	if aside.Kind != model.CopyAside || !aside.At.Equal(noon) {
		t.Errorf("set aside: %+v", aside)
	}
	if err := n.Restore(aside.Path, noon.Add(2*time.Hour)); err != nil {
		t.Fatal(err)
	}
	standing(2, 3)
}

// TestRestoreRefusals: a copy that cannot be used changes nothing, and the
// notebook goes on in use.
func TestRestoreRefusals(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	save(t, n, sample("a", 1, 3), 0, noon)
	bad := filepath.Join(t.TempDir(), "bad.db")
	if err := os.WriteFile(bad, bytes.Repeat([]byte("x"), 70_000), 0o600); err != nil {
		t.Fatal(err)
	}
	for from, want := range map[string]error{bad: ErrDamaged, bad + " not": ErrMissing} {
		if err := n.Restore(from, noon); !errors.Is(err, want) {
			t.Errorf("%s: %v", from, err)
		}
		if _, err := n.OpenCopy(from); !errors.Is(err, want) {
			t.Errorf("a look at %s: %v", from, err)
		}
	}
	if list, _ := Copies(path); len(list) != 0 {
		t.Errorf("refusals left %v", list)
	}
	save(t, n, sample("a", 2, 3), 1, noon)
}

// TestRestoreInAStorm: while saves come as fast as they can, copies are made,
// looked at and restored. Each is of one moment, every save that was answered is
// either in the notebook or in what was set aside, and nothing is torn.
func TestRestoreInAStorm(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	var wg sync.WaitGroup
	var done atomic.Bool
	var round atomic.Int64     // counts the restores
	saved := [3]atomic.Int64{} // of each project the newest version that was answered, behind the round that it was in
	for w, id := range []string{"a", "b", "c"} {
		save(t, n, sample(id, 1, 60), 0, noon)
		saved[w].Store(1)
		wg.Go(func() {
			for v := 2; !done.Load(); v++ {
				now := round.Load()
				p, r, err := n.Load(id)
				if err == nil {
					p = sample(id, v, 60)
					_, err = n.Save(p, card(p, noon.Add(time.Duration(v)*time.Second)), r.Number, false, "", noon.Add(time.Duration(v)*time.Second))
				}
				if err != nil && !errors.Is(err, ErrMissing) && !errors.Is(err, ErrExists) {
					t.Error(err)
					return
				}
				if err == nil && round.Load() == now {
					saved[w].Store(now*many + int64(v))
				}
			}
		})
	}
	dir := t.TempDir()
	rounds := 20
	if raceDetector { // each takes ten times as long
		rounds = 4
	}
	for i := range rounds {
		to := filepath.Join(dir, fmt.Sprint(i, ".db"))
		if err := n.Backup(to); err != nil {
			t.Fatal(err)
		}
		c, err := n.OpenCopy(to)
		if err != nil {
			t.Fatal(err)
		}
		cards, err := c.Cards()
		if err != nil || len(cards) != 3 {
			t.Errorf("%d projects in the copy, %v", len(cards), err)
		}
		for _, x := range cards { // the card and the document are of one moment
			p, _, err := c.Load(x.ID)
			if err != nil || p.Note != x.State {
				t.Errorf("the card says %q and the project %q, %v", x.State, p.Note, err)
			}
		}
		if err := c.Close(); err != nil {
			t.Error(err)
		}
		var before [3]int64
		for w := range saved {
			if x := saved[w].Load(); x/many == round.Load() {
				before[w] = x % many
			}
		}
		if err := n.Restore(to, noon.Add(time.Duration(i)*time.Second)); err != nil {
			t.Fatal(err)
		}
		round.Add(1)
		aside := filepath.Join(backupFolder(path), asideName+noon.Add(time.Duration(i)*time.Second).Format(asideTime)+".db")
		checked(t, aside)
		old, err := n.OpenCopy(aside)
		if err != nil {
			t.Fatal(err)
		}
		for w, id := range []string{"a", "b", "c"} {
			if p, _, err := old.Load(id); err != nil || version(p) < int(before[w]) {
				t.Errorf("%s was saved as version %d and set aside as %q, %v", id, before[w], p.Note, err)
			}
		}
		if err := old.Close(); err != nil {
			t.Error(err)
		}
	}
	done.Store(true)
	wg.Wait()
}

// many is more than the saves of one storm.
const many = 1_000_000

// version is the one that sample wrote into a project.
func version(p model.Project) int {
	var v int
	_, _ = fmt.Sscanf(p.Note, "version %d", &v)
	return v
}

// TestLookAtOlderForm: a copy that an older version of the program made can be
// looked at, and stays as it is.
func TestLookAtOlderForm(t *testing.T) {
	n := opened(t, tempPath(t))
	for _, name := range []string{"form-1.db", "form-2.db", "form-3.db"} {
		raw, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, raw, 0o400); err != nil {
			t.Fatal(err)
		}
		c, err := n.OpenCopy(path)
		if err != nil {
			t.Fatal(name, err)
		}
		cards, err := c.Cards()
		if err != nil || len(cards) == 0 {
			t.Errorf("%s: %d projects, %v", name, len(cards), err)
		}
		if err := c.Close(); err != nil {
			t.Error(err)
		}
		if after, err := os.ReadFile(path); err != nil || !bytes.Equal(raw, after) {
			t.Errorf("%s is another now, %v", name, err)
		}
		list, err := os.ReadDir(filepath.Dir(path))
		if err != nil || len(list) != 1 {
			t.Errorf("the look at %s left %v", name, list)
		}
	}
}

// TestSecondPlace: a folder that is not there is said and not made; in one that
// is, the copy lies with its photos, can be listed, and brings a notebook back on
// a disk that has nothing.
func TestSecondPlace(t *testing.T) {
	n := opened(t, tempPath(t))
	save(t, n, sample("a", 1, 3), 0, noon)
	photo := bytes.Join([][]byte{[]byte("\x89PNG\r\n\x1A\n"), []byte("a picture")}, nil)
	name, err := n.PutPhoto(bytes.NewReader(photo), 1000)
	if err != nil {
		t.Fatal(err)
	}
	stick := filepath.Join(t.TempDir(), "stick")
	if made, err := n.KeepAway(stick, noon, false); made || !errors.Is(err, ErrMissing) {
		t.Errorf("%t, %v", made, err)
	}
	if _, err := os.Stat(stick); err == nil {
		t.Error("the folder was made")
	}
	if err := os.Mkdir(stick, 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := n.KeepAway(filepath.Dir(n.Path()), noon, false); !errors.Is(err, ErrInvalid) {
		t.Errorf("beside itself: %v", err)
	}
	for _, want := range []bool{true, false} {
		if made, err := n.KeepAway(stick, noon, false); made != want || err != nil {
			t.Errorf("%t, %v", made, err)
		}
	}
	save(t, n, sample("a", 2, 3), 1, noon)
	if made, err := n.KeepAway(stick, noon, true); !made || err != nil {
		t.Errorf("again: %t, %v", made, err)
	}
	dir, err := n.awayFolder(stick)
	if err != nil {
		t.Fatal(err)
	}
	kept := filepath.Join(filepath.Dir(dir), "photos", name)
	if got, err := os.ReadFile(kept); err != nil || !bytes.Equal(got, photo) {
		t.Errorf("the photo there: %v", err)
	}
	if err := os.WriteFile(kept, []byte("torn"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := n.KeepAway(stick, noon, false); err != nil {
		t.Error(err)
	}
	if got, err := os.ReadFile(kept); err != nil || !bytes.Equal(got, photo) {
		t.Errorf("a torn photo there is not mended: %v", err)
	}
	// Another notebook's copies of the same day lie beside these.
	if err := os.Rename(filepath.Dir(dir), filepath.Join(filepath.Dir(filepath.Dir(dir)), "notebook begun before")); err != nil {
		t.Fatal(err)
	}
	list, err := n.Copies(stick)
	if err != nil || len(list) != 1 || !list[0].Away {
		t.Fatal(list, err)
	}
	fresh := opened(t, tempPath(t))
	if err := fresh.Restore(list[0].Path, noon); err != nil {
		t.Fatal(err)
	}
	if _, r, err := fresh.Load("a"); err != nil || r.Number != 2 {
		t.Errorf("at %v, %v", r, err)
	}
	if made, err := fresh.KeepAway(stick, noon, true); !made || err != nil {
		t.Errorf("the restored one: %t, %v", made, err)
	}
	if list, err := fresh.Copies(stick); err != nil || len(list) != 3 { // with what was set aside
		t.Errorf("%v, %v", list, err)
	}
	if f, err := fresh.Photo(name); err != nil {
		t.Error(err)
	} else if err := f.Close(); err != nil {
		t.Error(err)
	}
}

// TestCopyNames: what a copy is, and of when, by its name.
func TestCopyNames(t *testing.T) {
	at := func(text string) time.Time {
		x, err := time.Parse(time.RFC3339, text)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, c := range []struct {
		name, written string
		kind          model.CopyKind
		at            string
	}{
		{"notebook-2026-11-25.db", "2026-11-25T17:03:00Z", model.CopyDaily, "2026-11-25T17:03:00Z"},
		{"notebook-2026-11-25.db", "2027-02-01T10:00:00Z", model.CopyDaily, "2026-11-25T00:00:00Z"}, // carried about
		{"set-aside-2026-11-25T120000.000Z.db", "2027-02-01T10:00:00Z", model.CopyAside, "2026-11-25T12:00:00Z"},
		{"before-form-3-2026-11-25T120000Z.db", "2026-11-25T12:00:00Z", model.CopyUpdate, "2026-11-25T12:00:00Z"},
		{"before-form-3-2026-11-25T120000Z.db", "2027-02-01T10:00:00Z", model.CopyUpdate, "2026-11-25T12:00:00Z"}, // carried about
		{"before-form-3.db", "2026-11-25T12:00:00Z", model.CopyOther, "2026-11-25T12:00:00Z"},                     // not ours
		{"mine.db", "2026-11-25T12:00:00Z", model.CopyOther, "2026-11-25T12:00:00Z"},
	} {
		if kind, got := kindOf(c.name, at(c.written)); kind != c.kind || !got.Equal(at(c.at)) {
			t.Errorf("%s: %s of %v", c.name, kind, got)
		}
	}
	if strings.Contains(asideTime, " ") {
		t.Error("a name with a space")
	}
}
