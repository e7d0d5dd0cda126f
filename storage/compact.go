package storage

import (
	"errors"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
)

// compactFrom is the least free room, in bytes, for which a notebook is written
// anew.
const compactFrom = 4 << 20

// packing is how many bytes go into one transaction while a notebook is written
// anew.
const packing = 4 << 20

// Compact gives the room back that thinning left free in the file, where that is
// at least half of it and 4 MB. It tells whether it did. It may be called at any
// time: the notebook is written anew beside the old file, forced to the disk,
// looked through record by record and opened while work goes on, and takes the
// old one's place by one rename. Where something was saved meanwhile, a record is
// damaged, or there is no room for a second file, it is given up and left for
// another time. At each moment there is one whole notebook at its path.
func (n *Notebook) Compact() (bool, error) {
	if err := n.ready(); err != nil {
		return false, err
	}
	fresh, at, err := n.packed()
	switch {
	case err != nil && (full(err) || errors.Is(err, ErrDiskFull) || errors.Is(err, ErrDamaged)):
		return false, nil
	case fresh == nil || err != nil:
		return false, put(err, n.path)
	case !n.alone():
		return false, put(fresh.discard(), fresh.path)
	}
	defer n.mu.Unlock()
	now, err := n.moment()
	if err != nil || now != at || n.suspect.Load() || n.inPlace() != nil {
		return false, errors.Join(err, put(fresh.discard(), fresh.path))
	}
	if err := os.Rename(fresh.path, n.path); err != nil {
		return false, errors.Join(put(err, n.path), put(fresh.discard(), fresh.path))
	}
	err = syncFolder(filepath.Dir(n.path))
	_ = n.release() // of the old file, which has no name any more
	n.db, n.file = fresh.db, fresh.file
	n.size.Store(0)
	return true, put(err, n.path)
}

// alone waits a while for the notebook to be at rest and locks it. Nothing waits
// behind it meanwhile.
func (n *Notebook) alone() bool {
	for range 50 {
		if n.mu.TryLock() {
			return true
		}
		time.Sleep(20 * time.Millisecond)
	}
	return false
}

// packed writes the notebook anew under a name of its own and opens it there. It
// gives that and the moment that it is of; nil where it is not worth it.
func (n *Notebook) packed() (fresh *Notebook, at int, err error) {
	n.mu.RLock()
	defer n.mu.RUnlock()
	if n.db == nil || n.readOnly || !locksFiles || !n.loose() { // without locks an open file may not be replaced either
		return nil, 0, nil
	}
	if at, err = n.moment(); err != nil {
		return nil, 0, err
	}
	f, err := os.CreateTemp(filepath.Dir(n.path), "."+filepath.Base(n.path)+part+"*")
	if err != nil {
		return nil, 0, err
	}
	fresh = &Notebook{path: f.Name(), schema: n.schema, noSync: n.noSync}
	if err = f.Close(); err == nil {
		err = pack(fresh.path, n.db)
	}
	if err == nil {
		err = fresh.settle()
	}
	if err == nil {
		err = fresh.open()
	}
	if err == nil {
		err = fresh.checkRecords()
	}
	if err != nil {
		return nil, 0, errors.Join(err, fresh.discard())
	}
	return fresh, at, nil
}

// loose tells whether enough of the file is free. The tail that is not in use yet
// does not count: bbolt takes it in advance, and would again.
func (n *Notebook) loose() bool {
	free, page := int64(n.db.Stats().FreePageN), int64(n.db.Info().PageSize)
	var all int64
	_ = n.db.View(func(tx *bolt.Tx) error { all = tx.Size(); return nil })
	return free*page >= compactFrom && free*page >= all/2
}

// moment numbers the last transaction that wrote.
func (n *Notebook) moment() (at int, err error) {
	if n.db == nil {
		return 0, n.closed()
	}
	err = n.db.View(func(tx *bolt.Tx) error { at = tx.ID(); return nil })
	return at, err
}

// pack writes all of a notebook into an empty file.
func pack(to string, from *bolt.DB) error {
	db, err := bolt.Open(to, 0o600, &bolt.Options{Timeout: patience, NoSync: true})
	if err != nil {
		return err
	}
	whole := func(do func(*bolt.Tx) error) error { return do(nil) }
	err, _, panicked := guarded(whole, func(*bolt.Tx) error { return bolt.Compact(db, from, packing) })
	if panicked {
		return err // it may hold its own locks
	}
	return errors.Join(err, db.Close())
}

// settle cuts off the tail that a new file has in advance, and forces it to the
// disk.
func (n *Notebook) settle() error {
	f, err := os.OpenFile(n.path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	info, err := f.Stat()
	if err == nil {
		var m meta
		if m, err = newestMeta(f, info.Size()); err == nil {
			err = errors.Join(f.Truncate(int64(m.pages)*m.pageSize), f.Sync())
		}
	}
	return errors.Join(err, f.Close())
}

// discard closes and removes a file that is not wanted.
func (n *Notebook) discard() error {
	return errors.Join(n.release(), os.Remove(n.path))
}
