package bundle

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model"
)

// photo makes a picture that differs by its seed, and its name.
func photo(t testing.TB, seed int) (name string, data []byte) {
	t.Helper()
	p := image.NewGray(image.Rect(0, 0, 40, 30))
	r := rand.New(rand.NewPCG(uint64(seed), 1))
	for i := range p.Pix {
		p.Pix[i] = byte(r.Uint32())
	}
	var b bytes.Buffer
	if err := png.Encode(&b, p); err != nil {
		t.Fatal(err)
	}
	return sum(b.Bytes()) + ".png", b.Bytes()
}

// shelf is a demo job with two photos, one in its journal and one of a slab.
func shelf(t testing.TB) (model.Project, map[string][]byte) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/demo-hall-shelf.json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := model.Import(data)
	if err != nil {
		t.Fatal(err)
	}
	album := map[string][]byte{}
	a, data := photo(t, 1)
	album[a] = data
	b, data := photo(t, 2)
	album[b] = data
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	p.Journal = append(p.Journal, model.Entry{ID: "e-photo", Kind: model.EntryPhoto, At: at, Photo: a})
	p.Slabs = append(p.Slabs, model.Slab{ID: "s-photo", Name: "Slab", Upper: model.Tracing{Photo: b, Wide: 40, High: 30}})
	if problems := p.Validate(); len(problems) > 0 {
		t.Fatal(problems)
	}
	return p, album
}

// opener opens the photos of an album.
func opener(album map[string][]byte) func(string) (io.ReadCloser, error) {
	return func(name string) (io.ReadCloser, error) {
		data, ok := album[name]
		if !ok {
			return nil, fs.ErrNotExist
		}
		return io.NopCloser(bytes.NewReader(data)), nil
	}
}

// written writes the shelf.
func written(t testing.TB) []byte {
	t.Helper()
	p, album := shelf(t)
	var b bytes.Buffer
	if missing, err := Write(&b, p, opener(album)); err != nil || len(missing) > 0 {
		t.Fatal(missing, err)
	}
	return b.Bytes()
}

func read(data []byte) (*Bundle, error) { return Read(bytes.NewReader(data), int64(len(data))) }

// TestThereAndBack: what is written is read again, bit for bit, and twice the
// same gives the same bytes.
func TestThereAndBack(t *testing.T) {
	p, album := shelf(t)
	data := written(t)
	if !bytes.Equal(data, written(t)) {
		t.Error("written twice it is not the same")
	}
	b, err := read(data)
	if err != nil {
		t.Fatal(err)
	}
	before, _ := model.Export(p)
	after, err := model.Export(b.Project)
	if err != nil || !bytes.Equal(before, after) {
		t.Errorf("the project is another, %v", err)
	}
	if len(b.Photos) != 2 || len(b.Missing) != 0 {
		t.Errorf("photos %q, missing %q", b.Photos, b.Missing)
	}
	for name, want := range album {
		if got, err := b.Photo(name); err != nil || !bytes.Equal(got, want) {
			t.Errorf("photo %s: %v", name, err)
		}
	}
	if _, err := b.Photo("other"); err == nil {
		t.Error("a photo that is not in it")
	}
}

// TestWithoutAPhoto: a photo that cannot be read, or is damaged, keeps nothing
// back; the file says that it is missing, and so does who reads it.
func TestWithoutAPhoto(t *testing.T) {
	p, album := shelf(t)
	names := p.PhotoNames()
	delete(album, names[0])
	album[names[1]] = album[names[1]][:100]
	var out bytes.Buffer
	missing, err := Write(&out, p, opener(album))
	if err != nil || !slices.Equal(missing, names) {
		t.Fatalf("%q, %v", missing, err)
	}
	b, err := read(out.Bytes())
	if err != nil || len(b.Photos) != 0 || !slices.Equal(b.Missing, names) {
		t.Errorf("%+v, %v", b, err)
	}
}

