package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// binBriefly is BinSafely in so few words that they can be read from afar.
const binBriefly = "Spread it thin on a tray outdoors, away from dust and rags; never in a deep cup or a closed bin: it heats itself."

// binned is the moment in which the cup at the scale, whose parts met at an
// instant, can no longer be mended: it is too late to add to it.
func (w *benchWork) binned(met time.Time, r *Rescue) Moment {
	return Moment{
		Number: NumberSince, At: met.UTC(), Of: "since A and B met", Next: "Bin it: too late to mend",
		More: r.Off.Signed() + ". " + binBriefly, Mends: true,
		Acts: []BenchAct{{Label: "Weigh another cup", Turn: TurnAfresh, To: w.layer.ID, Primary: true}},
	}
}

// benchWords says what adding it makes in so few words that they can be read
// from afar.
func (r *Rescue) benchWords(m *MixPlan, s unit.Style) string {
	words := fmt.Sprintf("%s. In all %s", r.Off.Signed(), s.MassTo(r.Total, m.Step))
	switch {
	case r.Surplus >= m.Step/2:
		words += fmt.Sprintf(", %s too much: into a spare mold, or thin on a tray", s.MassTo(r.Surplus, m.Step))
	case r.Surplus <= -m.Step/2:
		words += fmt.Sprintf(", still %s short", s.MassTo(-r.Surplus, m.Step))
	}
	return words + "."
}

// timeLeft says in few words how long a mix can still be mended, so long after
// its parts met, where that is not too late.
func timeLeft(working Known[unit.Span], since unit.Span, verdict Verdict) string {
	if verdict != Fine {
		return "Whether there is time is not known."
	}
	return minutes(working.Low.Times(rescueShare)-since) + " left for it."
}
