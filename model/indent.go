package model

import "bytes"

// indented lays out compact JSON for reading: two spaces a level, and lists of
// plain values, such as points, on one line.
func indented(plain []byte) []byte {
	var out bytes.Buffer
	out.Grow(len(plain) * 2)
	depth := 0
	line := func() {
		out.WriteByte('\n')
		for range depth {
			out.WriteString("  ")
		}
	}
	for i := 0; i < len(plain); i++ {
		switch c := plain[i]; c {
		case '"':
			end := i + textLength(plain[i:])
			out.Write(plain[i:end])
			i = end - 1
		case '{', '[':
			if flat := flatLength(plain[i:]); flat > 0 {
				out.Write(bytes.ReplaceAll(plain[i:i+flat], []byte(","), []byte(", ")))
				i += flat - 1
				continue
			}
			out.WriteByte(c)
			depth++
			line()
		case '}', ']':
			depth--
			line()
			out.WriteByte(c)
		case ',':
			out.WriteByte(c)
			line()
		case ':':
			out.WriteString(": ")
		default:
			out.WriteByte(c)
		}
	}
	return out.Bytes()
}

// flatLength gives the length of a list of numbers, or of an empty list or
// object, at the start of b; 0 for anything else.
func flatLength(b []byte) int {
	if b[1] == '}' {
		return 2
	}
	end := bytes.IndexAny(b[1:], `[]{}"`)
	if b[0] != '[' || end < 0 || b[1+end] != ']' {
		return 0
	}
	return end + 2
}

// textLength gives the length of the text in quotes at the start of b.
func textLength(b []byte) int {
	for i := 1; i < len(b); i++ {
		switch b[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return len(b)
}
