package record

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/sky/foreign"
)

// CSV writes a row for each filter of each run, and one without filter for a run without subs, below a
// row of names. Times are UTC as RFC 3339, angles degrees.
func (r Record) CSV(to io.Writer) error {
	out := csv.NewWriter(to)
	rows := [][]string{{"night", "target", "run", "run_start_utc", "run_end_utc", "camera_angle_deg", "group", "start_angle_deg", "end_angle_deg", "end_angle_read",
		"filter", "exposure_s", "subs", "first_start_utc", "last_end_utc", "numbers_in_run", "sun_deg", "in_twilight",
		"goto_off_deg", "lights_placed", "camera_angle_seen_deg", "camera_angle_within_deg", "scale_arcsec_per_px", "mirrored", "stage"}}
	for _, night := range r.Nights {
		for _, target := range night.Targets {
			for _, run := range target.Runs {
				rows = append(rows, csvRows(night, target, run)...)
			}
		}
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("writing the record: %w", err)
	}
	return nil
}

func csvRows(night Night, target Target, run Run) (rows [][]string) {
	end := ""
	if !run.Open {
		end = instant(run.To)
	}
	head := []string{night.Date.String(), foreign.Cell(target.Name), strconv.Itoa(run.Number), instant(run.From), end, tenth(roundedPosition(run.CameraAngle)), foreign.Cell(run.Group),
		tenth(run.StartAngle), tenth(run.EndAngle), strconv.FormatBool(run.EndRead)}
	tail := append([]string{night.gotoBefore(target.Name, run)}, csvSeen(run)...)
	if len(run.Filters) == 0 {
		return [][]string{slices.Concat(head, []string{"", "", "0", "", "", "", "", ""}, tail)}
	}
	for _, f := range run.Filters {
		rows = append(rows, slices.Concat(head, []string{foreign.Cell(f.Filter), strconv.FormatFloat(f.Exposure.Seconds(), 'g', -1, 64), strconv.Itoa(f.Count),
			instant(f.First), instant(f.Last), csvNumbers(f.Numbers), csvSuns(f.Sun), strconv.Itoa(f.Early)}, tail))
	}
	return rows
}

// csvSuns writes the Sun's altitude at each sub, "-19.2;-19.6".
func csvSuns(suns []sky.Angle) string {
	var all []string
	for _, sun := range suns {
		all = append(all, tenth(sun))
	}
	return strings.Join(all, ";")
}

// csvNumbers writes "1-5;21".
func csvNumbers(stretches []Stretch) (text string) {
	for i, s := range stretches {
		if i > 0 {
			text += ";"
		}
		text += strconv.Itoa(s.From)
		if s.To != s.From {
			text += "-" + strconv.Itoa(s.To)
		}
	}
	return text
}

func instant(t time.Time) string { return t.UTC().Round(time.Second).Format(time.RFC3339) }

func tenth(a sky.Angle) string { return strconv.FormatFloat(rounded(a), 'f', 1, 64) }
