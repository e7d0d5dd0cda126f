package storage

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// longestID is the longest ID of a project or entry, in bytes.
const longestID = 200

// Save keeps p as a new revision made from the revision numbered after (0 for
// a new project) and makes it the current one. With amend it takes the place
// of the revision after, under the same number, instead of following it.
// Journal entries not yet held are added to the project's journal; none is
// ever changed or dropped. It returns when all of that is on the disk.
func (n *Notebook) Save(p model.Project, card model.Card, after int, amend bool, label string, at time.Time) (model.Revision, error) {
	if err := savable(p); err != nil {
		return model.Revision{}, err
	}
	entries := p.Journal
	p.Journal = nil
	body, err := json.Marshal(p)
	if err != nil {
		return model.Revision{}, trouble(ErrInvalid, err, "Mend the value and save again.",
			"Piece “%s” has a value that cannot be kept: %v.", p.Name, err)
	}
	var made kept
	err = n.update(func(tx *bolt.Tx) error {
		made = kept{Revision: model.Revision{After: after, At: instant(at), Label: label}}
		f, h, err := target(tx, p.ID, after)
		if err != nil {
			return err
		}
		old, amended := f.amends(after, amend)
		if amended {
			made.Number, made.After = old.Number, old.After
			h.Bytes -= old.Size
		} else {
			made.Number = h.Last + 1
		}
		raw := seal(placeBody(p.ID, made.Number), body)
		made.Size = int64(len(raw))
		h.Current, h.Last, h.Bytes = made.Number, max(h.Last, made.Number), h.Bytes+made.Size
		if err := f.bodies.Put(numberKey(made.Number), raw); err != nil {
			return err
		}
		if err := f.putRevision(made); err != nil {
			return err
		}
		if err := f.addEntries(entries); err != nil {
			return err
		}
		p.Journal = entries
		if err := putUses(tx, f, p); err != nil {
			return err
		}
		if err := f.thin(&h, n.limits, made.At); err != nil {
			return err
		}
		if err := f.putHead(h); err != nil {
			return err
		}
		return putCard(tx, p.ID, card)
	})
	if err != nil {
		return model.Revision{}, err
	}
	return made.Revision, nil
}

// savable refuses what could not be found again.
func savable(p model.Project) error {
	if p.ID == "" || len(p.ID) > longestID {
		return trouble(ErrInvalid, nil, "Report this; it is a fault of the program.", "Piece “%s” has no usable ID.", p.Name)
	}
	for _, e := range p.Journal {
		if e.ID == "" || len(e.ID) > longestID {
			return trouble(ErrInvalid, nil, "Report this; it is a fault of the program.",
				"The journal of piece “%s” has an entry without a usable ID (%s, %s).", p.Name, e.Kind, e.At.Format(time.DateTime))
		}
	}
	return nil
}

// target finds the folder and head that a save goes to.
func target(tx *bolt.Tx, id string, after int) (folder, head, error) {
	f, err := folderOf(tx, id)
	switch {
	case after == 0 && errors.Is(err, ErrMissing):
		f, err = newFolder(tx, id)
		return f, head{}, err
	case err != nil:
		return folder{}, head{}, err
	case after == 0:
		return folder{}, head{}, trouble(ErrExists, nil, "Give the new one another ID.", "The notebook already has a piece %s.", f.name)
	case f.revisions.Get(numberKey(after)) == nil:
		return folder{}, head{}, trouble(ErrMissing, nil, "Open the piece again and repeat the change.",
			"Piece %s has no saved state number %d.", f.name, after)
	}
	h, _ := f.readHead() // one told by the revisions where damaged
	return f, h, nil
}

// amends finds the revision whose place is to be taken. One that cannot be
// read is followed instead.
func (f folder) amends(after int, amend bool) (kept, bool) {
	if !amend || after == 0 {
		return kept{}, false
	}
	r, err := f.revision(after)
	return r, err == nil
}

// addEntries adds the journal entries that are not held yet. One that is held
// but can no longer be read is written again.
func (f folder) addEntries(entries []model.Entry) error {
	for _, e := range entries {
		if _, err := unseal(placeEntry(f.id, e.ID), f.journal.Get([]byte(e.ID))); err == nil {
			continue
		}
		if err := encode(f.journal, []byte(e.ID), placeEntry(f.id, e.ID), e); err != nil {
			return err
		}
	}
	return nil
}

// entry reads one entry of the journal.
func (f folder) entry(key []byte) (model.Entry, error) {
	var e model.Entry
	err := decode(placeEntry(f.id, string(key)), f.journal.Get(key), &e)
	if err == nil && e.ID != string(key) {
		err = fmt.Errorf("it has the ID %s", e.ID)
	}
	return e, err
}
