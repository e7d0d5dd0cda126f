package storage

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
)

// The layout of a bbolt file (version 2), as far as it is needed to tell a
// whole file from a broken one. Numbers are in the machine's own byte order.
const (
	boltMagic   = 0xED0CDAED
	boltVersion = 2

	pageBranch   = 0x01
	pageLeaf     = 0x02
	pageFreelist = 0x10

	pageHead    = 16
	elementSize = 16
	bucketFlag  = 0x01
	bucketHead  = 16
	metaSize    = 64
	noFreelist  = ^uint64(0)

	deepestBucket = 4
)

// meta is a bbolt meta page.
type meta struct {
	pageSize int64
	root     uint64
	freelist uint64
	pages    uint64 // pages in use: one more than the highest
	txid     uint64
}

// readMeta reads the meta page at off; false when it is not a valid one.
func readMeta(r io.ReaderAt, off int64) (meta, bool) {
	var b [pageHead + metaSize]byte
	if _, err := r.ReadAt(b[:], off); err != nil {
		return meta{}, false
	}
	m, order := b[pageHead:], binary.NativeEndian
	sum := fnv.New64a()
	sum.Write(m[:56])
	if order.Uint32(m) != boltMagic || order.Uint32(m[4:]) != boltVersion || order.Uint64(m[56:]) != sum.Sum64() {
		return meta{}, false
	}
	found := meta{
		pageSize: int64(order.Uint32(m[8:])),
		root:     order.Uint64(m[16:]),
		freelist: order.Uint64(m[32:]),
		pages:    order.Uint64(m[40:]),
		txid:     order.Uint64(m[48:]),
	}
	sane := found.pageSize >= 512 && found.pageSize <= 1<<16 && found.pageSize&(found.pageSize-1) == 0
	return found, sane
}

// newestMeta finds the meta page that bbolt would go by. It looks where bbolt
// looks: at the start, and one page on for every page size bbolt knows.
func newestMeta(r io.ReaderAt, size int64) (meta, error) {
	first, ok := readMeta(r, 0)
	if ok {
		if second, ok := readMeta(r, first.pageSize); ok && second.pageSize == first.pageSize && second.txid > first.txid {
			first = second
		}
		return first, fits(first, size)
	}
	for pageSize := int64(1024); pageSize <= 1<<16; pageSize <<= 1 {
		if second, ok := readMeta(r, pageSize); ok && second.pageSize == pageSize {
			return second, fits(second, size)
		}
	}
	return meta{}, errors.New("it has no valid first page")
}

// fits tells whether all pages that a meta speaks of are within the file.
func fits(m meta, size int64) error {
	switch {
	case m.pages < 4 || m.pages > uint64(size/m.pageSize):
		return fmt.Errorf("it is cut off: it has %d bytes and should have at least %d", size, m.pages*uint64(m.pageSize))
	case m.root < 2 || m.root >= m.pages:
		return errors.New("its root page is out of range")
	case m.freelist == noFreelist:
		return errors.New("it keeps no list of free pages, which a notebook always does")
	case m.freelist < 2 || m.freelist >= m.pages:
		return errors.New("its list of free pages is out of range")
	}
	return nil
}

// page is the start of one page, read by plain reads.
type page struct {
	flags    uint16
	count    int
	overflow uint64
	off      int64 // in the file
	size     int64 // with its overflow
	start    []byte
	r        io.ReaderAt
}

// readPage reads the page with a number into b, which is one page long. It refuses one that says it is
// another or reaches beyond the pages in use.
func (m meta) readPage(r io.ReaderAt, id uint64, b []byte) (page, error) {
	if id < 2 || id >= m.pages {
		return page{}, fmt.Errorf("page %d is out of range", id)
	}
	off := int64(id) * m.pageSize
	if _, err := r.ReadAt(b, off); err != nil {
		return page{}, fmt.Errorf("page %d: %w", id, err)
	}
	order := binary.NativeEndian
	p := page{
		flags:    order.Uint16(b[8:]),
		count:    int(order.Uint16(b[10:])),
		overflow: uint64(order.Uint32(b[12:])),
		off:      off, start: b, r: r,
	}
	if order.Uint64(b) != id {
		return page{}, fmt.Errorf("page %d says that it is page %d", id, order.Uint64(b))
	}
	if p.overflow >= m.pages || id+p.overflow >= m.pages {
		return page{}, fmt.Errorf("page %d reaches beyond the end", id)
	}
	p.size = int64(p.overflow+1) * m.pageSize
	return p, nil
}

// at gives n bytes from an offset within the page; nil when out of the page.
func (p page) at(off, n int64) []byte {
	if off < 0 || n < 0 || off+n > p.size {
		return nil
	}
	if off+n <= int64(len(p.start)) {
		return p.start[off : off+n]
	}
	if p.r == nil {
		return nil
	}
	b := make([]byte, n)
	if _, err := p.r.ReadAt(b, p.off+off); err != nil {
		return nil
	}
	return b
}

// element is one entry of a branch or leaf page.
type element struct {
	key    []byte
	child  uint64 // branch
	bucket bool   // leaf
	value  []byte // leaf, only of buckets and where wanted
	end    int64  // where its bytes end within the page
}

// element reads entry i of a branch or leaf page, whose bytes must begin where
// those of the entry before ended: bbolt packs them without a gap, so that a
// wrong count, place or length is seen here. The value is read when it is a
// bucket or when values are wanted.
func (p page) element(i int, begin int64, values bool) (element, bool) {
	head := int64(pageHead + i*elementSize)
	b := p.at(head, elementSize)
	if b == nil {
		return element{}, false
	}
	order := binary.NativeEndian
	if p.flags == pageBranch {
		pos, ksize := head+int64(order.Uint32(b)), int64(order.Uint32(b[4:]))
		e := element{child: order.Uint64(b[8:]), key: p.at(pos, ksize), end: pos + ksize}
		return e, e.key != nil && pos == begin
	}
	flags, pos := order.Uint32(b), head+int64(order.Uint32(b[4:]))
	ksize, vsize := int64(order.Uint32(b[8:])), int64(order.Uint32(b[12:]))
	e := element{bucket: flags == bucketFlag, end: pos + ksize + vsize}
	if flags > bucketFlag || ksize > 1<<15 || pos != begin || e.end > p.size {
		return element{}, false
	}
	if e.key = p.at(pos, ksize); e.key == nil {
		return element{}, false
	}
	if e.bucket || values {
		if e.value = p.at(pos+ksize, vsize); e.value == nil {
			return element{}, false
		}
	}
	return e, true
}

// firstByte is where the bytes of the first entry begin.
func (p page) firstByte() int64 { return int64(pageHead + p.count*elementSize) }
