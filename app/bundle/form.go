package bundle

import (
	"regexp"

	"meniscus/app/picture"
	"meniscus/model"
)

// What a manifest calls this form, and the newest number of it.
const (
	format      = "meniscus-bundle"
	formVersion = 1
)

// Names of the entries.
const (
	manifestName = "manifest.json"
	projectName  = "project.json"
	photoFolder  = "photos/"
)

// What a file may be at most. No file of ours needs the 64-bit form of zip.
const (
	MostBytes       = 1 << 30 // of the file, and of all that is in it
	MostPhotos      = 1000    // in number
	mostEntries     = MostPhotos + 3
	mostDirectory   = 1 << 20 // bytes of the list of entries
	mostManifest    = 1 << 20 // bytes
	mostProject     = model.LargestImport
	mostPhoto       = picture.MostBytes
	ratioFrom       = 1 << 20 // bytes from which an entry's ratio is looked at
	mostRatio       = 100     // unpacked to packed
	mostNameInWords = 60      // characters of a name that is shown
)

// photoName is what a photo is called.
var photoName = regexp.MustCompile(`^[0-9a-f]{64}\.(jpg|png|gif|webp|heic)$`)

// endings are those of the names of photos, by what they are.
var endings = map[picture.Kind]string{picture.JPEG: ".jpg", picture.PNG: ".png", picture.GIF: ".gif", picture.WebP: ".webp", picture.HEIC: ".heic"}

// Manifest says what a file holds.
type Manifest struct {
	Format  string   `json:"format"` // "meniscus-bundle"
	Version int      `json:"version"`
	Project Part     `json:"project"`
	Photos  []Part   `json:"photos"`
	Missing []string `json:"missing,omitempty"` // names of photos that the project speaks of and the file does not have
}

// Part is one entry of the file.
type Part struct {
	Name  string `json:"name"`
	Bytes int64  `json:"bytes"`
	SHA   string `json:"sha256"` // in hexadecimal
}
