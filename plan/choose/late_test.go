package choose_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// A target that has been up and is not any more is said to be over, by what ended it.
func TestATargetThatIsOver(t *testing.T) {
	north := kit.Example()
	north.Site.Place = sky.Site{Latitude: 50 * sky.Degree, Longitude: 10 * sky.Degree}
	north.Horizon = kit.Horizon{}
	south := kit.Example()
	for _, c := range []struct {
		name string
		kit  kit.Kit
		of   string
		want string // before the clock time
	}{
		{"sinking", north, "M 31", "no more tonight: below 25° since "},
		{"at dawn", south, "NGC 2070", "no more tonight: twilight since "},
		{"never up", south, "M 81", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			whole := rank(t, c.kit, moonlitDate, named(t, c.of), choose.Wish{})[0]
			n := plan.NewNight(c.kit, moonlitDate)
			from := n.Span.To.Add(-time.Hour)
			want := "never above 25° and clear of the horizon in the dark"
			if c.want != "" {
				require.NotEmpty(t, whole.Windows)
				end := whole.Windows[len(whole.Windows)-1].To
				from, want = end.Add(time.Minute), c.want+words.Minute(end, c.kit.Site.Zone)
			}
			late := rank(t, c.kit, moonlitDate, named(t, c.of), choose.Wish{From: from})[0]
			assert.Zero(t, late.Worth)
			assert.Equal(t, want, late.Factors[choose.ByTurning].Words)
		})
	}
}
