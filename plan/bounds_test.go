package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// disc is a dense set of axes: many thousands in the circle of an axis's uncertainty, and more of them near
// whichever turned out to be extreme.
type disc struct {
	centre, east, across sky.Direction
	radius               sky.Angle
}

func discOf(axis kit.Axis) disc {
	centre := sky.MountAxis(axis.Tilt, axis.Toward)
	east := sky.Direction{Y: 1}.Cross(centre).Unit()
	return disc{centre, east, centre.Cross(east), axis.Uncertainty}
}

// at returns the axis at a share of the radius, around in radians.
func (d disc) at(share, around float64) sky.Direction {
	sin, cos := math.Sincos(around)
	out, up := math.Sincos(share * float64(d.radius))
	return sky.Direction{}.Plus(up, d.centre).Plus(out*cos, d.east).Plus(out*sin, d.across)
}

// extremes returns the least and greatest of f over the disc: everywhere, then ever nearer to the best found.
func (d disc) extremes(f func(axis sky.Direction) float64) (least, greatest float64) {
	type found struct{ value, share, around float64 }
	low, high := found{value: math.Inf(1)}, found{value: math.Inf(-1)}
	try := func(share, around float64) {
		value := f(d.at(share, around))
		if value < low.value {
			low = found{value, share, around}
		}
		if value > high.value {
			high = found{value, share, around}
		}
	}
	const rings, spokes = 25, 120
	for ring := range rings {
		for spoke := range spokes {
			try(1-float64(ring)/rings, 2*math.Pi*float64(spoke)/spokes)
		}
	}
	const seed = 5
	random := rand.New(rand.NewPCG(seed, 0))
	for reach := 0.04; reach > 1e-6; reach *= 0.85 {
		for _, near := range []found{low, high} {
			for range 6 {
				share := near.share + reach*random.NormFloat64()
				try(math.Min(1, math.Abs(share)), near.around+reach*random.NormFloat64()/math.Max(near.share, 0.05))
			}
		}
	}
	return low.value, high.value
}

// steps is a target's way in steps of seconds, from one before it begins, for axes that are tried one by one.
type steps struct {
	pole       sky.Direction
	directions []sky.Direction
	step       float64 // s
}

func stepsOf(c *plan.Course, from, until time.Time, step time.Duration) steps {
	frame := sky.NewFrame(c.Kit.Site.Place, c.Span.From.Add(12*time.Hour), c.Kit.Site.DUT1)
	track := frame.Track(frame.Fix(c.Target.Star), from.Add(-step), until, step)
	return steps{frame.Pole(), track.Sampled(), step.Seconds()}
}

// exit returns the seconds after which the change of the mechanical angle leaves [low, high], with a straight line
// within the step, or a parabola where the field turns back; +Inf if it does not.
func (s steps) exit(axis sky.Direction, sense float64, low, high sky.Angle) float64 {
	earlier, _ := sky.FieldAngle(s.pole, s.directions[0], axis)
	last, _ := sky.FieldAngle(s.pole, s.directions[1], axis)
	change, before := sky.Angle(0), sky.Angle(sense)*(last-earlier).Signed()
	for i, d := range s.directions[2:] {
		chi, _ := sky.FieldAngle(s.pole, d, axis)
		moved := sky.Angle(sense) * (chi - last).Signed()
		if then := change + moved; then > high || then < low {
			edge := high
			if then < low {
				edge = low
			}
			return (float64(i) + float64((edge-change)/moved)) * s.step
		}
		if before*moved < 0 {
			slope := (moved + before) / 2
			if peak := change - slope*slope/(2*(moved-before)); peak > high || peak < low {
				return float64(i) * s.step
			}
		}
		change, last, before = change+moved, chi, moved
	}
	return math.Inf(1)
}

// boundCase is one limit: where, and of what.
type boundCase struct {
	name                     string
	latitude, dec, hourAngle float64 // degrees; the target's at the anchor, west +
	tilt, toward, circle     float64
	travel, share            float64 // of the stage, and where in it the anchor lies
	sense                    int
	lasts                    time.Duration
}

func (b boundCase) course() (*plan.Course, plan.Anchor, time.Time) {
	k := exampleKit()
	k.Site.Place = sky.Site{Latitude: sky.Angle(b.latitude) * sky.Degree}
	k.Derotator.Min = -40 * sky.Degree
	k.Derotator.Max = k.Derotator.Min + sky.Angle(b.travel)*sky.Degree
	k.Derotator.Sense = b.sense
	k.Axis = kit.Axis{Tilt: sky.Angle(b.tilt) * sky.Degree, Toward: sky.Angle(b.toward) * sky.Degree, Uncertainty: sky.Angle(b.circle) * sky.Degree}
	night := plan.NewNight(k, exampleDate)
	at := night.Span.From.Add(8 * time.Hour)
	sidereal := (night.Frame.SiderealTime(at)).Degrees()
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: sky.Angle(sidereal-b.hourAngle) * sky.Degree, Dec: sky.Angle(b.dec) * sky.Degree}}}
	return night.Course(target, k.Axis), plan.Anchor{At: at, Angle: k.Derotator.Min + sky.Angle(b.share*b.travel)*sky.Degree}, at.Add(b.lasts)
}

