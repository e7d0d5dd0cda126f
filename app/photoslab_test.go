package app

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"meniscus/app/picture"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/sight"
)

// addSlabPhoto adds a picture to a face of a slab and waits for the answer.
func (b *bench) addSlabPhoto(data []byte, slab string, face model.Face) (string, error) {
	b.t.Helper()
	var err error
	told := 0
	from := &slip{Reader: bytes.NewReader(data)}
	b.AddSlabPhoto(from, slab, face, func(s string, e error) { slab, err, told = s, e, told+1 })
	b.settle()
	if told != 1 || from.closed != 1 {
		b.t.Errorf("told %d times, closed %d times", told, from.closed)
	}
	return slab, err
}

// raster has a kept picture decoded for tracing.
func (b *bench) raster(name string) *Raster {
	b.t.Helper()
	var got *Raster
	b.Raster(name, func(r *Raster, err error) {
		if err != nil {
			b.t.Error(err)
		}
		got = r
	})
	b.settle()
	return got
}

// kept lists the pictures beside the notebook.
func (b *bench) kept() []string {
	files, _ := filepath.Glob(filepath.Join(filepath.Dir(b.path), "photos", "*"))
	return files
}

// TestSlabPhotoIsOneStep: the photo comes with its size upright, one undo takes
// it back, and a photo of another size takes the marks of the one before with it
// until undo brings them back.
func TestSlabPhotoIsOneStep(t *testing.T) {
	b := started(t)
	slab, err := b.addSlabPhoto(pictureOf(t, 64, 32), "", model.FaceUpper)
	if err != nil || slab == "" {
		t.Fatalf("%q, %v", slab, err)
	}
	face := func() model.Tracing {
		p := b.Snapshot().Project
		return *p.Slab(slab).Face(model.FaceUpper)
	}
	if f := face(); f.Photo == "" || f.Wide != 64 || f.High != 32 {
		t.Fatalf("%+v", f)
	}
	b.Edit("mark", "", func(p *model.Project) error {
		if _, err := p.AddMark(slab, model.FaceUpper, 10, 10); err != nil {
			return err
		}
		_, err := p.AddRing(slab, model.FaceUpper, model.RingWood, shape.Ring{{X: 1, Y: 1}, {X: 9, Y: 1}, {X: 9, Y: 9}})
		return err
	})
	b.settle()
	same := pictureOf(t, 64, 32)
	same = append(same, 0) // another file of the same size
	if _, err := b.addSlabPhoto(same, slab, model.FaceUpper); err != nil {
		t.Fatal(err)
	}
	if f := face(); len(f.Marks) != 1 || len(f.Rings) != 1 {
		t.Errorf("a photo of the same size lost %+v", f)
	}
	if _, err := b.addSlabPhoto(pictureOf(t, 32, 64), slab, model.FaceUpper); err != nil {
		t.Fatal(err)
	}
	if f := face(); len(f.Marks)+len(f.Rings) != 0 || f.Wide != 32 || f.High != 64 {
		t.Errorf("%+v", f)
	}
	if u := b.Snapshot().Undo; !strings.Contains(u, "dropped") {
		t.Errorf("undo says %q", u)
	}
	b.Undo()
	b.settle()
	if f := face(); len(f.Marks) != 1 || len(f.Rings) != 1 || f.Wide != 64 {
		t.Errorf("undo brought back %+v", f)
	}
	for range 3 {
		b.Undo()
		b.settle()
	}
	if n := len(b.Snapshot().Project.Slabs); n != 0 {
		t.Errorf("%d slabs after undoing all", n)
	}
}

