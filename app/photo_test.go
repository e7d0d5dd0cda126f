package app

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"meniscus/app/picture"
	"meniscus/model"
)

// pictureOf is a PNG of a size, red on its left half and blue on its right.
func pictureOf(t *testing.T, w, h int) []byte {
	t.Helper()
	p := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.NRGBA{R: 255, A: 255}
			if x >= w/2 {
				c = color.NRGBA{B: 255, A: 255}
			}
			p.SetNRGBA(x, y, c)
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, p); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// claims rewrites the size that a PNG says it has (ISO/IEC 15948, 11.2.2: the
// eight bytes behind the first chunk's name), and makes its checksum right.
func claims(data []byte, w, h uint32) []byte {
	data = bytes.Clone(data)
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// slip is a file that is read and closed once.
type slip struct {
	io.Reader
	closed int
}

func (s *slip) Close() error { s.closed++; return nil }

// addPhoto adds a picture and waits for the answer.
func (b *bench) addPhoto(data io.Reader) error {
	b.t.Helper()
	answer, told := error(nil), 0
	from := &slip{Reader: data}
	b.AddPhoto(from, "", "after the flame", func(err error) { answer, told = err, told+1 })
	b.settle()
	if told != 1 || from.closed != 1 {
		b.t.Errorf("told %d times, closed %d times", told, from.closed)
	}
	return answer
}

// picture has a kept picture decoded.
func (b *bench) picture(name string, side int) (image.Image, error) {
	b.t.Helper()
	var got image.Image
	err := errors.New("no answer")
	b.Picture(name, side, func(p image.Image, e error) { got, err = p, e })
	b.settle()
	return got, err
}

// TestPhotoIsKeptAndShown: a picture goes onto the disk, into the journal with
// its time, and comes back small in its own proportions.
func TestPhotoIsKeptAndShown(t *testing.T) {
	b := started(t)
	at := b.Now()
	if err := b.addPhoto(bytes.NewReader(pictureOf(t, 640, 320))); err != nil {
		t.Fatal(err)
	}
	journal := b.Snapshot().Project.Journal
	e := journal[len(journal)-1]
	if e.Kind != model.EntryPhoto || e.Text != "after the flame" || !e.At.Equal(at) {
		t.Fatalf("%+v", e)
	}
	small, err := b.picture(e.Photo, 100)
	if err != nil || small.Bounds().Size() != image.Pt(100, 50) {
		t.Fatalf("%v, %v", small, err)
	}
	if r, _, _, _ := small.At(10, 25).RGBA(); r != 0xffff {
		t.Error("its left is no longer red")
	}
	if _, _, blue, _ := small.At(90, 25).RGBA(); blue != 0xffff {
		t.Error("its right is no longer blue")
	}
	// Many asked for together come one after the other, all of them.
	count := 0
	for range 20 {
		b.Picture(e.Photo, 50, func(p image.Image, err error) {
			if err == nil && p.Bounds().Dx() == 50 {
				count++
			}
		})
	}
	b.settle()
	if count != 20 {
		t.Errorf("%d of 20 came", count)
	}
}

// TestPhotoRefuses: what is no picture, is too large, or says that it has more
// pixels than are ever decoded, is neither kept nor noted.
func TestPhotoRefuses(t *testing.T) {
	b := started(t)
	good := pictureOf(t, 8, 8)
	for name, c := range map[string]struct {
		data io.Reader
		says string
	}{
		"no picture":     {strings.NewReader("a data sheet, not a picture"), "JPEG"},
		"empty":          {strings.NewReader(""), "JPEG"},
		"cut short":      {bytes.NewReader(good[:20]), "cut short"},
		"broken off":     {bytes.NewReader(good[:len(good)-20]), "cut short"},
		"a PDF":          {strings.NewReader("%PDF-1.7\nnamed .jpg"), "PDF"},
		"too many dots":  {bytes.NewReader(claims(good, 100_000, 100_000)), "million"},
		"no width":       {bytes.NewReader(claims(good, 0, 8)), ""},
		"too large":      {io.MultiReader(bytes.NewReader(good), io.LimitReader(zeros{}, picture.MostBytes)), "25 MB"},
		"cannot be read": {io.MultiReader(bytes.NewReader(good), broken{}), "unplugged"},
	} {
		if err := b.addPhoto(c.data); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if n := len(b.Snapshot().Project.Journal); n != 0 {
		t.Errorf("%d entries", n)
	}
	if files, _ := filepath.Glob(filepath.Join(filepath.Dir(b.path), "photos", "*")); len(files) != 0 {
		t.Errorf("kept %v", files)
	}
	if _, err := b.picture("no-such", 100); err == nil {
		t.Error("a picture that was never kept was shown")
	}
	b.store.(interface{ Close() error }).Close()
	if err := b.addPhoto(bytes.NewReader(good)); err == nil {
		t.Error("kept in a closed notebook")
	}
}

// TestPhotoOfAnotherPiece: a picture that is read while another piece is opened
// is noted in neither.
func TestPhotoOfAnotherPiece(t *testing.T) {
	b := started(t)
	var answer error
	b.AddPhoto(&slip{Reader: bytes.NewReader(pictureOf(t, 8, 8))}, "", "", func(err error) { answer = err })
	b.project.ID = "another"
	for answer == nil {
		(<-b.posts)()
	}
	if len(b.project.Journal) != 0 || !strings.Contains(answer.Error(), "another piece") {
		t.Errorf("%v, %+v", answer, b.project.Journal)
	}
}

// zeros never ends.
type zeros struct{}

func (zeros) Read(b []byte) (int, error) { clear(b); return len(b), nil }

// broken is a file whose stick was pulled out.
type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("unplugged") }
