package storage

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// spoil flips a bit in the body of one record, beneath the envelope.
func spoil(t testing.TB, n *Notebook, buckets []string, key []byte) {
	t.Helper()
	err := n.db.Update(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(buckets[0]))
		for _, name := range buckets[1:] {
			b = b.Bucket([]byte(name))
		}
		raw := bytes.Clone(b.Get(key))
		raw[len(raw)-3] ^= 4
		return b.Put(key, raw)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// spoiled makes a notebook with the projects a and b, each of three revisions
// and two journal entries, and spoils one record.
func spoiled(t *testing.T, buckets []string, key []byte) *Notebook {
	t.Helper()
	n, err := Open(tempPath(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := n.Close(); err != nil {
			t.Error(err)
		}
	})
	for _, id := range []string{"a", "b"} {
		for i := range 3 {
			p := sample(id, i+1, 3)
			p.Journal = []model.Entry{entry("e1", noon), entry("e2", noon)}
			save(t, n, p, i, noon)
		}
	}
	spoil(t, n, buckets, key)
	if err := n.Check(); !errors.Is(err, ErrDamaged) {
		t.Errorf("Check: %v", err)
	}
	if p, r, err := n.Load("b"); err != nil || r.Number != 3 || len(p.Journal) != 2 {
		t.Errorf("the other project: %v, %v", r, err)
	}
	return n
}

// named makes sure that an error is of damage and names project a.
func named(t *testing.T, err error) {
	t.Helper()
	if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), "Board a") {
		t.Errorf("error: %v", err)
	}
}

func TestDamagedBody(t *testing.T) {
	n := spoiled(t, []string{bucketProjects, "a", bucketBodies}, numberKey(3))
	_, _, err := n.Load("a")
	named(t, err)
	_, err = n.At("a", 3)
	named(t, err)
	named(t, n.Turn("a", 3, model.Card{}))
	p, err := n.At("a", 2)
	if err != nil {
		t.Fatal(err)
	}
	if err := n.Turn("a", 2, card(p, noon)); err != nil {
		t.Fatal(err)
	}
	if _, r, err := n.Load("a"); err != nil || r.Number != 2 {
		t.Errorf("an earlier state: %v, %v", r, err)
	}
	if list, err := n.Revisions("a"); err != nil || len(list) != 3 {
		t.Errorf("%v, %v", list, err)
	}
	if r := save(t, n, sample("a", 9, 3), 2, noon); r.Number != 4 {
		t.Errorf("saved as %v", r)
	}
}

func TestDamagedRevision(t *testing.T) {
	n := spoiled(t, []string{bucketProjects, "a", bucketRevisions}, numberKey(2))
	list, err := n.Revisions("a")
	named(t, err)
	if len(list) != 2 || !isPartial(err) {
		t.Errorf("listed %v", list)
	}
	if _, r, err := n.Load("a"); err != nil || r.Number != 3 {
		t.Errorf("%v, %v", r, err)
	}
	p := sample("a", 9, 3)
	if r, err := n.Save(p, card(p, noon), 2, true, "", noon); err != nil || r.Number != 4 || r.After != 2 {
		t.Errorf("amending what cannot be read: %v, %v", r, err)
	}
}

