package model

import "meniscus/model/unit"

// speciesRow writes one kind of wood: shrinkage in per cent, specific gravities, and
// changes to a point of moisture.
func speciesRow(name string, radial, tangential, volumetric, green, dry, radialRate, tangentialRate float64, pores PoreKind, memory Columns) Species {
	return Species{
		Name: name, Radial: unit.Share(radial) * unit.Percent, Tangential: unit.Share(tangential) * unit.Percent, Volumetric: unit.Share(volumetric) * unit.Percent,
		Green: unit.Number(green), Dry: unit.Number(dry), RadialRate: radialRate, TangentialRate: tangentialRate, Pores: pores, Memory: memory,
	}
}

// called gives a kind of wood its further names, and those that can mean it.
func (s Species) called(also, near []string) Species {
	s.Also, s.Near = also, near
	return s
}

func (s Species) oily() Species {
	s.Oily = true
	return s
}

// woods lists names of wood.
func woods(n ...string) []string { return n }

// speciesTable holds the woods by name. The columns are: radial, tangential and
// volumetric shrinkage in %, specific gravity green and at 12 %, change to a
// point radially and tangentially. Shrinkage is from table 4-3 of the Wood
// Handbook, gravities are from table 5-3, changes from table 13-5; the text that
// was read is that of the edition of 2010, FPL-GTR-190, whose tables that of 2021
// keeps (value from memory). Each row ends with the columns that are values from
// memory; gravity green is one in all rows. How open the pores are is the
// handbook's chapter 3 (value from memory).
var speciesTable = []Species{
	speciesRow("American basswood", 6.6, 9.3, 15.8, .32, .37, .00230, .00330, PoresFine, ColumnGreen).called(woods("basswood"), woods("linden", "lime")),
	speciesRow("American beech", 5.5, 11.9, 17.2, .56, .64, .00190, .00431, PoresFine, ColumnGreen).called(nil, woods("beech")),
	speciesRow("American chestnut", 3.4, 6.7, 11.6, .40, .43, .00116, .00234, PoresOpen, ColumnGreen|ColumnDry).called(nil, woods("chestnut", "sweet chestnut")),
	speciesRow("American elm", 4.2, 9.5, 14.6, .46, .50, .00144, .00338, PoresOpen, ColumnGreen|ColumnDry).called(woods("white elm"), woods("elm")),
	speciesRow("American sycamore", 5.0, 8.4, 14.1, .46, .49, .00172, .00296, PoresFine, ColumnGreen|ColumnDry).called(woods("buttonwood", "lacewood"), woods("sycamore", "plane")),
	speciesRow("black cherry", 3.7, 7.1, 11.5, .47, .50, .00126, .00248, PoresFine, ColumnGreen).called(woods("American cherry"), woods("cherry")),
	speciesRow("black locust", 4.6, 7.2, 10.2, .66, .69, .00158, .00252, PoresOpen, columnsShrink|ColumnGreen).called(woods("robinia", "false acacia"), woods("locust", "acacia")),
	speciesRow("black walnut", 5.5, 7.8, 12.8, .51, .55, .00190, .00274, PoresOpen, ColumnGreen|ColumnDry).called(woods("American walnut"), woods("walnut")),
	speciesRow("black willow", 3.3, 8.7, 13.9, .36, .39, .00112, 0, PoresFine, ColumnGreen|ColumnDry).called(nil, woods("willow")),
	speciesRow("butternut", 3.4, 6.4, 10.6, .36, .38, .00116, .00223, PoresOpen, ColumnGreen|ColumnDry).called(woods("white walnut"), nil),
	speciesRow("Douglas-fir", 4.8, 7.6, 12.4, .45, .48, 0, 0, PoresFine, ColumnGreen|ColumnDry).called(woods("oregon pine"), nil).oily(),
	speciesRow("eastern cottonwood", 3.9, 9.2, 13.9, .37, .40, .00133, .00327, PoresFine, ColumnGreen|ColumnDry).called(nil, woods("cottonwood")),
	speciesRow("eastern redcedar", 3.1, 4.7, 7.8, .44, .47, 0, 0, PoresFine, ColumnGreen|ColumnDry).called(woods("aromatic cedar", "eastern red cedar"), nil).oily(),
	speciesRow("European sycamore, a maple", 4.5, 7.8, 12.3, .51, .56, 0, 0, PoresFine, columnsAll).called(woods("European sycamore", "sycamore maple"), nil),
	speciesRow("hackberry", 4.8, 8.9, 13.8, .49, .53, .00165, .00315, PoresOpen, ColumnGreen).called(nil, nil),
	speciesRow("hard maple", 4.8, 9.9, 14.7, .56, .63, .00165, .00353, PoresFine, columnsShrink|ColumnGreen|ColumnDry).called(woods("sugar maple", "rock maple"), woods("maple")),
	speciesRow("mockernut hickory", 7.7, 11.0, 17.8, .64, .72, 0, 0, PoresOpen, ColumnGreen).called(woods("true hickory"), woods("hickory")),
	speciesRow("olive", 5.4, 8.8, 14.4, .76, .86, 0, 0, PoresFine, columnsAll).called(nil, woods("olivewood")).oily(),
	speciesRow("paper birch", 6.3, 8.6, 16.2, .48, .55, .00219, .00304, PoresFine, ColumnGreen).called(woods("white birch"), nil),
	speciesRow("pecan", 4.9, 8.9, 13.6, .60, .66, .00169, .00315, PoresOpen, ColumnGreen).called(woods("pecan hickory"), nil),
	speciesRow("quaking aspen", 3.5, 6.7, 11.5, .35, .38, .00119, .00234, PoresFine, ColumnGreen).called(nil, woods("aspen")),
	speciesRow("red alder", 4.4, 7.3, 12.6, .37, .41, .00151, .00256, PoresFine, ColumnGreen).called(nil, woods("alder")),
	speciesRow("red oak", 4.0, 8.6, 13.7, .56, .63, .00158, .00369, PoresOpen, columnsShrink|ColumnGreen|ColumnDry).called(woods("northern red oak"), woods("black oak", "pin oak")),
	speciesRow("sassafras", 4.0, 6.2, 10.3, .42, .46, .00137, .00216, PoresOpen, ColumnGreen|ColumnDry).called(nil, nil),
	speciesRow("silver maple", 3.0, 7.2, 12.0, .44, .47, .00102, .00252, PoresFine, columnsShrink|ColumnGreen|ColumnDry).called(woods("soft maple"), nil),
	speciesRow("slippery elm", 4.9, 8.9, 13.8, .48, .53, .00169, .00315, PoresOpen, ColumnGreen).called(woods("red elm"), nil),
	speciesRow("sweetgum", 5.3, 10.2, 15.8, .46, .52, .00183, .00365, PoresFine, ColumnGreen|ColumnDry).called(woods("red gum", "sweet gum"), woods("gum")),
	speciesRow("western redcedar", 2.4, 5.0, 6.8, .31, .32, 0, 0, PoresFine, ColumnGreen|ColumnDry).called(woods("western red cedar"), woods("cedar", "red cedar")),
	speciesRow("white ash", 4.9, 7.8, 13.3, .55, .60, .00169, .00274, PoresOpen, ColumnGreen).called(woods("American ash"), woods("ash")),
	speciesRow("white oak", 5.6, 10.5, 16.3, .60, .68, .00180, .00365, PoresOpen, ColumnGreen|ColumnDry).called(nil, woods("oak")),
	speciesRow("yellow birch", 7.3, 9.5, 16.8, .55, .62, .00256, .00338, PoresFine, ColumnGreen).called(nil, woods("birch")),
	speciesRow("yellow-poplar", 4.6, 8.2, 12.7, .40, .42, 0, 0, PoresFine, ColumnGreen|ColumnDry).called(woods("tulipwood", "tulip poplar"), woods("poplar")),
}
