package model

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// bruteKits tries every number of every kind up to what would cover the need
// alone, and picks by the same rule: price, then mass, then number, then most of
// the kinds that stand first.
func bruteKits(kinds []kitKind, a, b int64, allowed func([]int64) bool) (best []int64, rank kitRank) {
	now := make([]int64, len(kinds))
	var try func(k int, ra, rb int64, spent kitRank)
	try = func(k int, ra, rb int64, spent kitRank) {
		if k == len(kinds) {
			if ra > 0 || rb > 0 || !allowed(now) {
				return
			}
			if c := spent.compare(rank); best == nil || c < 0 || c == 0 && slices.Compare(now, best) > 0 {
				best, rank = slices.Clone(now), spent
			}
			return
		}
		for n := range min(kinds[k].most, max(times(a, kinds[k].a), times(b, kinds[k].b))) + 1 {
			now[k] = n
			try(k+1, ra-n*kinds[k].a, rb-n*kinds[k].b, spent.with(kinds[k], n))
		}
		now[k] = 0
	}
	try(0, a, b, kitRank{})
	return best, rank
}

// randomKinds draws kinds of kit in five families: sizes in whole grams; of one
// size step, so that many sets tie; priced by weight alone, so that all do; bottles of
// one part among kits of both; and few to be had of each.
func randomKinds(r *rand.Rand) []kitKind {
	family := r.IntN(5)
	kinds := make([]kitKind, 1+r.IntN(4))
	for i := range kinds {
		k := &kinds[i]
		k.a, k.b, k.price, k.most = 1000*(50+r.Int64N(2000)), 1000*(20+r.Int64N(1000)), 500+r.Int64N(9500), 1<<30
		switch family {
		case 1:
			k.a, k.b, k.price = 100_000*(1+r.Int64N(8)), 50_000*(1+r.Int64N(8)), 100*(1+r.Int64N(20))
		case 2:
			k.a = 100_000 * (1 + r.Int64N(8))
			k.b = k.a / 2
			k.price = k.a / 1000
		case 3:
			if r.IntN(2) == 0 {
				k.a = 0
			} else if r.IntN(2) == 0 {
				k.b = 0
			}
		case 4:
			k.most = r.Int64N(4)
		}
		if r.IntN(20) == 0 {
			k.price = 0
		}
	}
	return kinds
}

// TestKitsAgainstBruteForce holds the search against trying everything, on 500
// random cases and more: the set itself, its rank, and the next one.
func TestKitsAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 2026))
	found := 0
	for cases := 0; cases < 700; cases++ {
		kinds := randomKinds(r)
		a, b := 1000*r.Int64N(4000), 1000*r.Int64N(2000)
		if r.IntN(10) == 0 {
			a = 0
		}
		want, rank := bruteKits(kinds, a, b, func([]int64) bool { return true })
		got, gotRank, proven, ok := cheapestKits(kinds, a, b, anyRank)
		if !proven || ok != (want != nil) || ok && (!slices.Equal(got, want) || gotRank != rank) {
			t.Fatalf("case %d: %v for %d and %d: got %v %v (proven %t), want %v %v", cases, kinds, a, b, got, gotRank, proven, want, rank)
		}
		if want == nil || rank[2] == 0 {
			continue
		}
		found++
		// The next: the cheapest that does not hold the whole of the best.
		other, otherRank := bruteKits(kinds, a, b, func(n []int64) bool {
			for i := range n {
				if n[i] < want[i] {
					return true
				}
			}
			return false
		})
		next, nextRank, proven, ok := nextKits(kinds, a, b, got)
		if !proven || ok != (other != nil) || ok && (!slices.Equal(next, other) || nextRank != otherRank) {
			t.Fatalf("case %d: next of %v for %d and %d: got %v %v, want %v %v", cases, kinds, a, b, next, nextRank, other, otherRank)
		}
	}
	if found < 500 {
		t.Errorf("only %d cases had something to buy", found)
	}
}

