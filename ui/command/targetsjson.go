package command

import (
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// targetsDocument is what targets --json prints.
type targetsDocument struct {
	Example bool         `json:"example" doc:"true for the built-in example kit"`
	Site    string       `json:"site" doc:"its name in the kit"`
	Date    string       `json:"date" doc:"date of the evening"`
	From    *string      `json:"from" doc:"nothing before it counts; null: the whole night"`
	Ranked  int          `json:"ranked" doc:"targets that were ranked"`
	Targets []choiceJSON `json:"targets" doc:"the best first"`
}

type choiceJSON struct {
	Name      string        `json:"name" doc:"as the kit or the catalogue has it"`
	ID        *string       `json:"id" doc:"main designation, null with coordinates of the kit's own"`
	Type      *string       `json:"type" doc:"null likewise"`
	Constl    *string       `json:"constellation" doc:"IAU abbreviation, null likewise"`
	Verdict   string        `json:"verdict" doc:"worth it, hardly or not"`
	Worth     int64         `json:"worth_s" doc:"up_s times all shares: seconds at the zenith in the dark"`
	Up        int64         `json:"up_s" doc:"in the dark, above floor and horizon, outside the keyhole"`
	Working   int64         `json:"working_s" doc:"of it subs can be taken"`
	Windows   []spanJSON    `json:"windows" doc:"when it is up so"`
	Rewinds   int           `json:"rewinds" doc:"of the derotator"`
	OneRun    bool          `json:"one_run" doc:"the derotator lasts without a rewind"`
	Keyhole   int64         `json:"keyhole_s" doc:"dark and clear, but too near the mount's axis"`
	Highest   *float64      `json:"highest_deg" doc:"altitude, airless; null when it is not up"`
	HighestAt *string       `json:"highest_at" doc:"when"`
	Rate      float64       `json:"rotation_deg_per_h" doc:"of the field, mean of its size"`
	Moon      moonLight     `json:"moon" doc:"while the target is up"`
	Size      sizeJSON      `json:"size" doc:"on the chip"`
	Factors   []factorJSON  `json:"factors" doc:"turning, height, Moon, framing, goal, filters"`
	Through   []throughJSON `json:"through" doc:"the filters that it would be taken through; none when it is not up"`
}

type moonLight struct {
	Up      int64    `json:"up_s" doc:"over the horizon"`
	Lit     float64  `json:"illuminated" doc:"share of its disc, 0 to 1"`
	Nearest *float64 `json:"nearest_deg" doc:"to the target; null while it is down"`
}

type throughJSON struct {
	Filter string  `json:"filter" doc:"its name"`
	Suits  float64 `json:"suits" doc:"what it gives of what a filter made for such light would, 0 to 1"`
	Height float64 `json:"height" doc:"what a minute is worth against one at the zenith, without Moon"`
	Moon   float64 `json:"moon_takes" doc:"share of that which the Moon takes"`
	Guess  bool    `json:"band_guessed" doc:"the kit does not give its bandwidth: 5 nm for a line, 300 for luminance, 100 for a colour are taken"`
}

type sizeJSON struct {
	Fit     string   `json:"fit" doc:"not known, tiny, small, fits or larger"`
	Major   *float64 `json:"major_arcmin" doc:"long axis, null if not known"`
	Minor   *float64 `json:"minor_arcmin" doc:"short axis"`
	Shown   float64  `json:"shown" doc:"share that one field holds, 0 to 1"`
	Columns int      `json:"columns" doc:"of the least mosaic that holds all, along the object"`
	Rows    int      `json:"rows" doc:"and across"`
}

type factorJSON struct {
	Of    string  `json:"of" doc:"what it is about"`
	Share float64 `json:"share" doc:"that it leaves"`
	Words string  `json:"words" doc:"why; times local"`
}

func targetsDocumentOf(r rankedTargets) targetsDocument {
	k := r.night.Kit
	d := targetsDocument{Example: k.Example, Site: k.Site.Name, Date: r.night.Date.String(), Ranked: len(r.Choices), Targets: []choiceJSON{}}
	if !r.Question.From.IsZero() {
		d.From = textOrNull(instant(r.Question.From))
	}
	for _, c := range r.Choices[:r.shown] {
		d.Targets = append(d.Targets, choiceOf(c, k))
	}
	return d
}

func choiceOf(c choose.Choice, k kit.Kit) choiceJSON {
	j := choiceJSON{Name: c.Target.Name, ID: textOrNull(c.Target.Object.ID), Type: textOrNull(c.Target.Object.Type), Constl: textOrNull(c.Target.Object.Constellation),
		Verdict: map[facts.Worth]string{facts.WorthIt: "worth it", facts.HardlyWorth: "hardly", facts.NotWorth: "not"}[facts.VerdictOf(c).Worth],
		Worth:   whole(c.Worth), Up: whole(c.Up), Working: whole(c.Working), Windows: []spanJSON{}, Rewinds: c.Rewinds, OneRun: c.OneRun, Keyhole: whole(c.Keyhole),
		Rate: hundredths(c.Rate.DegreesPerHour()), Moon: moonLightOf(c.Moon), Factors: []factorJSON{}, Through: []throughJSON{},
		Size: sizeJSON{Fit: c.Size.Fit.String(), Shown: thousandths(c.Size.Shown), Columns: c.Size.Columns, Rows: c.Size.Rows}}
	for _, w := range c.Windows {
		j.Windows = append(j.Windows, spanJSON{instant(w.From), instant(w.To)})
	}
	if len(c.Windows) > 0 && !c.HighestAt.IsZero() {
		j.Highest, j.HighestAt = pointer(rounded(c.Highest, 1)), textOrNull(instant(c.HighestAt))
	}
	if c.Size.Object.Major > 0 {
		j.Size.Major, j.Size.Minor = pointer(hundredths(c.Size.Object.Major.Arcminutes())), pointer(hundredths(c.Size.Object.Minor.Arcminutes()))
	}
	for _, t := range c.Through {
		j.Through = append(j.Through, throughOf(t))
	}
	for _, f := range c.Factors {
		j.Factors = append(j.Factors, factorJSON{f.Of.String(), thousandths(f.Share), say.Factor(c, f, k)})
	}
	return j
}
