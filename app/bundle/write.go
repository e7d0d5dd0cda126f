package bundle

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"meniscus/model"
)

// Write writes a project with its photos, which open gives by their names, and
// tells the names of those that could not be read: the file is whole without
// them and says so. The photos are read twice, one at a time. The same project
// with the same photos gives the same bytes.
func Write(to io.Writer, p model.Project, open func(name string) (io.ReadCloser, error)) (missing []string, err error) {
	project, err := model.Export(p)
	if err != nil {
		return nil, err
	}
	m := Manifest{Format: format, Version: formVersion, Photos: []Part{}, Project: Part{projectName, int64(len(project)), sum(project)}}
	total := int64(len(project))
	for _, name := range p.PhotoNames() {
		data, err := readPhoto(name, open)
		if err != nil {
			m.Missing = append(m.Missing, name)
			continue
		}
		m.Photos = append(m.Photos, Part{photoFolder + name, int64(len(data)), sum(data)})
		total += int64(len(data))
	}
	if total > MostBytes-mostDirectory || len(m.Photos) > MostPhotos {
		return nil, fmt.Errorf("it has %d photos of %d MB together, and one file takes at most %d of %d MB: export it without its photos, and copy the folder “photos” beside the notebook", len(m.Photos), (total+1<<20-1)>>20, MostPhotos, MostBytes>>20)
	}
	manifest, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return nil, err
	}
	z := zip.NewWriter(to)
	if err := errors.Join(add(z, manifestName, zip.Deflate, append(manifest, '\n')), add(z, projectName, zip.Deflate, project)); err != nil {
		return nil, err
	}
	for _, part := range m.Photos {
		data, err := readPhoto(part.Name[len(photoFolder):], open)
		if err != nil {
			return nil, err
		}
		if err := add(z, part.Name, zip.Store, data); err != nil { // pictures are packed already
			return nil, err
		}
	}
	return m.Missing, z.Close()
}

// readPhoto reads a photo whole and makes sure that it is the one of that name.
func readPhoto(name string, open func(name string) (io.ReadCloser, error)) ([]byte, error) {
	if !photoName.MatchString(name) {
		return nil, fmt.Errorf("“%s” is not the name of a photo", shown(name))
	}
	f, err := open(name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, mostPhoto+1))
	if err := errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	return data, isPhoto(name, data)
}

// add writes one entry.
func add(z *zip.Writer, name string, method uint16, data []byte) error {
	w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
	if err != nil {
		return err
	}
	_, err = io.Copy(w, bytes.NewReader(data))
	return err
}

// sum is the SHA-256 of bytes, in hexadecimal.
func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}
