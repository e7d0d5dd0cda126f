package drawing

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// rasterRenderer shows a widget that is one raster, and lets its images go
// when the widget is closed.
type rasterRenderer struct {
	raster  *canvas.Raster
	release func()
}

// Destroy lets the images go.
func (r *rasterRenderer) Destroy() { r.release() }

// Layout gives the raster the whole widget.
func (r *rasterRenderer) Layout(s fyne.Size) { r.raster.Resize(s) }

// MinSize asks for nothing; the widget does.
func (r *rasterRenderer) MinSize() fyne.Size { return r.raster.MinSize() }

// Objects gives the raster.
func (r *rasterRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.raster} }

// Refresh draws the raster anew.
func (r *rasterRenderer) Refresh() { r.raster.Refresh() }
