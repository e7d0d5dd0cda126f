package storage

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// layout is what plain reads tell about a notebook file.
type layout struct {
	format string // magic text of the program
	schema int
	pages  int // in use or free
	free   int
}

// walker visits every page that can be reached, each once, and so ends on any
// file whatever.
type walker struct {
	meta
	r    io.ReaderAt
	seen []bool
	rows map[string][]byte // of the bucket named meta
	idle [][]byte          // pages that were walked, to be read into again
}

// blank gives the memory for one page.
func (w *walker) blank() []byte {
	n := len(w.idle)
	if n == 0 {
		return make([]byte, w.pageSize)
	}
	b := w.idle[n-1]
	w.idle = w.idle[:n-1]
	return b
}

// inspect reads all pages that can be reached from the newest meta page and
// checks that they hang together: every page says its own number, is reached
// once, lies within the file and is not listed as free, entries lie within
// their page, and keys ascend. What it passes, bbolt can open, read and write.
// It does not look at the checksums of records.
func inspect(r io.ReaderAt, size int64) (layout, error) {
	m, err := newestMeta(r, size)
	if err != nil {
		return layout{}, err
	}
	w := &walker{meta: m, r: r, seen: make([]bool, m.pages), rows: map[string][]byte{}}
	free, err := w.freelistPages()
	if err != nil {
		return layout{}, err
	}
	if err := w.tree(m.root, nil, nil, nil); err != nil {
		return layout{}, err
	}
	for _, id := range free {
		if w.seen[id] {
			return layout{}, fmt.Errorf("page %d is both in use and free", id)
		}
	}
	l := layout{pages: int(m.pages), free: len(free)}
	return l, w.identity(&l)
}

// identity reads the rows that say what the file is.
func (w *walker) identity(l *layout) error {
	format, ok := w.rows[rowFormat]
	if !ok {
		return errForeign
	}
	text, err := unseal(placeMeta(rowFormat), format)
	if err != nil {
		return fmt.Errorf("its format: %w", err)
	}
	l.format = string(text)
	if l.format != formatMagic {
		return errForeign
	}
	text, err = unseal(placeMeta(rowSchema), w.rows[rowSchema])
	if err != nil {
		return fmt.Errorf("its schema number: %w", err)
	}
	l.schema, err = strconv.Atoi(string(text))
	if err != nil || l.schema < 1 {
		return errors.New("its schema number is not a number")
	}
	return nil
}

// errForeign says that a whole bbolt file is some other program's.
var errForeign = errors.New("it belongs to another program")

// freelistPages reads the list of free pages.
func (w *walker) freelistPages() ([]uint64, error) {
	p, err := w.readPage(w.r, w.freelist, w.blank())
	if err != nil {
		return nil, err
	}
	if p.flags != pageFreelist {
		return nil, errors.New("the list of free pages is something else")
	}
	if err := w.mark(w.freelist, p); err != nil {
		return nil, err
	}
	order := binary.NativeEndian
	count, off := uint64(p.count), int64(pageHead)
	if p.count == 0xFFFF {
		b := p.at(off, 8)
		if b == nil {
			return nil, errors.New("the list of free pages is cut off")
		}
		count, off = order.Uint64(b), off+8
	}
	if count > w.pages {
		return nil, errors.New("the list of free pages is too long")
	}
	b := p.at(off, int64(count)*8)
	if b == nil {
		return nil, errors.New("the list of free pages is cut off")
	}
	free, last := make([]uint64, count), uint64(1)
	for i := range free {
		free[i] = order.Uint64(b[i*8:])
		if free[i] <= last || free[i] >= w.pages {
			return nil, errors.New("the list of free pages is out of order")
		}
		last = free[i]
	}
	return free, nil
}

// mark notes that a page with its overflow was reached, which may happen once.
func (w *walker) mark(id uint64, p page) error {
	for i := id; i <= id+p.overflow; i++ {
		if w.seen[i] {
			return fmt.Errorf("page %d is used twice", i)
		}
		w.seen[i] = true
	}
	return nil
}

// tree walks the pages of a bucket below the page id. Keys must be at least
// low and less than high, where these are not nil.
func (w *walker) tree(id uint64, low, high []byte, path []string) error {
	b := w.blank()
	defer func() { w.idle = append(w.idle, b) }() // no key of it is held below any more
	p, err := w.readPage(w.r, id, b)
	if err != nil {
		return err
	}
	if err := w.mark(id, p); err != nil {
		return err
	}
	if p.flags == pageLeaf {
		return w.leaf(p, low, high, path)
	}
	if p.flags != pageBranch || p.count == 0 {
		return fmt.Errorf("page %d is of a wrong kind", id)
	}
	here, ok := p.element(0, p.firstByte(), false)
	for i := range p.count {
		if !ok || !within(here.key, low, high) {
			return fmt.Errorf("page %d: entry %d is out of order or place", id, i)
		}
		next, end := element{}, high
		if i+1 < p.count {
			if next, ok = p.element(i+1, here.end, false); ok {
				end = next.key
			}
			if !ok || bytes.Compare(next.key, here.key) <= 0 {
				return fmt.Errorf("page %d: entry %d is out of order or place", id, i+1)
			}
		}
		if err := w.tree(here.child, here.key, end, path); err != nil {
			return err
		}
		here = next
	}
	return nil
}

func within(key, low, high []byte) bool {
	return (low == nil || bytes.Compare(key, low) >= 0) && (high == nil || bytes.Compare(key, high) < 0)
}

// leaf walks the entries of a leaf page and the buckets in it.
func (w *walker) leaf(p page, low, high []byte, path []string) error {
	meta := len(path) == 1 && path[0] == bucketMeta
	var last []byte
	end := p.firstByte()
	for i := range p.count {
		e, ok := p.element(i, end, meta)
		if !ok || len(e.key) == 0 || !within(e.key, low, high) || (i > 0 && bytes.Compare(e.key, last) <= 0) {
			return fmt.Errorf("an entry in %q is out of order or place", path)
		}
		last, end = e.key, e.end
		if e.bucket {
			if err := w.bucket(e, append(path[:len(path):len(path)], string(e.key))); err != nil {
				return err
			}
		} else if meta {
			w.rows[string(e.key)] = bytes.Clone(e.value)
		}
	}
	return nil
}

// bucket walks a bucket within a bucket: a small one lies inside its entry,
// any other has its own pages.
func (w *walker) bucket(e element, path []string) error {
	if len(e.value) < bucketHead || len(path) > deepestBucket {
		return fmt.Errorf("the bucket %q is cut off or too deep", path)
	}
	order := binary.NativeEndian
	if root := order.Uint64(e.value); root != 0 {
		return w.tree(root, nil, nil, path)
	}
	inline := e.value[bucketHead:]
	if len(inline) < pageHead {
		return fmt.Errorf("the bucket %q is cut off", path)
	}
	p := page{
		flags: order.Uint16(inline[8:]),
		count: int(order.Uint16(inline[10:])),
		size:  int64(len(inline)),
		start: inline,
	}
	if p.flags != pageLeaf || order.Uint64(inline) != 0 {
		return fmt.Errorf("the bucket %q is of a wrong kind", path)
	}
	return w.leaf(p, nil, nil, path)
}
