// Figures measures one frame and prints what compare.py wants to know, as JSON. It is given the file and,
// if wanted, the number of goroutines and of rounds.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"strings"
	"syscall"
	"time"

	"duskhand/checklist/subs/fits"
	"duskhand/checklist/subs/measure"
)

func main() {
	goroutines, rounds := 2, 1
	if len(os.Args) > 3 {
		goroutines, _ = strconv.Atoi(os.Args[2])
		rounds, _ = strconv.Atoi(os.Args[3])
	}
	m := measure.New(goroutines, 100_000)
	var pixels fits.Pixels
	for range rounds {
		if err := once(m, &pixels, os.Args[1]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}

func once(m *measure.Measurer, pixels *fits.Pixels, path string) error {
	begin := time.Now()
	frame, err := fits.Open(path)
	if err != nil {
		return err
	}
	defer frame.Close()
	if err := frame.Fill(pixels); err != nil {
		return err
	}
	got, err := m.Frame(pixels)
	if err != nil {
		return err
	}
	seconds, used := time.Since(begin).Seconds(), processor() // without the printing
	stars := make([][]float64, len(got.Stars))
	for i, s := range got.Stars {
		saturated := 0.0
		if s.Saturated {
			saturated = 1
		}
		stars[i] = []float64{s.X, s.Y, s.Flux, s.Noise, s.HFD, saturated, s.Elongation, s.Direction.Degrees()}
	}
	return json.NewEncoder(os.Stdout).Encode(map[string]any{
		"seconds": seconds, "processor_seconds": used, "resident_mb": resident(), "count": got.Count, "hfd": got.HFD,
		"elongation": got.Elongation, "direction_deg": got.Direction.Degrees(), "background": got.Background,
		"noise": got.Noise, "stars": stars,
	})
}

// processor returns the processor time that the process has used, seconds.
func processor() float64 {
	var used syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &used) != nil {
		return 0
	}
	return float64(used.Utime.Nano()+used.Stime.Nano()) / 1e9
}

// resident returns the most memory that the process has had, in 10⁶ bytes.
func resident() float64 {
	status, _ := os.ReadFile("/proc/self/status")
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	kilobytes, _ := strconv.ParseFloat(strings.Fields(rest + " 0")[0], 64)
	return kilobytes * 1024 / 1e6
}
