// Package shape answers questions about outlines and solids: the area of a
// section at any height, the volume below a height, how far a point is from a
// wall, whether outlines cross.
//
// Conventions: metres; x along the mold's length, y across it, z up from the
// mold floor; counterclockwise is solid. Angles are counterclockwise.
//
// Cavities have straight walls from floor to rim and solids are exact; only
// the outlines drawn of arcs are chords, within 0.02 mm. Walls that belly, lips
// and floors that are not level are not modelled.
package shape
