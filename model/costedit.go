package model

import "meniscus/model/unit"

// AddPaid adds the price of something that goes into the piece and gives its
// ID.
func (p *Project) AddPaid(kind PaidKind, of string) string {
	m := Paid{ID: p.NewID("m"), Kind: kind, Of: of}
	p.Money.Prices = append(p.Money.Prices, m)
	return m.ID
}

// AddExtra adds a line of cost and gives its ID.
func (p *Project) AddExtra(what string) string {
	x := Extra{ID: p.NewID("x"), What: what}
	p.Money.Lines = append(p.Money.Lines, x)
	return x.ID
}

// AddTask adds a task and gives its ID.
func (p *Project) AddTask(name string, per PerKind) string {
	t := Task{ID: p.NewID("t"), Name: name, Per: per}
	p.Money.Tasks = append(p.Money.Tasks, t)
	return t.ID
}

// UsualTasks are the tasks of a cast in the order of the work, with how often
// each is done (common practice, no source). Their minutes are the maker's own.
func UsualTasks() []Task {
	return []Task{
		{Name: "set up and clean away", Per: PerBatch},
		{Name: "mold: build, seal, check", Per: PerCast},
		{Name: "wood: cut, clean, seal", Per: PerCast},
		{Name: "mix and pour", Per: PerCast},
		{Name: "look after the cure", Per: PerCast},
		{Name: "take out and trim", Per: PerCast},
		{Name: "flatten and sand", Per: PerPiece},
		{Name: "finish coat", Per: PerPiece},
		{Name: "pack and hand over", Per: PerPiece},
	}
}

// LogMinutes adds minutes to what a task has taken so far; below nothing it does
// not go. False where there is no such task, or nothing changes.
func (c *Costing) LogMinutes(task string, minutes int) bool {
	for i := range c.Tasks {
		if t := &c.Tasks[i]; t.ID == task {
			all := min(max(0, t.Logged.Value+unit.Minute.Times(float64(minutes))), unit.Span(taskTime.high))
			if all == t.Logged.Value && t.Logged.Given() {
				return false
			}
			t.Logged = unit.Taken[unit.Span]{Value: all, Written: WorkTime(all)}
			return true
		}
	}
	return false
}

// pieces is how many pieces one cast gives.
func (p *Project) pieces() int {
	if p.Money.Pieces > 0 {
		return p.Money.Pieces
	}
	return p.Mold.Cavities()
}

// sizes lists the numbers of casts that prices are shown for, the maker's or
// one, three and ten.
func (c *Costing) sizes() []int {
	var list []int
	for _, n := range c.Batches {
		if n > 0 && n <= mostBatch {
			list = append(list, n)
		}
	}
	if len(list) == 0 {
		return defaultBatches
	}
	return list
}

// UsualSizes puts the usual numbers of casts in, so that they can be changed.
func (c *Costing) UsualSizes() {
	if len(c.Batches) == 0 {
		c.Batches = append(c.Batches, defaultBatches...)
	}
}

const mostBatch = 10000
