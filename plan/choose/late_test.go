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
		why  choose.NotUp
		by   plan.Bound // that closed its last window
	}{
		{"sinking", north, "M 31", choose.NoMore, plan.ByFloor},
		{"at dawn", south, "NGC 2070", choose.NoMore, plan.ByDarkness},
		{"never up", south, "M 81", choose.NeverAbove, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			whole := rank(t, c.kit, moonlitDate, named(t, c.of), choose.Wish{})[0]
			n := plan.NewNight(c.kit, moonlitDate)
			from := n.Span.To.Add(-time.Hour)
			if c.why == choose.NoMore {
				require.NotEmpty(t, whole.Windows)
				end := whole.Windows[len(whole.Windows)-1].To
				from = end.Add(time.Minute)
			}
			late := rank(t, c.kit, moonlitDate, named(t, c.of), choose.Wish{From: from})[0]
			assert.Zero(t, late.Worth)
			assert.Equal(t, c.why, late.NotUp)
			if c.why == choose.NoMore {
				assert.Equal(t, c.by, late.Over.ClosesBefore)
				assert.Equal(t, whole.Windows[len(whole.Windows)-1], late.Over)
			}
		})
	}
}
