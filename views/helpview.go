package views

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// block draws a block of the help.
func (p *helpPage) block(b helpBlock) fyne.CanvasObject {
	switch b.kind {
	case helpHead:
		return container.New(layout.NewCustomPaddedLayout(12, 0, 0, 0), touch.NewText(b.text, touch.Title, touch.Ink))
	case helpStep:
		return p.led(touch.NewLine(b.lead, touch.Title, touch.Touchable), 34, b)
	case helpPoint:
		return p.led(touch.NewLine("·", touch.Title, touch.Faint), 34, b)
	case helpCaution:
		return p.led(touch.NewSign(touch.Check, 24), 34, b)
	case helpTerm:
		return p.led(touch.NewText(b.lead, touch.Strong, touch.Ink), 190, b)
	}
	return p.led(nil, 0, b)
}

// led draws a block behind what leads it in, which has a column of its own, with
// its links at the right; links alone stand where the text would.
func (p *helpPage) led(lead fyne.CanvasObject, column float32, b helpBlock) fyne.CanvasObject {
	l := &helpLine{lead: column}
	line := container.New(l, touch.NewText(b.text, touch.Body, touch.Ink))
	links := container.New(layout.NewCustomPaddedVBoxLayout(0))
	for _, x := range b.links {
		links.Add(container.NewHBox(touch.NewStyledButton(x.label+" →", touch.Quiet, func() { p.desk.follows(x.to) })))
	}
	switch {
	case b.text == "":
		return links
	case len(b.links) > 0:
		l.links = linksWidth
		line.Add(links)
	}
	if lead != nil {
		line.Add(lead)
	}
	return line
}

// helpLine sets a text between the columns for what leads it in and for its
// links. A text beside links is in the middle of their height.
type helpLine struct{ lead, links float32 }

const linksWidth = 220

func (l *helpLine) MinSize(o []fyne.CanvasObject) (least fyne.Size) {
	for _, x := range o {
		least = least.Max(x.MinSize())
	}
	return fyne.NewSize(l.lead+o[0].MinSize().Width+l.links, least.Height)
}

func (l *helpLine) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const gap = 12
	rest, drop := o[1:], float32(0)
	high := o[0].MinSize().Height
	if l.links > 0 {
		drop = max(0, (min(size.Height, look.Target)-high)/2)
		rest[0].Move(fyne.NewPos(size.Width-l.links, 0))
		rest[0].Resize(fyne.NewSize(l.links, rest[0].MinSize().Height))
		rest = rest[1:]
	}
	o[0].Move(fyne.NewPos(l.lead, drop))
	o[0].Resize(fyne.NewSize(size.Width-l.lead-l.links, high))
	if len(rest) > 0 {
		least := rest[0].MinSize()
		rest[0].Move(fyne.NewPos(0, drop))
		rest[0].Resize(fyne.NewSize(max(least.Width, l.lead-gap), least.Height))
	}
}

// addKeys lists the keys of the menus, which every window has.
func (p *helpPage) addKeys(all *fyne.Container) {
	for _, menu := range p.desk.menu(notebookKey, p.desk.windows.Window(notebookKey)).Items {
		first := true
		for _, item := range menu.Items {
			keys := keysOf(item)
			if keys == "" {
				continue
			}
			if first {
				all.Add(p.block(helpBlock{kind: helpHead, text: "Menu " + menu.Label}))
				first = false
			}
			all.Add(p.block(helpBlock{kind: helpTerm, lead: keys, text: item.Label}))
		}
	}
}

// keysOf words the keys of a menu's entry; "" where it has none.
func keysOf(item *fyne.MenuItem) string {
	s, ok := item.Shortcut.(fyne.KeyboardShortcut)
	if !ok {
		return ""
	}
	var parts []string
	if s.Mod()&fyne.KeyModifierShortcutDefault != 0 {
		parts = append(parts, "Ctrl")
	}
	if s.Mod()&fyne.KeyModifierShift != 0 {
		parts = append(parts, "Shift")
	}
	text := strings.Join(append(parts, string(s.Key())), "+")
	if item.Label == redoLabel || strings.HasPrefix(item.Label, redoLabel+":") {
		text += " or Ctrl+Shift+Z"
	}
	return text
}
