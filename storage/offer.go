package storage

import (
	"errors"
	"fmt"
	"os"

	"meniscus/model"
)

// Offer finds the newest copy beside the notebook at path that is whole, for
// where the notebook itself is not, and says in words what it is of and what
// would be missing. Every copy that it passes over is named, too.
//
// The error is ErrMissing where there is no good copy, and ErrInvalid where the file
// is another program's, which no copy of a notebook belongs in the place of.
func Offer(path string) (c model.Copy, words string, err error) {
	if foreign(path) {
		return model.Copy{}, "", trouble(ErrInvalid, nil, "Choose another file.", "%s is not a notebook.", path)
	}
	list, err := Copies(path)
	if err != nil {
		return model.Copy{}, "", err
	}
	passed := ""
	for _, c := range list {
		if err := good(c.Path); err != nil {
			passed += fmt.Sprintf(" The copy of %s is damaged too.", momentOf(c))
			continue
		}
		return c, fmt.Sprintf("The newest good copy is of %s. What was changed after that is missing in it. If you go on with it, the damaged file is kept among the copies.%s", momentOf(c), passed), nil
	}
	return model.Copy{}, "", trouble(ErrMissing, nil, "The notebook was left as it is. Move it away to start an empty one, and keep it.",
		"There is no good copy of the notebook in %s.%s", backupFolder(path), passed)
}

// foreign tells whether the file at path is a whole one of another program, or a
// folder.
func foreign(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || info.IsDir() {
		return err == nil
	}
	_, err = inspect(f, info.Size())
	return errors.Is(err, errForeign)
}

// momentOf is when a copy was made, as people say it.
func momentOf(c model.Copy) string { return c.At.Local().Format("Monday 2 January 2006, 15:04") }
