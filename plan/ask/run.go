package ask

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// longestFollowed bounds a run when neither limit nor floor does.
const longestFollowed = 12 * time.Hour

// firstFollowed is how far a run is looked after at first: most end within it, at a quarter of the price.
const firstFollowed = 3 * time.Hour

type derotatorGiven struct {
	Min   *float64 `json:"min_deg"`
	Max   *float64 `json:"max_deg"`
	Angle *float64 `json:"angle_deg"`
	Sense *int     `json:"sense"`
}

// derotator returns the stage and the angle that it stands at.
func (g *derotatorGiven) derotator() (kit.Derotator, sky.Angle, error) {
	if g == nil {
		return kit.Derotator{}, 0, fmt.Errorf("\"derotator\" is missing; give {\"min_deg\":…, \"max_deg\":…, \"angle_deg\":…, \"sense\":1 or -1}")
	}
	low, err := within("derotator.min_deg", g.Min, -3600, 3600, "degrees")
	if err != nil {
		return kit.Derotator{}, 0, err
	}
	high, err := within("derotator.max_deg", g.Max, -3600, 3600, "degrees")
	if err != nil {
		return kit.Derotator{}, 0, err
	}
	if low >= high {
		return kit.Derotator{}, 0, fmt.Errorf("\"derotator.min_deg\" is %g, not below \"max_deg\" %g; give the smaller limit first", low, high)
	}
	angle, err := within("derotator.angle_deg", g.Angle, low, high, "between its limits")
	if err != nil {
		return kit.Derotator{}, 0, err
	}
	if g.Sense == nil || *g.Sense != 1 && *g.Sense != -1 {
		return kit.Derotator{}, 0, fmt.Errorf("\"derotator.sense\" must be 1 or -1")
	}
	return kit.Derotator{Min: degrees(low), Max: degrees(high), Sense: *g.Sense, StopsAnywhere: true}, degrees(angle), nil
}

type runQuestion struct {
	sight
	Axis      *axisGiven      `json:"axis"`
	Derotator *derotatorGiven `json:"derotator"`
	Floor     *float64        `json:"floor_alt_deg"`
}

type runAnswer struct {
	Limit     string  `json:"limit"`
	Seconds   float64 `json:"seconds"`
	Reverses  bool    `json:"reverses"`
	BestStart float64 `json:"best_start_deg"`
	Longest   float64 `json:"longest_s"`
}

func (q *runQuestion) answer(frames *sky.Frames) (any, error) {
	g, err := q.ground(frames)
	if err != nil {
		return nil, err
	}
	if answer, whole := g.within(firstFollowed); whole {
		return answer, nil
	}
	answer, _ := g.within(longestFollowed)
	return answer, nil
}

// runGround is what a run is followed through.
type runGround struct {
	frame *sky.Frame
	kit   kit.Kit
	star  sky.Star
	axis  kit.Axis
	from  plan.Anchor
	floor sky.Angle
}

func (q *runQuestion) ground(frames *sky.Frames) (g runGround, err error) {
	if g.frame, g.from.At, _, err = q.frame(frames); err != nil {
		return g, err
	}
	if g.axis.Tilt, g.axis.Toward, err = q.Axis.axis(); err != nil {
		return g, err
	}
	floor, err := within("floor_alt_deg", q.Floor, -90, 90, "airless")
	if err != nil {
		return g, err
	}
	g.floor = degrees(floor)
	if g.kit.Derotator, g.from.Angle, err = q.Derotator.derotator(); err != nil {
		return g, err
	}
	// Both were checked by frame.
	g.star, _ = q.Star.star()
	g.kit.Site.DUT1, _ = dut1(q.DUT1)
	g.kit.Site.Place = g.frame.Site()
	g.frame = frames.Around(g.kit.Site.Place, g.from.At.Add(longestFollowed/2), g.kit.Site.DUT1)
	return g, nil
}

// within follows the run for so long. whole is false when a longer look could answer differently: neither floor
// nor limit came.
func (g runGround) within(reach time.Duration) (answer runAnswer, whole bool) {
	at, last := g.from.At, g.from.At.Add(reach)
	course := plan.NewCourse(g.kit, g.frame, plan.Span{From: at, To: last}, kit.Target{Star: g.star}, g.axis)
	until := course.UpUntil(g.floor, at)
	limit := course.Limit(g.from, until)
	end := until
	if limit.At.OK {
		end = limit.At.At
	}
	longest := course.LongestRun(at, until)
	return runAnswer{
		Limit: limit.Side.String(), Seconds: end.Sub(at).Seconds(),
		Reverses:  len(course.Reversals(plan.Span{From: at, To: end})) > 0,
		BestStart: longest.Start.Degrees(), Longest: longest.Until.Sub(at).Seconds(),
	}, until.Before(last) || limit.At.OK && longest.Spent
}
