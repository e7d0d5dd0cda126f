// Package look is how Meniscus looks: its colours, its type and the sizes that
// make every control big enough for a finger. There are two lights, paper and
// evening; in both, amber is kept for what a finger may act on, and the levels
// of a finding are told by a word and a shape before any colour.
package look
