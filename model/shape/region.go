package shape

// Region is a part of the plane: outlines that run counterclockwise, holes in
// them that run clockwise, islands in those, and so on. Rings of a region
// neither cross nor overlap.
type Region []Ring
