package storage

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strconv"

	bolt "go.etcd.io/bbolt"
)

// step brings a notebook from the schema before up to the schema to. It works
// on the records as they are and must seal again what it moves.
type step struct {
	to  int
	run func(tx *bolt.Tx) error
}

// steps holds every step since schema 1, in order; step i leads to schema i+2.
// With schema 4 the notebook has a shelf, see newShelf, and a project can also tell
// of its slab, its finishing, its cost and what it came from.
var steps = []step{{to: 2, run: nothingToMove}, {to: 3, run: cardsByClock}, {to: shelfForm, run: newShelf}}

// nothingToMove leads to schema 2, in which a project can also tell of heat and
// cure: the mold's floor, the night and the day of the shop, a second
// temperature of a sheet's times, the lot of a layer, readings and tack tests.
// What was kept before stays as it is; the number is higher so that a program
// that does not know the new fields says so of the notebook as a whole, and not
// of one record after another.
func nothingToMove(*bolt.Tx) error { return nil }

// cardsByClock leads to schema 3, in which a project can also tell of all that is
// done at the bench: what was weighed, mixed, placed, ticked and photographed,
// further tints, and the maker's own cup. A card keeps all steps that have an
// instant, where it kept the next of them in words: that is taken out of it. A
// card that cannot be read stays as it is, and is made again when it is listed.
func cardsByClock(tx *bolt.Tx) error {
	cards := tx.Bucket([]byte(bucketCards))
	if cards == nil {
		return nil
	}
	shorter := map[string][]byte{}
	err := cards.ForEach(func(k, raw []byte) error {
		place := placeCard(string(k))
		body, err := unseal(place, raw)
		if err != nil {
			return nil
		}
		var card map[string]json.RawMessage
		if json.Unmarshal(body, &card) != nil || card["next"] == nil && card["due"] == nil {
			return nil
		}
		delete(card, "next")
		delete(card, "due")
		if body, err = json.Marshal(card); err == nil {
			shorter[string(k)] = seal(place, body)
		}
		return err
	})
	for id, raw := range shorter {
		err = errors.Join(err, cards.Put([]byte(id), raw))
	}
	return err
}

// migrate brings an older notebook up to date: first a copy of it into the
// backups folder, then all steps in one transaction, so that it has either its
// old schema or the new one.
func (n *Notebook) migrate(from int) error {
	name := fmt.Sprintf(migrateName+"%d-%s.db", n.schema, n.clock().UTC().Format(nameTime))
	if !n.spare {
		if err := n.copyTo(filepath.Join(backupFolder(n.path), name), from); err != nil && !isPartial(err) {
			return err
		}
	}
	err, _, panicked := guarded(n.db.Update, func(tx *bolt.Tx) error {
		for _, s := range n.steps {
			if s.to <= from {
				continue
			}
			if err := s.run(tx); err != nil {
				return fmt.Errorf("form %d: %w", s.to, err)
			}
		}
		return putMeta(tx, rowSchema, strconv.Itoa(n.schema))
	})
	if err == nil {
		return nil
	}
	n.wrecked.Store(panicked)
	if full(err) || barred(err) {
		return put(err, n.path)
	}
	return trouble(ErrFailed, err, "It was left as it is. Keep using the version of the program that wrote it, and report this.",
		"The notebook %s could not be brought from form %d to form %d: %v.", n.path, from, n.schema, err)
}
