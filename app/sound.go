package app

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"time"

	"meniscus/model"
)

// Player plays a WAV file to its end, or until the context is done.
type Player func(ctx context.Context, wav []byte) error

// players are the programs that play a WAV file, the likeliest first, with
// what goes before the file's name.
var players = [][]string{{"paplay"}, {"pw-play"}, {"aplay", "-q"}}

// longestSound is how long a player may take before it is ended.
const longestSound = 10 * time.Second

// FindPlayer gives the first player that this machine has, else the system's own
// way; nil where it has none.
func FindPlayer() Player {
	for _, p := range players {
		path, err := exec.LookPath(p[0])
		if err != nil {
			continue
		}
		before := p[1:]
		return func(ctx context.Context, wav []byte) error { return play(ctx, path, before, wav) }
	}
	return ownPlayer
}

// play has a program play a WAV file, by way of a file of its own.
func play(ctx context.Context, path string, before []string, wav []byte) error {
	ctx, cancel := context.WithTimeout(ctx, longestSound)
	defer cancel()
	f, err := os.CreateTemp("", "meniscus-*.wav")
	if err != nil {
		return err
	}
	_, err = f.Write(wav)
	if err = errors.Join(err, f.Close()); err == nil {
		err = exec.CommandContext(ctx, path, append(append([]string{}, before...), f.Name())...).Run()
	}
	return errors.Join(err, os.Remove(f.Name()))
}

// Sound plays the sound of a kind of alarm in the background, in place of one
// that still plays.
func (s *Session) Sound(kind model.StepKind) {
	if s.player == nil {
		return
	}
	Replace(s.jobs, "sound", func(ctx context.Context) (struct{}, error) {
		return struct{}{}, s.player(ctx, Tone(kind))
	}, func(_ struct{}, err error) { s.mute = err != nil })
}

// Hush ends the sound that plays.
func (s *Session) Hush() { s.jobs.Drop("sound") }

// Silent tells whether this machine makes no sound: it has no player, or the
// last sound failed.
func (s *Session) Silent() bool { return s.player == nil || s.mute }
