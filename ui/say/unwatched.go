package say

// HowToWatch says how a folder is watched, and what one gains by it.
const HowToWatch = `Name the folder that the camera program writes its lights to, in the kit file:

  [watch]
  folders = ["/where/the/lights/go"]

Then leave (q) and open duskhand again: it goes on where it was.

Each light then counts for its run, and its stars are measured: focus, sky, and where it looks. A field that turns, a stage that slips and a guide star that is lost are called after two or three lights.

Once, without watching: duskhand subs FOLDER`
