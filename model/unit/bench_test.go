package unit

import "testing"

func BenchmarkParseLength(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParseLength(`1' 10 3/8"`, InInches); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStyleLength(b *testing.B) {
	b.ReportAllocs()
	s := Style{Lengths: InInches, Grain: SixtyFourth}
	for b.Loop() {
		if s.Length(10.375*Inch) == "" {
			b.Fatal("nothing written")
		}
	}
}
