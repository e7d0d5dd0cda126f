package storage

// Words gives what happened and what to do, each a full sentence.
func (t *Trouble) Words() (what, do string) { return t.What, t.Do }

// Usable tells whether what could be read was returned beside the error.
func (t *Trouble) Usable() bool { return t.Partial }
