package storage

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
)

// part marks files that are not finished; Open sweeps them away.
const part = ".part-"

// writeFile fills a temporary file beside path by fill, forces it to the disk,
// lets accept look at it, and gives it its name. On any error there is no new
// file, and one that was at path before is as it was.
func writeFile(path string, fill func(*os.File) error, accept func(name string) error) error {
	return writeAs(filepath.Base(path), path, fill, accept)
}

// writeAs is writeFile with the base of the temporary file's name, by which
// sweep finds it.
func writeAs(base, path string, fill func(*os.File) error, accept func(name string) error) (err error) {
	dir, _ := filepath.Split(path)
	f, err := os.CreateTemp(dirOr(dir), "."+base+part+"*")
	if err != nil {
		return err
	}
	name := f.Name()
	defer func() {
		if err != nil {
			_ = f.Close()
			_ = os.Remove(name)
		}
	}()
	if err := fill(f); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if accept != nil {
		if err := accept(name); err != nil {
			return err
		}
	}
	if err := os.Rename(name, path); err != nil {
		return err
	}
	return syncFolder(dirOr(dir))
}

func dirOr(dir string) string {
	if dir == "" {
		return "."
	}
	return dir
}

// syncFolder forces the names in a folder to the disk. Windows has no such
// call and does it by itself.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

// sweep removes unfinished files that an interrupted run left in a folder.
func sweep(dir, base string) {
	left, err := filepath.Glob(filepath.Join(escapeGlob(dir), "."+escapeGlob(base)+part+"*"))
	if err != nil {
		return
	}
	for _, name := range left {
		_ = os.Remove(name)
	}
}

// escapeGlob makes a folder's name stand for itself in a glob.
func escapeGlob(name string) string {
	if runtime.GOOS == "windows" {
		return name
	}
	out := make([]byte, 0, len(name))
	for i := range len(name) {
		switch name[i] {
		case '*', '?', '[', '\\':
			out = append(out, '\\')
		}
		out = append(out, name[i])
	}
	return string(out)
}
