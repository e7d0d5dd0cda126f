package bundle

import (
	"archive/zip"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode"
)

// list gives the entries of a file by their names, each of which is one that a
// file of ours has. Nothing is unpacked yet.
func list(r io.ReaderAt, size int64) (map[string]*zip.File, error) {
	if err := frame(r, size); err != nil {
		return nil, err
	}
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) { // names are looked at below
		return nil, errBroken
	}
	if len(z.File) > mostEntries {
		return nil, fmt.Errorf("the file has %d entries, more than a piece with %d photos", len(z.File), MostPhotos)
	}
	entries, folded := map[string]*zip.File{}, map[string]string{}
	var total uint64
	for _, f := range z.File {
		if twin, double := folded[strings.ToLower(f.Name)]; double {
			if twin == f.Name {
				return nil, fmt.Errorf("the file has “%s” twice", shown(f.Name))
			}
			return nil, fmt.Errorf("“%s” and “%s” in the file differ only by capital letters", shown(twin), shown(f.Name))
		}
		folded[strings.ToLower(f.Name)] = f.Name
		if err := plain(f); err != nil {
			return nil, err
		}
		if f.Name == photoFolder {
			continue
		}
		if total += f.UncompressedSize64; total > MostBytes {
			return nil, fmt.Errorf("the file would unpack to more than %d MB", MostBytes>>20)
		}
		entries[f.Name] = f
	}
	if entries[manifestName] == nil || entries[projectName] == nil {
		return nil, errForeign
	}
	return entries, nil
}

// errBroken says that a file is no whole zip file.
var errBroken = errors.New("the file is damaged or cut short: copy it from where it came once more")

// The end of a zip file's list of entries, as it is where no comment follows
// (APPNOTE 6.3.10, 4.3.16).
const (
	endSize  = 22
	endMagic = 0x06054b50
)

// frame looks at where the list of entries lies before anything is read from
// it: it must be all that there is before the end of the file, and short, since
// reading it takes memory for as many entries as it goes on for.
func frame(r io.ReaderAt, size int64) error {
	if size > MostBytes {
		return fmt.Errorf("the file is larger than %d MB", MostBytes>>20)
	}
	var end [endSize]byte
	if size < endSize {
		return errBroken
	}
	if _, err := r.ReadAt(end[:], size-endSize); err != nil && err != io.EOF {
		return fmt.Errorf("the file cannot be read: %w", err)
	}
	le := binary.LittleEndian
	count, long, at := le.Uint16(end[10:]), int64(le.Uint32(end[12:])), int64(le.Uint32(end[16:]))
	switch {
	case le.Uint32(end[:]) != endMagic || le.Uint16(end[20:]) != 0:
		return errBroken
	case le.Uint16(end[4:]) != 0 || le.Uint16(end[6:]) != 0 || le.Uint16(end[8:]) != count:
		return errors.New("the file is one part of several")
	case int(count) > mostEntries || long > mostDirectory:
		return fmt.Errorf("the file has more entries than a piece with %d photos", MostPhotos)
	case at+long != size-endSize:
		return errBroken
	}
	return nil
}

// plain tells what is wrong with an entry; nil for a file that one of ours has.
func plain(f *zip.File) error {
	name := f.Name
	switch {
	case strings.HasPrefix(name, "/"), strings.Contains(name, `\`), len(name) > 1 && name[1] == ':', unclean(name):
		return fmt.Errorf("“%s” in the file would lie outside of its folder", shown(name))
	case f.Flags&1 != 0:
		return errors.New("the file is locked with a password: export it without one")
	case special(f):
		return fmt.Errorf("“%s” in the file is a link, or no plain file", shown(name))
	case name == photoFolder && f.UncompressedSize64 == 0:
		return nil // some programs list folders too
	case name != manifestName && name != projectName && !(strings.HasPrefix(name, photoFolder) && photoName.MatchString(name[len(photoFolder):])):
		return fmt.Errorf("“%s” does not belong into a piece with its photos", shown(name))
	case f.Method != zip.Store && f.Method != zip.Deflate:
		return fmt.Errorf("“%s” in the file is packed in a way that is not read", shown(name))
	case f.UncompressedSize64 > uint64(limitOf(name)):
		return fmt.Errorf("“%s” in the file would have %d MB, more than %d", shown(name), f.UncompressedSize64>>20, limitOf(name)>>20)
	case f.UncompressedSize64 > ratioFrom && f.UncompressedSize64 > mostRatio*f.CompressedSize64:
		return fmt.Errorf("“%s” in the file would unpack to more than %d times what it takes up", shown(name), mostRatio)
	}
	return nil
}

// unclean tells whether a name leads to somewhere else than it says.
func unclean(name string) bool {
	return path.Clean("/"+name) != "/"+strings.TrimSuffix(name, "/")
}

// The kind of file in the upper half of an entry's external attributes where a
// Unix system wrote it (the st_mode of POSIX.1, sys/stat.h).
const (
	kindMask   = 0o170000
	kindPlain  = 0o100000
	kindFolder = 0o040000
)

// special tells whether an entry is a link, a device, a pipe, or a folder other
// than that of the photos, whoever it says wrote it.
func special(f *zip.File) bool {
	kind := f.ExternalAttrs >> 16 & kindMask
	folder := strings.HasSuffix(f.Name, "/")
	return kind != 0 && kind != kindPlain && !(kind == kindFolder && folder) || folder && f.Name != photoFolder || f.Mode().IsDir() != folder
}

// limitOf is how many bytes an entry may have.
func limitOf(name string) int64 {
	switch name {
	case manifestName:
		return mostManifest
	case projectName:
		return mostProject
	}
	return mostPhoto
}

// content unpacks an entry, no more than most bytes of it, whatever it says.
func content(f *zip.File, most int64) ([]byte, error) {
	from, err := f.Open()
	if err != nil {
		return nil, errBroken
	}
	defer from.Close()
	data, err := io.ReadAll(io.LimitReader(from, most+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("“%s” in the file is damaged: copy the file from where it came once more", shown(f.Name))
	case int64(len(data)) > most:
		return nil, fmt.Errorf("“%s” in the file has more than %d MB", shown(f.Name), most>>20)
	}
	return data, nil
}

// shown makes a name that somebody else chose fit to be shown.
func shown(name string) string {
	name = strings.Map(func(r rune) rune {
		if r == unicode.ReplacementChar || !unicode.IsPrint(r) {
			return '·'
		}
		return r
	}, name)
	if runes := []rune(name); len(runes) > mostNameInWords {
		return string(runes[:mostNameInWords-1]) + "…"
	}
	return name
}
