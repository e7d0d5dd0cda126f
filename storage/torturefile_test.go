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
)

// TestTortureCut cuts the file at random lengths. Where what is in use is cut,
// that is said, the file is left as it was, and the newest good copy is offered
// with what is missing in it, put in its place, and the damaged file kept.
func TestTortureCut(t *testing.T) {
	cuts := tortureCount(200, 25, 8)
	whole := filled(t)
	seed := rand.Uint64()
	r := rand.New(rand.NewPCG(seed, 1))
	path := tempPath(t)
	write := func(path string, raw []byte) {
		t.Helper()
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, raw, 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	older, newer := filepath.Join(backupFolder(path), "notebook-2026-11-23.db"), filepath.Join(backupFolder(path), "notebook-2026-11-24.db")
	refused, whole2 := 0, 0
	for range cuts {
		length := r.IntN(len(whole))
		write(path, whole[:length])
		n, err := Open(path, quick)
		if err == nil { // only the tail that bbolt takes in advance was cut
			whole2++
			if err := errors.Join(n.Check(), n.Close()); err != nil {
				t.Errorf("seed %d, cut to %d: %v", seed, length, err)
			}
			continue
		}
		refused++
		if after, _ := os.ReadFile(path); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), path) || len(after) != length {
			t.Errorf("seed %d, cut to %d: %v; %d bytes are left", seed, length, err, len(after))
		}
		if c, words, err := Offer(path); !errors.Is(err, ErrMissing) {
			t.Fatalf("offered without any copy: %v, %s, %v", c, words, err)
		}
		write(older, whole)
		write(newer, whole[:length]) // cut as well, and passed over
		c, words, err := Offer(path)
		if err != nil || c.Path != older || !strings.Contains(words, "Monday 23 November 2026") || !strings.Contains(words, "missing") || !strings.Contains(words, "Tuesday 24 November 2026, 00:00 is damaged too") && !strings.Contains(words, "is damaged too") {
			t.Errorf("offered: %v, %s, %v", c, words, err)
		}
		if err := errors.Join(Restore(path, c.Path, noon), truthful(path)); err != nil {
			t.Errorf("going on with the copy: %v", err)
		}
		aside, err := filepath.Glob(filepath.Join(backupFolder(path), asideName+"*"))
		if kept, bad := os.ReadFile(aside[0]); err != nil || bad != nil || !bytes.Equal(kept, whole[:length]) {
			t.Errorf("the damaged file was not kept: %v, %v, %v", aside, err, bad)
		}
		if err := os.RemoveAll(backupFolder(path)); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("seed %d: of %d cuts %d were said and a copy was offered, %d took only the unused tail", seed, cuts, refused, whole2)
	if refused == 0 {
		t.Error("nothing was cut that is in use")
	}
}

// The child flips bytes of a file, one or several at a time, and looks each time
// whether what it gives is as it was saved or is an error in words.
func init() {
	children["flips"] = func(args []string) {
		limitMemory(6 << 30)
		var seed uint64
		var flips int
		_, err := fmt.Sscan(args[1], &seed)
		must(err)
		_, err = fmt.Sscan(args[2], &flips)
		must(err)
		whole, err := os.ReadFile(args[0])
		must(err)
		// Within what is in use: beyond it nothing can be hurt.
		m, err := newestMeta(bytes.NewReader(whole), int64(len(whole)))
		must(err)
		used := int(m.pages) * int(m.pageSize)
		path := args[0] + ".flipped"
		var refused, named, unhurt int
		for i := range flips {
			r := rand.New(rand.NewPCG(seed, uint64(i)))
			b := bytes.Clone(whole)
			several := 1
			if i%2 == 1 {
				several = 2 + r.IntN(19)
			}
			for range several {
				b[r.IntN(used)] ^= byte(1 + r.IntN(255))
			}
			must(os.WriteFile(path, b, 0o600))
			switch n, err := Open(path, quick); {
			case err != nil:
				refused++
			default:
				if n.Check() != nil {
					named++
				} else {
					unhurt++
				}
				must(n.Close())
			}
			must(os.WriteFile(path, b, 0o600))
			if err := truthful(path); err != nil {
				must(fmt.Errorf("flip %d of seed %d: %w", i, seed, err))
			}
		}
		fmt.Printf("%d times the record was named and the rest went on, %d times the file was refused, %d times nothing in use was hit\n", named, refused, unhurt)
	}
}

