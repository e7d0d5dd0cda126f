package picture

// fields reads numbers one behind the other.
type fields struct {
	rest  []byte
	short bool // there was less than was asked for
}

// bytes gives the next n bytes; none where there are fewer.
func (f *fields) bytes(n uint64) []byte {
	if n > uint64(len(f.rest)) {
		f.short, f.rest = true, nil
		return nil
	}
	b := f.rest[:n]
	f.rest = f.rest[n:]
	return b
}

// number gives the next n bytes as a number, the highest byte first.
func (f *fields) number(n uint64) (v uint64) {
	for _, b := range f.bytes(n) {
		v = v<<8 | uint64(b)
	}
	return v
}

// items looks at the items that the decoder may work on: grids, and coded
// pictures (ISO/IEC 14496-12, 8.11.3). False where something is damaged.
func (h *heicFile) items() bool {
	f := fields{rest: h.iloc}
	version := f.number(1)
	f.bytes(3)
	sizes := f.number(2)
	offset, length, base, index := sizes>>12, sizes>>8&15, sizes>>4&15, sizes&15
	wide := uint64(2) // of numbers that grew with the versions
	if version == 2 {
		wide = 4
	}
	if version > 2 || offset > 8 || length > 8 || base > 8 || index > 8 {
		return false
	}
	for count := f.number(wide); count > 0 && !f.short; count-- {
		id, in := uint32(f.number(wide)), h.data
		if version >= 1 {
			switch f.number(2) & 15 {
			case 0:
			case 1:
				in = h.idat
			default:
				return false
			}
		}
		f.number(2)
		start := f.number(base)
		var item []byte
		for extents := f.number(2); extents > 0 && !f.short; extents-- {
			if version >= 1 {
				f.number(index)
			}
			from, n := start+f.number(offset), f.number(length)
			if from > uint64(len(in)) || n > uint64(len(in))-from || from < start {
				return false
			}
			if len(item) == 0 {
				item = in[from : from+n]
			} else if item = append(item[:len(item):len(item)], in[from:from+n]...); len(item) > MostBytes {
				return false
			}
		}
		if !f.short && !h.item(h.kinds[id], item) {
			return false
		}
	}
	return !f.short
}

// item looks at what an item claims.
func (h *heicFile) item(kind string, data []byte) bool {
	f := fields{rest: data}
	switch kind {
	case "grid", "iovl": // ISO/IEC 23008-12, 6.6.2.3 and 6.6.2.2
		f.number(1)
		size := uint64(2) << (f.number(1) & 1)
		if kind == "grid" {
			f.number(2)
		} else {
			f.number(8)
		}
		w, t := f.number(size), f.number(size)
		if f.short {
			return false
		}
		h.claims(uint32(w), uint32(t))
	case "hvc1", "hev1":
		pictures := 0
		for len(f.rest) > 0 && !f.short {
			if h.unit(f.bytes(f.number(4))) {
				pictures++
			}
		}
		if pictures > 1 { // each would take as much room as the one that is asked for
			h.tooMuch = true
		}
		return !f.short && pictures > 0
	}
	return true
}

// unit looks at a unit of coded video (ISO/IEC 23008-2, 7.3): it notes the size
// in a sequence's parameters, and tells whether a picture begins here.
func (h *heicFile) unit(u []byte) bool {
	if len(u) < 3 {
		return false
	}
	const slices, sequence = 32, 33 // kinds below the first hold parts of pictures
	switch kind := u[0] >> 1 & 63; {
	case kind < slices:
		return u[2]&0x80 != 0
	case kind == sequence:
		w, t, ok := sequenceSize(u[2:])
		if !ok {
			h.tooMuch = true
		}
		h.claims(w, t)
	}
	return false
}

// sequenceSize reads the size of the pictures out of a sequence's parameters
// (ISO/IEC 23008-2, 7.3.2.2); false where they break off.
func sequenceSize(u []byte) (wide, high uint32, ok bool) {
	b := bits{data: unescaped(u)}
	b.read(4)
	layers := b.read(3)
	b.read(1)
	b.read(88)
	b.read(8)
	skip := uint(0)
	if layers > 0 {
		for i := range 8 {
			profile, level := b.read(1), b.read(1)
			if uint64(i) < layers {
				skip += uint(88*profile + 8*level)
			}
		}
	}
	b.read(skip)
	b.code()
	if b.code() == 3 {
		b.read(1)
	}
	wide, high = uint32(b.code()), uint32(b.code())
	return wide, high, !b.short
}

// unescaped takes out the bytes that keep a unit from looking like the start of
// another one: a 3 behind two zeros.
func unescaped(u []byte) []byte {
	u = u[:min(len(u), 1024)]
	out := make([]byte, 0, len(u))
	zeros := 0
	for _, b := range u {
		if zeros >= 2 && b == 3 {
			zeros = 0
			continue
		}
		if out = append(out, b); b == 0 {
			zeros++
		} else {
			zeros = 0
		}
	}
	return out
}

// bits reads numbers bit by bit.
type bits struct {
	data  []byte
	at    uint
	short bool
}

// read gives the next n bits as a number, the last 64 of them where there are
// more.
func (b *bits) read(n uint) (v uint64) {
	for ; n > 0; n-- {
		if b.at/8 >= uint(len(b.data)) {
			b.short = true
			return 0
		}
		v = v<<1 | uint64(b.data[b.at/8]>>(7-b.at%8)&1)
		b.at++
	}
	return v
}

// code gives the next number of no fixed length (ISO/IEC 23008-2, 9.2).
func (b *bits) code() uint64 {
	zeros := uint(0)
	for b.read(1) == 0 && !b.short && zeros < 32 {
		zeros++
	}
	return 1<<zeros - 1 + b.read(zeros)
}
