package storage

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
)

// An envelope is twelve bytes and the body:
//
//	0  version of the envelope, 1
//	1  form: 0 plain, 1 deflated
//	2  two bytes of zero
//	4  length of the body once inflated, four bytes, little end first
//	8  CRC-32C over the record's place, the eight bytes before and the body
//
// Binding the checksum to the place finds records that swapped pages. The
// envelope of the rows in the meta bucket is the same in every schema.
const (
	envelopeVersion = 1
	envelopeHead    = 12
	formPlain       = 0
	formDeflated    = 1
	deflateAbove    = 4 << 10
	largestBody     = 256 << 20
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// seal puts body into an envelope for the record at place.
func seal(place string, body []byte) []byte {
	form, packed := byte(formPlain), body
	if len(body) > deflateAbove {
		if small := deflated(body); len(small) < len(body) {
			form, packed = formDeflated, small
		}
	}
	raw := make([]byte, envelopeHead, envelopeHead+len(packed))
	raw[0], raw[1] = envelopeVersion, form
	binary.LittleEndian.PutUint32(raw[4:], uint32(len(body)))
	raw = append(raw, packed...)
	binary.LittleEndian.PutUint32(raw[8:], checksum(place, raw))
	return raw
}

// unseal takes the body out of the envelope of the record at place. The result
// is a copy, good after the transaction.
func unseal(place string, raw []byte) ([]byte, error) {
	switch {
	case raw == nil:
		return nil, errors.New("the record is missing")
	case len(raw) < envelopeHead:
		return nil, errors.New("the record is cut off")
	case binary.LittleEndian.Uint32(raw[8:]) != checksum(place, raw):
		return nil, errors.New("the checksum is wrong")
	case raw[0] != envelopeVersion:
		return nil, fmt.Errorf("the envelope has version %d", raw[0])
	}
	size := int(binary.LittleEndian.Uint32(raw[4:]))
	packed := raw[envelopeHead:]
	if size > largestBody {
		return nil, fmt.Errorf("the record claims %d bytes", size)
	}
	switch raw[1] {
	case formPlain:
		if len(packed) != size {
			return nil, errors.New("the record has a wrong length")
		}
		return bytes.Clone(packed), nil
	case formDeflated:
		return inflated(packed, size)
	}
	return nil, fmt.Errorf("the record has the unknown form %d", raw[1])
}

// checksum sums an envelope, but for the sum itself, with its place.
func checksum(place string, raw []byte) uint32 {
	sum := crc32.Update(0, castagnoli, []byte(place))
	sum = crc32.Update(sum, castagnoli, raw[:8])
	return crc32.Update(sum, castagnoli, raw[envelopeHead:])
}

func deflated(body []byte) []byte {
	var buf bytes.Buffer
	w, err := flate.NewWriter(&buf, flate.BestSpeed)
	if err != nil {
		return body
	}
	if _, err := w.Write(body); err != nil {
		return body
	}
	if err := w.Close(); err != nil {
		return body
	}
	return buf.Bytes()
}

// inflated undoes deflated and insists on the size.
func inflated(packed []byte, size int) ([]byte, error) {
	r := flate.NewReader(bytes.NewReader(packed))
	body, err := io.ReadAll(io.LimitReader(r, int64(size)+1))
	if err != nil {
		return nil, fmt.Errorf("inflating: %w", err)
	}
	if len(body) != size {
		return nil, errors.New("the record has a wrong length")
	}
	return body, nil
}
