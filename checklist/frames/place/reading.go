package place

import (
	"context"
	"sync/atomic"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/watch"
	"duskhand/plan/kit"
)

// Pointing is where the telescope may look just now. Whoever follows the night says so, and a reader that places
// frames in the background asks. The zero value says nothing.
type Pointing struct{ sought atomic.Pointer[[]Sought] }

// Set says where lights that are read from now on may look, the likeliest first.
func (p *Pointing) Set(sought []Sought) { p.sought.Store(&sought) }

func (p *Pointing) get() []Sought {
	if sought := p.sought.Load(); sought != nil {
		return *sought
	}
	return nil
}

// Reading returns a reader that places the lights which another has measured, and writes that beside them if the kit
// says so. A light that is not placed, or not written of, is no error: it counts in any case.
func Reading(read watch.Reader, k kit.Kit, p *Pointing) watch.Reader {
	return func(ctx context.Context, path string, already bool) (watch.Look, error) {
		look, err := read(ctx, path, already)
		if err != nil || look.Measured == nil || ctx.Err() != nil {
			return look, err
		}
		if kind := look.Header.Kind; kind != subs.Light && kind != subs.UnknownKind {
			return look, nil
		}
		sought := p.get()
		if len(sought) == 0 {
			return look, nil
		}
		near, placed, err := Among(k, Light{Header: look.Header, Measured: look.Measured}, sought)
		if err != nil {
			look.Unplaced = why(err)
			return look, nil
		}
		look.Placed = BodyOf(near.Name, placed)
		if k.Watch.SideFiles {
			if err := WriteSideFile(path, *look.Placed, look.Header.Width, look.Header.Height); err != nil {
				look.Remarks = append(look.Remarks[:len(look.Remarks):len(look.Remarks)], err.Error())
			}
		}
		return look, nil
	}
}