// TestAsAnotherProgramPacks: what is unpacked and packed again by another
// program, with a line for the folder and everything deflated, is taken.
func TestAsAnotherProgramPacks(t *testing.T) {
	data := repacked(t, written(t), func(z *zip.Writer, entries []entry) {
		_, err := z.CreateHeader(&zip.FileHeader{Name: "photos/", ExternalAttrs: 0o40755<<16 | 0x10, CreatorVersion: 3 << 8})
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			put(t, z, &zip.FileHeader{Name: e.name, Method: zip.Deflate, ExternalAttrs: 0o100644 << 16, CreatorVersion: 3 << 8, Modified: time.Now()}, e.data)
		}
	})
	if b, err := read(data); err != nil || len(b.Photos) != 2 {
		t.Error(err)
	}
}

// entry is one entry of a zip file, unpacked.
type entry struct {
	name string
	data []byte
}

// repacked unpacks a file and has it packed again.
func repacked(t testing.TB, data []byte, pack func(*zip.Writer, []entry)) []byte {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var entries []entry
	for _, f := range r.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		entries = append(entries, entry{f.Name, body})
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	pack(z, entries)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// put adds an entry as it is told.
func put(t testing.TB, z *zip.Writer, h *zip.FileHeader, data []byte) {
	t.Helper()
	w, err := z.CreateHeader(h)
	if err == nil {
		_, err = w.Write(data)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// changed is the shelf's file with its entries changed.
func changed(t testing.TB, change func([]entry) []entry) []byte {
	t.Helper()
	return repacked(t, written(t), func(z *zip.Writer, entries []entry) {
		for _, e := range change(entries) {
			put(t, z, &zip.FileHeader{Name: e.name, Method: zip.Deflate}, e.data)
		}
	})
}

// with is the shelf's file with one entry more.
func with(t testing.TB, h zip.FileHeader, data []byte) []byte {
	t.Helper()
	return repacked(t, written(t), func(z *zip.Writer, entries []entry) {
		for _, e := range entries {
			put(t, z, &zip.FileHeader{Name: e.name, Method: zip.Deflate}, e.data)
		}
		put(t, z, &h, data)
	})
}

// withManifest is the shelf's file with another manifest.
func withManifest(t testing.TB, change func(*Manifest)) []byte {
	return changed(t, func(list []entry) []entry {
		var m Manifest
		if err := json.Unmarshal(list[0].data, &m); err != nil {
			t.Fatal(err)
		}
		change(&m)
		list[0].data, _ = json.Marshal(m)
		return list
	})
}

// with a project.json of other bytes, of which the manifest knows.
func withProject(t testing.TB, data []byte) []byte {
	return changed(t, func(list []entry) []entry {
		var m Manifest
		if err := json.Unmarshal(list[0].data, &m); err != nil {
			t.Fatal(err)
		}
		m.Project.Bytes, m.Project.SHA = int64(len(data)), sum(data)
		list[0].data, _ = json.Marshal(m)
		list[1].data = data
		return list
	})
}

// patched changes the bytes at every place where a mark is, by its offset.
func patched(data []byte, mark string, change func([]byte)) []byte {
	data = bytes.Clone(data)
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte(mark))
		if i < 0 {
			return data
		}
		change(data[at+i:])
		at += i + len(mark)
	}
}

// The marks of a zip file's local headers and of its list of entries (APPNOTE
// 6.3.10, 4.3.7 and 4.3.12).
const (
	localMark = "PK\x03\x04"
	listMark  = "PK\x01\x02"
)

// bomb is a project.json of zeros that claims to be small: what is packed is
// large, what the headers say is not.
func bomb(t testing.TB, says uint64) []byte {
	var packed bytes.Buffer
	w, _ := flate.NewWriter(&packed, flate.BestCompression)
	zeros, check := make([]byte, 1<<20), crc32.NewIEEE()
	for range 64 {
		if _, err := w.Write(zeros); err != nil {
			t.Fatal(err)
		}
		check.Write(zeros)
	}
	w.Close()
	return repacked(t, written(t), func(z *zip.Writer, entries []entry) {
		for _, e := range entries {
			if e.name != projectName {
				put(t, z, &zip.FileHeader{Name: e.name, Method: zip.Deflate}, e.data)
				continue
			}
			raw, err := z.CreateRaw(&zip.FileHeader{Name: e.name, Method: zip.Deflate, CRC32: check.Sum32(), CompressedSize64: uint64(packed.Len()), UncompressedSize64: says})
			if err == nil {
				_, err = raw.Write(packed.Bytes())
			}
			if err != nil {
				t.Fatal(err)
			}
		}
	})
}

// hostile are files that must not be taken, each with what is said of it.
func hostile(t testing.TB) map[string]struct {
	data []byte
	says string
} {
	good := written(t)
	list := map[string]struct {
		data []byte
		says string
	}{}
	add := func(name, says string, data []byte) {
		list[name] = struct {
			data []byte
			says string
		}{data, says}
	}
	for name, path := range map[string]string{
		"up": "../x.json", "up within": "photos/../../x", "absolute": "/etc/passwd", "drive": `C:\x.json`, "drive with slashes": "C:/x.json",
		"backslash": `photos\x.png`, "a dot": "./project.json", "two slashes": "photos//x.png",
	} {
		add("path: "+name, "outside of its folder", with(t, zip.FileHeader{Name: path}, []byte("x")))
	}
	for name, mode := range map[string]fs.FileMode{"link": fs.ModeSymlink, "pipe": fs.ModeNamedPipe, "device": fs.ModeDevice, "socket": fs.ModeSocket} {
		h := zip.FileHeader{Name: "photos/" + strings.Repeat("a", 64) + ".png"}
		h.SetMode(mode | 0o777)
		add(name, "no plain file", with(t, h, []byte("/etc/passwd")))
	}
	liar := zip.FileHeader{Name: "photos/" + strings.Repeat("a", 64) + ".png", ExternalAttrs: 0o120777 << 16, CreatorVersion: 0}
	add("link that says another system wrote it", "no plain file", with(t, liar, []byte("/etc/passwd")))
	add("folder", "no plain file", with(t, zip.FileHeader{Name: "other/"}, nil))
	name, data := photo(t, 1)
	add("same name twice", "twice", with(t, zip.FileHeader{Name: "photos/" + name}, data))
	add("project twice", "twice", with(t, zip.FileHeader{Name: projectName}, []byte("{}")))
	add("names that differ by case", "capital letters", with(t, zip.FileHeader{Name: "Project.JSON"}, []byte("{}")))
	add("a strange entry", "does not belong", with(t, zip.FileHeader{Name: "run.sh"}, []byte("x")))
	add("a zip file within", "does not belong", with(t, zip.FileHeader{Name: "more.zip"}, good))
	add("a NUL in a name", "does not belong", with(t, zip.FileHeader{Name: "project.json\x00.png"}, []byte("x")))
	add("a name that is not UTF-8", "does not belong", with(t, zip.FileHeader{Name: "photos/\xff\xfe.png", NonUTF8: true}, []byte("x")))
	other, more := photo(t, 3)
	add("photo in no list", "not in the list", with(t, zip.FileHeader{Name: "photos/" + other}, more))
	add("photo of nothing in the project", "belongs to nothing", changed(t, func(l []entry) []entry {
		var m Manifest
		_ = json.Unmarshal(l[0].data, &m)
		m.Photos = append(m.Photos, Part{"photos/" + other, int64(len(more)), sum(more)})
		l[0].data, _ = json.Marshal(m)
		return append(l, entry{"photos/" + other, more})
	}))
	add("photo cut off the end", "cut short", changed(t, func(l []entry) []entry { return l[:len(l)-1] }))
	add("photo that is another one", "not the one", changed(t, func(l []entry) []entry { l[2].data = more; return l }))
	add("photo that is no picture", "is no picture", withFalsePhoto(t, []byte("no picture at all, only words")))
	add("photo with the ending of another kind", "not the one", withFalsePhotoNamed(t, more, ".jpg"))
	add("photo that claims to be huge", "million", withFalsePhotoNamed(t, claims(more, 60_000, 60_000), ".png"))
	add("locked", "password", patched(patched(good, localMark, func(b []byte) { b[6] |= 1 }), listMark, func(b []byte) { b[8] |= 1 }))
	add("packed in another way", "packed in a way", patched(good, listMark, func(b []byte) { binary.LittleEndian.PutUint16(b[10:], 12) }))
	add("bomb that says so", "times what it takes up", bomb(t, 30<<20))
	add("bomb that says that it is larger", "more than 32", bomb(t, 64<<20))
	add("bomb that says that it is small", "damaged", bomb(t, 1000))
	add("says that it has gigabytes", "would have", patched(good, listMark, func(b []byte) { binary.LittleEndian.PutUint32(b[24:], 0xFFFFFFF0) }))
	add("many entries", "more entries", repacked(t, good, func(z *zip.Writer, l []entry) {
		for i := range 70_000 { // 16 bits count to 65,536
			put(t, z, &zip.FileHeader{Name: fmt.Sprint("photos/", i), Method: zip.Store}, nil)
		}
	}))
	add("some entries too many", "entries", repacked(t, good, func(z *zip.Writer, l []entry) {
		for i := range mostEntries + 1 {
			put(t, z, &zip.FileHeader{Name: fmt.Sprintf("photos/%064x.png", i), Method: zip.Store}, nil)
		}
	}))
	add("empty zip", "not a piece with its photos", repacked(t, good, func(*zip.Writer, []entry) {}))
	add("no manifest", "not a piece with its photos", changed(t, func(l []entry) []entry { return l[1:] }))
	add("no project", "not a piece with its photos", changed(t, func(l []entry) []entry { return slices.Delete(l, 1, 2) }))
	add("another format", "not a piece with its photos", withManifest(t, func(m *Manifest) { m.Format = "other" }))
	add("newer form", "newer program", withManifest(t, func(m *Manifest) { m.Version = formVersion + 1 }))
	add("manifest with a path", "cannot be", withManifest(t, func(m *Manifest) { m.Photos[0].Name = "../../x.png" }))
	add("manifest that names a photo twice", "cannot be", withManifest(t, func(m *Manifest) { m.Photos = append(m.Photos, m.Photos[0]) }))
	add("manifest with another sum", "not the one", withManifest(t, func(m *Manifest) { m.Project.SHA = sum(nil) }))
	add("manifest with a strange field", "cannot be read", changed(t, func(l []entry) []entry {
		l[0].data = bytes.Replace(l[0].data, []byte("{"), []byte(`{"also": 1,`), 1)
		return l
	}))
	add("manifest that is nested", "not a piece with its photos", changed(t, func(l []entry) []entry {
		l[0].data = bytes.Repeat([]byte("["), 900_000)
		return l
	}))
	add("manifest too large", "more than 1", changed(t, func(l []entry) []entry {
		l[0].data = append(l[0].data, incompressible(2<<20)...)
		return l
	}))
	add("project that is none", "another kind of file", withProject(t, []byte(`{"format": "else"}`)))
	add("project that is a zip file", "", withProject(t, good))
	add("project too large", "more than 32", withProject(t, incompressible(33<<20)))
	add("project with a bad figure", "", withProject(t, []byte(`{"format":"meniscus-project","version":1,"project":{"id":"x","name":"x","mold":{"depth":{"value":-1}}}}`)))
	add("cut short", "", good[:len(good)/2])
	add("cut by a byte", "", good[:len(good)-1])
	add("something behind its end", "damaged or cut", append(bytes.Clone(good), "more"...))
	add("something before its start", "damaged or cut", append([]byte("#!/bin/sh\n"), good...))
	add("one part of several", "one part", patched(good, "PK\x05\x06", func(b []byte) { b[4] = 1 }))
	add("empty", "", nil)
	add("no zip file", "", []byte("PK is all that it begins with, and then come words"))
	return list
}

// withFalsePhoto has a picture by its right sum that is none.
func withFalsePhoto(t testing.TB, data []byte) []byte { return withFalsePhotoNamed(t, data, ".png") }

func withFalsePhotoNamed(t testing.TB, data []byte, ending string) []byte {
	t.Helper()
	p, album := shelf(t)
	name := sum(data) + ending
	p.Journal = append(p.Journal, model.Entry{ID: "e-false", Kind: model.EntryPhoto, At: p.Created, Photo: name})
	project, err := model.Export(p)
	if err != nil {
		t.Fatal(err)
	}
	m := Manifest{Format: format, Version: formVersion, Project: Part{projectName, int64(len(project)), sum(project)}}
	album[name] = data
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, n := range p.PhotoNames() {
		if album[n] != nil {
			m.Photos = append(m.Photos, Part{photoFolder + n, int64(len(album[n])), sum(album[n])})
		}
	}
	manifest, _ := json.Marshal(m)
	put(t, z, &zip.FileHeader{Name: manifestName}, manifest)
	put(t, z, &zip.FileHeader{Name: projectName, Method: zip.Deflate}, project)
	for _, part := range m.Photos {
		put(t, z, &zip.FileHeader{Name: part.Name}, album[part.Name[len(photoFolder):]])
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// claims rewrites the size that a PNG says it has (ISO/IEC 15948, 11.2.2), and
// makes its checksum right.
func claims(data []byte, w, h uint32) []byte {
	data = bytes.Clone(data)
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// incompressible gives bytes that no packing makes smaller.
func incompressible(n int) []byte {
	data := make([]byte, n)
	r := rand.NewChaCha8([32]byte{1})
	_, _ = r.Read(data)
	return data
}

// TestHostileFilesAreRefused: in words that say what is wrong.
func TestHostileFilesAreRefused(t *testing.T) {
	for name, h := range hostile(t) {
		t.Run(name, func(t *testing.T) {
			_, err := read(h.data)
			if err == nil {
				t.Fatal("it was taken")
			}
			if !strings.Contains(err.Error(), h.says) {
				t.Errorf("%q should say %q", err, h.says)
			}
			if len(err.Error()) > 3000 || strings.ContainsFunc(err.Error(), func(r rune) bool { return r < ' ' && r != '\n' }) {
				t.Errorf("the words cannot be shown: %q", err)
			}
		})
	}
}

// TestTooMuchIsNotWritten: more photos than one file takes are refused before
// anything is written.
func TestTooMuchIsNotWritten(t *testing.T) {
	p, album := shelf(t)
	for i := range MostPhotos {
		name, data := photo(t, 10+i)
		album[name] = data
		p.Journal = append(p.Journal, model.Entry{ID: fmt.Sprint("more", i), Kind: model.EntryPhoto, At: p.Created, Photo: name})
	}
	var b bytes.Buffer
	if _, err := Write(&b, p, opener(album)); err == nil || b.Len() > 0 {
		t.Errorf("%v, %d bytes written", err, b.Len())
	}
}

// full is a disk that is full after so many bytes.
type full struct{ left int }

func (f *full) Write(b []byte) (int, error) {
	if f.left -= len(b); f.left < 0 {
		return 0, errors.New("no room left on the disk")
	}
	return len(b), nil
}

func TestFullDiskIsSaid(t *testing.T) {
	p, album := shelf(t)
	whole := len(written(t))
	for left := 0; left < whole; left += whole / 7 {
		if _, err := Write(&full{left}, p, opener(album)); err == nil {
			t.Errorf("with %d bytes of room it went well", left)
		}
	}
}

// FuzzRead: nothing makes Read panic or take more than it may, and what it
// takes can be written and read again.
func FuzzRead(f *testing.F) {
	f.Add(written(f))
	for _, h := range hostile(f) {
		if len(h.data) < 1<<18 { // larger ones slow the hunt
			f.Add(h.data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := read(data)
		if err != nil {
			if err.Error() == "" {
				t.Error("refused without a word")
			}
			return
		}
		var out bytes.Buffer
		missing, err := Write(&out, b.Project, func(name string) (io.ReadCloser, error) {
			data, err := b.Photo(name)
			return io.NopCloser(bytes.NewReader(data)), err
		})
		if err != nil || !slices.Equal(missing, b.Missing) && len(missing)+len(b.Missing) > 0 {
			t.Fatalf("written again: %q for %q, %v", missing, b.Missing, err)
		}
		if again, err := read(out.Bytes()); err != nil || len(again.Photos) != len(b.Photos) {
			t.Errorf("read again: %v", err)
		}
	})
}
