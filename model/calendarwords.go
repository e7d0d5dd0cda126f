package model

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"meniscus/model/unit"
)

// What speaks against a start, each in the same coin: a whole day's wait costs
// one. The weights are a judgement, no source.
const (
	costOff    = 2.0  // a next pour at the end of its window instead of at its best
	costEdge   = 1.5  // a next pour with nothing to spare to the end of its window
	costLate   = 1.0  // a thing that is over just at bedtime
	costWarm   = 2.0  // a pour at the warmest hour
	costWait   = 1.0  // a day until the first pour
	costLength = 0.25 // a day until it comes out
)

// spareTime is how much time to an end makes one easy.
const spareTime = time.Hour

// leastSwing is the least difference of the room through the day that makes one
// hour better than another.
const leastSwing = unit.Temperature(2)

// meet notes the temperature of a room at some time of day.
func (s *startSearch) meet(room unit.Temperature) {
	switch {
	case !(room > 0) || math.IsInf(float64(room), 0):
	case s.coolest == 0:
		s.coolest, s.warmest = room, room
	default:
		s.coolest, s.warmest = min(s.coolest, room), max(s.warmest, room)
	}
}

// warmth tells how warm the room is for a pour, from 0 at the coolest hour to 1
// at the warmest; false when all are alike or nothing is known.
func (s *startSearch) warmth(room unit.Temperature) (float64, bool) {
	if s.warmest-s.coolest < leastSwing || !(room > 0) {
		return 0, false
	}
	return min(max(float64(room-s.coolest)/float64(s.warmest-s.coolest), 0), 1), true
}

// leftOf gives how long after t the stretch that holds it ends.
func leftOf(awake []period, t time.Duration) time.Duration {
	for _, s := range awake {
		if s.from <= t && t <= s.to {
			return s.to - t
		}
	}
	return 0
}

// against sums up what speaks against a start.
func (s *startSearch) against(p plotted) float64 {
	sum := costWait*p.pours[0].Hours()/24 + costLength*(p.demold-p.pours[0]).Hours()/24
	late := func(at, takes time.Duration) {
		if left := leftOf(p.awake, at) - takes; left < spareTime {
			sum += costLate * (spareTime - left).Hours() / spareTime.Hours()
		}
	}
	for i, l := range p.legs {
		late(p.pours[i], l.takes)
		if warm, ok := s.warmth(l.room); ok {
			sum += costWarm * warm
		}
		if i < len(p.tacks) {
			late(p.tacks[i], tackTakes)
			off, left := p.off(i)
			half := max(l.to-l.from, time.Hour).Hours() / 2
			sum += costOff * min(off.Abs().Hours()/half, 2)
			sum += costEdge * math.Exp(-left.Hours()/spareTime.Hours())
		}
	}
	late(p.demold, demoldTakes)
	return sum
}

// off tells how far the pour on layer i is from its best moment, and how much
// time is left to the nearer end of its window.
func (p *plotted) off(i int) (off, left time.Duration) {
	l, after := p.legs[i], p.pours[i+1]-p.pours[i]
	left = after - l.from
	if l.closes {
		left = min(left, l.to-after)
	}
	return after - l.best, left
}

// why says what speaks for a start and what against it.
func (s *startSearch) why(p plotted, soonest bool) string {
	var parts []string
	say := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if soonest {
		say("the soonest that fits")
	}
	if warm, ok := s.warmth(p.legs[0].room); ok && warm <= 1./3 {
		say("poured in the cool of the day")
	} else if ok && warm >= 2./3 {
		say("poured in the warm of the day")
	}
	if n := len(p.tacks); n > 0 {
		worst, tight := 0, 0
		for i := range n {
			off, left := p.off(i)
			if most, _ := p.off(worst); off.Abs() > most.Abs() {
				worst = i
			}
			if _, least := p.off(tight); left < least {
				tight = i
			}
		}
		off, _ := p.off(worst)
		_, left := p.off(tight)
		switch next := p.legs[worst+1].name; {
		case off.Abs() <= startGrid/2 && n > 1:
			say("every next pour at its best moment")
		case off.Abs() <= startGrid/2:
			say("%s goes on at its best moment", next)
		case off > 0:
			say("%s goes on %s after its best moment", next, lasting(off))
		default:
			say("%s goes on %s before its best moment", next, lasting(-off))
		}
		if left < time.Minute {
			say("nothing to spare in the tightest window")
		} else {
			say("%s to spare in the tightest window", lasting(left))
		}
	}
	if what, left := p.latest(); left < time.Minute {
		say("%s is over just at bedtime", what)
	} else if left < spareTime {
		say("%s is over %s before bedtime", what, lasting(left))
	}
	if wait := p.demold - p.ready; wait >= spareTime {
		say("it waits %s in the mold until you are up", lasting(wait))
	}
	if len(parts) == 0 {
		say("everything falls well within your day")
	}
	text := strings.Join(parts, "; ")
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:] + "."
}

