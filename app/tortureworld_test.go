package app

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
)

// begin makes the folder of a series, with a notebook of an older form in it where
// that is to be brought up to date.
func (m *torment) begin(kind string, n int) error {
	err := os.MkdirAll(filepath.Join(m.dir, "stick"), 0o700)
	if kind != "older form" || err != nil {
		return err
	}
	form := 1 + n%3
	raw, err := os.ReadFile("../storage/testdata/form-" + strconv.Itoa(form) + ".db")
	if err != nil {
		return err
	}
	if err := os.WriteFile(m.path(), raw, 0o600); err != nil {
		return err
	}
	m.l.kept, err = foundCopy(m.path(), m.dir)
	return err
}

// foundCopy is found of a copy of a file, which is left as it is.
func foundCopy(path, dir string) (map[string]string, error) {
	raw, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	temp, err := os.MkdirTemp(dir, "look")
	if err != nil {
		return nil, err
	}
	to := filepath.Join(temp, "n.db")
	if err := os.WriteFile(to, raw, 0o600); err != nil {
		return nil, err
	}
	all, err := found(to, "")
	return all, errors.Join(err, os.RemoveAll(temp))
}

// whole opens a copy and reads every record of it.
func whole(path, dir string) error {
	_, err := foundCopy(path, dir)
	return err
}
