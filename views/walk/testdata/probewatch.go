package main

import (
	"encoding/json"
	"slices"
	"time"

	"fyne.io/fyne/v2"
)

// The watch keeps all that the windows say, as often as it changes, just before
// it is drawn.

// watching is the watch under way; touched on the interface's goroutine only.
var watching struct {
	round  *fyne.Animation
	states [][]seen
	last   []string
}

// watch begins to keep what the windows say.
func watch(string) string {
	onScreen(func() {
		watching.states, watching.last = nil, nil
		watching.round = fyne.NewAnimation(time.Hour, func(float32) { sight() })
		watching.round.Start()
	})
	return "watching"
}

// watched ends the watch and gives what it has kept, oldest first.
func watched(string) string {
	var line []byte
	onScreen(func() {
		watching.round.Stop()
		sight()
		line, _ = json.Marshal(watching.states)
	})
	return string(line)
}

// sight keeps what the windows say unless it is what they said before.
func sight() {
	var words []string
	var state []seen
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		size := w.Canvas().Size()
		v := &viewer{size: size}
		v.walk(w.Content(), fyne.NewPos(0, 0), size)
		var some []shown
		for _, x := range append(v.things, v.beyond...) {
			if x.Kind == "opens" || x.Kind == "text" || x.Kind == "field" {
				some = append(some, shown{Kind: x.Kind, Path: x.Path, Text: x.Text})
				words = append(words, x.Kind, x.Path, x.Text)
			}
		}
		state = append(state, seen{Title: w.Title(), Things: some})
	}
	if !slices.Equal(words, watching.last) {
		watching.last = words
		watching.states = append(watching.states, state)
	}
}
