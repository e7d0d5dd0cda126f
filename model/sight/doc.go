// Package sight reads a photograph: where in a plane its pixels lie, and where
// the wood in it ends. It knows pixels and places, no files.
package sight
