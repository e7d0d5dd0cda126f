package storage

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// head is the record that says where a project stands.
type head struct {
	Current int   `json:"current"`          // the revision shown
	Last    int   `json:"last"`             // the highest number ever given
	Bytes   int64 `json:"bytes"`            // of all bodies as kept
	ThinAt  int   `json:"thinAt,omitzero"`  // thin again at this number
	ThinFor int64 `json:"thinFor,omitzero"` // or above so many bytes
}

// kept is a revision with the size of its body as kept.
type kept struct {
	model.Revision
	Size int64 `json:"size"`
}

// folder is a project's bucket within a transaction.
type folder struct {
	id                         string
	all                        *bolt.Bucket
	revisions, bodies, journal *bolt.Bucket
	name                       string // of the project, for messages
}

// folderOf finds a project's bucket.
func folderOf(tx *bolt.Tx, id string) (folder, error) {
	projects := tx.Bucket([]byte(bucketProjects))
	if projects == nil {
		return folder{}, noProjects
	}
	f := folder{id: id, name: nameOf(tx, id)}
	if id == "" || !held(tx, id) {
		return folder{}, f.absent(tx)
	}
	f.all = projects.Bucket([]byte(id))
	if f.all == nil {
		return folder{}, f.damaged("its folder", errors.New("it is missing"))
	}
	all := f.all
	f.revisions, f.bodies, f.journal = all.Bucket([]byte(bucketRevisions)), all.Bucket([]byte(bucketBodies)), all.Bucket([]byte(bucketJournal))
	if f.revisions == nil || f.bodies == nil || f.journal == nil {
		return folder{}, f.damaged("its folder", errors.New("a part of it is missing"))
	}
	return f, nil
}

// absent says why nothing in the notebook speaks of the project: it never was there,
// or what lists it is damaged.
func (f folder) absent(tx *bolt.Tx) error {
	switch {
	case tx.Bucket([]byte(bucketCards)) == nil:
		return noProjects
	case f.id != "" && !listedAlike(tx):
		return f.damaged("its folder", errors.New("it is missing, and the list of pieces is not whole"))
	}
	return trouble(ErrMissing, nil, "Choose another piece.", "There is no piece %s in the notebook.", f.id)
}

// listedAlike tells whether the notebook lists the same pieces by their folders and
// by their cards, each of which can be read: only then was one that is in neither
// list never there.
func listedAlike(tx *bolt.Tx) bool {
	folders, list := tx.Bucket([]byte(bucketProjects)).Cursor(), tx.Bucket([]byte(bucketCards)).Cursor()
	id, _ := folders.First()
	for k, v := list.First(); k != nil; k, v = list.Next() {
		if _, err := readListed(v, string(k)); err != nil || !bytes.Equal(k, id) {
			return false
		}
		id, _ = folders.Next()
	}
	return id == nil
}

// held tells whether anything in the notebook speaks of a project.
func held(tx *bolt.Tx, id string) bool {
	projects, cards := tx.Bucket([]byte(bucketProjects)), tx.Bucket([]byte(bucketCards))
	k, _ := projects.Cursor().Seek([]byte(id))
	return string(k) == id || cards != nil && cards.Get([]byte(id)) != nil
}

// newFolder makes a project's bucket.
func newFolder(tx *bolt.Tx, id string) (folder, error) {
	projects := tx.Bucket([]byte(bucketProjects))
	if projects == nil {
		return folder{}, noProjects
	}
	all, err := projects.CreateBucket([]byte(id))
	if err != nil {
		return folder{}, err
	}
	for _, name := range []string{bucketRevisions, bucketBodies, bucketJournal} {
		if _, err := all.CreateBucket([]byte(name)); err != nil {
			return folder{}, err
		}
	}
	return folderOf(tx, id)
}

// nameOf names a project for messages, by its card where that can be read.
func nameOf(tx *bolt.Tx, id string) string {
	if cards := tx.Bucket([]byte(bucketCards)); cards != nil {
		if card, err := readCard(cards.Get([]byte(id)), id); err == nil && card.Name != "" {
			return fmt.Sprintf("“%s” (%s)", card.Name, id)
		}
	}
	return id
}

// damaged says which part of which project cannot be read.
func (f folder) damaged(part string, cause error) *Trouble {
	return trouble(ErrDamaged, cause, "Other pieces and its other saved states are not touched; open an earlier state from its history.",
		"In piece %s %s is damaged: %v.", f.name, part, cause)
}

// readHead reads the head. Where it is damaged the error says so, beside a head
// that the revisions tell: the last one is shown.
func (f folder) readHead() (head, error) {
	var h head
	err := decode(placeHead(f.id), f.all.Get([]byte(rowHead)), &h)
	if err == nil {
		return h, nil
	}
	k, _ := f.revisions.Cursor().Last()
	h = head{Current: keyNumber(k), Last: keyNumber(k)}
	c := f.bodies.Cursor()
	for k, v := c.First(); k != nil; k, v = c.Next() {
		h.Bytes += int64(len(v))
	}
	return h, f.damaged("the mark of its current state", err)
}

func (f folder) putHead(h head) error {
	return encode(f.all, []byte(rowHead), placeHead(f.id), h)
}

