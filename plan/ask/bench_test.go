package ask_test

import (
	"fmt"
	"testing"

	"duskhand/plan/ask"
)

// What one core answers in a second is 1e9 over the time of one answer. The bounds: place 150,000, run 25,000,
// twilight 10,000, and a name that is not known 5,000.

const benchSite = `"site":{"lat_deg":-31.95,"lon_deg":141.5,"elevation_m":210}`

func benchmark(b *testing.B, request func(i int) string) {
	requests := make([][]byte, 512)
	for i := range requests {
		requests[i] = []byte(request(i))
	}
	answerer := ask.New(nil)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		answerer.Answer(requests[i%len(requests)])
	}
}

func BenchmarkAnswerPlace(b *testing.B) {
	benchmark(b, func(i int) string {
		return fmt.Sprintf(`{"ask":"place","id":%d,%s,"utc":"2026-12-05T%02d:44:%02dZ","star":{"ra_deg":%d.6765,"dec_deg":-%d.1009}}`, i, benchSite, 10+i%10, i%60, i%360, i%80)
	})
}

func BenchmarkAnswerRun(b *testing.B) {
	benchmark(b, func(i int) string {
		return fmt.Sprintf(`{"ask":"run",%s,"utc":"2026-12-05T%02d:44:00Z","star":{"ra_deg":%d.6765,"dec_deg":-%d.1009},"floor_alt_deg":25,`+
			`"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":%d,"sense":1}}`, benchSite, 10+i%10, i%360, i%80, i%32-16)
	})
}

func BenchmarkAnswerTwilight(b *testing.B) {
	benchmark(b, func(i int) string {
		return fmt.Sprintf(`{"ask":"twilight",%s,"date":"20%02d-%02d-%02d"}`, benchSite, 20+i%30, 1+i%12, 1+i%28)
	})
}

func BenchmarkAnswerUnknownName(b *testing.B) {
	benchmark(b, func(i int) string { return fmt.Sprintf(`{"ask":"object","name":"xyzzyp%d"}`, i) })
}
