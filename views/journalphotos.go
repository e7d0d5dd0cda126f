package views

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"meniscus/views/touch"
)

// How large pictures are shown, in pixels: beside their line, and by themselves.
const (
	smallPhoto = 360
	largePhoto = 1800
)

// mostSmall bounds how many pictures are shown beside their lines, the newest
// first; the others are shown when their line is touched.
const mostSmall = 24

// journalPhotos holds the small pictures of a journal, and the place of the
// window where one is seen large. Decoding is left to the session.
type journalPhotos struct {
	desk    *Desk
	came    func() // draws what has arrived
	small   map[string]*keptPhoto
	arrived int // counts the pictures that have come

	root  *fyne.Container // lies over the whole window while a picture is seen large
	under fyne.CanvasObject
	frame *fyne.Container
	close *touch.Button
	large string // name of the picture that is seen large
}

// keptPhoto is a small picture: on its way, here, or why it is not.
type keptPhoto struct {
	picture image.Image
	err     error
}

func newJournalPhotos(d *Desk, came func()) *journalPhotos {
	v := &journalPhotos{desk: d, came: came, small: map[string]*keptPhoto{}, frame: container.NewStack()}
	v.close = touch.NewButton("Close the picture", v.hide)
	v.root = container.NewBorder(nil, inset(v.close), nil, nil, v.frame)
	v.root.Hide()
	return v
}

// over has a picture, while it is seen large, take the place of a part of the
// window.
func (v *journalPhotos) over(part fyne.CanvasObject) fyne.CanvasObject {
	v.under = part
	return container.New(covering{}, part, v.root)
}

// forget lets go of all pictures, and closes one that is seen large.
func (v *journalPhotos) forget() {
	v.small = map[string]*keptPhoto{}
	v.hide()
}

// of gives a small picture, and has it fetched the first time that it is asked
// for.
func (v *journalPhotos) of(name string) *keptPhoto {
	if p := v.small[name]; p != nil {
		return p
	}
	p := &keptPhoto{}
	v.small[name] = p
	v.desk.session.Picture(name, smallPhoto, func(picture image.Image, err error) {
		p.picture, p.err = picture, err
		v.arrived++
		v.came()
	})
	return p
}

// show opens a picture large.
func (v *journalPhotos) show(name string) {
	v.large = name
	v.frame.Objects = []fyne.CanvasObject{container.NewCenter(touch.NewLine("Opening the picture…", touch.Title, touch.Faint))}
	v.desk.session.Picture(name, largePhoto, func(picture image.Image, err error) {
		if v.large != name {
			return
		}
		if err != nil {
			v.frame.Objects = []fyne.CanvasObject{container.NewCenter(signed(touch.Stop, photoTrouble(err)))}
		} else {
			v.frame.Objects = []fyne.CanvasObject{newPhoto(picture)}
		}
		v.frame.Refresh()
	})
	v.under.Hide()
	v.root.Show()
	once(v.desk.session, func() bool { return fyne.CurrentApp().Driver().CanvasForObject(v.close) != nil }, func() {
		fyne.CurrentApp().Driver().CanvasForObject(v.close).Focus(v.close)
	}, mostBreaths)
}

// hide closes the large picture.
func (v *journalPhotos) hide() {
	if !v.root.Visible() {
		return
	}
	v.large, v.frame.Objects = "", nil
	v.root.Hide()
	v.under.Show()
}

// newPhoto paints a picture as large as it has room, in its own proportions.
func newPhoto(picture image.Image) *canvas.Image {
	i := canvas.NewImageFromImage(picture)
	i.FillMode, i.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleSmooth
	return i
}

// photoTrouble says why a picture cannot be shown.
func photoTrouble(err error) string { return "The picture cannot be shown: " + problemWords(err) }
