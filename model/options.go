package model

import (
	"reflect"

	"meniscus/model/unit"
)

// options lists the values that a field of a word type can take, in the order
// in which they are offered.
var options = map[reflect.Type][]string{
	reflect.TypeFor[MoldKind]():        names(MoldRectangle, MoldRound, MoldOval, MoldPolygon, MoldOutline),
	reflect.TypeFor[End]():             names(AtRim, AtFloor),
	reflect.TypeFor[Across]():          names(AcrossFlats, AcrossCorners),
	reflect.TypeFor[FloorKind]():       names(FloorHDPE, FloorBoard, FloorMelamine, FloorSilicone, FloorAluminium, FloorGlass),
	reflect.TypeFor[BenchKind]():       names(BenchWood, BenchMetal, BenchOpen),
	reflect.TypeFor[ResinClass]():      names(ClassFast, ClassSlow),
	reflect.TypeFor[ColorantKind]():    names(ColorantMica, ColorantPaste, ColorantInk, ColorantOther),
	reflect.TypeFor[PartName]():        names(PartA, PartB),
	reflect.TypeFor[Feel]():            names(FeelStrings, FeelTape, FeelHard, FeelStiff, FeelBent),
	reflect.TypeFor[LeanKind]():        names(LeanNone, LeanAngle, LeanSizes),
	reflect.TypeFor[PieceKind]():       names(PieceRectangle, PieceStations, PieceOutline),
	reflect.TypeFor[VoidKind]():        names(VoidRound, VoidBox, VoidOutline),
	reflect.TypeFor[ReferenceKind]():   names(ByCorners, ByCard, ByPoints),
	reflect.TypeFor[RingKind]():        names(RingWood, RingHole),
	reflect.TypeFor[SawnKind]():        names(SawnFlat, SawnQuarter, SawnRift),
	reflect.TypeFor[BondKind]():        names(BondOne, BondBoth),
	reflect.TypeFor[PoreKind]():        names(PoresOpen, PoresFine, PoresPunky),
	reflect.TypeFor[InsertKind]():      names(InsertStanding, InsertLying, InsertHalf, InsertSphere, InsertBox, InsertRing, InsertFrustum, InsertDisplaces, InsertMass),
	reflect.TypeFor[RestKind]():        names(OnFloor, OnHeight, OnLayer),
	reflect.TypeFor[LevelKind]():       names(ToDepth, ToLevel, ToBelow),
	reflect.TypeFor[Along]():           names(AlongLength, AlongWidth),
	reflect.TypeFor[TrimShape]():       names(TrimAsCast, TrimRectangle, TrimCircle),
	reflect.TypeFor[ToolKind]():        names(ToolRouter, ToolPlaner, ToolHand, ToolBelt, ToolSaw, ToolNone),
	reflect.TypeFor[SurfaceKind]():     names(SurfaceSatin, SurfaceSilk, SurfaceClear, SurfaceRaw),
	reflect.TypeFor[GritSeries]():      names(SeriesFEPA, SeriesCAMI),
	reflect.TypeFor[SanderKind]():      names(SanderOrbit, SanderHand, SanderDisc, SanderBelt),
	reflect.TypeFor[GritMark]():        gritMarks(),
	reflect.TypeFor[MountKind]():       names(MountHandle, MountFoot, MountHanger),
	reflect.TypeFor[ScrewWay]():        names(ScrewThrough, ScrewInto),
	reflect.TypeFor[BiteKind]():        names(BiteMetal, BiteInsert, BiteNut, BiteWood),
	reflect.TypeFor[HeadKind]():        names(HeadPan, HeadTruss, HeadFlat82, HeadFlat90, HeadFlat100),
	reflect.TypeFor[ScrewSize]():       screwSizes(),
	reflect.TypeFor[CoatKind]():        names(CoatOil, CoatHardwax, CoatWax, CoatVarnish, CoatNone),
	reflect.TypeFor[CoatWhere]():       names(CoatAll, CoatWood),
	reflect.TypeFor[UseKind]():         names(UseShow, UseTable, UseBoard),
	reflect.TypeFor[PaidKind]():        names(PaidResin, PaidTint, PaidWood, PaidInsert),
	reflect.TypeFor[PerKind]():         names(PerCast, PerBatch, PerPiece),
	reflect.TypeFor[GainKind]():        names(GainMargin, GainMarkup),
	reflect.TypeFor[EntryKind]():       names(EntryPourStarted, EntryPourDone, EntryDemolded, EntryNote, EntryReading, EntryTack, EntryProbe, EntryWeighedA, EntryWeighedB, EntryMixing, EntryMixed, EntryPlaced, EntryChecked, EntryPhoto, EntryTooHot, EntryEmptied, EntryLeftOver, EntryMeasured, EntrySealMixed, EntryUsed, EntryWithdrawn),
	reflect.TypeFor[unit.Instrument](): names(unit.Tape, unit.Rule, unit.Caliper, unit.Feeler),
	reflect.TypeFor[unit.LengthUnit](): names(unit.InMillimetres, unit.InCentimetres, unit.InInches),
	reflect.TypeFor[unit.VolumeUnit](): names(unit.InMillilitres, unit.InLitres, unit.InFluidOunces, unit.InCubicInches),
	reflect.TypeFor[unit.MassUnit]():   names(unit.InGrams, unit.InKilograms, unit.InOunces, unit.InPounds),
	reflect.TypeFor[unit.TempUnit]():   names(unit.InCelsius, unit.InFahrenheit),
	reflect.TypeFor[unit.Grain]():      names(unit.TenthMillimetre, unit.WholeMillimetre, unit.Sixteenth, unit.ThirtySecond, unit.SixtyFourth),
}

func names[S ~string](s ...S) []string {
	out := make([]string, len(s))
	for i, v := range s {
		out[i] = string(v)
	}
	return out
}
