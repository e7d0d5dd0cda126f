// Package drawing paints the mold, the section and the charts on one small
// surface that the screen, the printed page and SVG share, and shows them in a
// widget that fingers can act on.
//
// Conventions: a Surface measures in dp, x to the right and y down; models
// measure in metres, y up; a View turns one into the other. Line widths follow
// ISO 128-2 in two groups (wide 2 dp, narrow 1 dp, so that at 0.25 mm a dp they
// print as 0.5 and 0.25 mm), dimensions follow ISO 129-1. Painters are pure:
// the same scene on the same view gives the same calls.
package drawing
