package storage

import (
	"errors"
	"fmt"
	"io"
	"os"

	bolt "go.etcd.io/bbolt"
)

// Check reads the whole notebook and the photos beside it: every page, every
// record with its checksum, the links between revisions, and that each project
// has a card. It returns all that is wrong, joined; nil when nothing is.
func (n *Notebook) Check() error {
	return errors.Join(n.checkPages(), n.checkRecords(), n.checkPhotos())
}

// checkPages looks through the pages while nothing is being saved.
func (n *Notebook) checkPages() error {
	if err := n.ready(); err != nil {
		return err
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.db == nil {
		return n.closed()
	}
	_, err := n.preflight(n.file)
	return err
}

// checkRecords reads every record.
func (n *Notebook) checkRecords() error {
	var flaws []error
	note := func(err error) {
		if err != nil && len(flaws) < 100 {
			flaws = append(flaws, err)
		}
	}
	err := n.view(func(tx *bolt.Tx) error {
		cards, settings, projects := tx.Bucket([]byte(bucketCards)), tx.Bucket([]byte(bucketSettings)), tx.Bucket([]byte(bucketProjects))
		if cards == nil || settings == nil || projects == nil {
			return damage(n.path, errors.New("a part of it is missing"))
		}
		note(settings.ForEach(func(k, v []byte) error {
			_, err := unseal(placeSetting(string(k)), v)
			note(n.setting(string(k), err))
			return nil
		}))
		note(cards.ForEach(func(k, v []byte) error {
			if _, err := readCard(v, string(k)); err != nil {
				note(trouble(ErrDamaged, err, "Open and save it to make the card again.", "The card of piece %s is damaged: %v.", k, err))
			}
			if projects.Bucket(k) == nil {
				note(trouble(ErrDamaged, nil, "", "There is a card for piece %s, but no piece.", k))
			}
			return nil
		}))
		checkShelf(tx, note)
		return projects.ForEachBucket(func(k []byte) error {
			if cards.Get(k) == nil {
				note(trouble(ErrDamaged, nil, "Open and save it to make the card again.", "Piece %s has no card.", k))
			}
			f, err := folderOf(tx, string(k))
			note(err)
			if err == nil {
				f.check(note)
			}
			return nil
		})
	})
	note(err)
	return errors.Join(flaws...)
}

// check reads every record of a project.
func (f folder) check(note func(error)) {
	h, err := f.readHead()
	note(err)
	if err == nil && f.revisions.Get(numberKey(h.Current)) == nil {
		note(f.damaged("the mark of its current state", fmt.Errorf("there is no state %d", h.Current)))
	}
	var total int64
	note(f.revisions.ForEach(func(k, _ []byte) error {
		number := keyNumber(k)
		r, err := f.revision(number)
		note(err)
		if err == nil {
			note(f.checkLink(r, h))
			total += r.Size
		}
		_, err = f.body(number)
		note(err)
		return nil
	}))
	if err == nil && total != h.Bytes {
		note(f.damaged("the count of its bytes", fmt.Errorf("it says %d and they are %d", h.Bytes, total)))
	}
	note(f.bodies.ForEach(func(k, _ []byte) error {
		if f.revisions.Get(k) == nil {
			note(f.damaged(fmt.Sprintf("saved state %d", keyNumber(k)), errors.New("nothing is noted about it")))
		}
		return nil
	}))
	_, err = f.entries()
	note(err)
}

// checkLink makes sure that a revision follows one that is there, or none.
func (f folder) checkLink(r kept, h head) error {
	switch {
	case r.After != 0 && f.revisions.Get(numberKey(r.After)) == nil:
		return f.damaged(fmt.Sprintf("the link of saved state %d", r.Number), fmt.Errorf("there is no state %d", r.After))
	case r.After >= r.Number:
		return f.damaged(fmt.Sprintf("the link of saved state %d", r.Number), errors.New("it follows a later one"))
	case h.Last != 0 && r.Number > h.Last:
		return f.damaged(fmt.Sprintf("saved state %d", r.Number), errors.New("its number was never given"))
	case int64(len(f.bodies.Get(numberKey(r.Number)))) != r.Size:
		return f.damaged(fmt.Sprintf("saved state %d", r.Number), errors.New("it has a wrong length"))
	}
	return nil
}

// checkPhotos reads every photo.
func (n *Notebook) checkPhotos() error {
	list, err := os.ReadDir(n.photos())
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	flaws := []error{got(err, n.photos())}
	for _, item := range list {
		if !photoName.MatchString(item.Name()) {
			continue
		}
		p, err := n.Photo(item.Name())
		if err != nil {
			flaws = append(flaws, err)
			continue
		}
		_, err = io.Copy(io.Discard, p)
		flaws = append(flaws, err, p.Close())
	}
	return errors.Join(flaws...)
}
