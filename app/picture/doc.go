// Package picture reads the photos that cameras and phones write: JPEG, PNG,
// GIF, WebP and HEIC. It trusts none of them. What a file claims of itself is
// looked at before any of it is decoded, and one that would take too much room
// or time, is damaged, or is no picture, is refused in words that say what to do.
package picture
