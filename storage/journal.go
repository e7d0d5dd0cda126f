package storage

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"meniscus/model"
)

// entries reads a project's whole journal, by instant and then by ID. Damaged
// entries are left out and named by the error.
func (f folder) entries() ([]model.Entry, error) {
	var list []model.Entry
	var flaws []error
	c := f.journal.Cursor()
	for k, _ := c.First(); k != nil; k, _ = c.Next() {
		e, err := f.entry(k)
		if err != nil {
			flaws = append(flaws, f.damaged(fmt.Sprintf("journal entry %s", k), err))
			continue
		}
		list = append(list, e)
	}
	slices.SortFunc(list, func(a, b model.Entry) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.ID, b.ID))
	})
	return list, errors.Join(flaws...)
}
