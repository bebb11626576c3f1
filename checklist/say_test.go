package checklist_test

import (
	"math"
	"testing"

	"duskhand/checklist"
	"duskhand/sky"

	"github.com/stretchr/testify/assert"
)

func TestWhatMakesNoSenseIsRefusedInWords(t *testing.T) {
	fresh := begin(t)
	fresh.refuses(checklist.TurnOff{}, "the derotator is off; it has not been on this night")
	fresh.refuses(checklist.StopSubs{}, "no subs are being taken; say when they start")
	fresh.refuses(checklist.StartSubs{}, "the derotator is off; turn it on, see that it turns, say so, then start the subs")
	fresh.refuses(checklist.Undo{}, "there is nothing to undo")
	fresh.refuses(checklist.WriteNote{Text: " "}, "the note is empty; write something or leave it")
	fresh.refuses(checklist.ChooseTarget{}, "the target has no name; give the one under which its frames are kept")
	fresh.refuses(checklist.Read{Angle: sky.Angle(math.NaN())}, "the reading is not a number; give it in degrees")
	fresh.refuses(checklist.Rewound{To: sky.Angle(math.Inf(1))}, "the derotator's angle is not a number; give it in degrees")
	fresh.refuses(checklist.MeasureAxis{Tilt: -1.5 * sky.Degree},
		"an axis tilt of −1.5° makes no sense; give 0° to 90° and the azimuth that the axis leans towards")
	fresh.refuses(checklist.NoticeJump{From: dusk, To: dusk}, "the clock has not jumped: it shows what it should")

	running := begin(t).say(40, checklist.TurnOn{Angle: deg(0)}).say(45, checklist.StartSubs{Filter: "L"})
	running.refuses(checklist.TurnOn{}, // 11:30 UTC + 40 min + 10:30
		"the derotator is already on since 22:40; to move it say rewound, to correct its angle give a reading")
	running.refuses(checklist.StartSubs{Filter: "L"}, "subs are being taken already since 22:45; say that they have stopped first")
	running.refuses(checklist.ChooseTarget{Target: orion}, "subs are being taken; say that they have stopped, then choose another target")
	running.say(50, checklist.StopSubs{}).say(51, checklist.TurnOff{})
	running.refuses(checklist.TurnOff{}, "the derotator is off already since 22:51")
}

func TestATargetComesBackAsItWasChosen(t *testing.T) {
	barnard := checklist.Target{Name: "Barnard's star", Star: sky.Star{ // proper motion −802, 10 362 mas/yr: Hipparcos, Gaia DR3
		Place:  sky.J2000{RA: 269.452 * sky.Degree, Dec: 4.693 * sky.Degree},
		Motion: sky.ProperMotion{RA: -802 * sky.MilliarcsecondPerYear, Dec: 10362 * sky.MilliarcsecondPerYear},
	}}
	s := begin(t).say(0, checklist.ChooseTarget{Target: barnard}).say(1, checklist.TurnOn{Angle: deg(1)}).say(2, checklist.StartSubs{})
	const oneNanodegree = 1e-9 // far below the last digit of any catalogue; degrees cost a bit or two
	got := s.night.Target.Star
	assert.InDelta(t, 269.452, got.Place.RA.Degrees(), oneNanodegree)
	assert.InDelta(t, 4.693, got.Place.Dec.Degrees(), oneNanodegree)
	assert.InDelta(t, -0.802, got.Motion.RA.Arcseconds(), oneNanodegree)
	assert.InDelta(t, 10.362, got.Motion.Dec.Arcseconds(), oneNanodegree)
	s.say(3, checklist.ChooseTarget{Target: barnard}) // the same again is legal during subs
	assert.NotNil(t, s.night.Subs)
}

func TestWordsOfEvents(t *testing.T) {
	s := evening(t)
	want := []string{"night opened", "target NGC 2070", "axis tilt 2°", "rewound to −16°", "derotator on", "subs started L",
		"subs started R", "subs stopped", "read −3°", "subs started R", "subs stopped", "rewound to −16°", "subs started L", "note",
		"derotator off", "derotator on at 1°"}
	for i, e := range s.events {
		assert.Equal(t, want[i], checklist.Words(e))
	}
}
