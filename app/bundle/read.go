package bundle

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"meniscus/app/picture"
	"meniscus/model"
)

// Bundle is a file that was read through and found good.
type Bundle struct {
	Project model.Project
	Photos  []string // names of the photos that are in the file
	Missing []string // and of those that the project speaks of, which are not

	entries map[string]*zip.File
}

// Is tells by its first bytes whether a file is a zip file.
func Is(start []byte) bool { return bytes.HasPrefix(start, []byte("PK")) }

// Read reads a file of size bytes through. What is wrong with it is said in
// words. One photo at a time is in memory.
func Read(r io.ReaderAt, size int64) (*Bundle, error) {
	entries, err := list(r, size)
	if err != nil {
		return nil, err
	}
	m, err := readManifest(entries[manifestName])
	if err != nil {
		return nil, err
	}
	data, err := content(entries[projectName], mostProject)
	switch {
	case err != nil:
		return nil, err
	case int64(len(data)) != m.Project.Bytes || sum(data) != m.Project.SHA:
		return nil, errors.New("the piece in the file is not the one that was put into it: export it again")
	}
	p, err := model.Import(data)
	if err != nil {
		return nil, err
	}
	b := &Bundle{Project: p, entries: map[string]*zip.File{}}
	wanted := p.PhotoNames()
	for _, part := range m.Photos {
		name := part.Name[len(photoFolder):]
		f := entries[part.Name]
		switch {
		case f == nil:
			return nil, fmt.Errorf("the photo “%s” that should be in the file is not: it was cut short; export it again", shown(name))
		case !slices.Contains(wanted, name):
			return nil, fmt.Errorf("the photo “%s” belongs to nothing in the piece", shown(name))
		}
		data, err := content(f, mostPhoto)
		if err == nil {
			err = isPhoto(name, data)
		}
		if err != nil {
			return nil, err
		}
		b.Photos, b.entries[name] = append(b.Photos, name), f
		delete(entries, part.Name)
	}
	delete(entries, manifestName)
	delete(entries, projectName)
	for name := range entries {
		return nil, fmt.Errorf("the photo “%s” is not in the list of what the file holds", shown(name))
	}
	for _, name := range wanted {
		if b.entries[name] == nil {
			b.Missing = append(b.Missing, name)
		}
	}
	return b, nil
}

// Photo gives a photo of the file by its name, and makes sure once more that it
// is the one of that name.
func (b *Bundle) Photo(name string) ([]byte, error) {
	f := b.entries[name]
	if f == nil {
		return nil, fmt.Errorf("the photo “%s” is not in the file", shown(name))
	}
	data, err := content(f, mostPhoto)
	if err != nil {
		return nil, err
	}
	return data, isPhoto(name, data)
}

// readManifest reads what the file says that it holds.
func readManifest(f *zip.File) (Manifest, error) {
	data, err := content(f, mostManifest)
	if err != nil {
		return Manifest{}, err
	}
	var head struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
	}
	err = json.Unmarshal(data, &head)
	switch {
	case err != nil, head.Format != format, head.Version < 1:
		return Manifest{}, errForeign
	case head.Version > formVersion:
		return Manifest{}, fmt.Errorf("the file has form %d and this program knows forms up to %d: open it with a newer program", head.Version, formVersion)
	}
	var m Manifest
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&m); err != nil {
		return Manifest{}, fmt.Errorf("the list of what the file holds cannot be read: %w", err)
	}
	if m.Project.Name != projectName {
		return Manifest{}, errForeign
	}
	seen := map[string]bool{}
	for _, part := range m.Photos {
		name := []byte(part.Name)
		if !bytes.HasPrefix(name, []byte(photoFolder)) || !photoName.Match(name[len(photoFolder):]) || seen[part.Name] {
			return Manifest{}, fmt.Errorf("the list of what the file holds names a photo “%s” that cannot be", shown(part.Name))
		}
		seen[part.Name] = true
	}
	return m, nil
}

// errForeign says that a file is none of ours.
var errForeign = errors.New("this zip file is not a piece with its photos, as the Notebook writes it")

// isPhoto makes sure that a picture is one that can be shown, and the one of
// that name.
func isPhoto(name string, data []byte) error {
	head, err := picture.Look(data)
	switch {
	case err != nil:
		return fmt.Errorf("the photo “%s”: %w", shown(name), err)
	case sum(data)+endings[head.Kind] != name:
		return fmt.Errorf("the photo “%s” is not the one that was put into the file: export it again", shown(name))
	}
	return nil
}
