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

// How many daily and weekly copies KeepDaily leaves.
const (
	dailyCopies  = 7
	weeklyCopies = 4
)

// dailyName is what a daily copy is called; its day is that of UTC.
var dailyName = regexp.MustCompile(`^notebook-(\d{4}-\d{2}-\d{2})\.db$`)

// KeepDaily makes the copy of the day in the backups folder, where there is
// none yet, and then drops old daily copies but the last seven and the last of
// each of the four weeks before. It tells whether it made one. While a record
// of the notebook is damaged no old copy is dropped, and the error is Partial.
func (n *Notebook) KeepDaily(at time.Time) (bool, error) {
	dir := backupFolder(n.path)
	to := filepath.Join(dir, "notebook-"+at.UTC().Format(time.DateOnly)+".db")
	switch _, err := os.Stat(to); {
	case err == nil:
		return false, nil
	case !errors.Is(err, fs.ErrNotExist):
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
		if m := dailyName.FindStringSubmatch(name); m != nil {
			if day, err := time.Parse(time.DateOnly, m[1]); err == nil {
				days = append(days, day)
			}
		}
	}
	slices.SortFunc(days, func(a, b time.Time) int { return b.Compare(a) })
	var drop []string
	weeks := map[string]bool{}
	for i, day := range days {
		if i < dailyCopies {
			continue
		}
		year, number := day.ISOWeek()
		week := fmt.Sprint(year, "-", number)
		if weeks[week] || len(weeks) == weeklyCopies {
			drop = append(drop, "notebook-"+day.Format(time.DateOnly)+".db")
			continue
		}
		weeks[week] = true
	}
	return drop
}

// Copies lists the copies in the backups folder of the notebook at path, newest
// first by the time they were written.
func Copies(path string) ([]string, error) {
	dir := backupFolder(path)
	list, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, got(err, dir)
	}
	written := map[string]time.Time{}
	var names []string
	for _, item := range list {
		info, err := item.Info()
		if err != nil || !info.Mode().IsRegular() || filepath.Ext(item.Name()) != ".db" {
			continue
		}
		name := filepath.Join(dir, item.Name())
		names, written[name] = append(names, name), info.ModTime()
	}
	slices.SortFunc(names, func(a, b string) int { return written[b].Compare(written[a]) })
	return names, nil
}

// Restore puts the copy in the file from into the place of the notebook at
// path, which must not be open. The copy is looked through first, and what is
// there now is kept in the backups folder. At each moment there is either the
// old notebook at path or the whole new one.
func Restore(path, from string, at time.Time) error {
	if err := good(from); err != nil {
		return err
	}
	if err := setAside(path, at); err != nil {
		return err
	}
	src, err := os.Open(from)
	if err != nil {
		return got(err, from)
	}
	defer src.Close()
	fill := func(f *os.File) error {
		_, err := io.Copy(f, src)
		return err
	}
	return put(writeFile(path, fill, good), path)
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
	aside := filepath.Join(dir, "set-aside-"+at.UTC().Format("2006-01-02T150405.000Z")+".db")
	if err := os.Link(path, aside); err == nil {
		return put(syncFolder(dir), dir)
	}
	fill := func(to *os.File) error {
		_, err := io.Copy(to, f)
		return err
	}
	return put(writeFile(aside, fill, nil), aside)
}
