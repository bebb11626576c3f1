package arrival_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
)

func TestNotices(t *testing.T) {
	const minute, two = time.Minute, 2 * time.Minute
	free := func(bytes uint64, left int) func(*arrival.Situation) {
		return func(s *arrival.Situation) { s.FreeBytes, s.Left = &bytes, left }
	}
	now := func(t time.Time) func(*arrival.Situation) { return func(s *arrival.Situation) { s.Now = t } }
	recent := light(68, "L", minute) // so that silence is no matter
	cases := []struct {
		name   string
		change func(*arrival.Situation)
		frames []arrival.Frame
		want   map[arrival.Kind]arrival.Odd // nothing else is said
	}{
		{"all is well", free(1e12, 200), []arrival.Frame{light(3, "L", minute), light(64, "R", two, object("NGC 1365"), sensor(-5.9)), recent}, nil},
		{"no sub since they were started", now(at(68)), nil, map[arrival.Kind]arrival.Odd{
			// The longest is 120 s, + 4 s, + 12 s for a dither: due 2 × 136 s after minute 63, at 67:32.
			arrival.Silent: arrival.Odd{Silence: 5 * minute, None: true}}},
		{"not long enough to ask", now(at(67.5)), nil, nil},
		{"no new sub", now(at(75)), []arrival.Frame{light(64, "L", minute)}, map[arrival.Kind]arrival.Odd{ // seen at 65:04
			arrival.Silent: arrival.Odd{Silence: 9*minute + 56*time.Second}}},
		{"silence while the folder is away", func(s *arrival.Situation) { s.Now, s.Unwatched = at(75), true }, nil, nil},
		{"silence while no subs are taken", func(s *arrival.Situation) { s.Now, s.Night.Subs = at(75), nil }, nil, nil},
		{"silence within twice the exposures that are really made", now(at(78)), []arrival.Frame{light(63, "L", 5*minute)}, map[arrival.Kind]arrival.Odd{
			arrival.WrongExposure: arrival.Odd{Filter: "L", Exposure: 5 * minute, Wanted: minute}}}, // seen at 68:04, due 608 s later at 78:12
		{"a wrong exposure", nil, []arrival.Frame{light(3, "R", minute), light(5, "R", minute), recent}, map[arrival.Kind]arrival.Odd{
			arrival.WrongExposure: arrival.Odd{Filter: "R", Exposure: minute, Wanted: two}}},
		{"a shutter's slowness is no wrong exposure", nil, []arrival.Frame{light(3, "R", two+time.Second), recent}, nil},
		{"a dark of any length", func(s *arrival.Situation) { s.Night.Subs = nil }, []arrival.Frame{light(61, "R", minute, kindOf(subs.Dark))}, nil},
		{"a filter that the kit does not have", nil, []arrival.Frame{light(3, "Ha", minute), light(5, "H-alpha", minute), light(7, "ha", minute), recent}, map[arrival.Kind]arrival.Odd{
			arrival.UnknownFilter: arrival.Odd{Filter: "Ha", Filters: []string{"L", "R", "G", "B"}}}},
		{"no filter", nil, []arrival.Frame{light(3, "", minute), recent}, map[arrival.Kind]arrival.Odd{
			arrival.UnknownFilter: arrival.Odd{}}},
		{"the other target's name", nil, []arrival.Frame{light(64, "L", minute, object("Tarantula Nebula")), recent}, map[arrival.Kind]arrival.Odd{
			arrival.OtherObject: arrival.Odd{Named: "Tarantula Nebula", Target: "NGC 1365"}}},
		{"a name of the catalogue's", nil, []arrival.Frame{light(64, "L", minute, object("M 42")), recent}, map[arrival.Kind]arrival.Odd{
			arrival.OtherObject: arrival.Odd{Named: "M 42", Target: "NGC 1365"}}},
		{"another name of the same target", nil, []arrival.Frame{light(3, "L", minute, object("tarantula")), recent}, nil},
		{"a galaxy that the target lies in", nil, []arrival.Frame{light(3, "L", minute, object("LMC")), recent}, nil},
		{"a name that nothing is known by", nil, []arrival.Frame{light(64, "L", minute, object("mosaic panel 3")), recent}, nil},
		{"a warm sensor", nil, []arrival.Frame{light(3, "L", minute, sensor(-3.2)), light(5, "L", minute, sensor(-2)), recent}, map[arrival.Kind]arrival.Odd{
			arrival.SensorOff: arrival.Odd{SensorC: -3.2, SetPointC: -5}}},
		{"a warm flat", nil, []arrival.Frame{light(61, "L", minute, sensor(20), kindOf(subs.Flat)), recent}, nil},
		{"no set point", func(s *arrival.Situation) { s.Kit.Camera.SetPointC = nil }, []arrival.Frame{light(3, "L", minute, sensor(20)), recent}, nil},
		{"a dark among lights", nil, []arrival.Frame{light(64, "L", minute, kindOf(subs.Dark)), recent}, map[arrival.Kind]arrival.Odd{
			arrival.NotALight: arrival.Odd{Header: "dark"}}},
		{"a dark while no subs are taken", nil, []arrival.Frame{light(61, "L", minute, kindOf(subs.Dark)), recent}, nil},
		{"a copy", nil, []arrival.Frame{light(3, "L", minute), light(3, "L", minute, path("/subs/z.fits")), recent}, map[arrival.Kind]arrival.Odd{
			arrival.Copied: arrival.Odd{Copy: "/subs/L_003.00.fits"}}},
		{"two cameras at once", nil, []arrival.Frame{light(3, "L", minute), light(3, "L", minute, path("/b.fits"), func(f *arrival.Frame) { f.Header.Width = 4096 }), recent}, nil},
		{"raw files", nil, []arrival.Frame{light(3, "", minute, raw, path("/subs/a.cr3")), light(5, "", minute, raw, path("/subs/b.cr3")), recent}, map[arrival.Kind]arrival.Odd{
			arrival.Unread: arrival.Odd{Error: "x.cr3 is not a FITS file"}}},
		{"no room on the disk", free(20*52e6-1, 20), []arrival.Frame{recent}, map[arrival.Kind]arrival.Odd{
			arrival.DiskShort: arrival.Odd{Subs: 19, Each: 52e6, Left: 20}}},
		{"just room on the disk", free(20*52e6, 20), []arrival.Frame{recent}, nil},
		{"room that nobody knows", func(s *arrival.Situation) { s.Left = 20 }, []arrival.Frame{recent}, nil},
		{"across a rewind", spoiling(arrival.Rewinding, at(60), at(62)), []arrival.Frame{light(58, "R", two), light(59.5, "L", minute), recent}, map[arrival.Kind]arrival.Odd{
			arrival.Spoilt: arrival.Odd{Spoils: arrival.Rewinding}}},
		{"past the limit, each but the first unsaid", spoiling(arrival.PastLimit, at(63.5), time.Time{}), []arrival.Frame{light(62.4, "L", minute), light(63.4, "L", minute), light(65, "L", minute), recent}, map[arrival.Kind]arrival.Odd{
			arrival.Spoilt: arrival.Odd{Spoils: arrival.PastLimit}}},
		{"by a second, which no clock is good to", spoiling(arrival.Rewinding, at(60), at(62)), []arrival.Frame{light(59, "L", 61*time.Second), recent}, map[arrival.Kind]arrival.Odd{
			arrival.WrongExposure: arrival.Odd{Filter: "L", Exposure: 61 * time.Second, Wanted: minute}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := situation()
			if c.change != nil {
				c.change(&s)
			}
			said := map[arrival.Kind]arrival.Odd{}
			for _, n := range arrival.Keep(c.frames, s).Notices() {
				require.NotContains(t, said, n.Kind, "said twice")
				said[n.Kind] = n.Odd
				assert.False(t, n.Old)
			}
			if c.want == nil {
				c.want = map[arrival.Kind]arrival.Odd{}
			}
			assert.Equal(t, c.want, said)
		})
	}
}

