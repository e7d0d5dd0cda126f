package views

import (
	"errors"

	"meniscus/app"
	"meniscus/model"
)

// errGone ends an edit of what was taken away meanwhile.
var errGone = errors.New("it is no longer there")

// orGone tells by the ID that something got that it was added to what is still there.
func orGone(id string) error {
	if id == "" {
		return errGone
	}
	return nil
}

// did says across every window why something that the maker touched was not done,
// where nothing beside it does; label names it as its step of undo. It tells
// whether it was done. What would change nothing is not done and not said.
func (d *Desk) did(label string, err error) bool {
	if err != nil && !errors.Is(err, app.ErrSame) {
		d.say(notice{level: model.Check, what: "Not done, and nothing has changed: " + brief(label, 60), do: sentences(capitalised(problemWords(err)))})
	}
	return err == nil
}

// edit changes the open project in one step, after what is being typed elsewhere,
// and says it where that is refused. It tells whether it was done. Edits with the
// same key (not empty) in a row are one step.
func (in *inputs) edit(label, key string, change func(*model.Project) error) bool {
	in.form.CommitAll()
	return in.desk.did(label, in.session.Edit(label, key, change))
}
