package command

import (
	"encoding/json"
	"io"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/say"
)

// starsDocument is what stars --json prints. Each field's doc is its line in the help.
type starsDocument struct {
	Example  bool        `json:"example" doc:"true for the built-in example kit"`
	Site     string      `json:"site" doc:"its name in the kit"`
	Target   string      `json:"target" doc:"what the errors are for"`
	At       string      `json:"at" doc:"the instant"`
	UsedFrom string      `json:"target_used_from" doc:"when the target is first used; its place then counts"`
	Usable   bool        `json:"target_usable" doc:"false if it is not used any more this night: placed for that instant all the same"`
	TargetAt placeJSON   `json:"target_place" doc:"where it stands then"`
	Sun      float64     `json:"sun_alt_deg" doc:"altitude of the Sun's centre"`
	Faintest float64     `json:"faintest_mag" doc:"magnitude that the twilight and the kit leave"`
	Pairs    []pairJSON  `json:"pairs" doc:"the best first; empty if none will do"`
	NoPair   *string     `json:"no_pair" doc:"why there is no pair and what would help, else null"`
	Unfit    []unfitJSON `json:"unfit" doc:"bright stars above the horizon that will not do"`
	Focus    []focusJSON `json:"focus" doc:"stars to focus on, the best first"`
	NoFocus  *string     `json:"no_focus" doc:"why there is none, else null"`
}

type placeJSON struct {
	Alt float64 `json:"alt_deg" doc:"airless"`
	Az  float64 `json:"az_deg" doc:"from north through east"`
}

type starJSON struct {
	Name   string  `json:"name" doc:"IAU name, or else designation"`
	Bayer  *string `json:"bayer" doc:"as α CMa, null if it has none"`
	Constl string  `json:"constellation" doc:"IAU abbreviation"`
	Mag    float64 `json:"mag" doc:"V"`
	placeJSON
	Rising bool    `json:"rising" doc:"its altitude grows"`
	Leaves *string `json:"leaves" doc:"when it ceases to be fit, null if not within four hours"`
}

type pairJSON struct {
	First      starJSON   `json:"first" doc:"to centre first"`
	Second     starJSON   `json:"second" doc:"to centre then, and to stay on"`
	Separation float64    `json:"separation_deg" doc:"of the two"`
	Pointing   float64    `json:"pointing_per_arcmin" doc:"pointing error at the target for each unit of centring error"`
	Roll       float64    `json:"roll_per_arcmin" doc:"turn about the line of sight likewise"`
	Focuses    bool       `json:"second_focuses" doc:"the second will do as focus star too"`
	Reason     string     `json:"reason" doc:"why it stands where it does"`
	Check      *checkJSON `json:"check" doc:"a third star to be sure, null if there is none"`
}

type checkJSON struct {
	starJSON
	Within float64 `json:"within_arcmin" doc:"rms error to expect there if both stars were the right ones"`
	Reason string  `json:"reason" doc:"what a mistaken star would do"`
}

type unfitJSON struct {
	Name   string `json:"name" doc:"of the star"`
	Reason string `json:"reason" doc:"the end of a sentence"`
}

type focusJSON struct {
	starJSON
	ToTarget float64 `json:"to_target_deg" doc:"from the target"`
	Reason   string  `json:"reason" doc:"why it stands where it does"`
}

func writeJSON(to io.Writer, document any) error {
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	return encoder.Encode(document)
}

func starsDocumentOf(c chosenStars) starsDocument {
	s, k := c.stars, c.tonight.Kit
	d := starsDocument{
		Example: k.Example, Site: k.Site.Name, Target: c.tonight.Target.Name,
		At: *stamp(sky.Event{At: s.At, OK: true}), UsedFrom: *stamp(sky.Event{At: s.AimAt, OK: true}), Usable: s.Usable, TargetAt: placeOf(s.Aim),
		Sun: rounded(s.Sky.Sun, 1), Faintest: hundredths(min(s.Sky.FaintestMag, k.Stars.FaintestMag)), NoFocus: textOrNull(say.NoFocus(s.Sky, s.WhyNot)),
		Pairs: []pairJSON{}, Unfit: []unfitJSON{}, Focus: []focusJSON{},
	}
	for i, pair := range s.Pairs {
		j := pairJSON{First: starOf(pair.First), Second: starOf(pair.Second), Separation: rounded(pair.Separation, 1),
			Pointing: hundredths(pair.PerArcminute), Roll: hundredths(pair.RollPerArcmin), Focuses: pair.SecondFocuses, Reason: say.Pair(s.Sky, pair)}
		if check, ok := s.Check(i); ok {
			j.Check = &checkJSON{starOf(check.Star), hundredths(check.Expected.Arcminutes()), say.CheckStar(check, pair)}
		}
		d.Pairs = append(d.Pairs, j)
	}
	if len(s.Pairs) == 0 {
		d.NoPair = textOrNull(say.NoPair(s.Sky, s.None))
	}
	for _, star := range s.Sky.Unfit {
		if star.Place.Altitude > 0 {
			d.Unfit = append(d.Unfit, unfitJSON{star.Star.Name(), say.Unfit(star)})
		}
	}
	for i := range s.Focus {
		f := &s.Focus[i]
		d.Focus = append(d.Focus, focusJSON{starOf(&f.Candidate), rounded(f.ToTarget, 1), say.FocusStar(s.Sky, *f)})
	}
	return d
}

func starOf(c *plan.Candidate) starJSON {
	j := starJSON{Name: c.Star.Name(), Bayer: textOrNull(c.Star.Bayer()), Constl: c.Star.Constellation, Mag: hundredths(c.Star.Magnitude.Value),
		placeJSON: placeOf(c.Place), Rising: c.Rising}
	if c.Leaves.OK {
		j.Leaves = stamp(c.Leaves.Event)
	}
	return j
}

func placeOf(h sky.Horizontal) placeJSON {
	return placeJSON{rounded(h.Altitude, 1), rounded(rounded10(h.Azimuth), 1)}
}
