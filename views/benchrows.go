package views

import (
	"fmt"
	"strings"

	"meniscus/model"
	"meniscus/views/touch"
)

// benchFar is the size of what is read from afar, on a screen of 1080 lines: its
// line is 54 pixels high and more.
const benchFar float32 = 58

// benchHand is the size of the words on the small buttons, at any height.
const benchHand float32 = 26

// quickNotes are the notes of one touch.
var quickNotes = []string{"Bubbles", "A leak", "Ran short", "All is well"}

// build makes the buttons anew where others are wanted, and marks the primary
// one. Where there is only a time to wait for, none is marked.
func (b *benchLook) build() {
	key := fmt.Sprint(b.mode, b.at.Layer, b.cover.lock != nil)
	for _, a := range b.at.Acts {
		key += "\n" + a.Label + fmt.Sprint(a.Primary)
	}
	_, back, any := b.shot.Project.LastAct(b.since)
	key += "\n" + back
	if b.mode == benchNote || b.mode == benchKeys {
		key += fmt.Sprint(b.typed != "")
	}
	if key == b.built {
		return
	}
	b.built, b.rows, b.mark = key, nil, -1
	if b.cover.lock != nil {
		b.Refresh()
		return
	}
	switch b.mode {
	case benchMore:
		b.rows = [][]*touch.Glove{b.moreRow()}
	case benchKeys:
		b.rows = b.keyRows(b.keepReading())
	case benchWarm:
		b.rows = b.keyRows(b.keepWarm()...)
	case benchNote:
		b.rows = [][]*touch.Glove{b.noteRow()}
	case benchHot:
		b.rows = [][]*touch.Glove{{b.glove("I have done that", touch.Primary, benchFar, func() { b.turn(benchActs) })}}
	default:
		b.rows = [][]*touch.Glove{b.actRow()}
	}
	foot := []*touch.Glove{b.glove("Lock to wipe", touch.Plain, benchHand, func() { b.cover.setLock(true) })}
	if any {
		foot = append(foot, b.glove("Take back: "+back, touch.Plain, benchHand, b.takeBack))
	}
	if b.mode == benchActs {
		foot = append(foot, b.glove("More", touch.Plain, benchHand, func() { b.turn(benchMore) }))
	} else {
		foot = append(foot, b.glove("Back", touch.Plain, benchHand, func() { b.turn(benchActs) }))
	}
	foot = append(foot, b.glove("Leave", touch.Plain, benchHand, func() { b.turn(benchActs); b.cover.hideBench() }))
	b.rows = append(b.rows, foot)
	if b.mode != benchActs {
		b.mark = 0
	}
	for i, g := range b.buttons() {
		if g.Primary() {
			b.mark = i
		}
	}
	b.showMark()
	b.Refresh()
}

// glove makes a button whose act is debounced with all the others.
func (b *benchLook) glove(label string, style touch.Style, size float32, act func()) *touch.Glove {
	return touch.NewGlove(label, style, size, func() { b.do(act) })
}

// actRow are the acts of the moment.
func (b *benchLook) actRow() []*touch.Glove {
	var row []*touch.Glove
	for i, a := range b.at.Acts {
		style := touch.Plain
		if a.Primary {
			style = touch.Primary
		}
		label := a.Label
		row = append(row, b.glove(label, style, benchFar, func() {
			// Time may have gone on to other acts.
			if i < len(b.at.Acts) && b.at.Acts[i].Label == label {
				b.act(b.at.Acts[i])
			}
		}))
	}
	if b.weighs() {
		row = append(row, b.glove("Type a reading", touch.Plain, benchFar, func() { b.turn(benchKeys) }))
	}
	return row
}

// moreRow are the acts of any moment.
func (b *benchLook) moreRow() []*touch.Glove {
	row := []*touch.Glove{
		b.glove("Note", touch.Plain, benchFar, func() { b.turn(benchNote) }),
		b.glove("Temperature now", touch.Plain, benchFar, func() { b.turn(benchWarm) }),
	}
	if b.poured() != "" {
		row = append(row, b.glove("Tack test", touch.Plain, benchFar, func() { b.turn(benchActs); b.ask.Layer, b.ask.Touch = "", true }))
	}
	if layer := b.at.Layer; layer != "" {
		row = append(row, b.glove("Stop: too hot", touch.Plain, benchFar, func() {
			place := b.shot.Project.HotPlaceOf(layer)
			b.keep(model.TooHotEntry(layer, place))
			b.turn(benchHot) // what to do is shown even where it cannot be noted
			b.card = hotCard(place)
		}))
	}
	return row
}

