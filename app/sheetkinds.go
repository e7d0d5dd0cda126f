package app

import (
	"fmt"
	"os"
	"strings"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
)

// sheetKinds are the papers that are written of an exported project; the first
// one where none is named.
var sheetKinds = []string{"shop", "card", "care", "label", "quote"}

// papered tells of a paper for the piece's owner or customer.
type papered struct {
	File  string `json:"file"`
	Paper any    `json:"paper"` // what is on it
}

// writePaper writes a paper of an exported project into a file; kind is one of
// sheetKinds. A quote goes by the prices of the project, since no shelf is read.
func writePaper(kind, from, to string, by paper.Painter, now time.Time) (any, error) {
	switch kind {
	case "shop":
		return writeSheet(from, to, by, now)
	case "card":
		return writeCard(from, to, now)
	case "care", "label", "quote":
	default:
		return nil, fmt.Errorf("there is no sheet “%s”: it is one of %s", kind, strings.Join(sheetKinds, ", "))
	}
	p, err := readProject(from)
	if err != nil {
		return nil, err
	}
	plan := model.Make(p)
	var on any
	var file []byte
	switch kind {
	case "care":
		care := model.NewCareSheet(&p, &plan, now)
		on = care
		file, err = paper.CareCard(care, now)
	case "label":
		list := model.PieceLabels(&p, &plan, now)
		on = list
		file, err = paper.Labels(list, now)
	case "quote":
		var q model.Quote
		if q, err = model.NewQuote(&p, &plan, model.CostFacts{}, false, now); err == nil {
			on = q
			file, err = paper.Quote(q, now)
		}
	}
	if err != nil {
		return nil, err
	}
	return papered{to, on}, os.WriteFile(to, file, 0o644)
}