func TestDamagedHead(t *testing.T) {
	n := spoiled(t, []string{bucketProjects, "a"}, []byte(rowHead))
	_, _, err := n.Load("a")
	named(t, err)
	if err := n.Turn("a", 3, card(sample("a", 3, 3), noon)); err != nil {
		t.Fatal(err)
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
	if _, r, err := n.Load("a"); err != nil || r.Number != 3 {
		t.Errorf("%v, %v", r, err)
	}
}

func TestDamagedEntry(t *testing.T) {
	n := spoiled(t, []string{bucketProjects, "a", bucketJournal}, []byte("e1"))
	p, r, err := n.Load("a")
	named(t, err)
	if r.Number != 3 || len(p.Journal) != 1 || p.Journal[0].ID != "e2" || !isPartial(err) {
		t.Errorf("%v, %v", r, p.Journal)
	}
	p.Journal = append(p.Journal, entry("e1", noon))
	save(t, n, p, 3, noon)
	if err := n.Check(); err != nil {
		t.Errorf("after a save with the entry: %v", err)
	}
}

func TestDamagedCard(t *testing.T) {
	n := spoiled(t, []string{bucketCards}, []byte("a"))
	cards, err := n.Cards()
	if err != nil || len(cards) != 2 || cards[0].Name != "Board a" || !cards[0].Touched.Equal(noon) {
		t.Errorf("cards %v, %v", cards, err)
	}
	if err := n.Turn("a", 3, card(sample("a", 3, 3), noon)); err != nil {
		t.Fatal(err)
	}
	if err := n.Check(); err != nil {
		t.Error(err)
	}
}

func TestDamagedCardAndBody(t *testing.T) {
	n := spoiled(t, []string{bucketCards}, []byte("a"))
	spoil(t, n, []string{bucketProjects, "a", bucketBodies}, numberKey(3))
	cards, err := n.Cards()
	if !errors.Is(err, ErrDamaged) || !isPartial(err) || len(cards) != 1 || cards[0].ID != "b" {
		t.Errorf("cards %v, %v", cards, err)
	}
}

func TestDamagedSetting(t *testing.T) {
	n, err := Open(tempPath(t))
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	if err := n.PutSetting("window", "large"); err != nil {
		t.Fatal(err)
	}
	spoil(t, n, []string{bucketSettings}, []byte("window"))
	var into string
	if _, err := n.Setting("window", &into); !errors.Is(err, ErrDamaged) {
		t.Error(err)
	}
}

// filled makes a notebook file of a few hundred kB and returns its bytes. Its
// last write is of a setting, so that both meta pages know all projects.
func filled(t testing.TB) []byte {
	t.Helper()
	path := tempPath(t)
	n, err := Open(path, quick)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range filling() {
		after := 0
		for range 3 {
			after = save(t, n, p, after, noon).Number
		}
	}
	for i := range 3 {
		if _, err := n.SaveShelf(shelfOfState(i+1), false, "Change", noon); err != nil {
			t.Fatal(err)
		}
	}
	err = errors.Join(n.PutSetting("window", 1), n.PutSetting("window", 2), n.Close())
	if err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return whole
}

// filling is the content of filled.
func filling() map[string]model.Project {
	all := map[string]model.Project{}
	for i := range 24 {
		p := sample(fmt.Sprintf("project-%02d", i), i, (i%9)*(i%9)*4)
		p.Note += strings.Repeat(" and more", 20) // so that the cards need a branch page
		p.Journal = []model.Entry{entry("e1", noon), entry("e2", noon.Add(time.Minute))}
		all[p.ID] = p
	}
	return all
}

// truthful opens a notebook file that may be damaged and makes sure that
// whatever it gives is as it was saved, or is an error in words.
func truthful(path string) error {
	n, err := Open(path, quick)
	if err != nil {
		var trouble *Trouble
		if !errors.As(err, &trouble) {
			return fmt.Errorf("an error without words: %w", err)
		}
		return nil
	}
	defer n.Close()
	want := filling()
	cards, err := n.Cards()
	if err == nil && len(cards) != len(want) {
		return fmt.Errorf("%d cards and no error", len(cards))
	}
	if err != nil && !errors.Is(err, ErrDamaged) {
		return fmt.Errorf("cards: %w", err)
	}
	for id, p := range want {
		got, r, err := n.Load(id)
		switch {
		case err != nil && !errors.Is(err, ErrDamaged):
			return fmt.Errorf("load: %w", err)
		case err == nil && (r.Number != 3 || !reflect.DeepEqual(got, p)):
			return fmt.Errorf("project %s is silently wrong", id)
		}
	}
	switch m, list, at, err := n.LoadShelf(); {
	case err != nil && !errors.Is(err, ErrDamaged):
		return fmt.Errorf("shelf: %w", err)
	case err == nil && (at != 3 || len(list) != 3 || !reflect.DeepEqual(m, shelfOfState(3))):
		return errors.New("the shelf is silently wrong")
	}
	_ = n.Check()
	for _, id := range []string{"project-00", "project-07", "project-11"} {
		p := want[id]
		if _, err := n.Save(p, card(p, noon), 3, false, "", noon); err == nil {
			if got, r, err := n.Load(id); err != nil && !isPartial(err) || r.After != 3 || got.Note != p.Note {
				return fmt.Errorf("saved and then: %v, %w", r, err)
			}
		}
	}
	return n.Close()
}

func TestTruncated(t *testing.T) {
	whole := filled(t)
	path := tempPath(t)
	sizes := []int{0, 1, 15, 16, 79, 80, 4095, 4097, 8191, 8193, 12287, 16384 - 1, len(whole) - 1, len(whole) - 4095}
	for size := 0; size < len(whole); size += 4096 {
		sizes = append(sizes, size)
	}
	for _, size := range sizes {
		if err := os.WriteFile(path, whole[:size], 0o600); err != nil {
			t.Fatal(err)
		}
		n, err := Open(path)
		switch {
		case err == nil:
			// bbolt may have grown the file beyond what it uses.
			if err := errors.Join(n.Check(), n.Close()); err != nil || size < len(whole)/2 {
				t.Errorf("cut to %d of %d: opened, %v", size, len(whole), err)
			}
		case !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "backups"):
			t.Errorf("cut to %d: %v", size, err)
		}
		if after, err := os.ReadFile(path); err != nil || len(after) != size {
			t.Errorf("cut to %d: the file has now %d bytes, %v", size, len(after), err)
		}
	}
}