// shopKits are ten kinds of an invented shop at 100 to 45 by weight: five
// kits that get cheaper with size, and bottles of one part.
func shopKits(linear bool) []Kit {
	var kits []Kit
	add := func(name string, a, b unit.Mass, price int64) {
		if linear {
			price = int64((a + b).Grams() * 3)
		}
		kits = append(kits, Kit{Name: name, A: a * unit.Gram, B: b * unit.Gram, Price: unit.Money{Minor: price, Currency: "EUR"}})
	}
	add("small kit", 345, 155, 2190)
	add("kit", 690, 310, 3890)
	add("large kit", 1380, 620, 6990)
	add("tub", 3450, 1550, 15900)
	add("drum", 10350, 4650, 43900)
	add("bottle of A", 500, 0, 1690)
	add("can of A", 2000, 0, 5990)
	add("bottle of B", 0, 250, 1390)
	add("can of B", 0, 1000, 4590)
	add("canister of A", 5000, 0, 13900)
	return kits
}

func BenchmarkKits(b *testing.B) {
	for _, c := range []struct {
		name   string
		linear bool
		a, b   unit.Mass
	}{
		{"1 kg", false, 690, 310}, {"50 kg", false, 34500, 15500}, {"50 kg odd", false, 34217, 15783}, {"50 kg much A", false, 40017, 9983},
		{"50 kg priced by weight", true, 34217, 15783},
	} {
		kits := shopKits(c.linear)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Buy(Need{Parts: 45, A: c.a * unit.Gram, B: c.b * unit.Gram}, kits); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestBottlesByVolume(t *testing.T) {
	p := Product{ID: "p1", Sheet: Sheet{Name: "slow casting resin"}, Kits: []ShelfKit{{ID: "k1"}}, Bottles: []Bottle{{ID: "b1", Part: PartB}}}
	p.Sheet.DensityA.Value = 1130
	m := Shelf{Products: []Product{p}}
	enter := func(field, text, want string) {
		t.Helper()
		err := Enter(&m, "shelf/products/p1/"+field, text)
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s %q gave %v, want %q", field, text, err, want)
		}
	}
	enter("kits/k1/a", "1 l", "")
	enter("kits/k1/b", "500 ml", "density of B")
	enter("bottles/b1/holds", "16 fl oz", "density of B")
	m.Products[0].Sheet.DensityB.Value = 1020
	enter("kits/k1/b", "500 ml", "")
	enter("bottles/b1/holds", "16 fl oz", "")
	enter("kits/k1/b", "some", "some")
	k := &m.Products[0].Kits[0].Kit
	// 1 L at 1.13 g/ml and 500 ml at 1.02 g/ml: 1,130 g and 510 g; 16 US fl oz are
	// 473.176 ml (NIST SP 811, B.9), so 482.64 g.
	within(t, "A", k.A.Grams(), 1130, 1e-9)
	within(t, "B", k.B.Grams(), 510, 1e-9)
	within(t, "B in its bottle", m.Products[0].Bottles[0].Holds.Value.Grams(), 482.64, 0.05)
	// At 100 to 45, 1,130 g of A would take 508.5 of B: A runs out, 1,638.5 g of mix.
	within(t, "mix", LargestMix(k.A, k.B, 45).Grams(), 1638.5, 1e-6)
	// 49.00 over 1.6385 kg less 2 % that stays in the bottles: 49/1.60573 = 30.5157.
	k.Price = unit.Money{Minor: 4900, Currency: "EUR"}
	if m, ok := perKilo(k.Price, LargestMix(k.A, k.B, 45).Times(1-0.02)); !ok || m.Minor != 3052 {
		t.Errorf("a usable kilogram costs %v", m)
	}
	if _, ok := perKilo(k.Price, LargestMix(1, 0, 45)); ok {
		t.Error("a bottle of A alone makes no mix")
	}
}
