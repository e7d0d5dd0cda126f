package storage

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	bolt "go.etcd.io/bbolt"

	"meniscus/model"
)

// Cards lists all projects, last touched first, from their cards alone. A
// damaged card is made again from the project as far as that goes: its name,
// not its state. Where not even that can be read, the list is returned beside
// a Partial error that names the project.
func (n *Notebook) Cards() ([]model.Card, error) {
	var list []model.Card
	var flaws []error
	err := n.view(func(tx *bolt.Tx) error {
		cards := tx.Bucket([]byte(bucketCards))
		if cards == nil {
			return noProjects
		}
		return cards.ForEach(func(k, v []byte) error {
			card, err := readListed(v, string(k))
			if err != nil {
				card, err = rebuilt(tx, string(k))
			}
			if err != nil {
				flaws = append(flaws, err)
				return nil
			}
			list = append(list, card)
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(list, func(a, b model.Card) int {
		return cmp.Or(b.Touched.Compare(a.Touched), cmp.Compare(a.ID, b.ID))
	})
	return list, partial(errors.Join(flaws...))
}

// readCard reads the card of the project id.
func readCard(raw []byte, id string) (model.Card, error) {
	var card model.Card
	err := decode(placeCard(id), raw, &card)
	if err == nil && card.ID != id {
		err = fmt.Errorf("it is the card of piece %s", card.ID)
	}
	return card, err
}

// readListed reads the card of the project id and leaves its sketch packed,
// which is most of it.
func readListed(raw []byte, id string) (model.Card, error) {
	var listed struct {
		model.Card
		Sketch json.RawMessage `json:"sketch"` // before that of the card
	}
	err := decode(placeCard(id), raw, &listed)
	if err == nil && listed.ID != id {
		err = fmt.Errorf("it is the card of piece %s", listed.ID)
	}
	if string(listed.Sketch) != "{}" { // an empty one
		listed.Packed = listed.Sketch
	}
	return listed.Card, err
}

// rebuilt makes a card from the current state of a project.
func rebuilt(tx *bolt.Tx, id string) (model.Card, error) {
	f, err := folderOf(tx, id)
	if err != nil {
		return model.Card{}, err
	}
	h, _ := f.readHead() // one told by the revisions where damaged
	p, err := f.body(h.Current)
	if err != nil {
		return model.Card{}, err
	}
	card := model.Card{ID: id, Name: p.Name, Demo: p.Demo, Archived: p.Archived, Touched: p.Created}
	if r, err := f.revision(h.Current); err == nil {
		card.Touched = r.At
	}
	return card, nil
}

// putCard keeps the card of the project id.
func putCard(tx *bolt.Tx, id string, card model.Card) error {
	cards := tx.Bucket([]byte(bucketCards))
	if cards == nil {
		return noProjects
	}
	card.ID, card.Sketch = id, card.Drawn()
	return encode(cards, []byte(id), placeCard(id), card)
}

// PutRunning keeps what runs of projects, by ID, and leaves the rest of their
// cards as it is. It makes no revision. A damaged card is made again from the
// project as far as that goes; of a project that is missing, or of which nothing
// can be read, nothing is kept, and the error says so.
func (n *Notebook) PutRunning(of map[string]model.Running) error {
	var flaws []error
	err := n.update(func(tx *bolt.Tx) error {
		for id, running := range of {
			card, err := cardOf(tx, id)
			if err != nil {
				flaws = append(flaws, err)
				continue
			}
			card.Running = &running
			if err := putCard(tx, id, card); err != nil {
				return err
			}
		}
		return nil
	})
	return errors.Join(append(flaws, err)...)
}

// cardOf reads the card of a project, or makes it again where it is damaged.
func cardOf(tx *bolt.Tx, id string) (model.Card, error) {
	if _, err := folderOf(tx, id); err != nil {
		return model.Card{}, err
	}
	cards := tx.Bucket([]byte(bucketCards))
	if cards == nil {
		return model.Card{}, noProjects
	}
	card, err := readCard(cards.Get([]byte(id)), id)
	if err != nil {
		card, err = rebuilt(tx, id)
	}
	return card, err
}
