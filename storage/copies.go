package storage

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"time"
)

// How long daily copies are kept, by their age on the day of the newest: of
// each day for a week, the last of each week (ISO 8601) for two months, the last
// of each month for a year. The newest seven stay however old they are.
const (
	dailyCopies = 7
	weeklyDays  = 62
	monthlyDays = 366
)

// dailyName is what a daily copy is called; its day is that of UTC.
var dailyName = regexp.MustCompile(`^notebook-(\d{4}-\d{2}-\d{2})\.db$`)

// KeepDaily makes the copy of the day in the backups folder, where there is
// none yet, and then drops the daily copies that have become too many, see
// dailyCopies. It tells whether it made one. While a record of the notebook is
// damaged no old copy is dropped, and the error is Partial.
func (n *Notebook) KeepDaily(at time.Time) (bool, error) {
	return n.keepDaily(backupFolder(n.path), at, false)
}

// keepDaily makes the copy of the day in a folder, with again also where there
// is one.
func (n *Notebook) keepDaily(dir string, at time.Time, again bool) (bool, error) {
	to := filepath.Join(dir, "notebook-"+at.UTC().Format(time.DateOnly)+".db")
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
		names = append(names, item.Name())
	}
	for _, name := range outdated(names) {
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			return true, put(err, filepath.Join(dir, name))
		}
	}
	return true, nil
}

// outdated chooses the daily copies that are no longer needed.
func outdated(names []string) []string {
	var days []time.Time
	for _, name := range names {
		if day, ok := dayOf(name); ok {
			days = append(days, day)
		}
	}
	slices.SortFunc(days, func(a, b time.Time) int { return b.Compare(a) })
	var drop []string
	taken := map[string]bool{} // weeks and months that have their copy
	for i, day := range days {
		year, number := day.ISOWeek()
		week, month := fmt.Sprint("week ", number, " of ", year), day.Format("2006-01")
		age := int(days[0].Sub(day) / (24 * time.Hour))
		keep := i < dailyCopies || age <= weeklyDays && !taken[week] || age <= monthlyDays && !taken[month]
		if !keep {
			drop = append(drop, "notebook-"+day.Format(time.DateOnly)+".db")
			continue
		}
		taken[week], taken[month] = true, true
	}
	return drop
}

// dayOf reads the day from the name of a daily copy; false where it is none.
func dayOf(name string) (time.Time, bool) {
	m := dailyName.FindStringSubmatch(name)
	if m == nil {
		return time.Time{}, false
	}
	day, err := time.Parse(time.DateOnly, m[1])
	return day, err == nil
}

// Restore puts the copy in the file from into the place of the notebook at
// path, which must not be open. The copy is looked through first, and what is
// there now is kept in the backups folder. At each moment there is either the
// old notebook at path or the whole new one.
func Restore(path, from string, at time.Time) error {
	if err := good(from); err != nil {
		return err
	}
	return replace(path, from, at)
}

// replace puts a good copy into the place of the notebook at path.
func replace(path, from string, at time.Time) error {
	if err := setAside(path, at); err != nil {
		return err
	}
	return duplicate(from, path, good)
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
