package storage

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// mostShelfStates is how many states of the shelf are kept for undo.
const mostShelfStates = 200

// shelfForm is the schema from which a notebook has a shelf.
const shelfForm = 4

// Places of the records of the shelf.
func placeShelfHead() string { return bucketShelf + "/" + rowHead }
func placeShelfRevision(n int) string {
	return bucketShelf + "/" + bucketRevisions + "/" + strconv.Itoa(n)
}
func placeShelfBody(n int) string { return bucketShelf + "/" + bucketBodies + "/" + strconv.Itoa(n) }
func placeUses(id string) string  { return bucketShelf + "/" + bucketUses + "/" + id }
func shelfTrouble(part string, err error, do string) *Trouble {
	return trouble(ErrDamaged, err, do, "On the shelf %s is damaged: %v.", part, err)
}

// shelf is the shelf's bucket within a transaction.
type shelf struct {
	all                     *bolt.Bucket
	revisions, bodies, uses *bolt.Bucket
}

// shelfOf finds the shelf's bucket; false in a notebook that has none yet.
func shelfOf(tx *bolt.Tx) (shelf, bool) {
	all := tx.Bucket([]byte(bucketShelf))
	if all == nil {
		return shelf{}, false
	}
	s := shelf{all, all.Bucket([]byte(bucketRevisions)), all.Bucket([]byte(bucketBodies)), all.Bucket([]byte(bucketUses))}
	return s, s.revisions != nil && s.bodies != nil && s.uses != nil
}

// newShelf makes the shelf's bucket, or what is missing of it.
func newShelf(tx *bolt.Tx) error {
	all, err := tx.CreateBucketIfNotExists([]byte(bucketShelf))
	if err != nil {
		return err
	}
	for _, name := range []string{bucketRevisions, bucketBodies, bucketUses} {
		if _, err := all.CreateBucketIfNotExists([]byte(name)); err != nil {
			return err
		}
	}
	return nil
}

// head is the number of the current state, and the highest that was ever given;
// where that is damaged it is told by the states: the last one is shown.
func (s shelf) head() (head, error) {
	var h head
	raw := s.all.Get([]byte(rowHead))
	last, _ := s.revisions.Cursor().Last()
	if raw == nil && last == nil {
		return h, nil // nothing was ever kept
	}
	if err := decode(placeShelfHead(), raw, &h); err != nil {
		return head{Current: keyNumber(last), Last: keyNumber(last)}, shelfTrouble("the mark of its current state", err, "Look through the shelf, and save it again by any change.")
	}
	return h, nil
}

// body reads the shelf as it was at a state, without its uses.
func (s shelf) body(number int) (model.Shelf, error) {
	var m model.Shelf
	if err := decode(placeShelfBody(number), s.bodies.Get(numberKey(number)), &m); err != nil {
		return model.Shelf{}, shelfTrouble(fmt.Sprintf("saved state %d", number), err, "The newest state that can be read is shown: look through it before you go on. The pieces are not touched.")
	}
	return m, nil
}

// list reads what is noted of the states, oldest first; damaged notes are left
// out.
func (s shelf) list() (list []model.Revision, err error) {
	var flaws []error
	_ = s.revisions.ForEach(func(k, v []byte) error {
		var r model.Revision
		number := keyNumber(k)
		err := decode(placeShelfRevision(number), v, &r)
		if err == nil && r.Number != number {
			err = fmt.Errorf("it has number %d", r.Number)
		}
		if err != nil {
			flaws = append(flaws, shelfTrouble(fmt.Sprintf("what is noted about saved state %d", number), err, "Undo does not lead there any more."))
			return nil
		}
		list = append(list, r)
		return nil
	})
	return list, errors.Join(flaws...)
}

