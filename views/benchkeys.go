package views

import (
	"time"

	"meniscus/model"
	"meniscus/views/touch"
)

// keyRows are the keys for a number, in two rows, with what keeps it at the right
// of the first.
func (b *benchLook) keyRows(keep ...*touch.Glove) [][]*touch.Glove {
	var rows [][]*touch.Glove
	for _, line := range []string{"12345←", "67890."} {
		var row []*touch.Glove
		for _, r := range line {
			press := func() { b.TypedRune(r) }
			if r == '←' {
				press = b.erase
			}
			row = append(row, touch.NewGlove(string(r), touch.Plain, benchFar, func() {
				if b.cover.lock == nil && !b.bounces(r) {
					press()
				}
			}))
		}
		rows = append(rows, row)
	}
	rows[0] = append(rows[0], keep...)
	return rows
}

// bounce is how soon after a key of the keypad the same key is not taken again.
// Digits follow each other faster than acts do, and 11 is two touches; but a wet
// glove lets go and touches again within a tenth of a second, where a finger needs
// longer (common practice, no source).
const bounce = 120 * time.Millisecond

// bounces tells whether a key of the keypad is touched again too soon.
func (b *benchLook) bounces(key rune) bool {
	now := b.cover.desk.session.Now()
	gone := now.Sub(b.keyAt)
	again := key == b.key && gone >= 0 && gone < bounce
	b.key, b.keyAt = key, now
	return again
}

// keepReading is the button that keeps what the scale reads.
func (b *benchLook) keepReading() *touch.Glove {
	label := "Keep it"
	if len(b.at.Acts) > 0 && b.typed != "" {
		label = b.at.Acts[0].Label
	}
	return b.glove(label, touch.Primary, benchFar, func() {
		if b.typed == "" {
			b.said = "Type what the scale reads first, cup and all."
			return
		}
		if len(b.at.Acts) > 0 {
			b.act(b.at.Acts[0])
		}
	})
}

// keepWarm are the buttons that keep a temperature: of the room, and of the
// resin once some is in the mold. Until one is typed each keeps the one that was
// noted last, as one touch says that it has not changed.
func (b *benchLook) keepWarm() []*touch.Glove {
	s := b.cover.desk.session
	keep := func(what, layer string, kind model.ReadingKind, style touch.Style) *touch.Glove {
		last, label := b.lastWarmth(kind, layer), "It is the "+what
		if b.typed == "" && last != "" {
			label = "Keep " + last + ": " + what
		}
		return b.glove(label, style, benchFar, func() {
			text := b.typed
			if text == "" {
				text = last
			}
			if text == "" {
				b.said = "Type the temperature first."
				return
			}
			room, part := text, ""
			if kind == model.ReadPart {
				room, part = "", text
			}
			if b.log(func() error { return s.AddReading(layer, room, part, s.Now()) }) {
				b.turn(benchActs)
			}
		})
	}
	list := []*touch.Glove{keep("room", "", model.ReadRoom, touch.Primary)}
	if l := b.shot.Plan.LastPoured(); l != nil {
		list = append(list, keep("resin", l.ID, model.ReadPart, touch.Plain))
	}
	return list
}

// lastWarmth is the temperature of a kind that was noted last, with its unit; ""
// for none.
func (b *benchLook) lastWarmth(kind model.ReadingKind, layer string) string {
	t, ok := b.shot.Project.LastReading(kind, layer)
	if !ok {
		return ""
	}
	return b.shot.Project.Style.Temperature(t)
}

// warmth is the temperature that is typed, or before that the room's last.
func (b *benchLook) warmth() string {
	last := b.lastWarmth(model.ReadRoom, "")
	if b.typed == "" && last != "" {
		return last
	}
	return b.typed + " °" + string(b.shot.Project.Style.TempUnit())
}
