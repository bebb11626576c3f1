package command_test

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

func TestTheCardOfTheExample(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "card"), s.err)
	golden(t, "card.txt", s.out)
	for _, said := range []string{
		"EXAMPLE", "31°57′00″ S = 31°57.000′ S = 31.95000° S", "141°30′00″ E", "summer time holds", "UTC+10:30",
		"Never point an unfiltered telescope",
	} {
		assert.Contains(t, s.out, said)
	}
	assert.LessOrEqual(t, strings.Count(s.out, "\n"), 60, "one page of paper")
	for _, line := range strings.Split(s.out, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 110, line)
	}
}

func TestTheCardAsJSON(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "card", "--json", "--at", "21:30"), s.err)
	golden(t, "card.json", s.out)
	var got struct {
		At        time.Time
		Local     time.Time
		Offset    float64 `json:"utc_offset_h"`
		Summer    bool    `json:"summer_time"`
		Longitude struct {
			Deg float64
			DM  string `json:"degrees_minutes"`
		}
		Pole struct {
			Alt float64 `json:"alt_deg"`
		} `json:"pole_star"`
		Stars []struct {
			Name   string
			J2000  [2]float64
			OfDate [2]float64 `json:"of_date"`
		}
		Clock *struct{}
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	assert.True(t, got.At.Equal(got.Local))
	assert.InDelta(t, 10.5, got.Offset, 0)
	assert.True(t, got.Summer, "South Australia's clocks are an hour forward in December")
	assert.InDelta(t, 141.5, got.Longitude.Deg, 0)
	assert.Equal(t, "141°30.000′ E", got.Longitude.DM)
	assert.InDelta(t, 31.95, got.Pole.Alt, 1.3, "within its distance from the pole")
	require.Len(t, got.Stars, 3)
	assert.Nil(t, got.Clock, "a clock of tests has no machine")
}

func TestTheCardAsAPage(t *testing.T) {
	s := newShell(t)
	file := filepath.Join(t.TempDir(), "card.svg")
	require.Equal(t, command.Done, s.run("", "card", "--svg", file, "--paper"), s.err)
	page, err := os.ReadFile(file)
	require.NoError(t, err)
	decoder := xml.NewDecoder(strings.NewReader(string(page)))
	for {
		if _, err := decoder.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
	}
	for _, said := range []string{"Card for the night of 2026-12-05", "EXAMPLE", "31.95000° S", "Canopus", "Sky flats"} {
		assert.Contains(t, string(page), said)
	}
	require.Equal(t, command.Failed, s.run("", "card", "--svg", file))
	assert.Contains(t, s.err, "--force")
	require.Equal(t, command.WrongUse, s.run("", "card", "--paper"))
	assert.Contains(t, s.err, "--paper goes with --svg FILE")
}
