package storage

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"meniscus/model"
)

// How long copies are kept, by their age on the day of the newest daily one: all
// for a week, the last of each week (ISO 8601) for two months, the last of each
// month for a year. The newest seven daily ones stay however old they are, and so
// does the newest of those made before a restore, and before each new form.
const (
	dailyCopies = 7
	weeklyDays  = 62
	monthlyDays = 366
)

// KeepDaily makes the copy of the day in the backups folder, where there is
// none yet, and then drops the copies that have become too many, see
// dailyCopies. It tells whether it made one. While a record of the notebook is
// damaged no old copy is dropped, and the error is Partial.
func (n *Notebook) KeepDaily(at time.Time) (bool, error) {
	return n.keepDaily(backupFolder(n.path), at, false)
}

// keepDaily makes the copy of the day in a folder, with again also where there
// is one.
func (n *Notebook) keepDaily(dir string, at time.Time, again bool) (bool, error) {
	to := filepath.Join(dir, dailyName+at.UTC().Format(time.DateOnly)+".db")
	switch _, err := os.Stat(to); {
	case err == nil && !again:
		return false, nil
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return false, got(err, to)
	}
	if n.ReadOnly() {
		return false, n.sealed()
	}
	if err := n.Backup(to); err != nil {
		return isPartial(err), err
	}
	list, err := os.ReadDir(dir)
	if err != nil {
		return true, got(err, dir)
	}
	var names []string
	for _, item := range list {
		// One dated later was made while the clock ran ahead: its age is not known.
		if n, ok := readName(item.Name()); !ok || !n.day().After(at) {
			names = append(names, item.Name())
		}
	}
	for _, name := range outdated(names) {
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			return true, put(err, filepath.Join(dir, name))
		}
	}
	return true, nil
}

// outdated chooses the copies that are no longer needed: of the daily ones, and
// of those that were made before a restore or an update, each kind for itself and
// by one rule. Copies that somebody put there are never chosen.
func outdated(names []string) []string {
	type copied struct {
		name string
		day  time.Time
	}
	alike := map[string][]copied{}
	var newest time.Time // day of the newest daily copy
	for _, name := range names {
		if n, ok := readName(name); ok {
			alike[n.like] = append(alike[n.like], copied{name, n.day()})
			if n.kind == model.CopyDaily && n.day().After(newest) {
				newest = n.day()
			}
		}
	}
	var drop []string
	for like, list := range alike {
		slices.SortFunc(list, func(a, b copied) int { return cmp.Or(b.day.Compare(a.day), cmp.Compare(b.name, a.name)) })
		always := 1
		if like == dailyName {
			always = dailyCopies
		}
		taken := map[string]bool{} // weeks and months that have their copy
		for i, c := range list {
			year, number := c.day.ISOWeek()
			week, month := fmt.Sprint("week ", number, " of ", year), c.day.Format("2006-01")
			age := int(newest.Sub(c.day) / (24 * time.Hour))
			keep := i < always || age < dailyCopies || age <= weeklyDays && !taken[week] || age <= monthlyDays && !taken[month]
			if !keep {
				drop = append(drop, c.name)
				continue
			}
			taken[week], taken[month] = true, true
		}
	}
	slices.Sort(drop)
	return drop
}

// Restore puts the copy in the file from into the place of the notebook at
// path, which must not be open. The copy is looked through first, and what is
// there now is kept in the backups folder. At each moment there is either the
// old notebook at path or the whole new one.
func Restore(path, from string, at time.Time) error {
	if err := good(from); err != nil {
		return err
	}
	return replace(path, from, at, func(string) error { return nil })
}

// replace puts a good copy into the place of the notebook at path, once finish
// was done on it.
func replace(path, from string, at time.Time, finish func(name string) error) error {
	err := duplicate(from, path, func(name string) error {
		if err := good(name); err != nil {
			return err
		}
		if err := finish(name); err != nil {
			return err
		}
		return setAside(path, at)
	})
	if err != nil {
		sweepAside(path)
	}
	return err
}

// good makes sure that a copy is whole, of this schema or an older one.
func good(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return got(err, path)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return got(err, path)
	}
	l, err := inspect(f, info.Size())
	switch {
	case err != nil:
		return trouble(ErrDamaged, err, "Choose another copy.", "The copy %s cannot be used: %v.", path, err)
	case l.schema > schemaNow:
		return newer(path, l.schema, schemaNow)
	case l.schema < schemaNow:
		return nil
	}
	whole, records := verify(path, schemaNow)
	if whole != nil {
		return whole
	}
	if records != nil {
		return trouble(ErrDamaged, records, "Choose another copy.", "The copy %s has a damaged record: %v", path, records)
	}
	return nil
}

// sweepAside removes what was set aside by a restore that was not brought to its
// end: a second name of the very notebook, which would change with it.
func sweepAside(path string) {
	live, err := os.Stat(path)
	if err != nil {
		return
	}
	list, _ := filepath.Glob(filepath.Join(escapeGlob(backupFolder(path)), asideName+"*.db"))
	for _, name := range list {
		if info, err := os.Lstat(name); err == nil && os.SameFile(live, info) {
			_ = os.Remove(name)
		}
	}
}

// setAside keeps the notebook at path, if there is one, under a second name in
// the backups folder, after making sure that nobody has it open.
func setAside(path string, at time.Time) error {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return got(err, path)
	}
	defer f.Close()
	if err := lockFile(f, true, patience); err != nil {
		if errors.Is(err, ErrInUse) {
			return inUse(path)
		}
		return got(err, path)
	}
	defer unlockFile(f)
	dir := backupFolder(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return put(err, dir)
	}
	// Under a name that is free: two restores may come within one tick of a clock.
	aside := ""
	for ; ; at = at.Add(time.Millisecond) {
		aside = filepath.Join(dir, asideName+at.UTC().Format(asideTime)+".db")
		if _, err := os.Lstat(aside); errors.Is(err, fs.ErrNotExist) {
			break
		} else if err != nil {
			return got(err, aside)
		}
	}
	if err := os.Link(path, aside); err == nil {
		return put(syncFolder(dir), dir)
	}
	fill := func(to *os.File) error {
		_, err := io.Copy(to, f)
		return err
	}
	return put(writeFile(aside, fill, nil), aside)
}