// revision reads what is said about one revision.
func (f folder) revision(number int) (kept, error) {
	raw := f.revisions.Get(numberKey(number))
	if raw == nil {
		return kept{}, trouble(ErrMissing, nil, "Choose another saved state.", "Piece %s has no saved state number %d.", f.name, number)
	}
	var r kept
	if err := decode(placeRevision(f.id, number), raw, &r); err != nil {
		return kept{}, f.damaged(fmt.Sprintf("what is noted about saved state %d", number), err)
	}
	if r.Number != number {
		return kept{}, f.damaged(fmt.Sprintf("what is noted about saved state %d", number), fmt.Errorf("it has number %d", r.Number))
	}
	return r, nil
}

func (f folder) putRevision(r kept) error {
	return encode(f.revisions, numberKey(r.Number), placeRevision(f.id, r.Number), r)
}

// body reads the project as it was at a revision, without its journal.
func (f folder) body(number int) (model.Project, error) {
	raw := f.bodies.Get(numberKey(number))
	if raw == nil && f.revisions.Get(numberKey(number)) == nil {
		return model.Project{}, trouble(ErrMissing, nil, "Choose another saved state.", "Piece %s has no saved state number %d.", f.name, number)
	}
	var p model.Project
	err := decode(placeBody(f.id, number), raw, &p)
	if err == nil && p.ID != f.id {
		err = fmt.Errorf("it belongs to piece %s", p.ID)
	}
	if err != nil {
		return model.Project{}, f.damaged(fmt.Sprintf("saved state %d", number), err)
	}
	return p, nil
}

// Load gives the current state of a project and its revision. When only
// entries of its journal are damaged, the rest is returned beside a Partial
// error.
func (n *Notebook) Load(id string) (model.Project, model.Revision, error) {
	var p model.Project
	var r kept
	var flaw error
	err := n.view(func(tx *bolt.Tx) error {
		f, err := folderOf(tx, id)
		if err != nil {
			return err
		}
		h, err := f.readHead()
		if err != nil {
			return err
		}
		if r, err = f.revision(h.Current); errors.Is(err, ErrMissing) {
			return f.damaged("its current state", err)
		} else if err != nil {
			return err
		}
		if p, err = f.body(h.Current); err != nil {
			return err
		}
		p.Journal, flaw = f.entries()
		return nil
	})
	if err != nil {
		return model.Project{}, model.Revision{}, err
	}
	return p, r.Revision, partial(flaw)
}

// At gives a project as it was at a revision, with the journal as it is now.
// When only entries of the journal are damaged, the rest is returned beside a
// Partial error.
func (n *Notebook) At(id string, number int) (model.Project, error) {
	var p model.Project
	var flaw error
	err := n.view(func(tx *bolt.Tx) error {
		f, err := folderOf(tx, id)
		if err != nil {
			return err
		}
		if p, err = f.body(number); err != nil {
			return err
		}
		p.Journal, flaw = f.entries()
		return nil
	})
	if err != nil {
		return model.Project{}, err
	}
	return p, partial(flaw)
}

// Revisions lists a project's saved states, oldest first. What is noted about
// a damaged one is left out and reported by a Partial error beside the others.
func (n *Notebook) Revisions(id string) ([]model.Revision, error) {
	var list []model.Revision
	var flaws []error
	err := n.view(func(tx *bolt.Tx) error {
		f, err := folderOf(tx, id)
		if err != nil {
			return err
		}
		return f.revisions.ForEach(func(k, _ []byte) error {
			r, err := f.revision(keyNumber(k))
			if err != nil {
				flaws = append(flaws, err)
				return nil
			}
			list = append(list, r.Revision)
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	return list, partial(errors.Join(flaws...))
}

// Turn makes an existing revision the current one: undo and redo. It can also
// set right a project whose current state is damaged, or its card.
func (n *Notebook) Turn(id string, number int, card model.Card) error {
	return n.update(func(tx *bolt.Tx) error {
		f, err := folderOf(tx, id)
		if err != nil {
			return err
		}
		p, err := f.body(number)
		if err != nil {
			return err
		}
		if _, err := f.revision(number); err != nil {
			return err
		}
		if err := putUses(tx, f, p); err != nil {
			return err
		}
		h, _ := f.readHead() // one told by the revisions where damaged
		h.Current = number
		if err := f.putHead(h); err != nil {
			return err
		}
		return putCard(tx, id, card)
	})
}

// instant gives a time as it is kept: UTC, without the monotonic clock.
func instant(t time.Time) time.Time { return t.UTC().Round(0) }

// encode keeps a value under key, in an envelope.
func encode(b *bolt.Bucket, key []byte, place string, value any) error {
	body, err := json.Marshal(value)
	if err != nil {
		return trouble(ErrInvalid, err, "Mend the value and save again.", "Something has a value that cannot be kept: %v.", err)
	}
	return b.Put(key, seal(place, body))
}

// decode reads a value out of its envelope. A field that this program does not
// know is an error, so that nothing is dropped by saving it again.
func decode(place string, raw []byte, into any) error {
	body, err := unseal(place, raw)
	if err != nil {
		return err
	}
	d := json.NewDecoder(bytes.NewReader(body))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return errors.New("something follows the record")
	}
	return nil
}
