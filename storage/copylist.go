package storage

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"meniscus/model"
)

// Copies lists the copies in the backups folder of the notebook at path, newest
// first.
func Copies(path string) ([]model.Copy, error) { return copiesIn(backupFolder(path)) }

// Copies lists the copies beside the notebook and those in the second place for
// them, also of other notebooks, where one is given and is there, newest first.
func (n *Notebook) Copies(second string) ([]model.Copy, error) {
	list, err := copiesIn(backupFolder(n.path))
	if err != nil || second == "" {
		return list, err
	}
	folders, err := os.ReadDir(awayAll(second))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return list, got(err, second)
	}
	for _, f := range folders {
		away, err := copiesIn(filepath.Join(awayAll(second), f.Name(), backupsName))
		if err != nil {
			continue // something else that lies there
		}
		for i := range away {
			away[i].Away = true
		}
		list = append(list, away...)
	}
	newestFirst(list)
	return list, nil
}

// copiesIn lists the copies in a folder, which need not be there.
func copiesIn(dir string) ([]model.Copy, error) {
	items, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, got(err, dir)
	}
	var list []model.Copy
	for _, item := range items {
		info, err := item.Info()
		if err != nil || !info.Mode().IsRegular() || filepath.Ext(item.Name()) != ".db" || strings.HasPrefix(item.Name(), ".") {
			continue
		}
		kind, at := kindOf(item.Name(), info.ModTime())
		list = append(list, model.Copy{Path: filepath.Join(dir, item.Name()), Kind: kind, At: at, Bytes: info.Size()})
	}
	newestFirst(list)
	return list, nil
}

func newestFirst(list []model.Copy) {
	slices.SortStableFunc(list, func(a, b model.Copy) int { return b.At.Compare(a.At) })
}

// kindOf tells why a copy was made by its name, and when: by its name where that
// has the instant, since a file that is carried about is often dated anew, else
// by when it was written. A daily copy is of the instant that it was written at
// where that is within its day or the morning after.
func kindOf(name string, written time.Time) (model.CopyKind, time.Time) {
	n, ok := readName(name)
	after := written.Sub(n.at)
	switch {
	case !ok:
		return model.CopyOther, written.UTC()
	case n.kind == model.CopyDaily && after >= 0 && after < 36*time.Hour:
		return n.kind, written.UTC()
	}
	return n.kind, n.at
}
