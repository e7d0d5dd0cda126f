package storage

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
)

// Names of buckets and rows; see the package comment.
const (
	bucketMeta      = "meta"
	bucketCards     = "cards"
	bucketSettings  = "settings"
	bucketProjects  = "projects"
	bucketRevisions = "revisions"
	bucketBodies    = "bodies"
	bucketJournal   = "journal"
	bucketShelf     = "shelf"
	bucketUses      = "uses"

	rowHead    = "head"
	rowFormat  = "format"
	rowSchema  = "schema"
	rowCreated = "created"
	rowProgram = "program"
)

// The place of a record is the path of buckets and keys that leads to it; its
// checksum is bound to it.
func placeMeta(row string) string     { return bucketMeta + "/" + row }
func placeCard(id string) string      { return bucketCards + "/" + id }
func placeSetting(name string) string { return bucketSettings + "/" + name }
func placeHead(id string) string      { return bucketProjects + "/" + id + "/" + rowHead }

func placeRevision(id string, number int) string {
	return bucketProjects + "/" + id + "/" + bucketRevisions + "/" + strconv.Itoa(number)
}

func placeBody(id string, number int) string {
	return bucketProjects + "/" + id + "/" + bucketBodies + "/" + strconv.Itoa(number)
}

func placeEntry(id, entry string) string {
	return bucketProjects + "/" + id + "/" + bucketJournal + "/" + entry
}

// numberKey is the key of a revision, in order of numbers.
func numberKey(number int) []byte { return binary.BigEndian.AppendUint64(nil, uint64(number)) }

// keyNumber undoes numberKey; 0 when the key is none.
func keyNumber(key []byte) int {
	if len(key) != 8 {
		return 0
	}
	return int(binary.BigEndian.Uint64(key))
}

// DefaultPath is where the notebook of this user lies: below XDG_DATA_HOME or
// ~/.local/share on Linux and its kin, ~/Library/Application Support on macOS,
// and %LocalAppData% on Windows. Open makes the folder.
func DefaultPath() (string, error) {
	base, err := dataFolder(runtime.GOOS)
	if err != nil {
		return "", trouble(ErrNoAccess, err, "Name the notebook's file when you start the program.",
			"The folder for this user's data is not known: %v.", err)
	}
	name := "meniscus"
	if runtime.GOOS == "darwin" || runtime.GOOS == "windows" {
		name = "Meniscus"
	}
	return filepath.Join(base, name, "notebook.db"), nil
}

// dataFolder is the folder in which programs keep a user's data.
func dataFolder(system string) (string, error) {
	switch system {
	case "darwin":
		return os.UserConfigDir()
	case "windows":
		return os.UserCacheDir() // %LocalAppData%
	}
	// A relative XDG_DATA_HOME is to be ignored (XDG Base Directory
	// Specification 0.8).
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(home, ".local", "share"), nil
}
