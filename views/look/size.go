package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Sizes in toolkit units (1 at 96 dpi is one pixel).
const (
	Target float32 = 44 // the least side of anything that can be touched (WCAG 2.5.5)
	Bench  float32 = 57 // the same for what is touched beside the mold: 15 mm at 96 dpi
	Glove  float32 = 95 // the same for a wet glove, where nothing else is on the screen: 20 mm, as the toolkit takes 120 of these for an inch
	Gap    float32 = 8  // the least space between two targets
	Apart  float32 = 19 // the same between two for a wet glove: 4 mm

	Question float32 = 24  // the one question of a window
	Title    float32 = 18  // the name of a section
	Body     float32 = 15  // running text
	Small    float32 = 13  // help below an input
	Read     float32 = 34  // a number read at 1.5 m: 20 minutes of arc (ISO 9241-303)
	Count    float32 = 102 // a countdown: three times that
)

// Size gives the sizes that make the toolkit's own controls fit a finger.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return Body
	case theme.SizeNameCaptionText:
		return Small
	case theme.SizeNameSubHeadingText:
		return Title
	case theme.SizeNameHeadingText:
		return Question
	case theme.SizeNamePadding:
		return Gap
	case theme.SizeNameInnerPadding:
		return 15
	case theme.SizeNameLineSpacing:
		return 5
	case theme.SizeNameInlineIcon:
		return 24
	case theme.SizeNameInputBorder:
		return 2
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 5
	case theme.SizeNameScrollBar:
		return 16
	case theme.SizeNameScrollBarSmall:
		return 6
	case theme.SizeNameScrollBarRadius:
		return 3
	case theme.SizeNameSeparatorThickness:
		return 1
	}
	return theme.DefaultTheme().Size(name)
}
