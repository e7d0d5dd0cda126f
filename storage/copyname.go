package storage

import (
	"regexp"
	"time"

	"meniscus/model"
)

// The beginnings of the names of copies, and how an instant is
// written in a name; one with its milliseconds is read by nameTime too.
const (
	dailyName   = "notebook-"
	asideName   = "set-aside-"
	migrateName = "before-form-"
	nameTime    = "2006-01-02T150405Z"
	asideTime   = "2006-01-02T150405.000Z"
)

// madeName is what the program calls a copy: daily, by the day of UTC, or made
// before a restore, or before the form of the notebook was raised.
var madeName = regexp.MustCompile(`^(` + dailyName + `|` + asideName + `|` + migrateName + `\d+-)(\d{4}-\d{2}-\d{2})(T[0-9.]+Z)?\.db$`)

// copyName is what the name of a copy says of it.
type copyName struct {
	kind model.CopyKind
	like string    // begins the names of those that it is thinned with
	at   time.Time // when it was made; of a daily one the beginning of its day
}

// day is the one on which a copy was made, in UTC.
func (n copyName) day() time.Time { return n.at.Truncate(24 * time.Hour) }

// readName reads the name of a copy that the program made; false where it is no
// such name.
func readName(name string) (copyName, bool) {
	m := madeName.FindStringSubmatch(name)
	if m == nil {
		return copyName{}, false
	}
	n := copyName{kind: model.CopyUpdate, like: m[1]}
	layout := nameTime
	switch m[1] {
	case dailyName:
		n.kind, layout = model.CopyDaily, time.DateOnly
	case asideName:
		n.kind = model.CopyAside
	}
	var err error
	n.at, err = time.Parse(layout, m[2]+m[3])
	return n, err == nil
}
