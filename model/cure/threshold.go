package cure

import "meniscus/model/unit"

// thresholds finds the conversions at which the moments of a pour lie: those at
// which the sheet's own hours come out under the sheet's own conditions, or
// typical ones. Where a figure contradicts a stronger one it is left out.
func (s *solver) thresholds() {
	c, p, k := &s.c, &s.p, &s.c.Kinetics
	which := p.anchor()
	s.contradictions()

	c.Working = s.f[InWorkingEnds]
	if p.Working.Given() && which != byWorking {
		switch a := s.curedInCup(k, p.Working); {
		case a >= k.Gel:
			s.note("By the sheet's other times its cup has set before the working time of " + plain.Span(p.Working.After) + " ends; the working time was left out.")
		default:
			c.Working = a
		}
	}

	c.From = k.Gel
	if p.RecoatFrom.Given() && which != byRecoatFrom {
		c.From = s.cured(p.RecoatFrom)
		if c.From < early {
			s.note("By the sheet's gel time the recoat window opens at " + plain.Span(p.RecoatFrom.After) + " while the resin is still far from set.")
		}
	}

	c.glassy = max(s.f[InGlassy], c.From+leastWindow)
	if p.RecoatTo.Given() {
		a := c.glassy
		if which != byRecoatTo {
			a = s.cured(p.RecoatTo)
		}
		if a > c.From {
			c.glassy, c.quoted = a, true
		} else {
			s.note("The sheet's recoat window closes, at " + plain.Span(p.RecoatTo.After) + ", before it opens; its end was left out.")
		}
	}

	if p.Demold.Given() {
		at := s.at(p.Demold.At)
		a := firm(k, at)
		if which != byDemold {
			a = s.cured(p.Demold)
		}
		if a < c.From {
			s.note("The sheet's demold time of " + plain.Span(p.Demold.After) + " comes before the resin has set; it was left out.")
			return
		}
		c.demold = a
		c.margin = min(c.margin, unit.TempRise(k.Glass.At(a)-at))
	}
}

// contradictions notes what in the sheet contradicts itself, and what it leaves
// open that had to be taken for granted.
func (s *solver) contradictions() {
	p := &s.p
	for _, x := range []struct {
		name     string
		q, other Quoted
	}{{"gel times", p.Gel, p.GelOther}, {"working times", p.Working, p.WorkingOther}} {
		if x.q.Given() && x.other.Given() && !x.q.hurries(x.other) {
			s.note("The sheet's two " + x.name + " do not tell how much warmth hurries it; the first was taken.")
		}
	}
	if p.Activation != 0 && p.twoTemperatures() {
		a, b := p.Gel, p.GelOther
		if !a.hurries(b) {
			a, b = p.Working, p.WorkingOther
		}
		if e := between(a.After, a.At, b.After, b.At); e > p.Activation+10*unit.KilojoulePerMole || e < p.Activation-10*unit.KilojoulePerMole {
			s.note("The sheet's two times come to an activation energy of " + plain.MolarEnergy(e) + ", not its " + plain.MolarEnergy(p.Activation) + "; the times were taken.")
		}
	}
	if p.Working.Given() && p.Working.Mass == 0 {
		s.note("The sheet does not say of how much its working time is; " + plain.Mass(usualCup) + " in a cup was taken.")
	}
	if p.Peak.Given() && p.Peak.Mass == 0 {
		s.note("The sheet does not say of how much its peak is; " + plain.Mass(usualCup) + " in a cup was taken.")
	}
	if p.anchor() == byTypical {
		s.note("The sheet gives no time; that of a typical resin of its class was taken.")
	}
}