// noteRow are the notes of one touch, or the one that was typed.
func (b *benchLook) noteRow() []*touch.Glove {
	note := func(text string) func() {
		return func() {
			if b.log(func() error { return b.cover.desk.session.AddNote(text) }) {
				b.turn(benchActs)
			}
		}
	}
	if b.typed != "" {
		return []*touch.Glove{b.glove("Keep the note", touch.Primary, benchFar, func() { note(b.typed)() })}
	}
	var row []*touch.Glove
	for _, text := range quickNotes {
		row = append(row, b.glove(text, touch.Plain, benchFar, note(text)))
	}
	return row
}

// keyRows are the keys for a number, in two rows, with what keeps it at their
// right.
func (b *benchLook) keyRows(keep ...*touch.Glove) [][]*touch.Glove {
	var rows [][]*touch.Glove
	for _, line := range []string{"12345←", "67890."} {
		var row []*touch.Glove
		for _, r := range line {
			press := func() { b.TypedRune(r) }
			if r == '←' {
				press = b.erase
			}
			// Digits follow each other faster than acts do: 11 is two touches.
			row = append(row, touch.NewGlove(string(r), touch.Plain, benchFar, func() {
				if b.cover.lock == nil {
					press()
				}
			}))
		}
		rows = append(rows, row)
	}
	for i, g := range keep {
		rows[i] = append(rows[i], g)
	}
	return rows
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
// resin once some is in the mold.
func (b *benchLook) keepWarm() []*touch.Glove {
	s := b.cover.desk.session
	keep := func(layer string, room, part func() string) func() {
		return func() {
			if b.typed == "" {
				b.said = "Type the temperature first."
				return
			}
			if b.log(func() error { return s.AddReading(layer, room(), part(), s.Now()) }) {
				b.turn(benchActs)
			}
		}
	}
	typed, none := func() string { return b.typed }, func() string { return "" }
	list := []*touch.Glove{b.glove("It is the room", touch.Primary, benchFar, keep("", typed, none))}
	if layer := b.poured(); layer != "" {
		list = append(list, b.glove("It is the resin", touch.Plain, benchFar, keep(layer, none, typed)))
	}
	return list
}

// hotCard says what to do with a cup or a mold that got too hot.
func hotCard(place model.HotPlace) string {
	var lines []string
	for i, s := range model.TooHot(place) {
		lines = append(lines, fmt.Sprintf("%d  %s.", i+1, s.Do))
	}
	lines = append(lines, model.Burnt)
	return strings.Join(lines, "\n")
}

// poured is the topmost layer whose pour was started; "" for none.
func (b *benchLook) poured() string {
	layer := ""
	for _, l := range b.shot.Plan.Layers {
		if _, begun := b.shot.Project.PourStart(l.ID); begun {
			layer = l.ID
		}
	}
	return layer
}

// buttons are all buttons, row by row.
func (b *benchLook) buttons() []*touch.Glove {
	var list []*touch.Glove
	for _, row := range b.rows {
		list = append(list, row...)
	}
	return list
}

// move moves the mark by one button, or by a row.
func (b *benchLook) move(by int, row bool) {
	list := b.buttons()
	if len(list) == 0 {
		return
	}
	if row && b.mark >= 0 {
		at, first := 0, 0
		for i, r := range b.rows {
			if b.mark >= first && b.mark < first+len(r) {
				at = i
				break
			}
			first += len(r)
		}
		to := (at + by + len(b.rows)) % len(b.rows)
		for len(b.rows[to]) == 0 {
			to = (to + by + len(b.rows)) % len(b.rows)
		}
		start := 0
		for _, r := range b.rows[:to] {
			start += len(r)
		}
		b.mark = start + (b.mark-first)*len(b.rows[to])/max(len(b.rows[at]), 1)
	} else {
		b.mark = (max(b.mark, -1) + by + len(list)) % len(list)
		if b.mark < 0 {
			b.mark = len(list) - 1
		}
	}
	b.showMark()
}

// showMark draws the mark.
func (b *benchLook) showMark() {
	for i, g := range b.buttons() {
		g.SetMarked(i == b.mark)
	}
}
