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

func (q *runQuestion) answer() (any, error) {
	course, at, err := q.course()
	if err != nil {
		return nil, err
	}
	floor, err := within("floor_alt_deg", q.Floor, -90, 90, "airless")
	if err != nil {
		return nil, err
	}
	derotator, angle, err := q.Derotator.derotator()
	if err != nil {
		return nil, err
	}
	course.Kit.Derotator = derotator
	until := course.UpUntil(degrees(floor), at)
	limit := course.Limit(plan.Anchor{At: at, Angle: angle}, until)
	end := until
	if limit.At.OK {
		end = limit.At.At
	}
	longest := course.LongestRun(at, until)
	return runAnswer{
		Limit: limit.Side.String(), Seconds: end.Sub(at).Seconds(),
		Reverses:  len(course.Reversals(plan.Span{From: at, To: end})) > 0,
		BestStart: longest.Start.Degrees(), Longest: longest.Until.Sub(at).Seconds(),
	}, nil
}

// course follows the star for as long as a run may last.
func (q *runQuestion) course() (*plan.Course, time.Time, error) {
	_, at, _, err := q.frame()
	if err != nil {
		return nil, at, err
	}
	tilt, toward, err := q.Axis.axis()
	if err != nil {
		return nil, at, err
	}
	// All of these were checked by frame.
	site, _ := q.Site.site()
	star, _ := q.Star.star()
	offset, _ := dut1(q.DUT1)
	frame := sky.NewFrame(site, at.Add(longestFollowed/2), offset)
	span := plan.Span{From: at, To: at.Add(longestFollowed)}
	k := kit.Kit{Site: kit.Site{Place: site, DUT1: offset}}
	return plan.NewCourse(k, frame, span, kit.Target{Star: star}, kit.Axis{Tilt: tilt, Toward: toward}), at, nil
}
