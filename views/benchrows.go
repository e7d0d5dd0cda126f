package views

import (
	"fmt"
	"slices"
	"strings"

	"meniscus/model"
	"meniscus/views/touch"
)

// benchFar is the size of what is read from afar, on a screen of 1080 lines: its
// line is 54 pixels high and more.
const benchFar float32 = 58

// benchFurther is the size of what else there is to know, on such a screen: its line
// is 54 pixels high.
const benchFurther float32 = 44

// benchHand is the largest size of the words on the buttons of the foot.
const benchHand float32 = 46

// quickNotes are the notes of one touch.
var quickNotes = []string{"Bubbles", "A leak", "Ran short", "All is well"}

// build makes the buttons anew where others are wanted, and marks the primary
// one. Where there is only a time to wait for, none is marked.
func (b *benchLook) build(strip *benchStrip) {
	readOn := strip.words != "" && b.low() && !b.reads()
	key := fmt.Sprint(b.mode, b.at.Layer, b.at.Hot, b.cover.lock != nil, strip.seen != nil && b.mode != benchHot, readOn, b.low())
	for _, a := range b.at.Acts {
		key += "\n" + a.Label + fmt.Sprint(a.Primary)
	}
	_, back, any := b.shot.Project.LastAct(b.since)
	key += "\n" + back
	if b.mode == benchNote || b.mode == benchKeys || b.mode == benchWarm {
		key += fmt.Sprint(b.typed != "")
	}
	if key == b.built {
		return
	}
	b.built, b.rows, b.foot, b.seen, b.mark = key, nil, nil, nil, -1
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
	case benchTold:
		b.rows = [][]*touch.Glove{{b.glove("I have read it", touch.Primary, benchFar, func() { b.turn(benchActs) })}}
		if strip.seen != nil {
			b.rows[0][0] = b.putAway(touch.Primary)
		}
	default:
		b.rows = [][]*touch.Glove{b.actRow()}
	}
	if strip.seen != nil && !b.low() && !b.reads() {
		b.seen = b.putAway(touch.Plain)
	}
	b.foot = b.footRow(back, any)
	if readOn && b.foot != nil {
		b.foot = append([]*touch.Glove{b.glove("Read on", touch.Plain, benchHand, func() { b.turn(benchTold) })}, b.foot...)
	}
	if b.mode != benchActs {
		b.mark = len(b.buttons()) - len(b.below())
	}
	for i, g := range b.buttons() {
		if g.Primary() {
			b.mark = i
		}
	}
	b.showMark()
	b.Refresh()
}

// putAway is the button that puts away what is told.
func (b *benchLook) putAway(style touch.Style) *touch.Glove {
	return b.glove("I have seen it", style, benchFar, func() {
		if now := b.strip(); now.seen != nil {
			now.seen()
		}
	})
}

// footRow are the buttons that stand there at every moment: with a keypad, which
// needs their room, only beside it.
func (b *benchLook) footRow(back string, any bool) []*touch.Glove {
	var hot []*touch.Glove
	if b.at.Hot && b.mode != benchHot {
		hot = append(hot, b.glove("Stop: too hot", touch.Danger, benchHand, b.tooHot))
	}
	leave := b.glove("Back", touch.Plain, benchHand, func() { b.turn(benchActs) })
	if b.mode == benchKeys || b.mode == benchWarm {
		b.rows[1] = append(append(b.rows[1], hot...), leave)
		return nil
	}
	foot := []*touch.Glove{b.glove("Lock to wipe", touch.Plain, benchHand, func() { b.cover.setLock(true) })}
	if any {
		foot = append(foot, b.glove("Take back: "+back, touch.Plain, benchHand, b.takeBack))
	}
	foot = append(foot, hot...)
	if b.mode == benchActs {
		leave = b.glove("More", touch.Plain, benchHand, func() { b.turn(benchMore) })
	}
	return append(foot, leave)
}

