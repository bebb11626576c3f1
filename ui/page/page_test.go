package page_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/frame"
	"duskhand/ui/page"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

var date = plan.Date{Year: 2026, Month: 12, Day: 5}

// told is the example night of one of its targets, before anything has happened.
func told(k kit.Kit, target int) page.Night {
	night := plan.NewNight(k, date)
	log := checklist.Night{Target: &checklist.Target{Name: k.Targets[target].Name, Star: k.Targets[target].Star}}
	tonight := facts.For(k, date, log, night.Span.From, nil)
	run := tonight.At(night.Span.From)
	return page.Night{Told: frame.Told{Frame: run.FrameAt(tonight.FramingOf()), Run: run}}
}

func write(t *testing.T, ink theme.Ink, k kit.Kit, nights ...page.Night) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, page.Write(&out, ink, k, date, nights))
	return out.String()
}

// All of the dark that is neither run nor rewind is explained on the page, and what it costs not to know the axis.
func TestThePageSaysWhyNothingIsExposed(t *testing.T) {
	k := kit.Example()
	k.Targets = k.Targets[1:] // it goes through the keyhole
	k.Axis.Uncertainty = 3 * sky.Degree
	night := told(k, 0)
	night.Price = plan.Price{Reading: 29 * time.Minute, Sights: 29 * time.Minute}
	page := html.UnescapeString(write(t, theme.PrintInk(), k, night))
	idle := night.Told.Run.Tonight.Idle()
	require.NotEmpty(t, idle)
	for _, i := range idle {
		assert.True(t, strings.Contains(page, words.Lasting(i.Length())+": "+say.WhyIdle(i)), say.WhyIdle(i))
	}
	assert.True(t, strings.Contains(page, "A reading of the scale is worth 29 min."))
	night.Price = plan.Price{}
	assert.False(t, strings.Contains(write(t, theme.PrintInk(), k, night), "is worth"))
}

// elements reads the page by the standard library's XML decoder, which refuses what is not well-formed.
func elements(t *testing.T, svg string) map[string]int {
	t.Helper()
	count := map[string]int{}
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return count
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok {
			count[start.Name.Local]++
		}
	}
}

func TestPageIsWellFormedAndSaysTheNight(t *testing.T) {
	k := kit.Example()
	svg := write(t, theme.DarkInk(), k, told(k, 0), told(k, 1))
	count := elements(t, svg)
	assert.Equal(t, 1, count["svg"])
	assert.Greater(t, count["circle"], 100, "stars")
	assert.Equal(t, 4, count["clipPath"], "a chart and a field for each target")
	for _, words := range []string{"Night of 2026-12-05, Saltbush Flat", "EXAMPLE", "NGC 2070, Tarantula Nebula", "NGC 1365", "run 1", "−16° → +15.2°",
		"camera angle", "Never point an unfiltered telescope", "ACDT (UTC+10:30)"} {
		assert.Contains(t, svg, words)
	}
	assert.NotContains(t, svg, "NaN")
	assert.NotContains(t, svg, "Inf")
}

// The order of filters stands under the table of runs, with its reason, where the kit lets it be found.
func TestPageSaysTheOrderOfFilters(t *testing.T) {
	k := kit.Example()
	assert.NotContains(t, write(t, theme.DarkInk(), k, told(k, 0)), "Order of subs", "the example's filters take turns")
	k.Subs.Order = kit.ByWorth
	k.Subs.Filters = []kit.Filter{{Name: "L", Kind: kit.Broad, CentreNM: 550, Exposure: time.Minute, Count: 60},
		{Name: "Ha", Kind: kit.LineFilter, CentreNM: 656.28, Exposure: 5 * time.Minute, Count: 20}}
	assert.Regexp(t, `>Order of subs: \d+ (L|Ha) while it is highest, \d\d:\d\d, then \d+ (L|Ha)|>Order of subs: \d+ (L|Ha), then \d+ (L|Ha)`, write(t, theme.DarkInk(), k, told(k, 0)))
}

// A name with signs that mean something in XML comes out as itself.
func TestNamesAreEscaped(t *testing.T) {
	k := kit.Example()
	k.Site.Name = `<Dad's & "mine">`
	k.Targets[0].Name = "R & S <field>"
	svg := write(t, theme.PrintInk(), k, told(k, 0))
	elements(t, svg)
	assert.NotContains(t, svg, "<Dad")
	assert.Contains(t, svg, "R &amp; S &lt;field&gt;")
}

// The dark page lights nothing but red; the one for paper has white paper.
func TestInks(t *testing.T) {
	k := kit.Example()
	colours := regexp.MustCompile(`"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})"`)
	for _, c := range colours.FindAllStringSubmatch(write(t, theme.DarkInk(), k, told(k, 0)), -1) {
		assert.Equal(t, "0000", c[2]+c[3], "no green and no blue: %s", c[0])
	}
	paper := write(t, theme.PrintInk(), k, told(k, 0))
	assert.Contains(t, paper, `fill="#ffffff"`)
	for _, role := range theme.Roles()[1:] {
		grey, err := strconv.ParseInt(theme.PrintInk().Of(role)[1:3], 16, 0)
		require.NoError(t, err)
		assert.Less(t, grey, int64(0xa0), "role %d is dark enough to print", role)
	}
}