// TestTortureFlipped flips random bytes, one at a time and up to twenty: what is
// read is as it was saved, or it is said what is damaged.
func TestTortureFlipped(t *testing.T) {
	path, seed, flips := tempPath(t), rand.Uint32(), tortureCount(500, 60, 12)
	if err := os.WriteFile(path, filled(t), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := child(t, "flips", path, fmt.Sprint(seed), fmt.Sprint(flips))
	late := time.AfterFunc(10*time.Minute, func() { _ = cmd.Process.Kill() })
	out := lines(t, cmd)
	if !late.Stop() || len(out) != 1 {
		t.Fatalf("it hung, or said %q", out)
	}
	t.Logf("seed %d, %d flips: %s", seed, flips, out[0])
}

// The child opens a notebook, says so, and stays until it is killed.
func init() {
	children["holds"] = func(args []string) {
		n, err := Open(args[0])
		must(err)
		for i := 1; ; i++ {
			must(n.PutSetting("turn", i))
			fmt.Println(i)
			time.Sleep(time.Millisecond)
		}
	}
}

// TestTortureSecond starts the program a second time on an open notebook: it is
// told so, the first goes on and loses nothing, and once that one is killed the
// second has all of it.
func TestTortureSecond(t *testing.T) {
	for range tortureCount(20, 1, 1) {
		path := tempPath(t)
		cmd := child(t, "holds", path)
		out, err := cmd.StdoutPipe()
		if err := errors.Join(err, cmd.Start()); err != nil {
			t.Fatal(err)
		}
		var first [1]byte
		if _, err := io.ReadFull(out, first[:]); err != nil {
			t.Fatal(err)
		}
		for _, other := range []error{openAgain(path), Restore(path, "testdata/form-4.db", noon)} {
			if !errors.Is(other, ErrInUse) || !strings.Contains(other.Error(), "another window") {
				t.Errorf("a second one: %v", other)
			}
		}
		_ = cmd.Process.Kill()
		said, _ := io.ReadAll(out)
		_ = cmd.Wait()
		lines := strings.Split(strings.TrimSpace(string(first[:])+string(said)), "\n")
		var last, got int
		if _, err := fmt.Sscan(lines[len(lines)-1], &last); err != nil {
			t.Fatal(err)
		}
		n := opened(t, path)
		if ok, err := n.Setting("turn", &got); !ok || err != nil || got < last || got > last+1 || len(lines) < 10 {
			t.Errorf("it is at %d after %d were kept, %v", got, last, err)
		}
	}
}

// openAgain opens a notebook that should not open.
func openAgain(path string) error {
	n, err := Open(path)
	if err == nil {
		_ = n.Close()
	}
	return err
}

// TestTortureForms runs what holds every older form, and a newer one.
func TestTortureForms(t *testing.T) {
	if tortureCount(1, 0, 0) == 0 {
		t.Skip("runs under its own names")
	}
	t.Run("golden", TestGolden)
	t.Run("form 1", TestFormOneIsBroughtUp)
	t.Run("newer", TestNewerSchemaIsLeftAlone)
	t.Run("another user", TestReadOnly)
	t.Run("foreign", TestForeignFiles)
	t.Run("hostile", TestHostileFiles)
}

// TestTortureClock throws the clock about between writes and starts: by seconds,
// across changes of the clocks, by years, there and back. The order of what was
// saved stays, undo leads back through it, nothing of the journal goes, and no
// thinning takes the newest state or the newest copy.
func TestTortureClock(t *testing.T) {
	seed := rand.Uint64()
	rounds := tortureCount(200, 6, 2)
	thrown := 0
	for round := range rounds {
		r := rand.New(rand.NewPCG(seed, uint64(round)))
		path, now := tempPath(t), time.Date(2026, 10, 24, 23, 30, 0, 0, time.UTC) // before the clocks go back
		few := func(n *Notebook) {
			n.noSync, n.limits = true, limits{bytes: 60 << 10, whole: 30 * day, hourly: 120 * day, undo: 8, interval: 10}
		}
		n, err := Open(path, few)
		if err != nil {
			t.Fatal(err)
		}
		after, entries := 0, 0
		var line []int // what undo goes back through
		for i := range 120 {
			switch r.IntN(12) {
			case 0:
				now = now.Add(time.Duration(r.IntN(7200)-3600) * time.Second)
				thrown++
			case 1:
				now = now.AddDate(r.IntN(21)-10, r.IntN(12), 0)
				thrown++
			case 2:
				now = time.Date(2027, 3, 28, 0, 59, 58, 0, time.UTC) // before they go forward
				thrown++
			case 3:
				if err := n.Close(); err != nil {
					t.Fatal(err)
				}
				if n, err = Open(path, few); err != nil {
					t.Fatal(err)
				}
			}
			now = now.Add(time.Duration(r.IntN(3000)) * time.Millisecond)
			p := sample("a", i+1, 40)
			p.Journal = append(p.Journal, entry(fmt.Sprint("e", i), now))
			entries++
			after = save(t, n, p, after, now).Number
			line = append(line, after)
			if r.IntN(10) == 0 {
				made, err := n.KeepDaily(now)
				today := filepath.Join(backupFolder(path), "notebook-"+now.UTC().Format(time.DateOnly)+".db")
				if _, gone := os.Stat(today); err != nil || gone != nil {
					t.Fatalf("seed %d, round %d: the copy just made (%t) is gone: %v, %v", seed, round, made, err, gone)
				}
			}
		}
		p, rev, err := n.Load("a")
		if err != nil || rev.Number != after || len(p.Journal) != entries || !reflect.DeepEqual(p.Layers, sample("a", 120, 40).Layers) {
			t.Fatalf("seed %d, round %d: at %v with %d of %d entries, %v", seed, round, rev, len(p.Journal), entries, err)
		}
		list, err := n.Revisions("a")
		if err != nil {
			t.Fatal(err)
		}
		at := map[int]int{}
		for i, r := range list {
			if i > 0 && (r.Number <= list[i-1].Number || r.After != list[i-1].Number) {
				t.Errorf("seed %d, round %d: %v follows %v", seed, round, r, list[i-1])
			}
			at[r.Number] = i
		}
		for _, number := range line[len(line)-9:] {
			if _, there := at[number]; !there {
				t.Errorf("seed %d, round %d: state %d, which undo needs, is gone", seed, round, number)
			}
		}
		if err := errors.Join(n.Check(), n.Close()); err != nil {
			t.Errorf("seed %d, round %d: %v", seed, round, err)
		}
	}
	t.Logf("seed %d: the clock was thrown %d times in %d notebooks", seed, thrown, rounds)
}
