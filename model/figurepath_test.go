package model

import "testing"

func TestFiguresOfASheetAreEnteredWithTheirConditions(t *testing.T) {
	p := tray(300, 200, 40, 10)
	for _, c := range []struct{ path, typed, shown string }{
		{"sheets/s1/densityA", "1.13", "1.13 g/ml"},
		{"sheets/s1/workingTime", "2.4", "2.4 h"},
		{"sheets/s1/workingTime/at", "22", "22 °C"},
		{"sheets/s1/workingTime/mass", "500", "500 g"},
		{"sheets/s1/maxLayer", "40", "40 mm"},
		{"sheets/s1/coldest", "16", "16 °C"},
		{"sheets/s1/shrink", "3.2", "3.2 %"},
		{"sheets/s1/activation", "58", "58 kJ/mol"},
		{"sheets/s1/workingOther", "45 min", "45 min"},
		{"sheets/s1/workingOther/at", "30", "30 °C"},
		{"sheets/s1/workingOther/mass", "500", "500 g"},
		{"sheets/s1/gelOther", "9", "9 h"},
		{"sheets/s1/gelOther/at", "30", "30 °C"},
		{"sheets/s1/heat", "290", "290 J/g"},
		{"sheets/s1/peak", "140", "140 °C"},
		{"sheets/s1/peak/at", "25", "25 °C"},
		{"sheets/s1/peak/mass", "150", "150 g"},
		{"sheets/s1/peakLimit", "60", "60 °C"},
		{"sheets/s1/viscosity", "500", "500 mPa·s"},
		{"sheets/s1/volumeRatio/a", "2", "2"},
	} {
		if err := Enter(&p, c.path, c.typed); err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if got, _ := Show(&p, c.path); got != c.shown {
			t.Errorf("%s shows %q, want %q", c.path, got, c.shown)
		}
	}
	if err := Enter(&p, "sheets/s1/shrink", "120 %"); err == nil {
		t.Error("a shrinkage above 100 % was taken")
	}
	// The conditions survive the figure being cleared, and the other way round.
	if err := Enter(&p, "sheets/s1/workingTime", ""); err != nil || p.Sheets[0].WorkingTime.Given() || !p.Sheets[0].WorkingTime.At.Given() {
		t.Errorf("cleared: %v, %+v", err, p.Sheets[0].WorkingTime)
	}
}
