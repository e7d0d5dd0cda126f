package storage

import (
	"fmt"

	"meniscus/model"
)

// Offer finds the newest copy beside the notebook at path that is whole, for
// where the notebook itself is not, and says in words what it is of and what
// would be missing. Every copy that it passes over is named, too.
func Offer(path string) (c model.Copy, words string, err error) {
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
		return c, fmt.Sprintf("The newest good copy is of %s. What was changed after that is missing in it.%s If you go on with it, the damaged file is kept among the copies.", momentOf(c), passed), nil
	}
	return model.Copy{}, "", trouble(ErrMissing, nil, "Move the notebook away to start an empty one, and keep it: it may be read by hand.",
		"There is no good copy of the notebook in %s.%s", backupFolder(path), passed)
}

// momentOf is when a copy was made, as people say it.
func momentOf(c model.Copy) string { return c.At.Local().Format("Monday 2 January 2006, 15:04") }