// taken reads what projects took, by project. A damaged record is made again from
// its project.
func (s shelf) taken(tx *bolt.Tx) (list []model.ProjectUses, err error) {
	var flaws []error
	_ = s.uses.ForEach(func(k, v []byte) error {
		u, err := readUses(string(k), v)
		if err != nil {
			u, err = usesAgain(tx, string(k))
		}
		if err != nil {
			flaws = append(flaws, shelfTrouble("what piece "+nameOf(tx, string(k))+" took", err, "Open that piece and save it by any change; until then it is not counted."))
			return nil
		}
		list = append(list, u)
		return nil
	})
	slices.SortFunc(list, func(a, b model.ProjectUses) int { return strings.Compare(a.Project, b.Project) })
	return list, errors.Join(flaws...)
}

// readUses reads what one project took.
func readUses(id string, raw []byte) (model.ProjectUses, error) {
	var u model.ProjectUses
	err := decode(placeUses(id), raw, &u)
	if err == nil && u.Project != id {
		err = fmt.Errorf("it is of piece %s", u.Project)
	}
	return u, err
}

// usesAgain works out what a project took from its current state.
func usesAgain(tx *bolt.Tx, id string) (model.ProjectUses, error) {
	f, err := folderOf(tx, id)
	if err != nil {
		return model.ProjectUses{}, err
	}
	h, _ := f.readHead() // one told by the revisions where damaged
	p, err := f.body(h.Current)
	if err != nil {
		return model.ProjectUses{}, err
	}
	if p.Journal, err = f.entries(); err != nil {
		return model.ProjectUses{}, err
	}
	return model.UsesOf(&p), nil
}

// putUses keeps what a project took in the place of what it took before. It goes
// with each save of the project, in one transaction, so that the two never tell
// different things.
func putUses(tx *bolt.Tx, f folder, p model.Project) error {
	s, ok := shelfOf(tx)
	if !ok {
		return nil // of an older form, which has no shelf
	}
	before := s.uses.Get([]byte(f.id))
	if before == nil && !p.TakesStock() {
		return nil
	}
	p.Journal, _ = f.entries() // what of it can be read
	u := model.UsesOf(&p)
	if len(u.List) == 0 {
		if before == nil {
			return nil
		}
		return s.uses.Delete([]byte(f.id))
	}
	return encode(s.uses, []byte(f.id), placeUses(f.id), u)
}

// LoadShelf gives the shelf with what was taken from it, its saved states, oldest
// first, and the number of the current one, 0 where nothing was kept yet. A
// damaged shelf keeps no one from the projects: where its current state cannot
// be read it is the newest one that can, else an empty one, beside a Partial
// error.
func (n *Notebook) LoadShelf() (model.Shelf, []model.Revision, int, error) {
	var m model.Shelf
	var list []model.Revision
	var h head
	var flaws []error
	err := n.view(func(tx *bolt.Tx) error {
		s, ok := shelfOf(tx)
		if !ok {
			if n.schema >= shelfForm {
				flaws = append(flaws, shelfTrouble("its folder", errors.New("it is missing"), "Restore a copy of the notebook, or begin the shelf anew. The pieces are not touched."))
			}
			return nil
		}
		var flaw error
		h, flaw = s.head()
		flaws = append(flaws, flaw)
		list, flaw = s.list()
		flaws = append(flaws, flaw)
		for number := h.Current; number > 0; number-- {
			if s.bodies.Get(numberKey(number)) == nil && number != h.Current {
				continue
			}
			if m, flaw = s.body(number); flaw == nil {
				h.Current = number
				break
			}
			if number == h.Current || len(flaws) < 3 {
				flaws = append(flaws, flaw)
			}
		}
		m.Uses, flaw = s.taken(tx)
		flaws = append(flaws, flaw)
		return nil
	})
	if err != nil {
		return model.Shelf{}, nil, 0, err
	}
	return m, list, h.Current, partial(errors.Join(flaws...))
}

