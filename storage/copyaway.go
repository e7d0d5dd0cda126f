package storage

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
)

// awayAll is the folder in a second place that holds one folder for each
// notebook that is copied there: another machine's must not be taken for this
// one's and replaced.
func awayAll(second string) string { return filepath.Join(second, "Meniscus") }

// awayFolder is where the copies of this notebook lie in a second place. Beside
// it lie the photos, as beside a notebook. It is named after when the notebook
// was begun, so that one restored on another machine goes on with its copies.
func (n *Notebook) awayFolder(second string) (string, error) {
	begun := "unknown"
	err := n.view(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(bucketMeta))
		if b == nil {
			return nil
		}
		if body, err := unseal(placeMeta(rowCreated), b.Get([]byte(rowCreated))); err == nil {
			if at, err := time.Parse(time.RFC3339, string(body)); err == nil {
				begun = at.UTC().Format(nameTime)
			}
		}
		return nil
	})
	return filepath.Join(awayAll(second), "notebook begun "+begun, backupsName), err
}

// KeepAway makes the copy of the day in a second place, a folder on another
// disk, with all photos that are not there yet, and keeps the older ones there
// by the rule of KeepDaily. With again one that was made today is made anew. It
// tells whether it made one. Where the folder is not there the error is
// ErrMissing; it is never made, since a name at which no disk is put in lies on
// this one.
func (n *Notebook) KeepAway(second string, at time.Time, again bool) (bool, error) {
	info, err := os.Stat(second)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir():
		return false, trouble(ErrMissing, err, "Put the disk in, or choose another folder. The copies beside the notebook are made all the same.",
			"The folder %s for the second copy is not there.", second)
	case err != nil:
		return false, got(err, second)
	case samePath(second, filepath.Dir(n.path)):
		return false, trouble(ErrInvalid, nil, "Choose a folder on another disk.", "The notebook itself lies in %s.", second)
	}
	n.away.Lock()
	defer n.away.Unlock()
	dir, err := n.awayFolder(second)
	if err != nil {
		return false, err
	}
	photos := filepath.Join(filepath.Dir(dir), photoFolder)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return false, put(err, dir)
	}
	sweep(photos, photoBase)
	// The photos before and after, so that no copy there names one that is not,
	// also where one was kept meanwhile.
	if err := carryPhotos(n.photos(), photos); err != nil {
		return false, err
	}
	made, err := n.keepDaily(dir, at, again)
	if err != nil {
		return made, err
	}
	return made, carryPhotos(n.photos(), photos)
}

// CarryPhotos brings along the photos that lie beside the folder of a copy and
// not beside the notebook.
func (n *Notebook) CarryPhotos(copy string) error {
	if n.ReadOnly() {
		return n.sealed()
	}
	return carryPhotos(filepath.Join(filepath.Dir(filepath.Dir(copy)), photoFolder), n.photos())
}

// carryPhotos copies the photos that are in one folder and not in another. Each
// is looked through on the way; one that is damaged is left behind.
func carryPhotos(from, to string) error {
	list, err := os.ReadDir(from)
	switch {
	case errors.Is(err, fs.ErrNotExist) || samePath(from, to):
		return nil
	case err != nil:
		return got(err, from)
	}
	for _, item := range list {
		name := item.Name()
		if !photoName.MatchString(name) || sameSize(item, filepath.Join(to, name)) {
			continue
		}
		if err := carryPhoto(from, to, name); err != nil && !errors.Is(err, ErrDamaged) {
			return err
		}
	}
	return nil
}

// sameSize tells whether a file is at a path already with all its bytes.
func sameSize(item fs.DirEntry, path string) bool {
	mine, errA := item.Info()
	there, errB := os.Stat(path)
	return errA == nil && errB == nil && mine.Size() == there.Size()
}

// carryPhoto copies one photo from folder to folder.
func carryPhoto(from, to, name string) error {
	p, err := openPhoto(from, name)
	if err != nil {
		return err
	}
	defer p.Close()
	if err := os.MkdirAll(to, 0o700); err != nil {
		return put(err, to)
	}
	body := &readError{r: p}
	path := filepath.Join(to, name)
	err = writeAs(photoBase, path, func(f *os.File) error {
		_, err := io.Copy(f, body)
		return err
	}, nil)
	if body.err != nil {
		return got(body.err, filepath.Join(from, name))
	}
	return put(err, path)
}
