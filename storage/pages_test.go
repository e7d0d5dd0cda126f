package storage

import (
	"bytes"
	"encoding/binary"
	"testing"
)

// reached lists the pages of a good file that are in use as branch or leaf.
func reached(t *testing.T, raw []byte) (m meta, ids []int) {
	t.Helper()
	m, err := newestMeta(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		t.Fatal(err)
	}
	w := &walker{meta: m, r: bytes.NewReader(raw), seen: make([]bool, m.pages), rows: map[string][]byte{}}
	if err := w.tree(m.root, nil, nil, nil); err != nil {
		t.Fatal(err)
	}
	for id, seen := range w.seen {
		if !seen {
			continue
		}
		p, err := m.readPage(bytes.NewReader(raw), uint64(id), make([]byte, m.pageSize))
		if err == nil && (p.flags == pageBranch || p.flags == pageLeaf) && p.count > 0 {
			ids = append(ids, id)
		}
	}
	if len(ids) < 20 {
		t.Fatalf("only %d pages", len(ids))
	}
	return m, ids
}

// A page whose head lies would hide records or show ones that are not there.
func TestPageHeadsAreSeen(t *testing.T) {
	raw := filled(t)
	order := binary.NativeEndian
	m, ids := reached(t, raw)
	lies := map[string]func(page []byte){
		"one entry less":     func(p []byte) { order.PutUint16(p[10:], order.Uint16(p[10:])-1) },
		"one entry more":     func(p []byte) { order.PutUint16(p[10:], order.Uint16(p[10:])+1) },
		"another number":     func(p []byte) { order.PutUint64(p, order.Uint64(p)+1) },
		"no kind":            func(p []byte) { order.PutUint16(p[8:], 0) },
		"the other kind":     func(p []byte) { order.PutUint16(p[8:], order.Uint16(p[8:])^(pageBranch|pageLeaf)) },
		"endless":            func(p []byte) { order.PutUint32(p[12:], 1<<30) },
		"an entry elsewhere": func(p []byte) { order.PutUint32(p[pageHead+4:], order.Uint32(p[pageHead+4:])+1) },
	}
	for lie, tell := range lies {
		for _, id := range ids {
			bad := bytes.Clone(raw)
			tell(bad[id*int(m.pageSize):])
			if _, err := inspect(bytes.NewReader(bad), int64(len(bad))); err == nil {
				t.Errorf("%s in page %d is not seen", lie, id)
			}
		}
	}
}

// A page listed as free while in use would be written over.
func TestFreeListIsChecked(t *testing.T) {
	raw := filled(t)
	order := binary.NativeEndian
	m, ids := reached(t, raw)
	list := raw[int64(m.freelist)*m.pageSize:]
	if order.Uint16(list[10:]) == 0 {
		t.Fatal("no page is free")
	}
	for _, id := range append(ids, int(m.freelist), 0, 1, int(m.pages)) {
		bad := bytes.Clone(raw)
		order.PutUint64(bad[int64(m.freelist)*m.pageSize+pageHead:], uint64(id))
		if _, err := inspect(bytes.NewReader(bad), int64(len(bad))); err == nil {
			t.Errorf("page %d as free is not seen", id)
		}
	}
}

// A child that is an ancestor would be a loop.
func TestLoopsAreSeen(t *testing.T) {
	raw := filled(t)
	order := binary.NativeEndian
	m, ids := reached(t, raw)
	loops := 0
	for _, id := range ids {
		page := raw[id*int(m.pageSize):]
		if order.Uint16(page[8:]) != pageBranch {
			continue
		}
		for _, up := range []uint64{m.root, uint64(id)} {
			bad := bytes.Clone(raw)
			order.PutUint64(bad[id*int(m.pageSize)+pageHead+8:], up)
			if _, err := inspect(bytes.NewReader(bad), int64(len(bad))); err == nil {
				t.Errorf("a loop from page %d to %d is not seen", id, up)
			}
			loops++
		}
	}
	if loops == 0 {
		t.Error("no branch page")
	}
}
