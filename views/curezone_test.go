package views

import (
	"strings"
	"testing"
	"time"

	"meniscus/views/touch"
)

func TestZoneWords(t *testing.T) {
	now := time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		zone, want string
		tone       touch.Tone
	}{
		{"", "this machine: it is ", touch.Faint},
		{"Asia/Kolkata", "it is 17:30 IST there", touch.Faint}, // UTC+5:30, the IANA database
		{"Kolkatta", "knows no zone", touch.CheckTone},
	} {
		words, tone := zoneWords(c.zone, now)
		if !strings.Contains(words, c.want) || tone != c.tone {
			t.Errorf("%q: %q, %v", c.zone, words, tone)
		}
	}
}

func TestCureTakesTheZone(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	b.Enter("shop/zone", "Asia/Kolkata")
	b.settle()
	if !p.focus("shop/zone") || p.tabs.at() != "shop" {
		t.Error("the zone has no input, or it is out of sight")
	}
	if b.Snapshot().Project.Shop.Zone != "Asia/Kolkata" || !cureSays(p.content(), "IST") {
		t.Errorf("zone %q, %q", b.Snapshot().Project.Shop.Zone, texts(p.content()))
	}
}
