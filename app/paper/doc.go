// Package paper lays out what is printed, as a PDF, and a drawing at true size
// as an SVG too: black on white, in the program's own typeface, so that its text
// can be searched and copied. It chooses no words and computes no figures.
package paper
