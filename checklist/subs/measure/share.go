package measure

import (
	"sync"
	"sync/atomic"
)

// share does the pieces of a work with that many workers, each piece once. do is told which worker does
// it, whose memory it may use.
func share(workers, pieces int, do func(worker, piece int)) {
	var next atomic.Int64
	var group sync.WaitGroup
	for worker := range workers {
		group.Go(func() {
			for {
				piece := int(next.Add(1)) - 1
				if piece >= pieces {
					return
				}
				do(worker, piece)
			}
		})
	}
	group.Wait()
}
