package advice_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
)

// guidedRun is a run with guiding said to be on, of which lights arrive, each with where its middle lies from the first.
func guidedRun(t *testing.T, places [][2]float64) *model {
	n := example(t, func(k *kit.Kit) { k.Guide.Corrections = kit.TurnedCorrections })
	n.say(utc(11, 10), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(11, 12), checklist.GuidingCalibrated{})
	n.say(utc(11, 13), checklist.GuidingOn{})
	n.say(utc(11, 14), checklist.StartSubs{})
	for i, place := range places {
		n.arrives(utc(11, 15).Add(time.Duration(i)*2*time.Minute), i, place)
	}
	return n
}

func (n *model) arrives(began time.Time, number int, place [2]float64) {
	at := began.UnixNano()
	n.write(began.Add(2*time.Minute), checklist.SubArrived{Body: checklist.SubArrivedBody{Path: fmt.Sprintf("light%d.fits", number), Kind: "light",
		OursNs: &at, BinX: 1, Turning: &checklist.TurningBody{Kind: "steady", MovedXPx: &place[0], MovedYPx: &place[1]}}})
}

func TestLightsThatWalkWhileGuidingIsSaidToBeOn(t *testing.T) {
	walk := [][2]float64{{0, 0}, {1.5, 1}, {3.2, 1.9}, {4.4, 3.1}, {6.1, 4.2}}
	scale := kit.Example().ScaleArcsecPerPixel()
	for _, c := range []struct {
		name   string
		places [][2]float64
		walks  bool
	}{
		{"two pixels each time, all one way", walk, true},
		{"three steps are not yet a walk", walk[:4], false},
		{"dithers go to and fro", [][2]float64{{0, 0}, {4, -3}, {-5, 2}, {1, 6}, {-3, -4}, {5, 1}}, false},
		{"after dithers it walks", append([][2]float64{{0, 0}, {4, -3}, {-5, 2}}, walk...), true},
		{"it bends by less than half a minute of arc an hour", [][2]float64{{0, 0}, {0.3, 0}, {0.6, 0}, {0.9, 0}, {1.2, 0}}, false},
		{"one jump is no walk", [][2]float64{{0, 0}, {0.2, 0}, {0.3, 0.1}, {9, 5}, {9.1, 5}}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := guidedRun(t, c.places)
			w, walks := n.at(utc(11, 40)).Walking()
			require.Equal(t, c.walks, walks)
			if walks {
				assert.InDelta(t, 7.4*scale, w.By.Arcseconds(), 0.1*scale, "√(6.1² + 4.2²) pixels")
				assert.Equal(t, 8*time.Minute, w.For)
			}
		})
	}
}

// A guide star is lost while filters change: one of the lights is five times as long as the others.
func TestLightsOfDifferentLengthsWalk(t *testing.T) {
	n := guidedRun(t, nil)
	for i, after := range []time.Duration{0, 2 * time.Minute, 12 * time.Minute, 14 * time.Minute, 16 * time.Minute} {
		n.arrives(utc(11, 15).Add(after), i, [2]float64{after.Minutes(), 0})
	}
	w, walks := n.at(utc(11, 40)).Walking()
	require.True(t, walks)
	assert.Equal(t, 16*time.Minute, w.For)
}

func TestAWalkIsNoneWhileGuidingIsOff(t *testing.T) {
	walk := [][2]float64{{0, 0}, {1.5, 1}, {3.2, 1.9}, {4.4, 3.1}, {6.1, 4.2}}
	for name, said := range map[string]checklist.Action{"its star is said to be lost": checklist.GuidingLost{}, "it is off": checklist.GuidingOff{}} {
		n := guidedRun(t, walk)
		n.say(utc(11, 26), said)
		_, walks := n.at(utc(11, 40)).Walking()
		assert.False(t, walks, name)
	}
	n := guidedRun(t, walk)
	n.say(utc(11, 26), checklist.GuidingLost{})
	n.say(utc(11, 27), checklist.GuidingOn{})
	_, walks := n.at(utc(11, 40)).Walking()
	assert.False(t, walks, "what walked before guiding was on again is over")
}

// Dithers of honest guiding: places drawn evenly from a square, as wide as camera programs make them.
func TestDithersAreHardlyEverTakenForAWalk(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	walked, k := 0, kit.Example()
	for range 4000 {
		log := checklist.Night{Runs: []checklist.Run{{Start: utc(11, 10), Open: true}}, Guiding: checklist.Guiding{On: true, Since: utc(11, 13)}}
		for i := range 5 {
			began, x, y := utc(11, 15+2*i).UnixNano(), 20*rng.Float64()-10, 20*rng.Float64()-10
			log.Arrived = append(log.Arrived, checklist.Arrived{SubArrivedBody: checklist.SubArrivedBody{OursNs: &began,
				Turning: &checklist.TurningBody{MovedXPx: &x, MovedYPx: &y}}})
		}
		if _, walks := (advice.Moment{Tonight: &advice.Tonight{Kit: k, Log: log}}).Walking(); walks {
			walked++
		}
	}
	assert.LessOrEqual(t, walked, 4, "five places in even steps on a line are rarer than one in a thousand")
}
