package views

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// shade is one colour that a resin is often given.
type shade struct{ name, hex string }

// shades are mixed for this program; no colour means the resin as it is.
var shades = []shade{
	{"no tint", ""},
	{"milk", "#f1ede4"},
	{"smoke", "#6f7378"},
	{"coal", "#26282b"},
	{"honey", "#c98a2b"},
	{"walnut", "#5b3a23"},
	{"brick", "#9b3a2e"},
	{"plum", "#6a3f63"},
	{"sea", "#2f6f93"},
	{"night", "#25365f"},
	{"lagoon", "#3b9a99"},
	{"moss", "#5d7440"},
}

// swatches is the palette of a layer's tint.
type swatches struct {
	root    *fyne.Container
	buttons []*touch.Button
	patches []*canvas.Rectangle
}

// newSwatches makes the palette of the tint at path, the colour's.
func newSwatches(in *inputs, layer string) *swatches {
	s := &swatches{root: container.NewGridWithColumns(3)}
	for _, c := range shades {
		b := touch.NewButton(c.name, func() {
			in.edit("Colour of "+layerName(in.session, layer), "", func(p *model.Project) error {
				i := p.LayerIndex(layer)
				if i < 0 {
					return errGone
				}
				t := &p.Layers[i].Tint
				t.Colour, t.Name = c.hex, cmp.Or(t.Name, c.name)
				return nil
			})
		})
		patch := swatch(fyne.NewSize(22, 44))
		paintSwatch(patch, c.hex)
		s.buttons, s.patches = append(s.buttons, b), append(s.patches, patch)
		s.root.Add(container.NewBorder(nil, nil, patch, nil, b))
	}
	return s
}

// see marks the colour that is chosen.
func (s *swatches) see(colour string) {
	for i, c := range shades {
		style := touch.Plain
		if c.hex == colour {
			style = touch.Primary
		}
		s.buttons[i].SetStyle(style)
		paintSwatch(s.patches[i], c.hex)
	}
}

// hexField is the colour as text, with a patch of it.
func hexField(in *inputs, layer string) fyne.CanvasObject {
	path := "layers/" + layer + "/tint/colour"
	f := in.words(path, "Colour as text", 1)
	f.SetHelp("as #rrggbb, such as #6f7378; empty for no tint")
	patch := swatch(fyne.NewSize(44, 44))
	in.also(path, func(shot *app.Snapshot) {
		text, _ := model.Show(&shot.Project, path)
		paintSwatch(patch, text)
		if _, ok := drawing.Hex(text); !ok && text != "" {
			f.SetProblem("this is no colour: write # and six of 0 to 9 and a to f")
		}
	})
	return container.NewBorder(nil, nil, nil, container.NewCenter(patch), f)
}

// layerName names a layer of the open project.
func layerName(s *app.Session, id string) string {
	shot := s.Snapshot()
	if l, ok := shot.Layer(id); ok {
		return l.Name
	}
	return "the layer"
}
