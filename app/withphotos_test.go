package app

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"meniscus/model"
)

// crate is a file in memory that is written and then read at any place.
type crate struct {
	bytes.Buffer
	closed int
}

func (c *crate) Close() error { c.closed++; return nil }

// ReadAt reads what was written.
func (c *crate) ReadAt(b []byte, off int64) (int, error) {
	return bytes.NewReader(c.Bytes()).ReadAt(b, off)
}

// packed writes the open project with its photos.
func (b *bench) packed() (*crate, int, error) {
	b.t.Helper()
	to := &crate{}
	missing, err := -1, errors.New("no answer")
	b.ExportWithPhotos(to, func(m int, e error) { missing, err = m, e })
	b.settle()
	if to.closed != 1 {
		b.t.Errorf("closed %d times", to.closed)
	}
	return to, missing, err
}

// unpack takes in a project with its photos.
func (b *bench) unpack(data []byte) (int, error) {
	b.t.Helper()
	from := &crate{}
	from.Write(data)
	missing, err := -1, errors.New("no answer")
	b.ImportWithPhotos(from, int64(len(data)), func(m int, e error) { missing, err = m, e })
	b.settle()
	if from.closed != 1 {
		b.t.Errorf("closed %d times", from.closed)
	}
	return missing, err
}

// withPictures is a session on a project with a picture in its journal and one
// of a slab.
func withPictures(t *testing.T) *bench {
	b := started(t)
	if err := b.addPhoto(bytes.NewReader(pictureOf(t, 60, 40))); err != nil {
		t.Fatal(err)
	}
	name, err := b.store.(Album).PutPhoto(bytes.NewReader(pictureOf(t, 50, 30)), 1<<20)
	if err != nil {
		t.Fatal(err)
	}
	_ = b.Edit("Slab", "", func(p *model.Project) error {
		p.Slabs = append(p.Slabs, model.Slab{ID: "s1", Name: "Slab", Upper: model.Tracing{Photo: name, Wide: 50, High: 30}})
		return nil
	})
	b.settle()
	return b
}

// TestToAnotherMachine: a project goes with its photos into another notebook
// and is the same there.
func TestToAnotherMachine(t *testing.T) {
	here := withPictures(t)
	file, missing, err := here.packed()
	if err != nil || missing != 0 {
		t.Fatal(missing, err)
	}
	there := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	if missing, err := there.unpack(file.Bytes()); err != nil || missing != 0 {
		t.Fatal(missing, err)
	}
	a, _ := here.Export()
	b, _ := there.Export()
	if !bytes.Equal(a, b) {
		t.Error("the project is another there")
	}
	if got := there.kept(); len(got) != 2 || !slices.EqualFunc(got, here.kept(), func(a, b string) bool { return filepath.Base(a) == filepath.Base(b) }) {
		t.Errorf("kept there %q, here %q", got, here.kept())
	}
	for _, path := range there.kept() {
		if _, err := there.picture(filepath.Base(path), 10); err != nil {
			t.Error(err)
		}
	}
	first := there.Snapshot().Project.ID
	if _, err := there.unpack(file.Bytes()); err != nil {
		t.Error(err)
	}
	if second := there.Snapshot().Project.ID; first != here.Snapshot().Project.ID || second == first || len(there.Snapshot().Cards) != 2 {
		t.Errorf("the second time it is %q beside %q", second, first)
	}
	path := filepath.Join(t.TempDir(), "tray.zip")
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if code := runCommand([]string{"plan", path}, time.Time{}, io.Discard, os.Stderr); code != 0 {
		t.Errorf("without a screen: code %d", code)
	}
	if err := errors.Join(here.Close(), there.Close()); err != nil {
		t.Error(err)
	}
}

// TestPhotosThatAreGone: a project is worth more than its pictures: it goes
// without those that are gone, and both ends say how many.
func TestPhotosThatAreGone(t *testing.T) {
	here := withPictures(t)
	whole, _, _ := here.packed()
	if err := os.Remove(here.kept()[0]); err != nil {
		t.Fatal(err)
	}
	file, missing, err := here.packed()
	if err != nil || missing != 1 {
		t.Fatalf("%d missing, %v", missing, err)
	}
	there := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	if missing, err := there.unpack(file.Bytes()); err != nil || missing != 1 || len(there.kept()) != 1 {
		t.Errorf("%d missing, kept %q, %v", missing, there.kept(), err)
	}
	if missing, err := there.unpack(whole.Bytes()); err != nil || missing != 0 || len(there.kept()) != 2 {
		t.Errorf("then whole: %d missing, kept %q, %v", missing, there.kept(), err)
	}
	if missing, err := there.unpack(file.Bytes()); err != nil || missing != 0 {
		t.Errorf("what the notebook has is not missing: %d, %v", missing, err)
	}
	if err := errors.Join(here.Close(), there.Close()); err != nil {
		t.Error(err)
	}
}

// TestNothingOfABadFileIsKept: of a file with one bad photo nothing is written,
// neither its other photos nor its project.
func TestNothingOfABadFileIsKept(t *testing.T) {
	here := withPictures(t)
	file, _, _ := here.packed()
	data := file.Bytes()
	at := bytes.LastIndex(data, []byte("IDAT")) // of the last photo
	data[at+10] ^= 1
	there := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	if _, err := there.unpack(data); err == nil {
		t.Error("it was taken")
	}
	if shot := there.Snapshot(); len(there.kept()) != 0 || shot.Open || len(shot.Cards) != 0 {
		t.Errorf("kept %q, %d projects", there.kept(), len(shot.Cards))
	}
	if err := errors.Join(here.Close(), there.Close()); err != nil {
		t.Error(err)
	}
	there = newBench(t, there.path, func(s Store) Store { return closed{s} })
	if _, err := there.unpack(data); !errors.Is(err, errClosed) {
		t.Errorf("into a notebook that can only be read: %v", err)
	}
	if _, _, err := there.packed(); !errors.Is(err, errNoProject) {
		t.Errorf("no project: %v", err)
	}
	if err := there.Close(); err != nil {
		t.Error(err)
	}
}
