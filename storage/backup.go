package storage

import (
	"os"
	"path/filepath"

	bolt "go.etcd.io/bbolt"
)

// backupsName is what the folder of copies is called, beside a notebook and in a
// second place.
const backupsName = "backups"

// backupFolder is where copies of the notebook at path are kept.
func backupFolder(path string) string { return filepath.Join(filepath.Dir(path), backupsName) }

// Backup writes a copy of the notebook to the file to, all of one moment, also
// while others are saving. The copy gets its name only after it was forced to
// the disk, opened again and looked through record by record. A file already
// there is replaced. Photos are not in it. Where records of the notebook are
// damaged already, the copy is made all the same and the error is Partial.
func (n *Notebook) Backup(to string) error {
	to, err := filepath.Abs(to)
	if err != nil {
		return put(err, to)
	}
	if err := n.ready(); err != nil {
		return err
	}
	n.mu.RLock()
	defer n.mu.RUnlock()
	if n.db == nil {
		return n.closed()
	}
	if same(n.file, to) {
		return trouble(ErrInvalid, nil, "Choose another name.", "A copy of the notebook cannot go over the notebook %s itself.", n.path)
	}
	return n.copyTo(to, n.schema)
}

// copyTo writes a verified copy of the open notebook, whose schema is given,
// and makes the folder for it when it is the backups folder.
func (n *Notebook) copyTo(to string, schema int) error {
	if dir := filepath.Dir(to); dir == backupFolder(n.path) {
		if err := os.MkdirAll(dir, 0o700); err != nil {
			return put(err, dir)
		}
	}
	fill := func(f *os.File) error {
		err, _, _ := guarded(n.db.View, func(tx *bolt.Tx) error {
			_, err := tx.WriteTo(f)
			return err
		})
		return err
	}
	var flaws error
	accept := func(name string) error {
		whole, records := verify(name, schema)
		flaws = records
		return whole
	}
	if err := writeFile(to, fill, accept); err != nil {
		return put(err, to)
	}
	if flaws == nil {
		return nil
	}
	t := trouble(ErrDamaged, flaws, "The copy was made. Keep older copies too until you have seen to the damaged record.",
		"The notebook %s has a damaged record, and so has its copy: %v", n.path, flaws)
	t.Partial = true
	return t
}

// verify opens the file at path for reading and checks its pages, and every
// record where the schema is the one of this program.
func verify(path string, schema int) (whole, records error) {
	copied := &Notebook{path: path, schema: schema, reader: true}
	if err := copied.open(); err != nil {
		return err, nil
	}
	if schema == schemaNow {
		records = copied.checkRecords()
	}
	return copied.Close(), records
}
