package kit

import "time"

// Watch is which folders are looked at for subs that arrive: every one of Folders, each Poll where the
// computer does not tell of changes. No folders: nothing is watched.
// Frames of more than MostPixels are counted and not measured; 0 when the file is silent.
type Watch struct {
	Folders    []string // as the file has them
	Poll       time.Duration
	MostPixels int64
	SideFiles  bool // a file beside each light says where it looks
}

// MostPixels returns how many pixels a frame may have to be measured: what the file says, or four times the
// camera's, which leaves room for another camera, and none for a file that says it is as large as the memory.
func (k Kit) MostPixels() int64 {
	if k.Watch.MostPixels > 0 {
		return k.Watch.MostPixels
	}
	return 4 * int64(k.Camera.Width) * int64(k.Camera.Height)
}

func watchFields() []field {
	return []field{
		{key: "watch.folders", kind: textList, min: 1, max: 20, need: optional, example: `["/home/me/subs"]`,
			help: "Folders in which the subs arrive; none is watched if left out.",
			set:  func(d *draft, v value) { d.kit.Watch.Folders = v.texts }},
		{key: "watch.poll_s", kind: number, unit: "s", min: 0.5, max: 600, fallback: 5.0, example: "5",
			help: "How often they are looked at where the computer does not tell of changes, as on shared folders.",
			set:  func(d *draft, v value) { d.kit.Watch.Poll = v.seconds() }},
		{key: "watch.most_megapixels", kind: number, unit: "million pixels", min: 0.01, max: 2000, need: optional, example: "100",
			help: "Frames of more pixels are counted and not measured; four times the camera's if left out.",
			set:  func(d *draft, v value) { d.kit.Watch.MostPixels = int64(v.number * 1e6) }},
		{key: "watch.side_files", kind: choice, options: []string{"none", "placed"}, fallback: "none", example: "none",
			help: "Whether a file beside each light, named like it with .placed.txt, says where it looks, as FITS keywords.",
			set:  func(d *draft, v value) { d.kit.Watch.SideFiles = v.text == "placed" }},
	}
}