// latest gives what is over nearest to bedtime, and how long before it.
func (p *plotted) latest() (what string, left time.Duration) {
	left = leftOf(p.awake, p.demold) - demoldTakes
	what = "taking it out"
	for i, l := range p.legs {
		if d := leftOf(p.awake, p.pours[i]) - l.takes; d < left {
			what, left = "pouring "+l.name, d
		}
		if i < len(p.tacks) {
			if d := leftOf(p.awake, p.tacks[i]) - tackTakes; d < left {
				what, left = "the tack test of "+l.name, d
			}
		}
	}
	return what, left
}

// none says which limit is the tightest where no start does: of the starts that
// get farthest the one that misses by least.
func (s *startSearch) none(misses []startMiss) string {
	if len(misses) == 0 {
		return "No half hour of the time that was looked at falls in your waking hours, " + s.hours() + ". Look farther ahead, or change the hours."
	}
	near := misses[0]
	for _, m := range misses[1:] {
		if m.reached > near.reached || m.reached == near.reached && m.gap < near.gap {
			near = m
		}
	}
	n := len(near.legs)
	switch k := near.reached; {
	case n == 0:
		return "There is no layer left to pour."
	case k < 0:
		for _, l := range near.legs {
			if l.refused != "" {
				return fmt.Sprintf("At none of your waking hours may %s be poured: %s.", l.name, l.refused)
			}
		}
		return ""
	case k < n && near.gap == never && k > 0 && !near.legs[k-1].bonds:
		return fmt.Sprintf("When %s can go onto %s is not known, so nothing can be planned behind it. Enter the recoat window of its data sheet.", near.legs[k].name, near.legs[k-1].name)
	case k < n && near.gap == never && k > 0 && near.legs[k-1].to < near.legs[k-1].from:
		return fmt.Sprintf("The window of %s closes before %s can go on.", near.legs[k-1].name, near.legs[k].name)
	case k == n:
		return fmt.Sprintf("You are never awake for the %s that taking it out needs: your waking hours are %s.", lasting(demoldTakes), s.hours())
	case near.gap == never:
		return fmt.Sprintf("Pouring %s takes %s, longer than you are awake at a stretch: your waking hours are %s.", near.legs[k].name, lasting(near.legs[k].takes), s.hours())
	case k == 0:
		return fmt.Sprintf("Pouring %s takes %s, and no start that was looked at leaves so long before bedtime; the nearest misses by %s. Your waking hours are %s.", near.legs[0].name, lasting(near.legs[0].takes), lasting(near.gap), s.hours())
	default:
		return fmt.Sprintf("The tightest limit is the window in which %s bonds to %s. Even started on %s, which comes nearest, it is open from %s to %s, when you are asleep or there is no time left to pour before bedtime; it misses your hours, %s, by %s. Getting up earlier or staying up later by so much that once would do.",
			near.legs[k].name, near.legs[k-1].name, s.said(near.at), s.said(near.window.from), s.said(near.window.to), s.hours(), lasting(near.gap))
	}
}

// hours writes the waking hours.
func (s *startSearch) hours() string {
	midnight := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	return midnight.Add(ofDay(s.day.Wakes)).Format("15:04") + " to " + midnight.Add(ofDay(s.day.Sleeps)).Format("15:04")
}

// said writes an instant of the search on the shop's clock.
func (s *startSearch) said(d time.Duration) string {
	return s.base.Add(d).In(s.zone).Format("Monday 15:04")
}

// lasting writes a length of time.
func lasting(d time.Duration) string { return unit.Style{}.Span(unit.SpanOf(d)) }
