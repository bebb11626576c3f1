package checklist

// KindCommandFailed is the event of a program of the operator's own, bound to something in the night, that
// could not be run, failed, or took too long. It changes nothing in the night and is for the record only.
const KindCommandFailed = "command-failed"

// CommandFailedBody is the body of KindCommandFailed: what had happened in the night, as the kit names it,
// the program and its arguments, and in words what went wrong.
type CommandFailedBody struct {
	Event   string   `json:"event"`
	Command []string `json:"command"`
	Problem string   `json:"problem"`
}
