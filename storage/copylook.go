package storage

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"meniscus/model"
)

// OpenCopy opens a copy to be looked at. Nothing is changed in it: one of an
// older form is brought up to date in a copy of its own, which goes with Close.
// What may be wrong with it is that of Open.
func (n *Notebook) OpenCopy(path string) (model.Copied, error) {
	c := &copied{Notebook: Notebook{path: path, schema: n.schema, steps: n.steps, clock: n.clock, limits: n.limits, reader: true}}
	err := c.open()
	if !errors.Is(err, ErrReadOnly) {
		return c, err
	}
	if c.temp, err = os.MkdirTemp("", "meniscus-look-"); err != nil {
		return nil, put(err, os.TempDir())
	}
	c.path, c.reader = filepath.Join(c.temp, "notebook.db"), false
	if err = duplicate(path, c.path, nil); err == nil {
		err = c.open()
	}
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(c.temp))
	}
	return c, nil
}

// copied is a copy that is open to be looked at.
type copied struct {
	Notebook
	temp string // a folder of its own; empty where it has none
}

// Close ends the look.
func (c *copied) Close() error {
	err := c.Notebook.Close()
	if c.temp != "" {
		err = errors.Join(err, os.RemoveAll(c.temp))
	}
	return err
}

// duplicate copies a file to another name, under which it is only once it is
// whole on the disk and accept had nothing against it.
func duplicate(from, to string, accept func(string) error) error {
	src, err := os.Open(from)
	if err != nil {
		return got(err, from)
	}
	defer src.Close()
	body := &readError{r: src}
	fill := func(f *os.File) error {
		_, err := io.Copy(f, body)
		return err
	}
	err = writeFile(to, fill, accept)
	if body.err != nil {
		return got(body.err, from)
	}
	return put(err, to)
}
