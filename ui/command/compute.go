package command

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"duskhand/plan/ask"
)

const computeLong = `Reads requests from standard input, one JSON object a line, and answers each with one JSON object a
line, in order; an answer is written before the next request is needed. Blank lines are passed over.

A request has "ask" and may have "id", which comes back unchanged. One that can't be answered gets
{"id":…, "error":"what is wrong and what would be right"}; the stream goes on, and the exit code at the
end is 1. Unknown fields are errors. A line may be up to 1 MiB long.

Angles are in degrees unless the name says otherwise, times UTC as RFC 3339 with fractions of a second
allowed, longitude east +, azimuth from north through east. No horizon profile applies, but for a kit's own.
`

const computeExamples = `  echo '{"ask":"object","name":"Tarantula Nebula"}' | duskhand compute
  duskhand compute < requests.jsonl > answers.jsonl`

func (p Program) computeCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "compute",
		Short:   "Answer questions about sky and plan, one JSON object a line",
		Long:    computeLong + "\n" + kindsHelp(),
		Example: computeExamples,
		Args:    noArguments,
		RunE:    action(func(*cobra.Command, []string) error { return p.compute() }),
	}
}

// longestRequest is how long a request may be, line end not counted. A request of ours has some hundred
// bytes; the bound keeps a stream without line ends from filling the memory.
const longestRequest = 1 << 20

func (p Program) compute() error {
	if p.Streams.InTerminal {
		fmt.Fprintln(p.Streams.Err, "duskhand: type one JSON object a line; Ctrl-D ends")
	}
	in, out := bufio.NewReaderSize(p.Streams.In, 1<<16), bufio.NewWriterSize(p.Streams.Out, 1<<16)
	answerer, asked, failed := ask.New(otherKinds()), 0, 0
	for {
		line, tooLong, err := nextLine(in)
		if tooLong || len(bytes.TrimSpace(line)) > 0 {
			asked++
			answer, ok := answerTo(answerer, line, tooLong)
			if !ok {
				failed++
			}
			if err := deliver(out, answer, in); err != nil {
				return fmt.Errorf("writing an answer: %w", err)
			}
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return fmt.Errorf("reading requests: %w", errors.Join(err, out.Flush()))
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing an answer: %w", err)
	}
	if failed > 0 {
		return fmt.Errorf("%d of %d requests failed; each one's answer says why", failed, asked)
	}
	return nil
}

func answerTo(answerer *ask.Answerer, line []byte, tooLong bool) (answer []byte, ok bool) {
	if tooLong {
		return fmt.Appendf(nil, `{"error":"this line is longer than %d bytes; write one request a line"}`, longestRequest), false
	}
	return answerer.Answer(line)
}

// deliver writes an answer, and lets go of all answers unless another whole request is waiting: then
// nobody needs this one before it is read.
func deliver(out *bufio.Writer, answer []byte, in *bufio.Reader) error {
	if _, err := out.Write(append(answer, '\n')); err != nil {
		return err
	}
	waiting, err := in.Peek(in.Buffered())
	if err == nil && bytes.IndexByte(waiting, '\n') >= 0 {
		return nil
	}
	return out.Flush()
}

// nextLine returns the next line without its end, and io.EOF with the last. Of a line that is too long
// nothing is kept.
func nextLine(in *bufio.Reader) (line []byte, tooLong bool, err error) {
	for {
		part, err := in.ReadSlice('\n')
		if !tooLong {
			line = append(line, part...)
		}
		whole := err == nil
		if len(bytes.TrimRight(line, "\r\n")) > longestRequest {
			line, tooLong = nil, true
		}
		if whole || !errors.Is(err, bufio.ErrBufferFull) {
			return bytes.TrimRight(line, "\r\n"), tooLong, err
		}
	}
}
