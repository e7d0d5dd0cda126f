package model

import (
	"math"
	"strconv"
	"strings"

	"meniscus/model/unit"
)

// weighed turns a volume that was typed for what a bottle or a kit holds into
// its mass, by the density of that part on the product's data sheet; any other
// text, and that of any other field, stays as it is. A volume without a density
// is an error in the maker's words.
func (s *Shelf) weighed(path, text string) (string, error) {
	steps := strings.Split(path, "/")
	if len(steps) != 6 || steps[1] != "products" {
		return text, nil
	}
	product := s.Product(steps[2])
	if product == nil {
		return text, nil
	}
	part := PartName("")
	switch {
	case steps[3] == "kits" && (steps[5] == "a" || steps[5] == "b"):
		part = PartName(strings.ToUpper(steps[5]))
	case steps[3] == "bottles" && steps[5] == "holds":
		for i := range product.Bottles {
			if product.Bottles[i].ID == steps[4] {
				part = product.Bottles[i].Part
			}
		}
	}
	if part == "" {
		return text, nil
	}
	if _, err := s.pen().TakeMass(text); err == nil {
		return text, nil
	}
	volume, err := unit.ParseVolume(text, "")
	if err != nil {
		return text, nil
	}
	density := product.Sheet.DensityA.Value
	if part == PartB {
		density = product.Sheet.DensityB.Value
	}
	if density <= 0 {
		return "", &Problem{path, "a bottle by volume needs the density of " + string(part) + " on the product's data sheet; or give its weight, like 1 kg"}
	}
	grams := math.Round(volume.Of(density).Grams()*100) / 100
	return strconv.FormatFloat(grams, 'f', -1, 64) + " g", nil
}
