package app

import (
	"bytes"
	"encoding/binary"
	"math"

	"meniscus/model"
)

// toneRate is how many samples a second a tone has, of 16 bits each.
const toneRate = 22050

// note is a stretch of a tone.
type note struct{ pitch, long float64 } // Hz, 0 for silence; s

// tunes are the notes of each kind of alarm, each told by how often it sounds
// and whether it climbs or falls, which carries across a noisy shop better than
// pitch. They are chosen freely.
var tunes = map[model.StepKind][]note{
	model.StepWorkEnds:  {{988, .12}, {0, .08}, {988, .12}, {0, .08}, {988, .12}, {0, .08}, {988, .12}},
	model.StepRecoat:    {{523, .22}, {659, .22}, {784, .4}},
	model.StepRecoatEnd: {{784, .22}, {659, .22}, {523, .4}},
	model.StepDemold:    {{659, .5}, {0, .15}, {659, .5}},
	model.StepCured:     {{523, .9}},
	model.StepMixPrompt: {{1319, .12}, {0, .08}, {1319, .24}},
	model.StepMixed:     {{880, .14}, {659, .14}, {880, .14}, {659, .14}, {880, .14}, {659, .3}},
}

// Tone gives the sound of an alarm as a WAV file, one channel. It is under two
// seconds long.
func Tone(kind model.StepKind) []byte {
	tune, ok := tunes[kind]
	if !ok {
		tune = tunes[model.StepCured]
	}
	var samples []int16
	for _, n := range tune {
		count := int(n.long * toneRate)
		for i := range count {
			// It swells and fades over 10 ms, so that no note begins with a click.
			edge := min(float64(min(i, count-1-i))/(0.01*toneRate), 1)
			turn := 2 * math.Pi * n.pitch * float64(i) / toneRate
			samples = append(samples, int16(20000*edge*(0.8*math.Sin(turn)+0.2*math.Sin(3*turn))))
		}
	}
	var b bytes.Buffer
	put := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) } // a buffer takes all
	size := uint32(2 * len(samples))
	b.WriteString("RIFF")
	put(36 + size)
	b.WriteString("WAVEfmt ")
	put(uint32(16))
	put([2]uint16{1, 1}) // plain PCM, one channel
	put([2]uint32{toneRate, 2 * toneRate})
	put([2]uint16{2, 16})
	b.WriteString("data")
	put(size)
	put(samples)
	return b.Bytes()
}
