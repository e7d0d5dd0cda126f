package storage

import (
	"bytes"
	"testing"

	"pgregory.net/rapid"
)

func TestSealAndUnseal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := rapid.String().Draw(t, "place")
		body := bytes.Repeat(rapid.SliceOf(rapid.Byte()).Draw(t, "body"), rapid.SampledFrom([]int{1, 1, 500}).Draw(t, "times"))
		raw := seal(place, body)
		got, err := unseal(place, raw)
		if err != nil || !bytes.Equal(got, body) {
			t.Fatalf("%d bytes back of %d, %v", len(got), len(body), err)
		}
		if _, err := unseal(place+"x", raw); err == nil {
			t.Fatal("another place is taken for this one")
		}
		at := rapid.IntRange(0, len(raw)-1).Draw(t, "at")
		bad := bytes.Clone(raw)
		bad[at] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		if _, err := unseal(place, bad); err == nil {
			t.Fatalf("a flipped bit at %d is not seen", at)
		}
		if _, err := unseal(place, raw[:at]); err == nil {
			t.Fatalf("cut at %d is not seen", at)
		}
	})
}

func TestLargeBodiesAreDeflated(t *testing.T) {
	for size, small := range map[int]bool{deflateAbove: false, deflateAbove + 1: true} {
		if raw := seal("x", make([]byte, size)); (len(raw) < size) != small {
			t.Errorf("%d bytes became %d", size, len(raw))
		}
	}
}
