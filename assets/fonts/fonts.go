// Package fonts holds the typeface that Meniscus carries inside its binary, for
// the screen and for paper. Its licence lies beside it in LICENSE.txt.
package fonts

import _ "embed"

// Regular is the typeface for running text, a TrueType file.
//
//go:embed Go-Regular.ttf
var Regular []byte

// Bold is the typeface for titles and numbers that matter, a TrueType file.
//
//go:embed Go-Bold.ttf
var Bold []byte

// Licence is what the typeface comes under, word for word.
//
//go:embed LICENSE.txt
var Licence string