func spoiling(why arrival.Why, from, to time.Time) func(*arrival.Situation) {
	return func(s *arrival.Situation) {
		s.Spoiling = []arrival.Spoiling{{Span: plan.Span{From: from, To: to}, Why: why}}
	}
}

func TestEachNoticeIsRaisedOnce(t *testing.T) {
	s := situation()
	s.Now = at(75)
	frames := []arrival.Frame{light(64, "R", time.Minute)}
	told, fresh := arrival.Told{}.Fresh(arrival.Keep(frames, s).Notices())
	require.Len(t, fresh, 2)
	assert.Equal(t, arrival.WrongExposure, fresh[0].Kind)
	assert.Equal(t, frames[0].Seen, fresh[0].At)
	assert.Equal(t, arrival.Silent, fresh[1].Kind)
	assert.Equal(t, at(65).Add(4*time.Second+2*136*time.Second), fresh[1].At, "when it was due, not when it was noticed")

	s.Now = at(76)
	told, fresh = told.Fresh(arrival.Keep(frames, s).Notices())
	assert.Empty(t, fresh, "the silence lasts longer, and is the same silence")

	frames = append(frames, light(76, "R", time.Minute), light(64.5, "R", 30*time.Second))
	s.Now = at(90)
	before := told
	_, fresh = told.Fresh(arrival.Keep(frames, s).Notices())
	require.Len(t, fresh, 2)
	assert.Equal(t, arrival.Odd{Filter: "R", Exposure: 30 * time.Second, Wanted: 2 * time.Minute}, fresh[0].Odd, "another wrong exposure")
	assert.Equal(t, arrival.Silent, fresh[1].Kind, "another silence")
	_, again := before.Fresh(arrival.Keep(frames, s).Notices())
	assert.Equal(t, fresh, again, "Told is a value")
}

func TestNoticesOfFramesThatWereThereAreOld(t *testing.T) {
	notices := arrival.Keep([]arrival.Frame{light(3, "R", time.Minute, already)}, situation()).Notices()
	require.Len(t, notices, 1)
	assert.True(t, notices[0].Old)
	assert.Equal(t, at(4), notices[0].At, "the end of its exposure, since nobody saw it come")
}
