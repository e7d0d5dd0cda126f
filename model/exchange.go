package model

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"
)

// A project travels as one JSON file:
//
//	{"format": "meniscus-project", "version": 1, "project": {...}}
//
// where project has the names, quantities and words of Project, all numbers in
// SI. assets/project.schema.json describes it.
const (
	exchangeFormat  = "meniscus-project"
	exchangeVersion = 1
	deepestImport   = 64
	mostReported    = 20
)

// LargestImport bounds a file that Import takes, in bytes.
const LargestImport = 32 << 20

// document is the file around a project.
type document struct {
	Format  string  `json:"format"`
	Version int     `json:"version"`
	Project Project `json:"project"`
}

// ImportError is something in a file that keeps it from being taken.
type ImportError struct {
	Field  string // path in the project, such as "pieces/p2/thickness"; empty for the file itself
	Reason string // what is wrong and what would be right
}

// Error gives the field and the reason.
func (e *ImportError) Error() string {
	if e.Field == "" {
		return e.Reason
	}
	return e.Field + ": " + e.Reason
}

func refuse(field, reason string, args ...any) *ImportError {
	return &ImportError{field, fmt.Sprintf(reason, args...)}
}

// Export writes a project as one JSON file, indented. The same project gives
// the same bytes. It fails when a number in the project is not finite.
func Export(p Project) ([]byte, error) {
	data, err := written(document{exchangeFormat, exchangeVersion, p})
	if err != nil {
		return nil, fmt.Errorf("model: piece %q cannot be written: %w", p.Name, err)
	}
	return data, nil
}

// ExportShelf writes the shelf as one JSON file of the same build, to be read by
// people: no program takes it in. It fails as Export does.
func ExportShelf(m Shelf) ([]byte, error) {
	data, err := written(struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
		Shelf   Shelf  `json:"shelf"`
	}{"meniscus-shelf", 1, m})
	if err != nil {
		return nil, fmt.Errorf("model: the shelf cannot be written: %w", err)
	}
	return data, nil
}

// written writes what a file holds as JSON, indented.
func written(v any) ([]byte, error) {
	var plain bytes.Buffer
	e := json.NewEncoder(&plain)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return append(indented(bytes.TrimSpace(plain.Bytes())), '\n'), nil
}

// Import reads a file that Export wrote or a maker wrote by hand. It refuses a
// file larger than 32 MB, one of a newer version, and anything in it that it
// would have to drop, guess or repair: unknown, missing and doubled fields,
// numbers out of range, text that is no UTF-8. Errors are one *ImportError, or
// several joined.
func Import(data []byte) (Project, error) {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	switch {
	case len(data) > LargestImport:
		return Project{}, refuse("", "the file is larger than %d MB", LargestImport>>20)
	case !utf8.Valid(data):
		return Project{}, refuse("", "the file is not UTF-8 text")
	}
	if err := lookOver(data); err != nil {
		return Project{}, err
	}
	if err := rightVersion(data); err != nil {
		return Project{}, err
	}
	if err := strictly(data, reflect.TypeFor[document]()); err != nil {
		return Project{}, err
	}
	var doc document
	if err := json.Unmarshal(data, &doc); err != nil {
		return Project{}, refuse("", "the file cannot be read: %v", err)
	}
	var list []error
	for _, problem := range doc.Project.Validate() {
		if len(list) == mostReported {
			break
		}
		list = append(list, &ImportError{problem.Field, problem.Message})
	}
	if len(list) == 1 {
		return Project{}, list[0]
	}
	if len(list) > 1 {
		return Project{}, errors.Join(list...)
	}
	return doc.Project, nil
}

// rightVersion makes sure that the file is well-formed JSON of this format in
// a version that is known, before anything else in it is judged.
func rightVersion(data []byte) error {
	var head struct {
		Format  json.RawMessage `json:"format"`
		Version json.RawMessage `json:"version"`
	}
	err := json.Unmarshal(data, &head)
	var syntax *json.SyntaxError
	switch {
	case errors.As(err, &syntax):
		line := 1 + bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n"))
		return refuse("", "the file is not whole JSON: %s (line %d)", syntax.Error(), line)
	case err != nil:
		return refuse("", "the file should hold one object in braces")
	}
	var format string
	if json.Unmarshal(head.Format, &format) != nil || format != exchangeFormat {
		return refuse("format", "this should be “%s”; it is another kind of file", exchangeFormat)
	}
	var version int
	switch err := json.Unmarshal(head.Version, &version); {
	case err != nil || version < 1:
		return refuse("version", "this should be a whole number from 1 to %d", exchangeVersion)
	case version > exchangeVersion:
		return refuse("version", "the file has version %d and this program knows versions up to %d; open it with a newer program", version, exchangeVersion)
	}
	return nil
}

// lookOver refuses what the JSON decoder would take or mend silently, or only
// refuse after much work: nesting deeper than any project, and halves of
// characters beyond 16 bits written without their other half.
func lookOver(data []byte) error {
	depth, inText := 0, false
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case inText && c == '\\':
			if step, ok := escape(data[i:]); !ok {
				return refuse("", "the file has half a character (%.6s)", data[i:])
			} else {
				i += step - 1
			}
		case c == '"':
			inText = !inText
		case inText:
		case c == '{' || c == '[':
			if depth++; depth > deepestImport {
				return refuse("", "the file is nested more than %d deep", deepestImport)
			}
		case c == '}' || c == ']':
			depth--
		}
	}
	return nil
}

// escape gives the length of the escape at the start of b; false when it is
// half a surrogate pair.
func escape(b []byte) (int, bool) {
	unit, ok := hex4(b)
	switch {
	case !ok:
		return 2, true // \n and its kin, or an error that the decoder names
	case unit < 0xD800 || unit > 0xDFFF:
		return 6, true
	case unit >= 0xDC00:
		return 6, false
	}
	low, ok := hex4(b[6:])
	return 12, ok && low >= 0xDC00 && low <= 0xDFFF
}

// hex4 reads an escape of the form \u0041.
func hex4(b []byte) (rune, bool) {
	if len(b) < 6 || b[0] != '\\' || b[1] != 'u' {
		return 0, false
	}
	var r rune
	for _, c := range b[2:6] {
		i := strings.IndexByte("0123456789abcdef", c|0x20)
		if i < 0 {
			return 0, false
		}
		r = r<<4 | rune(i)
	}
	return r, true
}
