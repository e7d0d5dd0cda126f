package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"strings"
	"testing"
)

// claimsPNG rewrites the size that a PNG says it has (ISO/IEC 15948, 11.2.2).
func claimsPNG(data []byte, w, h uint32) []byte {
	data = bytes.Clone(data)
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// claimsJPEG rewrites the size that a JPEG says it has (ISO/IEC 10918-1, B.2.2).
func claimsJPEG(t testing.TB, data []byte, w, h uint16) []byte {
	t.Helper()
	data = bytes.Clone(data)
	at := max(bytes.Index(data, []byte("\xFF\xC0\x00")), bytes.Index(data, []byte("\xFF\xC2\x00")))
	if at < 0 {
		t.Fatal("no header of a frame")
	}
	binary.BigEndian.PutUint16(data[at+5:], h)
	binary.BigEndian.PutUint16(data[at+7:], w)
	return data
}

// manyScans repeats the last scan of a progressive JPEG.
func manyScans(data []byte, n int) []byte {
	last := bytes.LastIndex(data, []byte("\xFF\xDA"))
	scan := data[last : len(data)-2]
	return append(append(bytes.Clone(data[:last]), bytes.Repeat(scan, n)...), 0xFF, 0xD9)
}

// replaced puts one text in the place of another of the same length.
func replaced(data []byte, old, now string) []byte {
	return bytes.Replace(data, []byte(old), []byte(now), 1)
}

// claimsHEIC rewrites the size that a HEIC's properties claim, but not that in
// its coded picture.
func claimsHEIC(data []byte, w, h uint32) []byte {
	data = bytes.Clone(data)
	at := bytes.Index(data, []byte("ispe")) + 8
	binary.BigEndian.PutUint32(data[at:], w)
	binary.BigEndian.PutUint32(data[at+4:], h)
	return data
}

// hostile are files that are not what they claim, each with a word of what is
// said of it.
func hostile(t testing.TB) map[string]struct {
	data []byte
	says string
} {
	plain, jpg, heic := readFile(t, "plain.png"), readFile(t, "plain.jpg"), readFile(t, "turned.heic")
	progressive, webp, moving := readFile(t, "progressive.jpg"), readFile(t, "lossy.webp"), readFile(t, "moving.gif")
	type file = struct {
		data []byte
		says string
	}
	return map[string]file{
		"empty":                  {nil, "empty"},
		"text":                   {[]byte("a data sheet, not a picture"), "no picture"},
		"PDF":                    {[]byte("%PDF-1.7 named .jpg"), "PDF"},
		"raw":                    {[]byte("II*\x00\x08\x00\x00\x00 as a camera writes"), "TIFF"},
		"film":                   {[]byte("\x00\x00\x00\x18ftypisom\x00\x00\x02\x00isomiso2"), "not read"},
		"another kind":           {[]byte("\x00\x00\x00\x1Cftypavif\x00\x00\x00\x00mif1avif"), "not read"},
		"30,000 by 30,000":       {claimsPNG(plain, 30_000, 30_000), "50 million"},
		"beyond numbers":         {claimsPNG(plain, 1<<32-1, 1<<32-1), "damaged"},
		"almost beyond numbers":  {claimsPNG(plain, 1<<31-1, 1<<31-1), "50 million"},
		"one line":               {claimsPNG(plain, 1_000_000, 1), "along one side"},
		"no width":               {claimsPNG(plain, 0, 64), "no pixels"},
		"no height":              {claimsPNG(plain, 96, 0), "no pixels"},
		"PNG cut short":          {plain[:len(plain)-30], "cut short"},
		"PNG header cut short":   {plain[:20], "cut short"},
		"PNG sum wrong":          {replaced(plain, "IDAT", "IDAt"), "damaged"},
		"JPEG cut short":         {jpg[:len(jpg)-20], "cut short"},
		"JPEG header cut short":  {jpg[:30], "cut short"},
		"JPEG start alone":       {[]byte("\xFF\xD8\xFF"), "damaged"},
		"JPEG of no pixels":      {claimsJPEG(t, jpg, 0, 0), "no pixels"},
		"JPEG claims":            {claimsJPEG(t, jpg, 65_535, 65_535), "50 million"},
		"JPEG claims less":       {claimsJPEG(t, jpg, 7000, 7000), "damaged"},
		"JPEG of 12 bits":        {replaced(jpg, "\xFF\xC0\x00\x11\x08", "\xFF\xC1\x00\x11\x0C"), "plain JPEG"},
		"JPEG by arithmetic":     {replaced(jpg, "\xFF\xC0", "\xFF\xC9"), "plain JPEG"},
		"JPEG of two frames":     {replaced(jpg, "\xFF\xC4", "\xFF\xC0"), "damaged"},
		"many scans":             {manyScans(progressive, 5000), "passes"},
		"progressive and large":  {claimsJPEG(t, replaced(progressive, "\x03\x01\x22\x00\x02\x11", "\x03\x01\x11\x00\x02\x11"), 7000, 7000), "memory"},
		"WebP cut short":         {webp[:len(webp)-40], "cut short"},
		"WebP header cut short":  {webp[:14], "cut short"},
		"WebP that moves":        {replaced(webp, "VP8 ", "ANIM"), "moves"},
		"GIF cut short":          {moving[:200], "cut short"},
		"GIF header cut short":   {moving[:9], "cut short"},
		"GIF of no pixels":       {append(append([]byte("GIF89a"), make([]byte, 7)...), ';'), "no pixels"},
		"GIF of no picture":      {[]byte("GIF89a\x10\x00\x10\x00\x00\x00\x00;"), "damaged"},
		"HEIC cut short":         {heic[:len(heic)-50], "cut short"},
		"HEIC header cut short":  {heic[:100], "cut short"},
		"HEIC start alone":       {heic[:24], "damaged"},
		"HEIC claims":            {claimsHEIC(heic, 30_000, 30_000), "25 million"},
		"HEIC claims beyond":     {claimsHEIC(heic, 1<<32-1, 1<<32-1), "too large"},
		"HEIC of large tiles":    {replaced(readFile(t, "tiles.heic"), "\x00\x00\x01\x01\x02\x00\x02\x00", "\x00\x00\x01\x01\x75\x30\x75\x30"), "25 million"},
		"HEIC of tiles turned":   {replaced(readFile(t, "tiles.heic"), "dimg", "dimx"), "damaged"},
		"HEIC claims too little": {claimsHEIC(heic, 16, 16), "damaged"},
		"HEIC without a picture": {replaced(heic, "hvc1", "hvcx"), "damaged"},
		"HEIC without sizes":     {replaced(heic, "iprp", "free"), "not read"},
	}
}

// TestHostileFiles: each is refused in words that say what to do, in a moment.
func TestHostileFiles(t *testing.T) {
	for name, c := range hostile(t) {
		r, err := Trace(c.data)
		if err == nil {
			t.Errorf("%s: read as %d by %d", name, r.Wide, r.High)
		} else if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: says %q, not %q", name, err, c.says)
		}
	}
	large := append(readFile(t, "plain.png"), make([]byte, MostBytes)...)
	if _, err := Look(large); err == nil || !strings.Contains(err.Error(), "25 MB") {
		t.Errorf("too many bytes: %v", err)
	}
}

