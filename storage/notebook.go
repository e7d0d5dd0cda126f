package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	bolt "go.etcd.io/bbolt"
)

// formatMagic marks a file as a notebook of this program.
const formatMagic = "meniscus-notebook"

// schemaNow is the schema that this program writes; see steps.
const schemaNow = 4

// Notebook is an open notebook file. It is safe for use from many goroutines.
type Notebook struct {
	path    string
	program string
	clock   func() time.Time
	limits  limits
	schema  int
	steps   []step
	spare   bool // is a copy itself: none is made of it before a new form
	reader  bool // only read, whatever the file allows
	noSync  bool // do not wait for the disk, for tests of everything else

	mu       sync.RWMutex // held for reading by every use, for writing by opening and closing
	db       *bolt.DB     // nil when closed
	file     *os.File     // that db works on, to give its lock back after a panic
	readOnly bool
	writable bool         // it could be written when it was first opened
	done     bool         // closed for good
	away     sync.Mutex   // held while a second copy is made, which sweeps what others left
	size     atomic.Int64 // of the file when last seen, which never shrinks
	suspect  atomic.Bool  // a write ended in an unknown state: open again first
	wrecked  atomic.Bool  // and bbolt's own locks may be held: do not close it
}

// Option sets something about a Notebook as it is opened.
type Option func(*Notebook)

// WithProgram names the program's version, which is kept in a new notebook.
func WithProgram(version string) Option { return func(n *Notebook) { n.program = version } }

// Open opens the notebook at path, and makes a new one with its folder where
// there is none. A notebook of an older schema is copied to the backups folder
// and brought up to date. A file that may only be read opens read-only.
//
// Errors are Troubles of the kinds ErrDamaged, ErrNewer, ErrInUse, ErrReadOnly
// (an older schema in a file that may not be written), ErrNoAccess,
// ErrDiskFull and ErrFailed. None of them changes the file.
func Open(path string, opts ...Option) (*Notebook, error) {
	n := &Notebook{clock: time.Now, limits: usualLimits, schema: schemaNow, steps: steps}
	for _, opt := range opts {
		opt(n)
	}
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, got(err, path)
	}
	n.path = full
	if err := n.found(); err != nil {
		return nil, err
	}
	if err := n.open(); err != nil {
		return nil, err
	}
	if n.writable = !n.readOnly; n.writable {
		sweep(filepath.Dir(full), filepath.Base(full))
		sweep(n.photos(), photoBase)
		sweepAside(full)
	}
	return n, nil
}

// Path is the notebook's file.
func (n *Notebook) Path() string { return n.path }

// ReadOnly tells whether the notebook may only be read; saving then returns
// ErrReadOnly.
func (n *Notebook) ReadOnly() bool {
	n.mu.RLock()
	defer n.mu.RUnlock()
	return n.readOnly
}

// Close ends the use of the notebook. A second Close does nothing.
func (n *Notebook) Close() error {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.done = true
	return n.release()
}

// release lets go of the file. After a panic in a write bbolt may hold its own
// locks for ever, so that only the file's lock is given back.
func (n *Notebook) release() (err error) {
	db, file := n.db, n.file
	n.db, n.file = nil, nil
	switch {
	case db == nil:
		return nil
	case n.wrecked.Swap(false):
		unlockFile(file)
		_ = file.Close()
		return nil
	}
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if r := recover(); r != nil {
			unlockFile(file)
			_ = file.Close()
			err = damage(n.path, fmt.Errorf("closing: %v", r))
		}
	}()
	if err := db.Close(); err != nil {
		return put(err, n.path)
	}
	return nil
}

// view runs fn in a read transaction. Nothing that fn got from bbolt may be
// used after it.
func (n *Notebook) view(fn func(tx *bolt.Tx) error) error {
	if err := n.ready(); err != nil {
		return err
	}
	n.mu.RLock()
	defer n.mu.RUnlock()
	if n.db == nil {
		return n.closed()
	}
	err, inside, _ := guarded(n.db.View, fn)
	switch {
	case err == nil:
		return nil
	case inside:
		return n.lacking(err)
	}
	return n.worded(err, got)
}