// A night without runs has a page too.
func TestPageOfATargetThatIsNeverUp(t *testing.T) {
	k := kit.Example()
	polaris, err := k.FindTarget("Polaris")
	require.NoError(t, err)
	k.Targets[0] = polaris
	svg := write(t, theme.DarkInk(), k, told(k, 0))
	elements(t, svg)
	assert.Contains(t, svg, "No run")
	assert.Contains(t, svg, "no camera angle")
}

// No name in the field is cut at its edge or lies over another, by the width that letters have at most; and what is
// in small letters is not faint.
func TestNamesInTheFieldAreWholeAndApart(t *testing.T) {
	k := kit.Example()
	for _, name := range []string{"NGC 2070", "Orion Nebula", "NGC 1365", "M 45", "M 42"} {
		target, err := k.FindTarget(name)
		require.NoError(t, err)
		k.Targets[0] = target
		svg := write(t, theme.DarkInk(), k, told(k, 0))
		field := svg[strings.Index(svg, `<clipPath id="field0">`):]
		var x, y, width, height float64
		_, err = fmt.Sscanf(field, `<clipPath id="field0"><rect x="%f" y="%f" width="%f" height="%f"/>`, &x, &y, &width, &height)
		require.NoError(t, err)
		field = field[:strings.Index(field, "</g>")]
		type box struct{ left, top, right, bottom float64 }
		var seen []box
		for _, found := range regexp.MustCompile(`<text x="([-0-9.]+)" y="([-0-9.]+)" font-size="12"[^>]*>([^<]*)</text>`).FindAllStringSubmatch(field, -1) {
			left, _ := strconv.ParseFloat(found[1], 64)
			base, _ := strconv.ParseFloat(found[2], 64)
			own := box{left, base - 11, left + 7*float64(len([]rune(found[3]))), base + 2}
			assert.GreaterOrEqual(t, own.left, x, found[3])
			assert.LessOrEqual(t, own.right, x+width, found[3])
			assert.GreaterOrEqual(t, own.top, y, found[3])
			assert.LessOrEqual(t, own.bottom, y+height, found[3])
			for _, other := range seen {
				assert.False(t, own.left < other.right && other.left < own.right && own.top < other.bottom && other.top < own.bottom, "%s over another", found[3])
			}
			seen = append(seen, own)
		}
		assert.NotEmpty(t, seen, name)
		for _, found := range regexp.MustCompile(`<circle cx="([-0-9.]+)" cy="([-0-9.]+)" r="([0-9.]+)"`).FindAllStringSubmatch(field, -1) {
			cx, _ := strconv.ParseFloat(found[1], 64)
			cy, _ := strconv.ParseFloat(found[2], 64)
			if r, _ := strconv.ParseFloat(found[3], 64); r > 2.5 { // less than that is hidden by the ground about the letters
				for _, own := range seen {
					assert.False(t, cx+r > own.left && cx-r < own.right && cy+r > own.top && cy-r < own.bottom, "a name of %s lies on a star at %.0f,%.0f", name, cx, cy)
				}
			}
		}
		faint := regexp.MustCompile(`font-size="1[0-4]" fill="` + theme.DarkInk().Of(theme.Faint) + `"`)
		assert.NotRegexp(t, faint, svg)
	}
}

// In a divided night each target stands with its own runs: those after the hand-over are the other's.
func TestATargetStandsWithItsOwnRuns(t *testing.T) {
	k := kit.Example()
	k.Targets[0].Share, k.Targets[1].Share = 1, 1
	night := told(k, 0)
	var others int
	for _, row := range night.Told.Run.Rows() {
		if row.Target != k.Targets[0].Name {
			others++
		}
	}
	require.NotZero(t, others, "the night is handed over")
	svg := write(t, theme.PrintInk(), k, night)
	assert.Equal(t, len(night.Told.Run.Rows())-others, strings.Count(svg, ">run "), "a bar for each")
}

// No target is cut where a sheet of paper ends: a second one that does not fit begins a sheet of its own.
func TestASecondTargetBeginsANewSheet(t *testing.T) {
	k := kit.Example()
	svg := write(t, theme.PrintInk(), k, told(k, 0), told(k, 1))
	name := regexp.MustCompile(`y="([\d.]+)" font-size="20"`)
	var tops []float64
	for _, found := range name.FindAllStringSubmatch(svg, -1) {
		y, err := strconv.ParseFloat(found[1], 64)
		require.NoError(t, err)
		tops = append(tops, y)
	}
	require.Len(t, tops, 2)
	assert.InDelta(t, 1000*297/210.0+24, tops[1], 1, "of A4, as wide as the page")
}

// Two pages of one second do not take each other's place.
func TestAPageIsSavedTwiceInASecond(t *testing.T) {
	k, folder := kit.Example(), t.TempDir()
	now := time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	first, err := page.Save(folder, k, date, now, told(k, 0))
	require.NoError(t, err)
	second, err := page.Save(folder, k, date, now, told(k, 0))
	require.NoError(t, err)
	assert.NotEqual(t, first, second)
	assert.Contains(t, second[0], "-2.svg")
}