// TestSlabPhotoRefuses: what cannot be read, and a slab that is not there,
// changes nothing.
func TestSlabPhotoRefuses(t *testing.T) {
	b := started(t)
	good := pictureOf(t, 8, 8)
	for _, data := range [][]byte{nil, []byte("%PDF-1.4"), good[:len(good)-10], claims(good, 30_000, 30_000)} {
		if _, err := b.addSlabPhoto(data, "", model.FaceUpper); err == nil {
			t.Errorf("%.10q was taken", data)
		}
	}
	if len(b.kept()) != 0 || len(b.Snapshot().Project.Slabs) != 0 || b.Snapshot().Undo != "" {
		t.Errorf("kept %v, undo %q", b.kept(), b.Snapshot().Undo)
	}
	if _, err := b.addSlabPhoto(good, "gone", model.FaceUpper); err == nil || b.Snapshot().Undo != "" {
		t.Errorf("%v", err)
	}
	if _, err := b.addSlabPhoto(good, "", model.Face("edge")); err == nil || b.Snapshot().Undo != "" {
		t.Errorf("%v", err)
	}
}

// TestRastersAreKept: the two that were used last come at once, a third makes
// room for itself, and many who ask together are all answered.
func TestRastersAreKept(t *testing.T) {
	b := started(t)
	var names []string
	for i := range 3 {
		slab, err := b.addSlabPhoto(pictureOf(t, 100+i, 50), "", model.FaceUpper)
		if err != nil {
			t.Fatal(err)
		}
		p := b.Snapshot().Project
		names = append(names, p.Slab(slab).Upper.Photo)
	}
	if b.rasters.get(names[0]) != nil || b.rasters.get(names[1]) == nil || b.rasters.get(names[2]) == nil {
		t.Errorf("%d are kept", len(b.rasters.list))
	}
	answers := 0
	for range 5 {
		b.Raster(names[0], func(r *Raster, err error) {
			if err != nil || r.Wide != 100 || r.High != 50 || r.Scale != 1 {
				t.Errorf("%+v, %v", r, err)
			}
			answers++
		})
	}
	b.settle()
	if answers != 5 || len(b.rasters.list) != mostRasters {
		t.Errorf("%d answers, %d kept", answers, len(b.rasters.list))
	}
	b.Raster("none", func(r *Raster, err error) {
		if err == nil {
			t.Error("there is no such picture")
		}
	})
	b.settle()
}

// tracedFile is a picture of testdata/photos.
func tracedFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "photos", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestPhotosOfPhonesAreTaken: HEIC too, upright as its own marks of turning say
// and not turned once more by the tag beside them.
func TestPhotosOfPhonesAreTaken(t *testing.T) {
	b := started(t)
	for _, name := range []string{"turned.heic", "mirrored.heic", "progressive.jpg", "deep-interlaced.png", "lossy.webp"} {
		slab, err := b.addSlabPhoto(tracedFile(t, name), "", model.FaceUnder)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		p := b.Snapshot().Project
		f := p.Slab(slab).Under
		r := b.raster(f.Photo)
		if f.Wide*2 != f.High*3 || r.Wide != f.Wide || r.High != f.High {
			t.Errorf("%s: %d by %d, %+v", name, f.Wide, f.High, r)
		}
	}
}