// update runs fn in a write transaction; when it returns nil, what fn did is
// on the disk. On an error nothing of it is kept, except after ErrFailed,
// where the next use of the notebook finds out.
func (n *Notebook) update(fn func(tx *bolt.Tx) error) error {
	if err := n.ready(); err != nil {
		return err
	}
	n.mu.RLock()
	defer n.mu.RUnlock()
	switch {
	case n.db == nil:
		return n.closed()
	case n.readOnly:
		n.suspect.Store(n.writable) // a disk that went read-only may come back: look at the next use
		return n.sealed()
	}
	if err := n.inPlace(); err != nil {
		return err
	}
	err, inside, panicked := guarded(n.db.Update, fn)
	switch {
	case err == nil:
		return nil
	case inside:
		return n.lacking(err)
	case panicked:
		n.wrecked.Store(true)
		n.suspect.Store(true)
	case !full(err):
		n.suspect.Store(true)
	}
	return n.worded(err, put)
}

// panicError is what a recovered panic becomes.
type panicError struct{ value any }

func (p panicError) Error() string { return fmt.Sprint(p.value) }

// guarded runs a transaction so that neither a panic of bbolt nor a fault of
// the mapped file ends the program. It tells whether the error came from fn
// itself, and whether there was a panic.
func guarded(run func(func(*bolt.Tx) error) error, fn func(*bolt.Tx) error) (err error, inside, panicked bool) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if r := recover(); r != nil {
			err, inside, panicked = panicError{r}, false, true
		}
	}()
	var own error
	err = run(func(tx *bolt.Tx) error {
		own = fn(tx)
		return own
	})
	return err, own != nil, false
}

// lacking words that something is missing which a transaction of ours looked for;
// its other errors are in words already.
func (n *Notebook) lacking(err error) error {
	if m, ok := err.(missingPart); ok {
		return damage(n.path, m)
	}
	return err
}

// worded puts an error of bbolt into words.
func (n *Notebook) worded(err error, words func(error, string) error) error {
	var p panicError
	if errors.As(err, &p) {
		return damage(n.path, err)
	}
	return words(err, n.path)
}

// ready opens the notebook again after a write whose outcome is not known, so
// that what follows works on what the disk really holds.
func (n *Notebook) ready() error {
	if !n.suspect.Load() {
		return nil
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.done || !n.suspect.Load() {
		return nil
	}
	_ = n.release() // what it held is read again from the disk
	if err := n.open(); err != nil {
		return err
	}
	n.suspect.Store(false)
	return nil
}

// inPlace makes sure before a write that the open file still is the one that
// has the notebook's name, and has not been cut off by another program.
func (n *Notebook) inPlace() error {
	least := n.size.Load() // before the look: another write may let it grow meanwhile
	info, err := n.file.Stat()
	if err != nil {
		n.suspect.Store(true)
		return got(err, n.path)
	}
	if !same(n.file, n.path) {
		return trouble(ErrMissing, nil, "Put it back where it was, or close the program and open it again.",
			"The notebook %s was moved, deleted or replaced by another program while it was open here.", n.path)
	}
	if info.Size() < least {
		return damage(n.path, errors.New("another program cut it off while it was open here"))
	}
	n.size.Store(info.Size())
	return nil
}

func (n *Notebook) closed() error {
	return trouble(ErrClosed, nil, "Open it again.", "The notebook %s has been closed.", n.path)
}

func (n *Notebook) sealed() error {
	return trouble(ErrReadOnly, nil, "Ask for the right to write there, or work on a copy in another folder.",
		"The notebook %s may only be read, so nothing can be saved in it.", n.path)
}

// damage says that the whole file cannot be used.
func damage(path string, cause error) error {
	return trouble(ErrDamaged, cause,
		fmt.Sprintf("It was left as it is. Put the newest good copy from %s in its place, or move it away to start an empty notebook.", backupFolder(path)),
		"The notebook %s cannot be used: %v.", path, cause)
}
