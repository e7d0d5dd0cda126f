package shape

// boxes is a tree of boxes over edges. A leaf holds the box around leafEdges
// edges in a row, a node above it the box around two nodes; as an outline is a
// path, edges near each other in it are near in the plane, and nothing need be
// sorted.
type boxes struct {
	rows [][]box // rows[0] are the leaves, the last row is the root
}

// node names a box of a tree.
type node struct{ row, at int }

// stacked gives the rows above leaves, which stand in a store that has room for
// as many boxes again.
func stacked(store []box) [][]box {
	var rows [][]box
	for row := store; ; {
		rows = append(rows, row)
		if len(row) <= 1 {
			return rows
		}
		from := len(store)
		for i := 0; i < len(row); i += 2 {
			b := row[i]
			if i+1 < len(row) {
				b = b.join(row[i+1])
			}
			store = append(store, b)
		}
		row = store[from:]
	}
}

func (t *boxes) root() node { return node{len(t.rows) - 1, 0} }

func (t *boxes) box(n node) *box { return &t.rows[n.row][n.at] }

// children gives the nodes below n; the second may be missing.
func (t *boxes) children(n node) (a, b node, two bool) {
	a = node{n.row - 1, 2 * n.at}
	b = node{n.row - 1, 2*n.at + 1}
	return a, b, b.at < len(t.rows[b.row])
}

// leaves calls f for every pair of leaves, one of t and one of u, whose boxes
// meet, until f says stop. With t == u each pair comes once, and each leaf
// also with itself. It tells whether f said stop.
func (t *boxes) leaves(u *boxes, f func(a, b node) (stop bool)) bool {
	type pair struct{ a, b node }
	work := make([]pair, 0, 64)
	work = append(work, pair{t.root(), u.root()})
	for len(work) > 0 {
		w := work[len(work)-1]
		work = work[:len(work)-1]
		self := t == u && w.a == w.b
		if !self && !t.box(w.a).meets(*u.box(w.b)) {
			continue
		}
		switch {
		case w.a.row == 0 && w.b.row == 0:
			if f(w.a, w.b) {
				return true
			}
		case self:
			a, b, two := t.children(w.a)
			work = append(work, pair{a, a})
			if two {
				work = append(work, pair{b, b}, pair{a, b})
			}
		case w.a.row >= w.b.row:
			a, b, two := t.children(w.a)
			work = append(work, pair{a, w.b})
			if two {
				work = append(work, pair{b, w.b})
			}
		default:
			a, b, two := u.children(w.b)
			work = append(work, pair{w.a, a})
			if two {
				work = append(work, pair{w.a, b})
			}
		}
	}
	return false
}
