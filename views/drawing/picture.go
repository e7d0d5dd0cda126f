package drawing

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Picture is a widget that shows what a painter paints, such as a chart or a
// thumbnail, and takes no part in anything else.
type Picture struct {
	widget.BaseWidget

	fonts  *Fonts
	least  fyne.Size
	ground color.NRGBA
	paint  func(Surface)
	raster *canvas.Raster
	img    *Image
	stale  bool
}

// NewPicture makes a picture of at least a size.
func NewPicture(fonts *Fonts, least fyne.Size, ground color.NRGBA, paint func(Surface)) *Picture {
	p := &Picture{fonts: fonts, least: least, ground: ground, paint: paint, stale: true}
	p.raster = canvas.NewRaster(p.render)
	p.ExtendBaseWidget(p)
	return p
}

// Set shows another painting.
func (p *Picture) Set(ground color.NRGBA, paint func(Surface)) {
	p.ground, p.paint, p.stale = ground, paint, true
	p.raster.Refresh()
}

// MinSize gives the least size that the picture was made with.
func (p *Picture) MinSize() fyne.Size {
	p.ExtendBaseWidget(p)
	return p.least
}

// CreateRenderer makes the one raster that shows the picture.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer {
	return &rasterRenderer{p.raster, func() { p.img, p.stale = nil, true }}
}

func (p *Picture) render(w, h int) image.Image {
	if w < 1 || h < 1 || p.Size().Width < 1 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if p.img == nil || p.img.RGBA.Rect.Dx() != w || p.img.RGBA.Rect.Dy() != h {
		p.img = NewImage(w, h, float64(w)/float64(p.Size().Width), p.fonts)
		p.stale = true
	}
	if p.stale {
		p.img.Clear(p.ground)
		if p.paint != nil {
			p.paint(p.img)
		}
		p.stale = false
	}
	return p.img.RGBA
}
