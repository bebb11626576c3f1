package kit

import "time"

// Watch is which folders are looked at for subs that arrive: every one of Folders, each Poll where the
// computer does not tell of changes. No folders: nothing is watched.
type Watch struct {
	Folders []string // as the file has them
	Poll    time.Duration
}

func watchFields() []field {
	return []field{
		{key: "watch.folders", kind: words, min: 1, max: 20, need: optional, example: `["/home/me/subs"]`,
			help: "Folders in which the subs arrive; none is watched if left out.",
			set:  func(d *draft, v value) { d.kit.Watch.Folders = v.texts }},
		{key: "watch.poll_s", kind: number, unit: "s", min: 0.5, max: 600, fallback: 5.0, example: "5",
			help: "How often they are looked at where the computer does not tell of changes, as on shared folders.",
			set:  func(d *draft, v value) { d.kit.Watch.Poll = v.seconds() }},
	}
}
