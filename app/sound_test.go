package app

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
)

// kinds are the steps that have a sound of their own.
var kinds = []model.StepKind{model.StepWorkEnds, model.StepRecoat, model.StepRecoatEnd, model.StepDemold, model.StepCured, model.StepMixPrompt, model.StepMixed}

// TestTone: a plain WAV file (its header as the RIFF form has it, value from
// memory), loud, without clipping, under two seconds, no two alike.
func TestTone(t *testing.T) {
	seen := map[string]model.StepKind{}
	for _, kind := range kinds {
		wav := Tone(kind)
		le := binary.LittleEndian
		if string(wav[:4]) != "RIFF" || string(wav[8:16]) != "WAVEfmt " || string(wav[36:40]) != "data" ||
			int(le.Uint32(wav[4:])) != len(wav)-8 || int(le.Uint32(wav[40:])) != len(wav)-44 ||
			le.Uint16(wav[20:]) != 1 || le.Uint16(wav[22:]) != 1 || le.Uint32(wav[24:]) != toneRate || le.Uint32(wav[28:]) != 2*toneRate || le.Uint16(wav[34:]) != 16 {
			t.Errorf("%s: the header is % x", kind, wav[:44])
		}
		if long := float64(len(wav)-44) / 2 / toneRate; long < 0.4 || long > 2 {
			t.Errorf("%s lasts %.2f s", kind, long)
		}
		loudest := 0
		for i := 44; i < len(wav); i += 2 {
			v := int(int16(le.Uint16(wav[i:])))
			loudest = max(loudest, v, -v)
		}
		if loudest < 12000 || loudest > 32000 {
			t.Errorf("%s: loudest sample %d", kind, loudest)
		}
		if other, twice := seen[string(wav)]; twice {
			t.Errorf("%s sounds like %s", kind, other)
		}
		seen[string(wav)] = kind
	}
	if !bytes.Equal(Tone("another"), Tone(model.StepCured)) {
		t.Error("a kind without a tune is silent")
	}
}

// TestPlay: the player is handed the whole file, which is gone afterwards; one
// that fails is told of, and one that hangs ends with the context.
func TestPlay(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	copied := filepath.Join(dir, "copied")
	player := filepath.Join(dir, "player")
	script := "#!/bin/sh\n[ \"$1\" = -q ] || exit 3\ncp \"$2\" '" + copied + "'\n"
	if err := os.WriteFile(player, []byte(script), 0o700); err != nil {
		t.Fatal(err)
	}
	wav := Tone(model.StepRecoat)
	if err := play(context.Background(), player, []string{"-q"}, wav); err != nil {
		t.Skip("no shell script runs here: ", err)
	}
	if got, err := os.ReadFile(copied); err != nil || !bytes.Equal(got, wav) {
		t.Errorf("%d bytes of %d came through (%v)", len(got), len(wav), err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*.wav")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	if play(context.Background(), player, nil, wav) == nil {
		t.Error("a player that fails is passed over")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if play(ctx, player, []string{"-q"}, wav) == nil {
		t.Error("it plays though it was called off")
	}
}

// TestSound: it plays off the interface's goroutine, a machine whose player
// fails is silent until one works, and closing does not wait for a sound.
func TestSound(t *testing.T) {
	b := newBench(t, filepath.Join(t.TempDir(), "n.db"), nil)
	b.Sound(model.StepRecoat)
	if !b.Silent() {
		t.Error("a machine without a player is not silent")
	}
	heard := 0
	for _, fail := range []error{nil, errors.New("no card"), nil} {
		b.player = func(_ context.Context, wav []byte) error {
			if bytes.Equal(wav, Tone(model.StepRecoat)) {
				heard++
			}
			return fail
		}
		b.Sound(model.StepRecoat)
		for b.jobs.loose["sound"] != nil {
			select {
			case f := <-b.posts:
				f()
			case <-time.After(10 * time.Second):
				t.Fatal("it was not played")
			}
		}
		if b.Silent() != (fail != nil) {
			t.Errorf("the player says %v, silent %v", fail, b.Silent())
		}
	}
	if heard != 3 {
		t.Errorf("heard %d of 3", heard)
	}
	begun := make(chan struct{})
	b.player = func(ctx context.Context, _ []byte) error { close(begun); <-ctx.Done(); return ctx.Err() }
	b.Sound(model.StepRecoat)
	<-begun
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}
