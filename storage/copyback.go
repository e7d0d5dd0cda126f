package storage

import (
	"encoding/json"
	"errors"
	"os"
	"time"

	bolt "go.etcd.io/bbolt"
)

// Restore puts the copy in the file from into the place of this open notebook,
// which stays in use. What is there now is kept in the backups folder first,
// see the function Restore, so that it can be brought back in the same way. What
// is kept as settings stays as it is now. Where photos lie beside the folder of
// the copy, those that are not here are brought along.
//
// On an error the notebook is as it was.
func (n *Notebook) Restore(from string, at time.Time) error {
	if n.ReadOnly() {
		return n.sealed()
	}
	if err := good(from); err != nil {
		return err
	}
	if err := n.CarryPhotos(from); err != nil {
		return err
	}
	if err := n.ready(); err != nil {
		return err
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.db == nil {
		return n.closed()
	}
	if err := n.inPlace(); err != nil {
		return err
	}
	settings, err := n.settings()
	if err != nil {
		return err
	}
	if err := n.release(); err != nil {
		n.suspect.Store(true)
		return err
	}
	// All that could fail is done before the copy gets the notebook's name.
	restored := replace(n.path, from, at, func(name string) error {
		next := &Notebook{path: name, schema: n.schema, steps: n.steps, clock: n.clock, noSync: n.noSync, spare: true}
		if err := next.open(); err != nil {
			return err
		}
		return errors.Join(next.putSettings(settings), next.Close())
	})
	if err := n.open(); err != nil {
		n.suspect.Store(true)
		return errors.Join(restored, err)
	}
	return restored
}

// settings reads all that is kept as settings and can be read.
func (n *Notebook) settings() (map[string]json.RawMessage, error) {
	all := map[string]json.RawMessage{}
	err, inside, _ := guarded(n.db.View, func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(bucketSettings))
		if b == nil {
			return nil
		}
		return b.ForEach(func(k, v []byte) error {
			if body, err := unseal(placeSetting(string(k)), v); err == nil {
				all[string(k)] = json.RawMessage(append([]byte(nil), body...))
			}
			return nil
		})
	})
	if err == nil || inside {
		return all, err
	}
	return nil, n.worded(err, got)
}

// putSettings puts all settings into the place of those that are there.
func (n *Notebook) putSettings(all map[string]json.RawMessage) error {
	return n.update(func(tx *bolt.Tx) error {
		if err := tx.DeleteBucket([]byte(bucketSettings)); err != nil {
			return err
		}
		b, err := tx.CreateBucket([]byte(bucketSettings))
		if err != nil {
			return err
		}
		for name, value := range all {
			if err := encode(b, []byte(name), placeSetting(name), value); err != nil {
				return err
			}
		}
		return nil
	})
}

// samePath tells whether two names are of one folder.
func samePath(a, b string) bool {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(ia, ib)
}