// tooHot writes down that it got too hot, and shows what to do.
func (b *benchLook) tooHot() {
	layer := b.at.Layer
	place := b.shot.Project.HotPlaceOf(layer)
	b.keep(model.TooHotEntry(layer, place))
	b.turn(benchHot) // what to do is shown even where it cannot be noted
	b.card = hotCard(place)
}

// glove makes a button whose act is debounced with all the others.
func (b *benchLook) glove(label string, style touch.Style, size float32, act func()) *touch.Glove {
	return touch.NewGlove(label, style, size, func() { b.do(act) })
}

// actRow are the acts of the moment.
func (b *benchLook) actRow() []*touch.Glove {
	row := b.acts(false)
	if b.weighs() {
		row = append(row, b.glove("Type a reading", touch.Plain, benchFar, func() { b.turn(benchKeys) }))
	}
	return row
}

// acts are the buttons of the acts of the moment: of those that are rarely wanted,
// or of the others.
func (b *benchLook) acts(aside bool) []*touch.Glove {
	var row []*touch.Glove
	for i, a := range b.at.Acts {
		if a.Aside != aside {
			continue
		}
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
	return row
}

// moreRow are the acts of any moment, and the way out.
func (b *benchLook) moreRow() []*touch.Glove {
	row := append(b.acts(true),
		b.glove("Note", touch.Plain, benchFar, func() { b.turn(benchNote) }),
		b.glove("Temperature now", touch.Plain, benchFar, func() { b.turn(benchWarm) }),
		b.glove("Photo", touch.Plain, benchFar, b.photo),
	)
	if b.shot.Plan.LastPoured() != nil {
		row = append(row, b.glove("Tack test", touch.Plain, benchFar, func() { b.turn(benchActs); b.ask.Layer, b.ask.Touch = "", true }))
	}
	return append(row, b.glove("Leave", touch.Plain, benchFar, func() { b.turn(benchActs); b.cover.hideBench() }))
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

// hotCard says what to do with a cup or a mold that got too hot.
func hotCard(place model.HotPlace) string {
	var lines []string
	for i, s := range model.TooHot(place) {
		lines = append(lines, fmt.Sprintf("%d  %s.", i+1, s.Do))
	}
	lines = append(lines, model.Burnt)
	return strings.Join(lines, "\n")
}

// below are the buttons below the words, row by row.
func (b *benchLook) below() []*touch.Glove {
	var list []*touch.Glove
	for _, row := range b.rows {
		list = append(list, row...)
	}
	return append(list, b.foot...)
}

// buttons are all buttons, row by row.
func (b *benchLook) buttons() []*touch.Glove {
	if b.seen != nil {
		return append([]*touch.Glove{b.seen}, b.below()...)
	}
	return b.below()
}

// lines are how many buttons each row has, from the top down, but for empty ones.
func (b *benchLook) lines() []int {
	rows := append(slices.Clone(b.rows), b.foot)
	if b.seen != nil {
		rows = slices.Insert(rows, 0, []*touch.Glove{b.seen})
	}
	var list []int
	for _, row := range rows {
		if len(row) > 0 {
			list = append(list, len(row))
		}
	}
	return list
}

// move moves the mark by one button, or by a row.
func (b *benchLook) move(by int, row bool) {
	n := len(b.buttons())
	if n == 0 {
		return
	}
	switch {
	case b.mark < 0 && by < 0:
		b.mark = n - 1
	case b.mark < 0:
		b.mark = 0
	case row:
		lines, at, first := b.lines(), 0, 0
		for b.mark >= first+lines[at] {
			first += lines[at]
			at++
		}
		to, start := (at+by+len(lines))%len(lines), 0
		for _, n := range lines[:to] {
			start += n
		}
		b.mark = start + (b.mark-first)*lines[to]/lines[at]
	default:
		b.mark = (b.mark + by + n) % n
	}
	b.showMark()
}

// showMark draws the mark.
func (b *benchLook) showMark() {
	for i, g := range b.buttons() {
		g.SetMarked(i == b.mark)
	}
}