// plate is a picture of a bright plate with a hole and an island in it on a dark
// ground, each a little uneven: 800 by 600, the plate from 160 to 640 and 120 to
// 480, the hole from 320 to 480 and 200 to 360, the island in it from 370 to 430
// and 250 to 310.
func plate(t *testing.T) []byte {
	t.Helper()
	within := func(x, y, left, right, top, bottom int) bool {
		return x >= left && x < right && y >= top && y < bottom
	}
	p := image.NewRGBA(image.Rect(0, 0, 800, 600))
	for y := range 600 {
		for x := range 800 {
			on := within(x, y, 160, 640, 120, 480) && !within(x, y, 320, 480, 200, 360) || within(x, y, 370, 430, 250, 310)
			uneven := uint8((x*7919 + y*104_729 + x*y*31) % 13)
			c := color.RGBA{30 + uneven, 35 + uneven, 40 + uneven, 255}
			if on {
				c = color.RGBA{190 + uneven, 150 + uneven, 100 + uneven, 255}
			}
			p.SetRGBA(x, y, c)
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestFoundOutlineIsOneStep: the outline with its holes is one step of undo, and
// another reach at the same place takes its place instead of adding to it.
func TestFoundOutlineIsOneStep(t *testing.T) {
	b := started(t)
	slab, err := b.addSlabPhoto(plate(t), "", model.FaceUpper)
	if err != nil {
		t.Fatal(err)
	}
	rings := func() []model.TracedRing {
		p := b.Snapshot().Project
		return p.Slab(slab).Upper.Rings
	}
	find := func(at shape.Point, reach float64) (string, sight.Found, error) {
		var ring string
		var found sight.Found
		var err error
		told := 0
		b.FindOutline(slab, model.FaceUpper, model.RingWood, at, reach, func(r string, f sight.Found, e error) { ring, found, err, told = r, f, e, told+1 })
		b.settle()
		if told != 1 {
			t.Errorf("told %d times", told)
		}
		return ring, found, err
	}
	at := shape.Point{X: 240, Y: 240}
	first, found, err := find(at, 0)
	if err != nil {
		t.Fatal(err)
	}
	p := b.Snapshot().Project
	if r := p.Slab(slab).Upper.Ring(first); r == nil || r.Kind != model.RingWood {
		t.Fatalf("ring %q of %+v", first, rings())
	}
	if n := len(rings()); n != 1+len(found.Holes)+len(found.Islands) || len(found.Holes) != 1 {
		t.Errorf("%d outlines, %d holes, %d islands", n, len(found.Holes), len(found.Islands))
	}
	// Another reach at the same place, with something else found each time.
	for i := range 3 {
		b.reckon.Find = func(k sight.Seek) (sight.Found, error) {
			w := shape.Ring{{X: 10, Y: 10}, {X: 100 + k.Reach, Y: 10}, {X: 100, Y: 100}}
			return sight.Found{Outer: w, Holes: make([]shape.Ring, 0), Reach: k.Reach}, nil
		}
		reach := float64(i + 1)
		again, _, err := find(at, reach)
		list := rings()
		if err != nil || again == "" || len(list) != 1 || list[0].ID != again || list[0].Points[1].X != 100+reach {
			t.Fatalf("%q, %v: %+v", again, err, list)
		}
	}
	// What cannot be found changes nothing.
	b.reckon.Find = func(sight.Seek) (sight.Found, error) { return sight.Found{}, sight.ErrSpeck }
	if _, _, err := find(at, 9); !errors.Is(err, sight.ErrSpeck) || len(rings()) != 1 {
		t.Errorf("%v, %d outlines", err, len(rings()))
	}
	b.Undo()
	b.settle()
	if n := len(rings()); n != 0 {
		t.Errorf("one undo leaves %d outlines", n)
	}
	// A touch where no photo is any more.
	b.FindOutline(slab, model.FaceUnder, model.RingWood, at, 0, func(_ string, _ sight.Found, err error) {
		if err == nil {
			t.Error("found without a photo")
		}
	})
	b.settle()
}

// TestFoundInLargePhotos: places in a photo that is worked on smaller are those of
// the whole photo, going in and coming out.
func TestFoundInLargePhotos(t *testing.T) {
	b := started(t)
	large := image.NewGray(image.Rect(0, 0, 8000, 3000))
	var out bytes.Buffer
	if err := jpeg.Encode(&out, large, nil); err != nil {
		t.Fatal(err)
	}
	slab, err := b.addSlabPhoto(out.Bytes(), "", model.FaceUpper)
	if err != nil {
		t.Fatal(err)
	}
	p := b.Snapshot().Project
	if f := p.Slab(slab).Upper; f.Wide != 8000 || f.High != 3000 {
		t.Errorf("%d by %d", f.Wide, f.High)
	}
	r := b.raster(p.Slab(slab).Upper.Photo)
	if n := r.Image.Rect.Dx() * r.Image.Rect.Dy(); n > picture.MostTraced+10_000 || n < picture.MostTraced*9/10 {
		t.Errorf("worked on with %d pixels", n)
	}
	at := shape.Point{X: 7990, Y: 2990}
	b.reckon.Find = func(k sight.Seek) (sight.Found, error) {
		if math.Abs(k.At.X-7990/r.Scale) > 1e-9 || math.Abs(k.At.Y-2990/r.Scale) > 1e-9 {
			t.Errorf("looked for at %v", k.At)
		}
		edge := float64(k.Within.Rect.Dx())
		return sight.Found{Outer: shape.Ring{{X: 0, Y: 0}, {X: edge, Y: 0}, {X: 0, Y: float64(k.Within.Rect.Dy())}}}, nil
	}
	b.FindOutline(slab, model.FaceUpper, model.RingWood, at, 0, func(ring string, found sight.Found, err error) {
		if err != nil {
			t.Error(err)
		}
		if math.Abs(found.Outer[1].X-8000) > 1 || math.Abs(found.Outer[2].Y-3000) > 1 {
			t.Errorf("%v", found.Outer)
		}
	})
	b.settle()
}

// TestFoundTooLateIsDropped: what was looked for in a photo that is another one
// by now is added nowhere.
func TestFoundTooLateIsDropped(t *testing.T) {
	b := started(t)
	slab, err := b.addSlabPhoto(plate(t), "", model.FaceUpper)
	if err != nil {
		t.Fatal(err)
	}
	var late error
	b.FindOutline(slab, model.FaceUpper, model.RingWood, shape.Point{X: 240, Y: 240}, 0, func(_ string, _ sight.Found, err error) { late = err })
	_ = b.Edit("no photo", "", func(p *model.Project) error {
		p.Slab(slab).Upper = model.Tracing{}
		return nil
	})
	b.settle()
	p := b.Snapshot().Project
	if late == nil || len(p.Slab(slab).Upper.Rings) != 0 {
		t.Errorf("%v, %+v", late, p.Slab(slab).Upper)
	}
}

// TestSlabPhotosStay: a photo that only a slab of an older state names is there
// after undo, after a restart and in what restores it, and a notebook that is
// looked through finds nothing wrong.
func TestSlabPhotosStay(t *testing.T) {
	b := started(t)
	slab, err := b.addSlabPhoto(pictureOf(t, 40, 20), "", model.FaceUpper)
	if err != nil {
		t.Fatal(err)
	}
	p := b.Snapshot().Project
	first := p.Slab(slab).Upper.Photo
	if _, err := b.addSlabPhoto(pictureOf(t, 44, 22), slab, model.FaceUpper); err != nil {
		t.Fatal(err)
	}
	_ = b.Edit("remove", "", func(p *model.Project) error { return p.Remove("slabs/" + slab) })
	b.settle()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	b = newBench(t, b.path, nil)
	b.Reopen()
	b.settle()
	if c, ok := b.store.(interface{ Check() error }); !ok || c.Check() != nil {
		t.Error("the notebook finds something wrong")
	}
	if len(b.kept()) != 2 {
		t.Errorf("kept %v", b.kept())
	}
	for range 2 {
		b.Undo()
		b.settle()
	}
	p = b.Snapshot().Project
	if got := p.Slab(slab).Upper.Photo; got != first {
		t.Fatalf("undo came back to %q", got)
	}
	if r := b.raster(first); r == nil || r.Wide != 40 {
		t.Errorf("%+v", r)
	}
	album := b.store.(Album)
	from, err := album.Photo(first)
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	if data, err := io.ReadAll(from); err != nil || !bytes.Equal(data, pictureOf(t, 40, 20)) {
		t.Errorf("%d bytes, %v", len(data), err)
	}
}