func TestForeignFiles(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "other.db")
	db, err := bolt.Open(other, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		_, err := tx.CreateBucket([]byte("things"))
		return err
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	text := filepath.Join(dir, "text.db")
	if err := os.WriteFile(text, bytes.Repeat([]byte("no notebook\n"), 4000), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{other, text, dir} {
		before, _ := os.ReadFile(path)
		if _, err := Open(path); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", path, err)
		}
		if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
			t.Errorf("%s was changed", path)
		}
		if _, _, err := Offer(path); path != text && !errors.Is(err, ErrInvalid) {
			t.Errorf("%s: a copy is offered in its place: %v", path, err)
		}
	}
}

// damages are ways to spoil bytes, each decided by r.
var damages = []func(r *rand.Rand, b []byte){
	func(r *rand.Rand, b []byte) { b[8192+r.IntN(len(b)-8192)] ^= 1 << r.IntN(8) },
	func(r *rand.Rand, b []byte) { // in the heads of pages, where it hurts
		b[4096*(2+r.IntN(len(b)/4096-2))+r.IntN(80)] = byte(r.Uint32())
	},
	func(r *rand.Rand, b []byte) {
		at := 8192 + r.IntN(len(b)-8192-64)
		for i := range 64 {
			b[at+i] = byte(r.Uint32())
		}
	},
	func(r *rand.Rand, b []byte) { clear(somePage(r, b)) },
	func(r *rand.Rand, b []byte) {
		x, y := somePage(r, b), somePage(r, b)
		z := bytes.Clone(x)
		copy(x, y)
		copy(y, z)
	},
	func(r *rand.Rand, b []byte) { // a page with another's number
		x, y := somePage(r, b), somePage(r, b)
		copy(x[8:], y[8:])
	},
	func(r *rand.Rand, b []byte) { b[r.IntN(8192)] ^= 1 << r.IntN(8) }, // meta pages
}

func somePage(r *rand.Rand, b []byte) []byte {
	at := 4096 * (2 + r.IntN(len(b)/4096-2))
	return b[at : at+4096]
}

// The child spoils a file in many ways and looks whether it still is truthful.
func init() {
	children["damage"] = func(args []string) {
		limitMemory(6 << 30)
		whole, err := os.ReadFile(args[0])
		must(err)
		path := args[0] + ".spoiled"
		for seed := range uint64(175) {
			r := rand.New(rand.NewPCG(seed, 7))
			b := bytes.Clone(whole)
			for range 1 + r.IntN(3) {
				damages[int(seed)%len(damages)](r, b)
			}
			must(os.WriteFile(path, b, 0o600))
			if err := truthful(path); err != nil {
				must(fmt.Errorf("seed %d: %w", seed, err))
			}
		}
		fmt.Println("done")
	}
}

