package sight

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/shape"
)

const (
	leastSpot = 1.0  // pixels; marks nearer than that are one spot
	leastGap  = 1e-4 // m; and so are their places
	flattest  = 0.01 // height over longest side of a triangle that still counts as one
)

// check tells what is wrong with marks that can be told before solving, or nil.
func (f *Fit) check() *Fault {
	marks := f.Marks
	for i := range marks {
		for _, v := range [4]float64{marks[i].Pixel.X, marks[i].Pixel.Y, marks[i].Place.X, marks[i].Place.Y} {
			if !(math.Abs(v) < 1e9) {
				return &Fault{NotFinite, []int{i}, "the place of " + numbered(i) + " is not a number that can be used", "touch it again, or measure its place again"}
			}
		}
	}
	if n := len(marks); n < 4 {
		return &Fault{TooFew, nil, fmt.Sprintf("a photo is straightened by four marks or more, and there are %d", n), fmt.Sprintf("touch %d more", 4-n)}
	}
	pixel := func(i int) shape.Point { return marks[i].Pixel }
	place := func(i int) shape.Point { return marks[i].Place }
	if i, j, found := together(len(marks), pixel, leastSpot); found {
		return &Fault{SameSpot, []int{i, j}, numbered(i, j) + " are on one spot of the photo", "move one of them to where it belongs"}
	}
	if i, j, found := together(len(marks), place, leastGap); found {
		return &Fault{SameSpot, []int{i, j}, numbered(i, j) + " have the same place", "measure the place of one of them again"}
	}
	if len(marks) > 4 {
		if inLine(len(marks), pixel) || inLine(len(marks), place) {
			return linedUp()
		}
		return nil
	}
	for out := range 4 {
		three := slices.Delete([]int{0, 1, 2, 3}, out, out+1)
		if thin(pixel(three[0]), pixel(three[1]), pixel(three[2])) {
			return &Fault{InLine, three, numbered(three...) + " lie in a line in the photo", "move one of them well off that line"}
		}
		if thin(place(three[0]), place(three[1]), place(three[2])) {
			return &Fault{InLine, three, numbered(three...) + " were measured in a line", "choose one that lies well off that line"}
		}
	}
	return crossing(marks)
}

// together finds two of n points that lie no farther apart than that, looking
// along x.
func together(n int, of func(int) shape.Point, apart float64) (i, j int, found bool) {
	order := make([]int, n)
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch p, q := of(a).X, of(b).X; {
		case p < q:
			return -1
		case p > q:
			return 1
		}
		return 0
	})
	const ahead = 64 // more in one narrow strip are passed over; the solution tells
	for k, a := range order {
		for _, b := range order[k+1 : min(n, k+1+ahead)] {
			p, q := of(a), of(b)
			if q.X-p.X > apart {
				break
			}
			if math.Hypot(p.X-q.X, p.Y-q.Y) <= apart {
				return min(a, b), max(a, b), true
			}
		}
	}
	return 0, 0, false
}

// inLine tells whether all but one of n points, or all of them, lie in a line.
// Two of the first three are then on it.
func inLine(n int, of func(int) shape.Point) bool {
	extent := 0.0
	for k := range n {
		extent = max(extent, math.Hypot(of(k).X-of(0).X, of(k).Y-of(0).Y))
	}
	for _, pair := range [3][2]int{{0, 1}, {0, 2}, {1, 2}} {
		a, b := of(pair[0]), of(pair[1])
		apart, off := math.Hypot(b.X-a.X, b.Y-a.Y), 0
		for k := range n {
			if math.Abs(turn(a, b, of(k))) > flattest*extent*apart {
				off++
			}
		}
		if off <= 1 {
			return true
		}
	}
	return false
}

// thin tells whether a triangle is hardly one.
func thin(a, b, c shape.Point) bool {
	longest := max(math.Hypot(a.X-b.X, a.Y-b.Y), math.Hypot(b.X-c.X, b.Y-c.Y), math.Hypot(c.X-a.X, c.Y-a.Y))
	return math.Abs(turn(a, b, c)) <= flattest*longest*longest
}

// turn is twice the area of a triangle, positive where it runs from x to y.
func turn(a, b, c shape.Point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

// crossing tells which two of four marks were touched in each other's stead.
// Seen through a lens every three of four points turn the way they do in the
// plane, or all the other way.
func crossing(marks []Mark) *Fault {
	if turnAlike(marks) {
		return nil
	}
	for _, pair := range [][2]int{{2, 3}, {1, 2}, {0, 1}, {0, 3}, {0, 2}, {1, 3}} {
		i, j := pair[0], pair[1]
		swapped := slices.Clone(marks)
		swapped[i].Pixel, swapped[j].Pixel = marks[j].Pixel, marks[i].Pixel
		if turnAlike(swapped) {
			return &Fault{Crossing, []int{i, j}, "the lines from mark to mark cross: the marks do not follow each other round", "swap " + numbered(i, j)}
		}
	}
	return misplaced()
}

// turnAlike tells whether four marks turn in the photo as they do in the plane, or
// all the other way.
func turnAlike(marks []Mark) bool {
	same := 0
	for out := range 4 {
		t := slices.Delete([]int{0, 1, 2, 3}, out, out+1)
		a, b, c := &marks[t[0]], &marks[t[1]], &marks[t[2]]
		if turn(a.Pixel, b.Pixel, c.Pixel)*turn(a.Place, b.Place, c.Place) > 0 {
			same++
		}
	}
	return same == 0 || same == 4
}

func misplaced() *Fault {
	return &Fault{Unlike, nil, "the marks do not lie in the photo as their places lie in the plane", "check that each mark sits on the point that was measured, and its two sizes"}
}

func linedUp() *Fault {
	return &Fault{InLine, nil, "too many of the marks lie in one line", "add marks that lie well off it"}
}
