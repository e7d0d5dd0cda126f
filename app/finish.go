package app

import (
	"errors"
	"fmt"
	"os"
)

// CloseAside is Close. What could not be kept in the notebook is written
// as an exported project into the first folder that takes it, and the error
// says where it is.
func (s *Session) CloseAside(folders ...string) error {
	err := s.Close()
	if err == nil || !s.Snapshot().Saved.Pending {
		return err
	}
	data, bad := s.Export()
	if bad != nil {
		return errors.Join(err, bad)
	}
	for _, folder := range folders {
		name, bad := aside(folder, data)
		if bad == nil {
			return fmt.Errorf("%w\nthe last changes are in %s: import that file once the notebook can be written again", err, name)
		}
		err = errors.Join(err, bad)
	}
	return err
}

// aside writes a project into a new file in a folder, for this user only.
func aside(folder string, data []byte) (name string, err error) {
	f, err := os.CreateTemp(folder, "meniscus-not-kept-*.json")
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", errors.Join(err, os.Remove(f.Name()))
	}
	return f.Name(), nil
}
