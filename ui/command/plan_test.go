package command_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

func TestPlanOfTheExampleNight(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "plan"), s.err)
	golden(t, "plan.txt", s.out)
	assert.Empty(t, s.err)
	assert.True(t, strings.HasPrefix(s.out, "EXAMPLE"), "nobody must take the example for a plan of their own")
	assert.Contains(t, s.out, "Night of 2026-12-05")
	assert.Contains(t, s.out, "ACDT (UTC+10:30)")
}

func TestPlanOfTheExampleNightAsJSON(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "plan", "--json"), s.err)
	golden(t, "plan.json", s.out)
	assert.NotContains(t, s.out, "NaN")
}

// night is what the tests read of plan --json.
type night struct {
	Example bool
	Date    string
	Dark    []struct{ From, To time.Time }
	DarkS   float64 `json:"dark_s"`
	Targets []struct {
		Name    string
		NoRun   *string `json:"no_run"`
		Windows []struct{ From, To time.Time }
		Runs    []struct {
			From, To time.Time
			Limit    struct {
				Side            string
				At, Early, Late *time.Time
			}
			Camera  float64 `json:"camera_angle_deg"`
			Exposed float64 `json:"exposed_s"`
			Subs    []struct{ Count int }
		}
		Rewinds []struct {
			From, To time.Time
			Length   float64 `json:"length_s"`
		}
		Subs []struct {
			Exposure float64 `json:"exposure_s"`
			Planned  int
		}
		Exposed      float64  `json:"exposed_s"`
		ExposedShare *float64 `json:"exposed_of_dark"`
	}
}

func (s *shell) night(args ...string) (n night) {
	require.Equal(s.t, command.Done, s.run("", append([]string{"plan", "--json"}, args...)...), s.err)
	require.NoError(s.t, json.Unmarshal([]byte(s.out), &n))
	return n
}

// What a careless -update must not be able to break.
func TestPlanJSONAddsUp(t *testing.T) {
	n := newShell(t).night()
	require.True(t, n.Example)
	require.Len(t, n.Targets, 2)
	for _, target := range n.Targets {
		exposed, planned := 0.0, 0
		for _, run := range target.Runs {
			exposed += run.Exposed
			for _, sub := range run.Subs {
				planned += sub.Count
			}
			assert.True(t, run.Camera >= 0 && run.Camera < 360)
			if run.Limit.Early != nil {
				assert.False(t, run.To.After(*run.Limit.Early), "a run ends before its early bound")
			}
			if run.Limit.At != nil && run.Limit.Late != nil {
				assert.False(t, run.Limit.At.After(*run.Limit.Late))
			}
		}
		assert.Equal(t, target.Exposed, exposed)
		wanted, total := 0.0, 0
		for _, sub := range target.Subs {
			wanted += float64(sub.Planned) * sub.Exposure
			total += sub.Planned
		}
		assert.Equal(t, total, planned)
		assert.Equal(t, wanted, exposed, "subs by filter times their exposure")
		assert.InDelta(t, exposed/n.DarkS, *target.ExposedShare, 0.0005+1e-9, "rounded to a thousandth")
		for _, rewind := range target.Rewinds {
			assert.InDelta(t, rewind.To.Sub(rewind.From).Seconds(), rewind.Length, 1, "each of three is rounded to the second")
		}
	}
}

// Every key that is printed is in the help, and every key of the help is printed, by one table.
func TestPlanHelpDocumentsEveryKey(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "plan", "--json"))
	printed := map[string]bool{}
	for _, key := range regexp.MustCompile(`"([a-z_]+)":`).FindAllStringSubmatch(s.out, -1) {
		printed[key[1]] = true
	}
	require.Greater(t, len(printed), 40)
	require.Equal(t, command.Done, s.run("", "plan", "--help"))
	documented := regexp.MustCompile(`(?m)^ +([a-z_]+)( \[\])? +\S`).FindAllStringSubmatch(s.out, -1)
	inHelp := map[string]bool{}
	for _, key := range documented {
		inHelp[key[1]] = true
	}
	for key := range printed {
		assert.True(t, inHelp[key], "%s is printed and not in the help", key)
	}
}

