package storage

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"hash"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
)

// photoBase names unfinished photos.
const photoBase = "photo"

// photoName is what the name of a kept photo looks like.
var photoName = regexp.MustCompile(`^[0-9a-f]{64}\.(jpg|png|gif|webp|heic)$`)

// photoFolder is the name of the folder of photos.
const photoFolder = "photos"

// photos is the folder of photos beside the notebook.
func (n *Notebook) photos() string { return filepath.Join(filepath.Dir(n.path), photoFolder) }

// PutPhoto keeps a picture of at most limit bytes beside the notebook and
// returns its name, which is made of what is in it: the same picture is kept
// once. It looks at the first bytes only to tell a JPEG, PNG, GIF, WebP or HEIC
// file from anything else, which is ErrInvalid.
func (n *Notebook) PutPhoto(r io.Reader, limit int64) (string, error) {
	n.mu.RLock()
	closed, readOnly := n.db == nil, n.readOnly
	n.mu.RUnlock()
	switch {
	case closed:
		return "", n.closed()
	case readOnly:
		return "", n.sealed()
	}
	dir := n.photos()
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", put(err, dir)
	}
	f, err := os.CreateTemp(dir, "."+photoBase+part+"*")
	if err != nil {
		return "", put(err, dir)
	}
	temp := f.Name()
	defer os.Remove(temp)
	defer f.Close()
	name, err := fillPhoto(f, r, limit)
	if err != nil {
		return "", put(err, dir)
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return "", put(err, dir)
	}
	if err := os.Rename(temp, filepath.Join(dir, name)); err != nil {
		return "", put(err, dir)
	}
	return name, put(syncFolder(dir), dir)
}

// fillPhoto copies a picture and returns the name that its bytes give it.
func fillPhoto(w io.Writer, r io.Reader, limit int64) (string, error) {
	sum, start := sha256.New(), make([]byte, 12)
	n, err := io.ReadFull(r, start)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return "", got(err, "the photo")
	}
	ending := pictureEnding(start[:n])
	if ending == "" {
		return "", trouble(ErrInvalid, nil, "Choose a JPEG, PNG, GIF, WebP or HEIC picture.", "This file is no picture that can be kept.")
	}
	body := &readError{r: io.MultiReader(bytes.NewReader(start[:n]), r)}
	size, err := io.Copy(io.MultiWriter(w, sum), io.LimitReader(body, limit+1))
	switch {
	case body.err != nil:
		return "", got(body.err, "the photo")
	case err != nil:
		return "", err
	case size > limit:
		return "", trouble(ErrTooLarge, nil, "Make it smaller and add it again.",
			"The photo is larger than %d MB.", (limit+1<<20-1)>>20)
	}
	return hex.EncodeToString(sum.Sum(nil)) + ending, nil
}

// readError remembers an error of the source, to tell it from one of the disk.
type readError struct {
	r   io.Reader
	err error
}

func (e *readError) Read(b []byte) (int, error) {
	n, err := e.r.Read(b)
	if err != nil && err != io.EOF {
		e.err = err
	}
	return n, err
}

// pictureEnding tells the kind of a picture from its first bytes; empty when
// it is none. Signatures: ISO/IEC 10918-1 (JPEG), ISO/IEC 15948 (PNG), the
// GIF87a and GIF89a specifications, RFC 9649 (WebP), ISO/IEC 14496-12 with the
// brands of ISO/IEC 23008-12 (HEIC).
func pictureEnding(start []byte) string {
	switch {
	case bytes.HasPrefix(start, []byte("\xFF\xD8\xFF")):
		return ".jpg"
	case bytes.HasPrefix(start, []byte("\x89PNG\r\n\x1A\n")):
		return ".png"
	case bytes.HasPrefix(start, []byte("GIF87a")), bytes.HasPrefix(start, []byte("GIF89a")):
		return ".gif"
	case len(start) >= 12 && string(start[:4]) == "RIFF" && string(start[8:12]) == "WEBP":
		return ".webp"
	case len(start) >= 12 && string(start[4:8]) == "ftyp" && slices.Contains([]string{"heic", "heix", "heim", "heis"}, string(start[8:12])):
		return ".heic"
	}
	return ""
}

// Photo opens a kept photo by its name. Reading it to the end gives ErrDamaged
// instead of io.EOF when its bytes are not those that were kept.
func (n *Notebook) Photo(name string) (io.ReadCloser, error) {
	if !photoName.MatchString(name) {
		return nil, trouble(ErrInvalid, nil, "Add the photo again.", "“%.80s” is not the name of a kept photo.", name)
	}
	return openPhoto(n.photos(), name)
}

// openPhoto opens a photo in a folder.
func openPhoto(dir, name string) (io.ReadCloser, error) {
	f, err := os.OpenInRoot(dir, name)
	if err != nil {
		return nil, got(err, "The photo "+filepath.Join(dir, name))
	}
	return &photo{file: f, sum: sha256.New(), name: name}, nil
}

// photo checks a kept photo while it is read.
type photo struct {
	file *os.File
	sum  hash.Hash
	name string
}

func (p *photo) Read(b []byte) (int, error) {
	n, err := p.file.Read(b)
	p.sum.Write(b[:n])
	if err == io.EOF && hex.EncodeToString(p.sum.Sum(nil)) != p.name[:sha256.Size*2] {
		return n, trouble(ErrDamaged, nil, "Add the photo again.", "The photo %s is damaged.", p.file.Name())
	}
	return n, err
}

func (p *photo) Close() error { return p.file.Close() }
