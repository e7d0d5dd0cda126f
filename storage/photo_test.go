package storage

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"meniscus/model"
)

const pngStart = "\x89PNG\r\n\x1A\n"

func TestPhotos(t *testing.T) {
	n := opened(t, tempPath(t))
	for start, ending := range map[string]string{
		"\xFF\xD8\xFF\xE0": ".jpg", pngStart: ".png", "GIF89a": ".gif", "RIFF\x10\x00\x00\x00WEBPVP8 ": ".webp",
		"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00": ".heic", "\x00\x00\x00\x1Cftypheix\x00\x00\x00\x00": ".heic",
	} {
		want := start + strings.Repeat("x", 100_000)
		name, err := n.PutPhoto(strings.NewReader(want), 1<<20)
		if err != nil || filepath.Ext(name) != ending {
			t.Fatalf("%q: %v, %v", start, name, err)
		}
		again, err := n.PutPhoto(iotest.OneByteReader(strings.NewReader(want)), 1<<20)
		if err != nil || again != name {
			t.Errorf("the same photo: %s and %s, %v", name, again, err)
		}
		r, err := n.Photo(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(r)
		if err != nil || string(got) != want || r.Close() != nil {
			t.Errorf("%s: read %d bytes, %v", name, len(got), err)
		}
		info, err := os.Stat(filepath.Join(n.photos(), name))
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("mode %v, %v", info.Mode(), err)
		}
	}
}

func TestPhotoRefusals(t *testing.T) {
	n := opened(t, tempPath(t))
	broken := errors.New("the card was pulled out")
	cases := []struct {
		name  string
		r     io.Reader
		limit int64
		kind  error
	}{
		{"empty", strings.NewReader(""), 100, ErrInvalid},
		{"text", strings.NewReader("<svg onload=alert(1)>"), 100, ErrInvalid},
		{"too large", strings.NewReader(pngStart + strings.Repeat("x", 100)), 107, ErrTooLarge},
		{"the source breaks", io.MultiReader(strings.NewReader(pngStart+"xxxxxxxxxxxx"), iotest.ErrReader(broken)), 1000, broken},
	}
	for _, c := range cases {
		if _, err := n.PutPhoto(c.r, c.limit); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if name, err := n.PutPhoto(strings.NewReader(pngStart+strings.Repeat("x", 100)), 108); err != nil {
		t.Errorf("exactly the limit: %v", err)
	} else if err := os.Remove(filepath.Join(n.photos(), name)); err != nil {
		t.Error(err)
	}
	left, err := os.ReadDir(n.photos())
	if err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

func TestPhotoNames(t *testing.T) {
	n := opened(t, tempPath(t))
	sixtyFour := strings.Repeat("a", 64)
	for _, name := range []string{
		"", ".", "..", "../notebook.db", "/etc/passwd", sixtyFour, sixtyFour + ".svg", sixtyFour + ".jpg\x00", sixtyFour + ".jpg/",
		"../photos/" + sixtyFour + ".jpg", strings.Repeat("A", 64) + ".jpg", `..\` + sixtyFour + ".jpg", sixtyFour + ".jpg\n",
	} {
		if _, err := n.Photo(name); !errors.Is(err, ErrInvalid) {
			t.Errorf("%q: %v", name, err)
		}
	}
	if _, err := n.Photo(sixtyFour + ".jpg"); !errors.Is(err, ErrMissing) {
		t.Errorf("a good name of no photo: %v", err)
	}
}

func TestPhotoLinksLeadNowhere(t *testing.T) {
	n := opened(t, tempPath(t))
	if err := os.MkdirAll(n.photos(), 0o700); err != nil {
		t.Fatal(err)
	}
	secret := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(secret, []byte("secret"), 0o600); err != nil {
		t.Fatal(err)
	}
	name := strings.Repeat("a", 64) + ".jpg"
	link := filepath.Join(n.photos(), name)
	if err := os.Symlink(secret, link); err != nil {
		t.Skip(err)
	}
	if _, err := n.Photo(name); err == nil {
		t.Error("a link out of the folder was followed")
	}
	if err := os.Remove(link); err != nil {
		t.Fatal(err)
	}
}

func TestDamagedPhoto(t *testing.T) {
	n, err := Open(tempPath(t))
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	name, err := n.PutPhoto(strings.NewReader(pngStart+"picture"), 1000)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(n.photos(), name)
	if err := os.WriteFile(file, []byte(pngStart+"pixture"), 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := n.Photo(name)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if _, err := io.Copy(io.Discard, r); !errors.Is(err, ErrDamaged) {
		t.Errorf("reading: %v", err)
	}
	if err := n.Check(); !errors.Is(err, ErrDamaged) {
		t.Errorf("checking: %v", err)
	}
}

func TestOpenSweepsUnfinishedFiles(t *testing.T) {
	path := filepath.Join(t.TempDir(), "odd [name]*", "note?book.db")
	n, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := n.PutPhoto(bytes.NewReader([]byte(pngStart)), 100); err != nil {
		t.Fatal(err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Dir(path)
	for _, name := range []string{filepath.Join(dir, ".note?book.db.part-1"), filepath.Join(dir, "photos", ".photo.part-2"), filepath.Join(dir, "mine.part-3")} {
		if err := os.WriteFile(name, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	opened(t, path)
	left, _ := filepath.Glob(filepath.Join(escapeGlob(dir), "*"))
	hidden, _ := filepath.Glob(filepath.Join(escapeGlob(dir), ".*"))
	photos, _ := os.ReadDir(filepath.Join(dir, "photos"))
	if len(left) != 3 || len(hidden) != 0 || len(photos) != 1 {
		t.Errorf("left %q, hidden %q, photos %v", left, hidden, photos)
	}
}

// TestPhotosOutliveTheirStates: no state of a project counts its photos, so one
// that only an old state's slab names is there as long as that state may be
// turned back to, and longer: after thinning, after a copy and after the
// notebook was opened anew.
func TestPhotosOutliveTheirStates(t *testing.T) {
	path := tempPath(t)
	n := opened(t, path)
	quick(n)
	n.limits = limits{bytes: 1 << 20, whole: time.Hour, hourly: 2 * time.Hour, undo: 3, interval: 5}
	kept := func(i int) string {
		name, err := n.PutPhoto(strings.NewReader(fmt.Sprint(pngStart, "slab ", i)), 1<<20)
		if err != nil {
			t.Fatal(err)
		}
		return name
	}
	p := sample("one", 1, 1)
	var names []string
	at, last := 0, noon.Add(-300*day)
	for i := range 20 {
		names = append(names, kept(i))
		p.Slabs = []model.Slab{{ID: "b1", Name: "slab", Upper: model.Tracing{Photo: names[i], Wide: 4, High: 3}}}
		last = last.Add(time.Minute)
		at = save(t, n, p, at, last).Number
	}
	p.Slabs = nil
	for i := range 6 {
		at = save(t, n, p, at, noon.Add(time.Duration(i)*time.Minute)).Number
	}
	if revisions, err := n.Revisions("one"); err != nil || len(revisions) > 15 {
		t.Errorf("%d states were not thinned, %v", len(revisions), err)
	}
	if _, err := n.KeepDaily(noon); err != nil {
		t.Error(err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	n = opened(t, path)
	for i, name := range names {
		r, err := n.Photo(name)
		if err != nil {
			t.Fatalf("photo %d: %v", i, err)
		}
		if data, err := io.ReadAll(r); err != nil || string(data) != fmt.Sprint(pngStart, "slab ", i) {
			t.Errorf("photo %d: %q, %v", i, data, err)
		}
		_ = r.Close()
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
}
