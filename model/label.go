package model

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Label names a field in words, for the steps of undo: "Mold depth",
// "Thickness of maple offcut".
func Label(p *Project, field string) string {
	parts := strings.Split(field, "/")
	last := lastWord(parts)
	if len(parts) == 1 {
		return upperFirst(last)
	}
	if name := cmp.Or(itemName(p, parts), mountName(p, parts)); name != "" {
		return upperFirst(last) + " of " + name
	}
	return upperFirst(spacedOut(parts[0])) + " " + last
}

// lastWord names what a path ends in: a condition by the figure that it belongs to,
// and an item of a list by its place in it, counted from one.
func lastWord(parts []string) string {
	word := func(name string) string {
		if w, ok := said[name]; ok {
			return w
		}
		return spacedOut(name)
	}
	n := len(parts) - 1
	last := word(parts[n])
	if n == 3 && parts[0] == "sheets" {
		return last + " of the " + word(parts[2])
	}
	if place, err := strconv.Atoi(parts[n]); err == nil && n > 0 {
		return fmt.Sprintf("%s %d", strings.TrimSuffix(word(parts[n-1]), "s"), place+1)
	}
	return last
}

// said are the names that say little outside the file, in words.
var said = map[string]string{
	"to": "height", "by": "way of giving the height", "x": "place along the mold", "y": "place across the mold", "turn": "turn",
	"on": "rest", "at": "temperature", "kind": "form", "a": "parts of A", "b": "parts of B", "span": "size across", "across": "measure across",
	"night": "temperature at night", "resin": "temperature of the resin", "wood": "temperature of the wood", "bottles": "temperature of the bottles", "leftA": "what is left of A", "leftB": "what is left of B", "bench": "bench", "planned": "time of the first pour", "wakes": "hour of rising", "sleeps": "hour of rest",
	"thick": "floor thickness", "class": "way of curing", "heat": "heat of reaction", "peak": "peak heat in a cup", "peakLimit": "hottest allowed",
	"workingOther": "working time at another temperature", "gelOther": "gel at another temperature",
	"eew": "epoxide equivalent weight", "ahew": "hardener equivalent weight",
	"floorAcross": "cup, across its floor", "brimAcross": "cup, across its brim", "cupTall": "cup, how tall it is", "grain": "grain size",
	"lineUnit": "cup, unit of its lines", "lineStep": "cup, from line to line", "lineReads": "cup, one of its lines", "lineAt": "cup, height of that line", "lineWater": "cup, water up to that line",
	"cupHolds": "largest cup", "cupRest": "rest of the cup",
	"tall": "height", "straight": "straight edge", "spacing": "distance of the stations", "colour": "colour", "clear": "clearness",
}

// mountName gives the name of the mount that a path leads through.
func mountName(p *Project, parts []string) string {
	if len(parts) < 4 || parts[0] != "finish" {
		return ""
	}
	name, _ := Show(p, strings.Join(parts[:3], "/")+"/name")
	return name
}

// itemName gives the name of the item that a path leads through.
func itemName(p *Project, parts []string) string {
	name, _ := Show(p, parts[0]+"/"+parts[1]+"/name")
	return name
}

// spacedOut splits a JSON name into words.
func spacedOut(name string) string {
	var b strings.Builder
	for _, r := range name {
		if unicode.IsUpper(r) {
			b.WriteByte(' ')
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}
