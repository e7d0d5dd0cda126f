package app

import (
	"errors"
	"fmt"
	"os"

	"meniscus/model"
)

// CloseAside is Close. What could not be kept in the notebook is written into
// the first folder that takes it, the open project as one that can be imported
// and the shelf as a file of its own, and the error says where they are.
func (s *Session) CloseAside(folders ...string) error {
	err := s.Close()
	if s.lastSave(false) != nil {
		data, bad := s.Export()
		err = tellAside(err, "meniscus-not-kept-*.json", "the last changes are in %s: import that file once the notebook can be written again", data, bad, folders)
	}
	if s.lastSave(true) != nil {
		data, bad := model.ExportShelf(s.shelf.now)
		err = tellAside(err, "meniscus-shelf-not-kept-*.json", "the shelf with its last changes is in %s: it cannot be imported, so keep it to enter them again from", data, bad, folders)
	}
	return err
}

// tellAside writes what could not be kept into the first folder that takes it,
// under a name with one * to be filled, and adds to the error in words, with one
// %s, where it is; bad is why there is nothing to write.
func tellAside(err error, pattern, words string, data []byte, bad error, folders []string) error {
	if bad != nil {
		return errors.Join(err, bad)
	}
	for _, folder := range folders {
		name, bad := aside(folder, pattern, data)
		if bad == nil {
			return fmt.Errorf("%w\n"+words, err, name)
		}
		err = errors.Join(err, bad)
	}
	return err
}

// aside writes a file into a folder, new and for this user only.
func aside(folder, pattern string, data []byte) (name string, err error) {
	f, err := os.CreateTemp(folder, pattern)
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}
