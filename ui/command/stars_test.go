package command_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

func TestStarsOfTheExampleDusk(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "stars"), s.err)
	golden(t, "stars.txt", s.out)
	assert.Contains(t, s.out, "EXAMPLE")
	assert.Contains(t, s.out, "Stars at 21:00 (10:30 UTC)", "nautical dusk of the example's evening: see plan.txt")
	assert.Contains(t, s.out, "Never point an unfiltered telescope")
}

func TestStarsAsJSON(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "stars", "--json", "--target", "NGC 1365", "--on", "2026-12-05", "--at", "22:15"), s.err)
	golden(t, "stars.json", s.out)
	var got struct {
		At    time.Time
		Pairs []struct {
			Pointing   float64 `json:"pointing_per_arcmin"`
			Separation float64 `json:"separation_deg"`
		}
		NoPair *string `json:"no_pair"`
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	assert.Equal(t, time.Date(2026, 12, 5, 11, 45, 0, 0, time.UTC), got.At, "22:15 ACDT is 11:45 UTC")
	require.NotEmpty(t, got.Pairs)
	assert.Nil(t, got.NoPair)
	for _, pair := range got.Pairs {
		assert.GreaterOrEqual(t, pair.Separation, 30.0, "the kit's window")
		assert.GreaterOrEqual(t, pair.Pointing, 1.0, "no pair points better than a star is centred")
	}
}

func TestStarsWhenAsked(t *testing.T) {
	s := newShell(t)
	s.ownKit()
	for _, c := range []struct {
		name string
		now  time.Time
		args []string
		want string
	}{
		{"at night it is now", time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC), nil, "Stars at 23:30"},
		{"in the afternoon it is dusk", time.Date(2026, 12, 5, 5, 0, 0, 0, time.UTC), nil, "Stars at 21:00"},
		{"after midnight belongs to the evening before", time.Date(2026, 12, 5, 5, 0, 0, 0, time.UTC), []string{"--at", "02:10"}, "Stars at 02:10 (15:40 UTC)"},
		{"a full date", time.Date(2026, 12, 5, 5, 0, 0, 0, time.UTC), []string{"--at", "2026-12-24 22:00"}, "Stars at 22:00"},
		{"by day there is none, and it is said why", time.Date(2026, 12, 5, 5, 0, 0, 0, time.UTC), []string{"--at", "17:30"}, "No two stars will do."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s.now = c.now
			require.Equal(t, command.Done, s.run("", append([]string{"stars"}, c.args...)...), s.err)
			assert.Contains(t, s.out, c.want)
		})
	}
}

func TestStarsRefusesInWords(t *testing.T) {
	s := newShell(t)
	assert.Equal(t, command.WrongUse, s.run("", "stars", "--target", "NGC 207O"))
	assert.Contains(t, s.err, "NGC 2070")
	assert.Equal(t, command.WrongUse, s.run("", "stars", "--at", "25:00"))
	assert.Contains(t, s.err, "2026-12-05 23:14")
	s.ownKit() // in a zone that puts its clock forward at 2:00 on 4 October 2026
	assert.Equal(t, command.WrongUse, s.run("", "stars", "--on", "2026-10-03", "--at", "02:30"))
	assert.Contains(t, s.err, "does not happen in Australia/")
	assert.Equal(t, command.WrongUse, s.run("", "stars", "--on", "yesterday"))
	assert.Contains(t, s.err, "year-month-day")
}