func TestRandomDamage(t *testing.T) {
	path := tempPath(t)
	if err := os.WriteFile(path, filled(t), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := child(t, "damage", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = cmd.Stdout
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(60*time.Second, func() { _ = cmd.Process.Kill() })
	said, _ := io.ReadAll(out)
	err = cmd.Wait()
	if !late.Stop() {
		t.Fatalf("it hung\n%.3000s", said)
	}
	if err != nil || string(said) != "done\n" {
		t.Errorf("%v\n%.3000s", err, said)
	}
}

func FuzzOpen(f *testing.F) {
	whole := filled(f)
	path := filepath.Join(f.TempDir(), "notebook.db")
	f.Add(uint32(8192), []byte{1, 2, 3, 4})
	f.Add(uint32(8192+8), []byte{2})
	f.Add(uint32(16), []byte{0xED})
	f.Add(uint32(1<<31), []byte{0})
	f.Fuzz(func(t *testing.T, at uint32, change []byte) {
		b := bytes.Clone(whole)
		if at >= 1<<31 {
			b = b[:int(at)%len(b)]
		} else {
			copy(b[int(at)%len(b):], change)
		}
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := truthful(path); err != nil {
			t.Fatal(err)
		}
	})
}

// TestMissingListOfProjectsIsSaidOfItsFile: where a notebook lacks what its
// projects or their cards are kept in, the maker reads of which file, and no word
// of how it is built.
func TestMissingListOfProjectsIsSaidOfItsFile(t *testing.T) {
	for _, part := range []string{bucketProjects, bucketCards} {
		path := tempPath(t)
		n, err := Open(path, quick)
		if err != nil {
			t.Fatal(err)
		}
		save(t, n, sample("a", 1, 3), 0, noon)
		if err := n.db.Update(func(tx *bolt.Tx) error { return tx.DeleteBucket([]byte(part)) }); err != nil {
			t.Fatal(err)
		}
		_, err = n.Save(sample("b", 1, 3), model.Card{ID: "b"}, 0, false, "New", noon)
		if !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), path) || strings.Contains(err.Error(), "bucket") {
			t.Errorf("without %s: %v", part, err)
		}
		if err := n.Close(); err != nil {
			t.Error(err)
		}
	}
}

// TestLostFromBothLists: a piece that damage took out of the list of folders and out
// of the list of cards is not said to have never been there, as long as either list
// shows that it is not whole. Of a whole one, a piece that never was is just missing.
func TestLostFromBothLists(t *testing.T) {
	for what, spoilt := range map[string]func(tx *bolt.Tx) error{
		"another's card": func(tx *bolt.Tx) error { return tx.Bucket([]byte(bucketCards)).Put([]byte("b"), []byte("x")) },
		"a card too few": func(tx *bolt.Tx) error { return tx.Bucket([]byte(bucketCards)).Delete([]byte("b")) },
		"a card too many": func(tx *bolt.Tx) error {
			cards := tx.Bucket([]byte(bucketCards))
			return cards.Put([]byte("c"), cards.Get([]byte("b")))
		},
		"no cards": func(tx *bolt.Tx) error { return tx.DeleteBucket([]byte(bucketCards)) },
	} {
		n, err := Open(tempPath(t), quick)
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range []string{"a", "b"} {
			save(t, n, sample(id, 1, 3), 0, noon)
		}
		if _, _, err := n.Load("never"); !errors.Is(err, ErrMissing) || errors.Is(err, ErrDamaged) {
			t.Errorf("of a whole notebook: %v", err)
		}
		err = n.db.Update(func(tx *bolt.Tx) error {
			return errors.Join(tx.Bucket([]byte(bucketProjects)).DeleteBucket([]byte("a")), tx.Bucket([]byte(bucketCards)).Delete([]byte("a")), spoilt(tx))
		})
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := n.Load("a"); !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: %v", what, err)
		}
		if err := n.Close(); err != nil {
			t.Error(err)
		}
	}
}