func TestPlanOfNightsThatDoNotGoAsUsual(t *testing.T) {
	tests := []struct {
		name    string
		replace []string // in the example's kit
		args    []string
		want    []string
	}{
		{name: "midsummer at 60° north is never dark",
			replace: []string{"latitude = -31.95", "latitude = 60", "longitude = 141.5", "longitude = 25", "Australia/Broken_Hill", "Europe/Helsinki"},
			args:    []string{"--on", "2026-06-21"},
			want:    []string{"Dark      never: the Sun does not sink to 18.0° below the horizon this night, only to 6.6°, at 01:", "site.dark_sun_deg = -6 would give", "astronomical none", "No run  it is never dark enough this night", "EEST (UTC+03:00)"}},
		{name: "a sky dark enough at −12°",
			replace: []string{`zone = "Australia/Broken_Hill"`, "dark_sun_deg = -12\nzone = \"Australia/Broken_Hill\""},
			args:    []string{"--on", "2026-12-05"},
			want:    []string{"Dark      21:01 to 04:48 (10:31 UTC to 18:18 UTC), 7 h 48 min, the Sun 12.0° down or more", "Window  21:01 to 04:48"}},
		{name: "a full Moon, told by filter, and filters of a target's own",
			replace: []string{`name = "NGC 1365"`, "name = \"NGC 1365\"\n[[target.filter]]\nname = \"Ha\"\ncount = 7\n[[target.filter]]\nname = \"L\"\ncount = 5",
				"[[target]]\nname = \"NGC 2070\"", "[[subs.filter]]\nname = \"Ha\"\nexposure_s = 300\ncount = 20\nbandwidth_nm = 3\n[[target]]\nname = \"NGC 2070\""},
			args: []string{"--on", "2026-12-24"},
			want: []string{"99 % lit, magnitude −12.5", " % through L, ", " % through Ha\n", "Subs    L 5 of 5, Ha 7 of 7; all that are wanted"}},
		{name: "Polaris never rises in Australia", args: []string{"--target", "Polaris"}, want: []string{"No run  it never rises at this latitude"}},
		{name: "a target that is up by day only", args: []string{"--target", "M 8", "--on", "2026-12-20"}, want: []string{"No run  it is below the horizon all the while that it is dark"}},
		{name: "a target below the floor", args: []string{"--target", "M 31", "--on", "2026-10-10"}, want: []string{"No run  it stays below the floor of 25.0° while it is dark"}},
		{name: "a levelled mount known exactly", replace: []string{"tilt_deg = 2.4", "tilt_deg = 0", "uncertainty_deg = 1", "uncertainty_deg = 0"},
			want: []string{"Axis      levelled, taken as exact"}},
		{name: "a zone without an abbreviation", replace: []string{"Australia/Broken_Hill", "Asia/Singapore"}, want: []string{"times UTC+08:00"}},
		{name: "the kit in UTC", replace: []string{"Australia/Broken_Hill", "UTC"}, want: []string{"times UTC\n"}},
		// South Australian summer time began on 2026-10-04 at 2 h (the zone's rule: first Sunday of October).
		{name: "the night in which summer time begins", args: []string{"--on", "2026-10-03"},
			want: []string{"times ACST (UTC+09:30) until 16:30 UTC, then ACDT (UTC+10:30)", " ACST to ", " ACDT ("}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			s.ownKit(test.replace...)
			require.Equal(t, command.Done, s.run("", append([]string{"plan"}, test.args...)...), s.err)
			for _, want := range test.want {
				assert.Contains(t, s.out, want)
			}
			assert.NotContains(t, s.out, "EXAMPLE")
			assert.NotContains(t, s.out, "NaN")
		})
	}
}

func TestPlanOfANightWithoutDarknessHasNullsInJSON(t *testing.T) {
	s := newShell(t)
	s.ownKit("latitude = -31.95", "latitude = 60")
	n := s.night("--on", "2026-06-21")
	assert.Empty(t, n.Dark)
	assert.Contains(t, s.out, `"astronomical_dusk": null`)
	for _, target := range n.Targets {
		require.NotNil(t, target.NoRun)
		assert.Nil(t, target.ExposedShare)
		assert.Empty(t, target.Runs)
	}
}

func TestPlanTarget(t *testing.T) {
	s := newShell(t)
	for _, name := range []string{"ngc 2070", "Tarantula Nebula", "30 Doradus"} {
		n := s.night("--target", name)
		require.Len(t, n.Targets, 1)
		assert.Equal(t, "NGC 2070", n.Targets[0].Name, "the kit's own name for it")
	}
	assert.Equal(t, "Carina Nebula", s.night("--target", "NGC 3372").Targets[0].Name)
}