func boundCases() []boundCase {
	cases := []boundCase{
		{"a southern target far from the axis", -32, -69, -20, 0, 0, 3, 32, 0.2, 1, 7 * time.Hour},
		{"a northern one, west of the meridian", 50, 40, 30, 4, 70, 3, 90, 0, 1, 6 * time.Hour},
		{"up to a ceiling of 85°, its passage 2° outside the circle", 48, 43, -14, 0, 0, 3, 60, 0.5, 1, 52 * time.Minute},
		{"up to the edge of the circle at 88°", 48, 48.5, -14, 0, 0, 2, 170, 0.4, -1, 40 * time.Minute},
		{"over the very axis, as with a ceiling of 90°", -32, -32, -8, 0, 0, 1, 170, 0.5, 1, time.Hour},
		{"over the circle beside the axis, from the south", -32, -34, -8, 2, 200, 3, 100, 0, 1, 2 * time.Hour},
		{"little travel, turning back in the run", 20, 60, -40, 1, 10, 3, 4, 0.5, 1, 6 * time.Hour},
		{"little travel near the keyhole", -20, -25, -12, 0, 0, 3, 8, 0, -1, 3 * time.Hour},
		{"a field that hardly turns", 40, 15, -88, 0, 0, 3, 10, 0.5, 1, 8 * time.Hour},
	}
	const seed = 41
	random := rand.New(rand.NewPCG(seed, 0))
	for i := range 12 {
		sense := 1 - 2*random.IntN(2)
		cases = append(cases, boundCase{fmt.Sprintf("drawn %d of seed %d", i, seed), 130*random.Float64() - 65, 160*random.Float64() - 80,
			160*random.Float64() - 80, 6 * random.Float64(), 360 * random.Float64(), 0.2 + 3*random.Float64(), 5 + 100*random.Float64(), random.Float64(), sense, 5 * time.Hour})
	}
	return cases
}

// The bounds of a limit are the extrema over all axes: not optimistic by more than a second, so that a run called
// by them is safe, and not pessimistic by more than five, so that it is no shorter than need be. Against each of
// thousands of axes followed in steps of 10 s or less, rim and inside.
func TestBoundsAreTheExtremaOverAllAxes(t *testing.T) {
	for _, c := range boundCases() {
		t.Run(c.name, func(t *testing.T) {
			course, anchor, until := c.course()
			limit := course.Limit(anchor, until)
			way := stepsOf(course, anchor.At, until, stepFor(course, anchor.At, until))
			d := course.Kit.Derotator
			early, late := discOf(course.Axis).extremes(func(axis sky.Direction) float64 {
				return way.exit(axis, float64(d.Sense), d.Min-anchor.Angle, d.Max-anchor.Angle)
			})
			compare(t, "early", limit.Early, anchor.At, early, -1)
			compare(t, "late", limit.Late, anchor.At, late, 1)
			if limit.At.OK {
				require.True(t, limit.Early.OK)
				assert.False(t, limit.Early.At.After(limit.At.At))
			}
		})
	}
}

// stepFor returns a step in which the field of no axis turns by much: one second over the axes themselves.
func stepFor(c *plan.Course, from, until time.Time) time.Duration {
	for at := from; at.Before(until); at = at.Add(time.Minute) {
		if 90*sky.Degree-c.AboutAxis(at) < c.Axis.Uncertainty {
			return time.Second
		}
	}
	return 10 * time.Second
}

// compare holds a bound against that of the axes tried. outward is the side on which it is safe: −1 for early.
func compare(t *testing.T, name string, got sky.Event, from time.Time, want float64, outward float64) {
	t.Helper()
	if math.IsInf(want, 1) {
		assert.False(t, got.OK, "%s: no axis reaches a limit, or not every one does", name)
		return
	}
	if !assert.True(t, got.OK, "%s: %.1f s", name, want) {
		return
	}
	safe := outward * (got.At.Sub(from).Seconds() - want)
	t.Logf("%s %.1f s, %+.2f s on the safe side", name, want, safe)
	assert.GreaterOrEqual(t, safe, -1.0, "%s is not optimistic", name)
	assert.LessOrEqual(t, safe, 5.0, "%s is not pessimistic", name)
}

func BenchmarkLimitWithin3Degrees(b *testing.B) {
	course, anchor, until := boundCases()[0].course()
	b.ReportAllocs()
	for range b.N {
		anchor.At = anchor.At.Add(1) // the last that were asked for are kept
		course.Limit(anchor, until)
	}
}

func BenchmarkCourse(b *testing.B) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	b.ReportAllocs()
	for range b.N {
		night.Course(k.Targets[0], k.Axis)
	}
}