// TestWildTagsArePassedOver: what a picture says about itself beside its pixels,
// right or wrong, never keeps it from being read.
func TestWildTagsArePassedOver(t *testing.T) {
	jpg := readFile(t, "plain.jpg")
	segment := func(kind byte, body string) []byte {
		head := binary.BigEndian.AppendUint16([]byte{0xFF, kind}, uint16(2+len(body)))
		return append(append(append([]byte("\xFF\xD8"), head...), body...), jpg[2:]...)
	}
	for name, data := range map[string][]byte{
		"offset beyond the end": segment(0xE1, "Exif\x00\x00MM\x00*\xFF\xFF\xFF\xFF"),
		"offset at the end":     segment(0xE1, "Exif\x00\x00II*\x00\x08\x00\x00\x00"),
		"too many entries":      segment(0xE1, "Exif\x00\x00II*\x00\x08\x00\x00\x00\xFF\xFF\x12\x01"),
		"no header":             segment(0xE1, "Exif\x00\x00"),
		"XMP":                   segment(0xE1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>"),
		"a profile":             segment(0xE2, "ICC_PROFILE\x00\x01\x01 no profile at all"),
		"a comment":             segment(0xFE, strings.Repeat("x", 65_000)),
	} {
		if r, err := Trace(data); err != nil || r.Wide != 96 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestSeenThrough: what can be seen through lies on white, so that what is
// traced in is opaque.
func TestSeenThrough(t *testing.T) {
	p := image.NewNRGBA(image.Rect(0, 0, 4, 4)) // clear
	var out bytes.Buffer
	if err := png.Encode(&out, p); err != nil {
		t.Fatal(err)
	}
	r, err := Trace(out.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range r.Image.Pix {
		if v != 255 {
			t.Fatalf("not white: %v", r.Image.Pix)
		}
	}
}

// FuzzLook: whatever a file is, it is read or refused in words, and what is read
// has the size that it said it has. Only small pictures are decoded, so that
// much is tried.
func FuzzLook(f *testing.F) {
	for _, c := range hostile(f) {
		f.Add(c.data)
	}
	for _, name := range []string{"plain.jpg", "progressive.jpg", "cmyk.jpg", "plain.png", "deep-interlaced.png", "moving.gif", "lossy.webp", "lossless.webp", "turned.heic", "odd.heic"} {
		f.Add(readFile(f, name))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := Look(data)
		if err != nil {
			if err.Error() == "" || h != (Head{}) {
				t.Errorf("%+v, %q", h, err)
			}
			return
		}
		if h.Wide < 1 || h.High < 1 || h.Wide*h.High > mostPixels || h.room > mostRoom {
			t.Fatalf("%+v", h)
		}
		if h.Wide*h.High > 200_000 {
			return
		}
		r, err := Trace(data)
		if err != nil {
			return
		}
		if h.Kind != GIF && h.Kind != HEIC && (r.Wide != h.Wide || r.High != h.High) || r.Image.Rect.Dx() != r.Wide {
			t.Errorf("%+v came out as %d by %d", h, r.Wide, r.High)
		}
	})
}
