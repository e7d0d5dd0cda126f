package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/views/touch"
)

// changesShares are the columns of the page of changes: the figure, what it was,
// what it is now, and the ratio.
var changesShares = againColumns{0.34, 0.23, 0.26, 0.17}

// wordShares are the same without a ratio.
var wordShares = againColumns{0.34, 0.23, 0.43}

// changesSheet shows what becomes of a piece that is made again: what is no
// longer allowed first, then what to look after, then what changes.
type changesSheet struct {
	said   *touch.Text
	box    *fyne.Container
	body   *fyne.Container // both
	scroll *touch.Scroll
	all    bool // what stays is shown too
	page   *model.ReissueSheet
}

func newChangesSheet() *changesSheet {
	s := &changesSheet{said: touch.NewText("", touch.Body, touch.Faint), box: container.New(layout.NewCustomPaddedVBoxLayout(10))}
	s.body = stack(s.said, s.box)
	s.scroll = touch.NewScroll(container.New(layout.NewCustomPaddedLayout(8, 8, 8, 14), s.body))
	return s
}

// say shows why there is no page.
func (s *changesSheet) say(words string, tone touch.Tone) {
	s.said.SetTone(tone)
	s.said.SetText(words)
	s.page = nil
	refill(s.box, s.scroll)
}

// wait tells that the page is being worked out; the last one stays to be read
// meanwhile.
func (s *changesSheet) wait() {
	s.said.SetTone(touch.Faint)
	s.said.SetText("Working out what changes…")
	s.body.Refresh() // the line gets its room
	s.scroll.Refresh()
}

// show shows a page.
func (s *changesSheet) show(page *model.ReissueSheet) {
	s.said.SetText("")
	s.page = page
	s.fill()
	s.body.Refresh() // what was said leaves no empty line
}

func (s *changesSheet) fill() {
	p := s.page
	list := []fyne.CanvasObject{touch.NewText(p.Lead, touch.Title, leadTone(p)), touch.NewText(p.Headline+".", touch.Strong, touch.Ink)}
	part := func(title string, tone touch.Tone, found []model.Finding) {
		if len(found) == 0 {
			return
		}
		box := container.New(layout.NewCustomPaddedVBoxLayout(10), touch.NewText(title, touch.Strong, tone))
		for _, f := range found {
			box.Add(findingWords(f))
		}
		list = append(list, box)
	}
	part("No longer allowed, or worse than it was", touch.StopTone, p.Refused)
	part("Stops that it had before, and still has", touch.StopTone, p.Still)
	part("To look after", touch.CheckTone, p.Look)
	list = append(list, s.changes()...)
	if len(p.Mended) > 0 {
		box := container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText("No longer in the way", touch.Strong, touch.GoodTone))
		for _, f := range p.Mended {
			box.Add(touch.NewText(f.What+".", touch.Body, touch.Ink))
		}
		list = append(list, box)
	}
	list = append(list, touch.NewText(p.Tested, touch.Small, touch.Faint), touch.NewText("Nothing is kept before you make it, and the past piece stays as it is.", touch.Small, touch.Faint))
	refill(s.box, s.scroll, list...)
}

// leadTone is the colour of what stands in the way.
func leadTone(p *model.ReissueSheet) touch.Tone {
	switch {
	case len(p.Still) > 0 || len(p.Refused) > 0 && p.Refused[0].Level == model.Stop:
		return touch.StopTone
	case len(p.Refused) > 0:
		return touch.CheckTone
	}
	return touch.Ink
}

// changes are the figures in groups, those that changed and, where asked for,
// those that stay.
func (s *changesSheet) changes() []fyne.CanvasObject {
	list := []fyne.CanvasObject{againHead(changesShares, "", "was", "now", "")}
	var box *fyne.Container
	group, same := "", 0
	for _, c := range s.page.Changes {
		if c.Same {
			same++
			if !s.all {
				continue
			}
		}
		if box == nil || c.Group != group {
			group = c.Group
			box = container.New(layout.NewCustomPaddedVBoxLayout(4), touch.NewText(capitalised(group), touch.Strong, touch.Ink))
			list = append(list, box)
		}
		if c.Same {
			box.Add(againRow(changesShares, touch.Faint, c.Label, c.Was, "as it was", ""))
			continue
		}
		if c.Ratio == "" { // words, for which there is more room
			box.Add(againRow(wordShares, touch.Ink, c.Label, orNone(c.Was), orNone(c.Now)))
			continue
		}
		box.Add(againRow(changesShares, touch.Ink, c.Label, orNone(c.Was), orNone(c.Now), c.Ratio))
	}
	if len(list) == 1 {
		list = []fyne.CanvasObject{touch.NewText("All figures stay as they were: it is the same piece once more. Choose at the left what is to be another.", touch.Body, touch.Ink)}
	}
	if same > 0 {
		label := "Show what stays too (" + counted(same, "figure", "figures") + ")"
		if s.all {
			label = "Show only what changes"
		}
		list = append(list, container.NewHBox(touch.NewStyledButton(label, touch.Quiet, func() { s.all = !s.all; s.fill() })))
	}
	return list
}

// orNone stands in for what is not there.
func orNone(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// findingWords shows a finding that leads nowhere, since what it is about is not
// kept yet.
func findingWords(f model.Finding) fyne.CanvasObject {
	level := levelOf(f.Level)
	words := container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewSigned(level.Word()+": "+f.What, touch.Strong, toneOf(level)))
	if f.Why != "" {
		words.Add(touch.NewText(f.Why, touch.Body, touch.Ink))
	}
	if f.Do != "" {
		words.Add(touch.NewText("→ "+f.Do, touch.Body, touch.Ink))
	}
	sign := container.New(layout.NewCustomPaddedLayout(0, 0, 0, 10), container.NewVBox(touch.NewSign(level, 26)))
	return container.NewBorder(nil, nil, sign, nil, words)
}

// toneOf is the colour of the words of a level.
func toneOf(l touch.Level) touch.Tone {
	switch l {
	case touch.Stop:
		return touch.StopTone
	case touch.Check:
		return touch.CheckTone
	}
	return touch.Faint
}
