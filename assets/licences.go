package assets

import (
	_ "embed"
	"strings"
)

// licences holds the licence texts of everything that is linked into the
// program, word for word. go test ./assets -run Licences -update writes it anew.
//
//go:embed licences.txt
var licences string

// Licence is what a part of the program that others wrote comes under.
type Licence struct {
	Name    string // the module, or what it is
	Version string
	Texts   []LicenceText
}

// LicenceText is one file that a part has its terms in.
type LicenceText struct {
	File string
	Text string
}

// What stands at the beginning of a line before a part, and before a file of it.
const (
	partMark = "=== "
	fileMark = "--- "
)

// Licences lists all parts by name, our own typeface and Go itself first.
func Licences() []Licence {
	list := []Licence{{Name: "Typeface", Texts: []LicenceText{{"fonts/LICENSE.txt", FontLicence()}}}}
	for _, part := range strings.Split("\n"+licences, "\n"+partMark)[1:] {
		head, rest, _ := strings.Cut(part, "\n")
		name, version, _ := strings.Cut(head, " ")
		l := Licence{Name: name, Version: version}
		for _, file := range strings.Split("\n"+rest, "\n"+fileMark)[1:] {
			name, text, _ := strings.Cut(file, "\n")
			l.Texts = append(l.Texts, LicenceText{name, strings.TrimSpace(text)})
		}
		list = append(list, l)
	}
	return list
}