// SaveShelf keeps a state of the shelf after the current one, or with amend in
// its place, and makes it the current one. States that were undone before are
// dropped, and so are the oldest beyond 200. What was taken from the shelf is not
// kept with it: that goes with the projects.
func (n *Notebook) SaveShelf(m model.Shelf, amend bool, label string, at time.Time) (model.Revision, error) {
	m.Uses = nil
	var r model.Revision
	err := n.update(func(tx *bolt.Tx) error {
		if err := newShelf(tx); err != nil {
			return err
		}
		s, _ := shelfOf(tx)
		h, _ := s.head() // one told by the states where damaged
		r = model.Revision{Number: h.Last + 1, After: h.Current, At: instant(at), Label: label}
		if amend && h.Current > 0 {
			r.Number, r.After = h.Current, 0
			var old model.Revision
			if decode(placeShelfRevision(h.Current), s.revisions.Get(numberKey(h.Current)), &old) == nil {
				r.After = old.After
			}
		}
		if err := s.drop(func(number int) bool { return number > h.Current || number <= r.Number-mostShelfStates }); err != nil {
			return err
		}
		h = head{Current: r.Number, Last: max(h.Last, r.Number)}
		return errors.Join(
			encode(s.bodies, numberKey(r.Number), placeShelfBody(r.Number), m),
			encode(s.revisions, numberKey(r.Number), placeShelfRevision(r.Number), r),
			encode(s.all, []byte(rowHead), placeShelfHead(), h))
	})
	return r, err
}

// drop drops the states of the numbers told.
func (s shelf) drop(which func(number int) bool) error {
	var gone [][]byte
	_ = s.revisions.ForEach(func(k, _ []byte) error {
		if which(keyNumber(k)) {
			gone = append(gone, slices.Clone(k))
		}
		return nil
	})
	var err error
	for _, k := range gone {
		err = errors.Join(err, s.revisions.Delete(k), s.bodies.Delete(k))
	}
	return err
}

// TurnShelf makes another saved state of the shelf the current one, undo and
// redo, and gives it with what was taken from it.
func (n *Notebook) TurnShelf(number int) (model.Shelf, error) {
	var m model.Shelf
	err := n.update(func(tx *bolt.Tx) error {
		s, ok := shelfOf(tx)
		if !ok || s.revisions.Get(numberKey(number)) == nil {
			return trouble(ErrMissing, nil, "Choose another saved state.", "The shelf has no saved state number %d.", number)
		}
		var err error
		if m, err = s.body(number); err != nil {
			return err
		}
		m.Uses, _ = s.taken(tx) // what cannot be read was told when the shelf was loaded
		h, _ := s.head()
		h.Current = number
		return encode(s.all, []byte(rowHead), placeShelfHead(), h)
	})
	return m, err
}

// checkShelf reads every record of the shelf.
func checkShelf(tx *bolt.Tx, note func(error)) {
	s, ok := shelfOf(tx)
	if !ok {
		note(shelfTrouble("its folder", errors.New("a part of it is missing"), "Save the shelf again by any change."))
		return
	}
	h, err := s.head()
	note(err)
	if err == nil && h.Current != 0 && s.revisions.Get(numberKey(h.Current)) == nil {
		note(shelfTrouble("the mark of its current state", fmt.Errorf("there is no state %d", h.Current), ""))
	}
	_, err = s.list()
	note(err)
	note(s.revisions.ForEach(func(k, _ []byte) error {
		_, err := s.body(keyNumber(k))
		note(err)
		return nil
	}))
	note(s.bodies.ForEach(func(k, _ []byte) error {
		if s.revisions.Get(k) == nil {
			note(shelfTrouble(fmt.Sprintf("saved state %d", keyNumber(k)), errors.New("nothing is noted about it"), ""))
		}
		return nil
	}))
	note(s.uses.ForEach(func(k, v []byte) error {
		if _, err := readUses(string(k), v); err != nil {
			note(shelfTrouble("what piece "+nameOf(tx, string(k))+" took", err, "Open that piece and save it by any change."))
		}
		return nil
	}))
}
