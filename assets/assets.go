// Package assets holds what Meniscus carries inside its binary for the screen:
// its icon, its typeface with the licence of that, and its help.
//
// The typeface tells 1 from l and I, and 0 from O, at a glance; all its digits
// are equally wide, so that columns of numbers line up; and it has the common
// fractions, the degree sign and the primes. Its licence lies beside it in
// fonts/LICENSE.txt.
package assets

import (
	"embed"

	"fyne.io/fyne/v2"

	"meniscus/assets/fonts"
)

//go:embed icon.png
var icon []byte

// Icon is the program's own picture: a liquid surface meeting a wooden wall. It
// is icon.svg as a picture of 128 pixels, since the toolkit would take 70 ms to
// draw it for each window.
var Icon fyne.Resource = fyne.NewStaticResource("meniscus.png", icon)

// Regular is the typeface for running text.
var Regular fyne.Resource = fyne.NewStaticResource("Go-Regular.ttf", fonts.Regular)

// Bold is the typeface for titles and numbers that matter.
var Bold fyne.Resource = fyne.NewStaticResource("Go-Bold.ttf", fonts.Bold)

// Help is what the program says of itself, a Markdown file a part.
//
//go:embed help/*.md
var Help embed.FS

// FontLicence is the licence that the typeface comes under, word for word, for
// the page that shows where things come from.
func FontLicence() string { return fonts.Licence }
