package storage

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"time"

	bolt "go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// patience is how long Open waits for another program to let go.
const patience = time.Second

// open takes the lock of the file, looks through its pages, opens it with
// bbolt and brings its schema up to date.
func (n *Notebook) open() error {
	f, readOnly, err := n.lock()
	if err != nil {
		return err
	}
	l, err := n.preflight(f)
	if err == nil && l.schema > n.schema {
		err = newer(n.path, l.schema, n.schema)
	}
	if err == nil && l.schema < n.schema && readOnly {
		err = trouble(ErrReadOnly, nil, "Ask for the right to write there, or work on a copy in another folder.",
			"The notebook %s has the older form %d and must be brought up to form %d, but it may only be read.", n.path, l.schema, n.schema)
	}
	if err != nil {
		unlockFile(f)
		_ = f.Close()
		return err
	}
	db, err := n.bolt(f, readOnly)
	if err != nil {
		return err
	}
	n.db, n.file, n.readOnly = db, f, readOnly
	n.size.Store(0)
	if l.schema < n.schema {
		if err := n.migrate(l.schema); err != nil {
			_ = n.release()
			return err
		}
	}
	return nil
}

// found makes a new notebook when there is no file yet.
func (n *Notebook) found() error {
	info, err := os.Stat(n.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return n.create()
	case err != nil:
		return got(err, n.path)
	case info.IsDir():
		return trouble(ErrDamaged, nil, "Choose another name for the notebook.", "%s is a folder, not a notebook.", n.path)
	}
	return nil
}

// lock opens the file and takes its lock; for reading only where the file may
// not be written.
func (n *Notebook) lock() (*os.File, bool, error) {
	for range 5 {
		f, readOnly, err := n.reach()
		if err != nil {
			return nil, false, got(err, n.path)
		}
		if err := lockFile(f, !readOnly, patience); err != nil {
			_ = f.Close()
			if errors.Is(err, ErrInUse) {
				return nil, false, inUse(n.path)
			}
			return nil, false, got(err, n.path)
		}
		if same(f, n.path) {
			return f, readOnly, nil
		}
		unlockFile(f) // another file was moved into its place
		_ = f.Close()
	}
	return nil, false, inUse(n.path)
}

// reach opens the file, for reading only where that is asked for or it may not be
// written. Nothing else is left open: Windows gives no name to a file that is.
func (n *Notebook) reach() (f *os.File, readOnly bool, err error) {
	if !n.reader {
		f, err = os.OpenFile(n.path, os.O_RDWR, 0o600)
		if err == nil || !barred(err) {
			return f, false, err
		}
	}
	f, err = os.Open(n.path)
	return f, true, err
}

// same tells whether f is the file now at path.
func same(f *os.File, path string) bool {
	a, errA := f.Stat()
	b, errB := os.Stat(path)
	return errA == nil && errB == nil && os.SameFile(a, b)
}

// preflight looks through the pages by plain reads. Where the lock cannot be
// taken before, another program may be writing, so that a bad look is repeated.
func (n *Notebook) preflight(f *os.File) (l layout, err error) {
	tries := 1
	if !locksFiles {
		tries = 3
	}
	for range tries {
		var info os.FileInfo
		if info, err = f.Stat(); err == nil {
			if l, err = inspect(f, info.Size()); err == nil {
				return l, nil
			}
		}
		if tries > 1 {
			time.Sleep(100 * time.Millisecond)
		}
	}
	if errors.Is(err, errForeign) {
		return layout{}, trouble(ErrDamaged, err, "It was left as it is. Choose another file, or move it away to start an empty notebook.",
			"%s is not a notebook: %v.", n.path, err)
	}
	return layout{}, damage(n.path, err)
}

// bolt opens the locked file with bbolt.
func (n *Notebook) bolt(f *os.File, readOnly bool) (db *bolt.DB, err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if r := recover(); r != nil {
			unlockFile(f)
			_ = f.Close()
			db, err = nil, damage(n.path, panicError{r})
		}
	}()
	options := &bolt.Options{
		Timeout:  patience,
		ReadOnly: readOnly,
		NoSync:   n.noSync,
		OpenFile: func(string, int, os.FileMode) (*os.File, error) { return f, nil },
	}
	db, err = bolt.Open(n.path, 0o600, options)
	switch {
	case err == nil:
		return db, nil
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, inUse(n.path)
	case errors.Is(err, bolterrors.ErrInvalid), errors.Is(err, bolterrors.ErrVersionMismatch), errors.Is(err, bolterrors.ErrChecksum):
		return nil, damage(n.path, err)
	}
	return nil, got(err, n.path)
}

func inUse(path string) error {
	return trouble(ErrInUse, nil, "Go on in the window that has it open, or close that one and try again.",
		"The notebook %s is already open in another window.", path)
}

func newer(path string, theirs, ours int) error {
	return trouble(ErrNewer, nil, "It was left as it is. Open it with the newer version of the program.",
		"The notebook %s has form %d, and this version of the program knows forms up to %d.", path, theirs, ours)
}

// create makes a new notebook under a temporary name and gives it its name
// once it is whole on the disk. When another program was quicker, its file
// stays.
func (n *Notebook) create() error {
	dir, base := filepath.Split(n.path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return n.noPlace(err)
	}
	f, err := os.CreateTemp(dir, "."+base+part+"*")
	if err != nil {
		return n.noPlace(err)
	}
	temp := f.Name()
	_ = f.Close()
	defer os.Remove(temp)
	if err := n.fresh(temp); err != nil {
		return n.noPlace(err)
	}
	if err := os.Link(temp, n.path); err != nil {
		if _, there := os.Lstat(n.path); there == nil {
			return nil
		}
		// Some file systems have no links.
		if err := os.Rename(temp, n.path); err != nil {
			return n.noPlace(err)
		}
	}
	return put(syncFolder(dir), dir)
}

func (n *Notebook) noPlace(err error) error {
	if barred(err) {
		return trouble(ErrNoAccess, err, "Ask for the right to write there, or choose another place for the notebook.",
			"A new notebook cannot be made at %s: its folder may not be written.", n.path)
	}
	return put(err, n.path)
}

// fresh fills an empty file with an empty notebook.
func (n *Notebook) fresh(path string) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if r := recover(); r != nil {
			err = damage(path, panicError{r})
		}
	}()
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: patience, NoSync: n.noSync})
	if err != nil {
		return err
	}
	err = db.Update(func(tx *bolt.Tx) error {
		for _, name := range []string{bucketMeta, bucketCards, bucketSettings, bucketProjects} {
			if _, err := tx.CreateBucket([]byte(name)); err != nil {
				return err
			}
		}
		if err := newShelf(tx); err != nil {
			return err
		}
		rows := map[string]string{
			rowFormat:  formatMagic,
			rowSchema:  strconv.Itoa(n.schema),
			rowCreated: n.clock().UTC().Format(time.RFC3339),
			rowProgram: n.program,
		}
		for row, text := range rows {
			if err := putMeta(tx, row, text); err != nil {
				return err
			}
		}
		return nil
	})
	return errors.Join(err, db.Close())
}

// putMeta writes a row that says something about the file.
func putMeta(tx *bolt.Tx, row, text string) error {
	b := tx.Bucket([]byte(bucketMeta))
	if b == nil {
		return missingPart("what the notebook says of itself")
	}
	return b.Put([]byte(row), seal(placeMeta(row), []byte(text)))
}
