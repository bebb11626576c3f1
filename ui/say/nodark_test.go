package say_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the zone of the example, on computers without their own table

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// At 52.1° north the Sun sinks to 90° − 52.1° − 23.44° = 14.5° below the horizon at midsummer, so that −12° would do for
// some three hours; at 68° it does not set, and there is nothing to propose.
func TestANightThatIsNeverDarkSaysWhatWouldBePossible(t *testing.T) {
	for _, c := range []struct {
		name     string
		latitude sky.Angle
		want     string
	}{
		{"52° north", 52.1, `^no darkness: the Sun sinks 14\.5° at \d\d:\d\d; site\.dark_sun_deg = -12 would give 2 h 5\d min$`},
		{"beyond the polar circle", 68, `^no darkness tonight: the Sun stays above −18°$`},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := kit.Example()
			k.Site.Place = sky.Site{Latitude: c.latitude * sky.Degree, Longitude: 8 * sky.Degree}
			now := time.Date(2026, 6, 20, 21, 0, 0, 0, time.UTC)
			run := facts.For(k, plan.Date{Year: 2026, Month: time.June, Day: 20}, checklist.Night{}, now, nil).At(now)
			assert.Regexp(t, c.want, say.Voice{Run: run}.WhyNone()[0])
		})
	}
}
