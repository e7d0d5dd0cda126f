package model

import (
	"strconv"
	"strings"
)

// labelWithin names a field as Label does, and says which of several it is
// where an item or a figure of the sheet lies between: "Diameter of knot 1 in
// maple offcut", "Gel of slow resin, temperature".
func labelWithin(p *Project, path string) string {
	parts := strings.Split(path, "/")
	last := parts[len(parts)-1]
	if len(parts) == 2 && itemName(p, parts) != "" { // the whole item
		return upperFirst(itemName(p, parts))
	}
	if len(parts) == 4 && parts[0] == "sheets" && parts[2] != "volumeRatio" && parts[2] != "weightRatio" {
		if words := map[string]string{"at": "temperature it holds at", "mass": "mass it holds at"}[last]; words != "" {
			return Label(p, strings.Join(parts[:3], "/")) + ", " + words
		}
	}
	outer := itemName(p, parts)
	if len(parts) >= 4 && outer != "" {
		if inner, _ := Show(p, strings.Join(parts[:4], "/")+"/name"); inner != "" {
			if len(parts) == 4 {
				return upperFirst(inner) + " in " + outer
			}
			return strings.TrimSuffix(Label(p, path), " of "+outer) + " of " + inner + " in " + outer
		}
		return byAllNames(p, parts, 2, outer)
	}
	if len(parts) > 2 && outer == "" {
		return upperFirst(spacedOut(parts[0])) + ", " + lowerFirst(byAllNames(p, parts, 1, ""))
	}
	return Label(p, path)
}

// byAllNames names a field by all the names on the way to it from the one of
// that number on: "Nature, moisture of maple offcut", "Stations, no. 3 of river".
func byAllNames(p *Project, parts []string, from int, of string) string {
	var words []string
	for i := from; i < len(parts); i++ {
		word := spacedOut(parts[i])
		if n, err := strconv.Atoi(word); err == nil {
			word = "no. " + itoa(n+1)
		} else if said, ok := said[parts[i]]; ok && i == len(parts)-1 {
			word = said
		} else if item, err := locate(p, strings.Join(parts[:i+1], "/")); err == nil && hasID(item.Type()) {
			word, _ = Show(p, strings.Join(parts[:i+1], "/")+"/name")
		}
		words = append(words, word)
	}
	text := upperFirst(strings.Join(words, ", "))
	if of != "" {
		text += " of " + of
	}
	return text
}
