package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"syscall"

	bolterrors "go.etcd.io/bbolt/errors"
)

var (
	// ErrDamaged is returned when a file or a record is cut off, has a wrong
	// checksum, or is not a notebook at all.
	ErrDamaged = errors.New("damaged")

	// ErrNewer is returned when the notebook was written by a newer version of
	// the program. The file is left as it is.
	ErrNewer = errors.New("written by a newer version")

	// ErrInUse is returned when another running program has the notebook open.
	ErrInUse = errors.New("in use")

	// ErrReadOnly is returned by every method that changes something when the
	// notebook's file or folder may only be read.
	ErrReadOnly = errors.New("read-only")

	// ErrNoAccess is returned when the notebook's file or folder may not even
	// be read, or a folder for it cannot be made.
	ErrNoAccess = errors.New("no access")

	// ErrDiskFull is returned when the disk, the quota or the largest allowed
	// file size is used up. What was saved before is still there, and saving
	// works again as soon as there is room.
	ErrDiskFull = errors.New("disk full")

	// ErrMissing is returned when there is no such project, revision or photo.
	ErrMissing = errors.New("not there")

	// ErrExists is returned when a new project has the ID of one already kept.
	ErrExists = errors.New("already there")

	// ErrInvalid is returned when a value cannot be kept, such as a project
	// without an ID, a number that is not a number, or a file that is no
	// picture.
	ErrInvalid = errors.New("cannot be kept")

	// ErrTooLarge is returned when a photo is larger than the limit.
	ErrTooLarge = errors.New("too large")

	// ErrClosed is returned by every method after Close.
	ErrClosed = errors.New("closed")

	// ErrFailed is returned when the disk or the system reported an error that
	// no other of these names.
	ErrFailed = errors.New("failed")
)

// Trouble is an error in the maker's words: what happened, to which thing, and
// what to do about it. errors.Is finds both the sentinel of its kind and the
// cause.
type Trouble struct {
	What    string // what happened, a full sentence
	Do      string // what to do now, a full sentence; empty when nothing helps
	Partial bool   // what could be read was returned beside the error
	kind    error  // one of the sentinels
	cause   error  // may be nil
}

// Error gives what happened and what to do.
func (t *Trouble) Error() string {
	if t.Do == "" {
		return t.What
	}
	return t.What + " " + t.Do
}

// Unwrap gives the sentinel and the cause.
func (t *Trouble) Unwrap() []error {
	if t.cause == nil {
		return []error{t.kind}
	}
	return []error{t.kind, t.cause}
}

// trouble makes a Trouble of a kind.
func trouble(kind, cause error, do, what string, args ...any) *Trouble {
	return &Trouble{What: fmt.Sprintf(what, args...), Do: do, kind: kind, cause: cause}
}

// missingPart is what a notebook lacks that every one has.
type missingPart string

func (m missingPart) Error() string { return string(m) + " is missing" }

// noProjects says that a notebook lacks what its projects are kept in.
const noProjects = missingPart("the list of pieces")

// partial marks an error beside which a usable result was returned.
func partial(err error) error {
	var t *Trouble
	if errors.As(err, &t) {
		t.Partial = true
	}
	return err
}

// isPartial tells whether a usable result was returned beside err.
func isPartial(err error) bool {
	var t *Trouble
	return errors.As(err, &t) && t.Partial
}

// full tells whether err says that there is no more room. bbolt passes some
// errors on as text only.
func full(err error) bool {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EFBIG) || overQuota(err) {
		return true
	}
	text := err.Error()
	told := func(start string) bool { return strings.HasPrefix(text, start) }
	ends := func(cause syscall.Errno) bool { return strings.HasSuffix(text, cause.Error()) }
	return slices.ContainsFunc([]string{"file resize error: ", "meta 0 copy: ", "meta 1 copy: "}, told) &&
		slices.ContainsFunc([]syscall.Errno{syscall.ENOSPC, syscall.EFBIG}, ends)
}

// barred tells whether err says that a file may not be written.
func barred(err error) bool {
	return errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) || errors.Is(err, bolterrors.ErrDatabaseReadOnly)
}

// put words an error met while writing the file or folder at path.
func put(err error, path string) error {
	var t *Trouble
	switch {
	case err == nil:
		return nil
	case errors.As(err, &t):
		return err
	case full(err):
		return trouble(ErrDiskFull, err, "Make room on the disk and save again; nothing saved before is lost.",
			"There is no room left on the disk for %s.", path)
	case barred(err):
		return trouble(ErrReadOnly, err, "Ask for the right to write there, or choose another place.",
			"%s may not be written.", path)
	}
	return trouble(ErrFailed, err, "Check the disk, then close the program and open it again to see what was kept.",
		"Writing %s failed: %v.", path, err)
}

// got words an error met while reading the file or folder at path.
func got(err error, path string) error {
	var t *Trouble
	switch {
	case err == nil:
		return nil
	case errors.As(err, &t):
		return err
	case errors.Is(err, fs.ErrPermission):
		return trouble(ErrNoAccess, err, "Ask for the right to read it.", "%s may not be read.", path)
	case errors.Is(err, fs.ErrNotExist):
		return trouble(ErrMissing, err, "Put it back where it was, or choose another.", "%s is not there.", path)
	}
	return trouble(ErrFailed, err, "Check the disk and try again.", "Reading %s failed: %v.", path, err)
}