func TestPlanRefuses(t *testing.T) {
	tests := []struct {
		name string
		args []string
		code int
		want string
	}{
		{"a target that nobody knows", []string{"--target", "Tarantulla"}, command.WrongUse, "Tarantula"},
		{"an empty target", []string{"--target", ""}, command.WrongUse, "no name given"},
		{"a date that is none", []string{"--on", "2026-02-30"}, command.WrongUse, `--on: "2026-02-30" is no date`},
		{"a year out of range", []string{"--on", "1815-06-18"}, command.WrongUse, "1950 to 2100"},
		{"a word", []string{"tonight"}, command.WrongUse, `takes no "tonight"`},
		{"a flag that is none", []string{"--date", "x"}, command.WrongUse, "see duskhand plan --help"},
		{"a kit file that is not there", []string{"--kit", "/nowhere/kit.toml"}, command.Failed, "there is no kit file /nowhere/kit.toml"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			assert.Equal(t, test.code, s.run("", append([]string{"plan"}, test.args...)...))
			assert.Empty(t, s.out, "messages stand on the other stream")
			assert.Contains(t, s.err, test.want)
		})
	}
}

func TestPlanIsASCIIInALocaleThatIsNot(t *testing.T) {
	s := newShell(t)
	for locale, ascii := range map[string]bool{"C": true, "POSIX": true, "en_AU.ISO8859-1": true, "en_AU.UTF-8": false, "de_DE.utf8": false, "": false} {
		s.env["LC_ALL"], s.env["LANG"] = locale, ""
		require.Equal(t, command.Done, s.run("", "plan"))
		assert.Equal(t, ascii, strings.IndexFunc(s.out, func(r rune) bool { return r > 126 }) < 0, "locale %q", locale)
	}
}

// Who asks in the morning asks for the evening to come; before sunrise the night is still the one going on.
func TestThePlanOfTheMorningIsForTheEvening(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	for _, c := range []struct {
		now  time.Time
		want string
	}{
		{time.Date(2026, 12, 5, 18, 30, 0, 0, time.UTC), "Night of 2026-12-05"}, // 05:00 on the 6th; sunrise is at 05:50
		{time.Date(2026, 12, 5, 22, 0, 0, 0, time.UTC), "Night of 2026-12-06"},  // 08:30
		{time.Date(2026, 12, 6, 2, 33, 0, 0, time.UTC), "Night of 2026-12-06"},  // a minute before local mean solar noon
		{time.Date(2026, 12, 6, 2, 35, 0, 0, time.UTC), "Night of 2026-12-06"},  // and after
		{time.Date(2026, 12, 6, 14, 0, 0, 0, time.UTC), "Night of 2026-12-06"},  // half past midnight on the 7th
	} {
		s.now = c.now
		require.Equal(t, command.Done, s.run("", "plan"), s.err)
		assert.Contains(t, s.out, c.want, c.now)
	}
}

// Two targets in one night: their turns don't overlap, and the plan is shorter for each than alone.
func TestPlanOfADividedNight(t *testing.T) {
	s := newShell(t)
	alone, divided := s.night(), s.night("--divide")
	require.Contains(t, s.out, `"divided": true`)
	require.Len(t, divided.Targets, 2)
	first, second := divided.Targets[0], divided.Targets[1]
	require.NotEmpty(t, first.Runs)
	require.NotEmpty(t, second.Runs)
	assert.False(t, second.Runs[0].From.Before(first.Runs[len(first.Runs)-1].To))
	for _, target := range divided.Targets {
		for _, whole := range alone.Targets {
			if whole.Name == target.Name {
				assert.Less(t, target.Exposed, whole.Exposed)
			}
		}
	}
	require.Equal(t, command.Done, s.run("", "plan", "--divide"), s.err)
	assert.Equal(t, 2, strings.Count(s.out, "\nTurn "), s.out)
	require.Equal(t, command.WrongUse, s.run("", "plan", "--divide", "--target", "NGC 2070"))
	assert.Contains(t, s.err, "--divide needs two targets or more")

	s.ownKit("name = \"NGC 2070\"", "name = \"NGC 2070\"\nshare = 2", "name = \"NGC 1365\"", "name = \"NGC 1365\"\nshare = 1")
	require.Equal(t, command.Done, s.run("", "plan", "--on", "2026-12-05"), s.err)
	assert.Contains(t, s.out, "\nTurn ", "the kit's shares divide every night")
}
