package command

import (
	"fmt"
	"time"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// skies are the courses of the targets that lights were taken of, each night's made once.
type skies struct {
	kit     *kit.Kit
	chosen  *kit.Target // whatever the headers say
	targets map[string]*kit.Target
	courses map[courseKey]*plan.Course
}

type courseKey struct {
	target string
	date   plan.Date
}

func newSkies(k kit.Kit) skies {
	return skies{kit: &k, targets: map[string]*kit.Target{}, courses: map[courseKey]*plan.Course{}}
}

// target returns the target of a light, nil if nobody knows it.
func (s skies) target(object string) *kit.Target {
	if s.chosen != nil || s.kit == nil || object == "" {
		return s.chosen
	}
	target, asked := s.targets[object]
	if !asked {
		if found, err := arrival.TargetOf(*s.kit, object); err == nil {
			target = &found
		}
		s.targets[object] = target
	}
	return target
}

// course returns the way of a light's target through its night, nil if nobody knows it.
func (s skies) course(h subs.Header, at time.Time) *plan.Course {
	target := s.target(h.Object)
	if target == nil || at.UTC().Year() < firstYear || at.UTC().Year() > lastYear {
		return nil
	}
	key := courseKey{target.Name, plan.DateOf(s.kit.Site.Place, at)}
	course, made := s.courses[key]
	if !made {
		course = plan.NewNight(*s.kit, key.date).Course(*target, s.kit.Axis)
		s.courses[key] = course
	}
	return course
}

// litHeight is the height of the Sun above which nobody exposes a light: civil twilight has not ended. Our choice.
const litHeight = -4 * sky.Degree

// lit says that a light would have begun in daylight, "" if it did not: its DATE-OBS is local time then, most
// often, and at would have been that.
func (s skies) lit(at time.Time) string {
	if s.kit == nil || at.UTC().Year() < firstYear || at.UTC().Year() > lastYear {
		return ""
	}
	sun := func(t time.Time) sky.Angle { return sky.NewFrame(s.kit.Site.Place, t, 0).Sun(t).Altitude }
	if sun(at) < litHeight {
		return ""
	}
	zone := s.kit.Site.Zone
	clock := at.UTC()
	local := time.Date(clock.Year(), clock.Month(), clock.Day(), clock.Hour(), clock.Minute(), clock.Second(), clock.Nanosecond(), zone)
	if sun(local) < litHeight {
		return "begins in daylight by its DATE-OBS, and in the dark if that is local time: have the capture program write UTC"
	}
	return "begins in daylight by its DATE-OBS: is the capture computer's clock right, and does it write UTC?"
}

// why says why a group has no course.
func (s skies) why(object string) string {
	switch {
	case s.kit == nil:
		return "how fast it would turn with the derotator off takes a kit"
	case object == "":
		return "the headers name no OBJECT; name it with --target, and its own turning can be told"
	}
	return fmt.Sprintf("%q is nothing in the kit or the catalogue; name it with --target, and its own turning can be told", object)
}
